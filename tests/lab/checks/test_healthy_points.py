"""Healthy points must not be accused: random engines, every reading with the full error that its gauge allows.

Ranges: common practice for one-stage air-to-air engines. Errors: rectangular within the instrument's tolerance
(ASME B40.100 grade B on 60 psi, ASTM E230 standard type K), then rounded to what the gauge can show.
"""

from collections import Counter

import numpy as np
import pytest

from turbomath import uncertainty, units
from turbomath.engine import path
from turbomath.lab import checks
from turbomath.lab.run import readings
from turbomath.lab.run.channels import USUAL_INSTRUMENTS

POINTS = [pytest.param(5_000, marks=pytest.mark.long), 800]
BENCH = """\
[run]
title = "INVENTED: random healthy points"
invented = true
[engine]
displacement = "12.0 L"
cylinders = 6
aftercooler = "air-to-air"
volumetric_efficiency = 0.92
[design]
compressor_efficiency = 0.74
effectiveness = 0.80
cooler_pressure_loss = "1.5 psi"
"""
UNITS = {
    "barometer": "inHg",
    "ambient_temperature": "°F",
    "compressor_inlet_temperature": "°F",
    "compressor_outlet_temperature": "°F",
    "manifold_temperature": "°F",
    "cooling_medium_temperature": "°F",
    "boost": "psi",
    "cooler_pressure_loss": "psi",
    "intake_restriction": "inH2O",
}
STEPS = {"inHg": 0.01, "°F": 1.0, "psi": 0.5, "inH2O": 0.5}


def true_readings(random, low, high, points):
    """What perfect gauges would show of random healthy engines with *low* to *high* psi of boost [SI]."""

    def between(least, most, unit=None, quantity=None):
        values = random.uniform(least, most, points)
        return values if unit is None else units.to_si(values, unit, quantity)

    ambient, pressure = between(20, 105, "°F", "temperature"), between(24.5, 30.5, "inHg", "barometer")
    boost = between(low, high, "psi", "boost")
    loss = between(0.5, 2.2, "psi", "cooler_pressure_loss")
    restriction = between(5, 20, "inH2O", "intake_restriction")
    inlet, medium = ambient + random.uniform(0, 6, points), ambient + random.uniform(0, 6, points)
    charge = path.charge_path(
        ambient_pressure=pressure,
        ambient_temperature=ambient,
        manifold_pressure=pressure + boost,
        compressor_inlet_temperature=inlet,
        intake_restriction=restriction,
        cooler_pressure_loss=loss,
        isentropic_efficiency=between(0.66, 0.78),
        effectiveness=between(0.70, 0.88),
        medium_temperature=medium,
    )
    return {
        "barometer": pressure,
        "ambient_temperature": ambient,
        "compressor_inlet_temperature": inlet,
        "compressor_outlet_temperature": charge.compressor_outlet_temperature,
        "manifold_temperature": charge.manifold_temperature,
        "cooling_medium_temperature": medium,
        "boost": boost,
        "cooler_pressure_loss": loss,
        "intake_restriction": restriction,
    }


def sheet(folder, low, high, seed, points):
    """Write one sheet of random points, each reading wrong by up to its whole tolerance, and read it."""
    random = np.random.default_rng(seed)
    (folder / "bench.toml").write_text(BENCH, encoding="utf-8")
    (folder / "readings.csv").write_text("point,condition,boost [psi]\n1,load,20\n", encoding="utf-8")
    bench = readings.read_run(folder).bench
    columns = {}
    for name, true in true_readings(random, low, high, points).items():
        wrong = true + random.uniform(-1, 1, points) * uncertainty.accuracy(bench.instrument(name), true)
        step = 0.1 if name == "cooler_pressure_loss" else STEPS[UNITS[name]]
        columns[name] = np.round(units.from_si(wrong, UNITS[name], name) / step) * step
    head = ["point", "condition", *(f"{name.replace('_', ' ')} [{UNITS[name]}]" for name in columns)]
    rows = zip(*columns.values(), strict=True)
    lines = [",".join([str(n), "load", *(f"{shown:.2f}" for shown in row)]) for n, row in enumerate(rows)]
    (folder / "readings.csv").write_text("\n".join([",".join(head), *lines]), encoding="utf-8")
    return readings.read_run(folder)


def shares(pairs):
    """How many of the pairs of check and reading went red and amber, and which checks."""
    by_level = {level: [check for (check, _), found in pairs.items() if found == level] for level in ("red", "amber")}
    amber = len(by_level["amber"]) / len(pairs)
    words = (
        f"{len(pairs)} pairs, amber {100 * amber:.2f} %, {Counter(by_level['amber'])}, red {Counter(by_level['red'])}"
    )
    return len(by_level["red"]), amber, words


def test_usual_instruments_are_the_rough_ones():
    assert USUAL_INSTRUMENTS["boost"]["grade"] == "B"
    assert USUAL_INSTRUMENTS["compressor_outlet_temperature"]["class"] == "standard"


@pytest.mark.parametrize("points", POINTS)
def test_no_healthy_point_at_load_is_red(tmp_path, points):
    pairs = checks.evaluated(sheet(tmp_path, 15, 32, 20260312, points))
    red, amber, words = shares(pairs)
    assert red == 0, words
    assert amber <= 0.02, words
    looked = Counter(check for check, _ in pairs)
    assert all(looked[check] == points for check in (5, 6, 7, 8, 9, 11, 13, 19, 36)), looked


@pytest.mark.parametrize("points", POINTS)
def test_no_healthy_point_at_low_boost_is_red_or_judged(tmp_path, points):
    pairs = checks.evaluated(sheet(tmp_path, 2, 4, 7, points))
    red, amber, words = shares(pairs)
    assert red == 0, words
    assert amber <= 0.02, words
    assert {found for (check, _), found in pairs.items() if check == 6} == {"note"}


@pytest.mark.parametrize("points", [pytest.param(400, marks=pytest.mark.long), 40])
@pytest.mark.parametrize(("efficiency", "wanted"), [(0.30, "red"), (0.50, "amber")])
def test_a_sick_compressor_among_them_is_still_found(tmp_path, efficiency, wanted, points):
    run = sheet(tmp_path, 25, 32, 3, points)
    hot = run["compressor_inlet_temperature"]
    ideal = (1 + (run["boost"] + run["cooler_pressure_loss"]) / run["barometer"]) ** (2 / 7) - 1
    run.values["compressor_outlet_temperature"] = hot * (1 + ideal / efficiency)
    found = [level for (check, _), level in checks.evaluated(run).items() if check == 6]
    assert found.count(wanted) > 0.95 * len(run)
