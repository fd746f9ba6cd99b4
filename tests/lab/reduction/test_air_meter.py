"""Air flow from a drop of pressure: the flow that made the drop, its ±, its name, and what is said without a meter."""

import numpy as np
import pytest

from tests.lab.reference_case import BENCH, written
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.reduction.shares import input_words
from turbomath.lab.report.sentences import origin_lines
from turbomath.lab.report.worked.reading import worked

PIPE, BORE, MADE = 0.154051, 0.095250, 0.43  # m, m, kg/s; INVENTED, and 8 % less than speed-density finds
SIZES = 'pipe_diameter = "154.051 mm"\nbore_diameter = "95.25 mm"\n'
ORIFICE = f'[air_meter]\nkind = "orifice"\n{SIZES}tappings = "corner"\n'
LAMINAR = '[air_meter]\nkind = "laminar"\nconstant = "98 cfm per inH2O"\nat = "70 °F"\n'
INH2O, PRESSURE, TEMPERATURE = 249.0889, 29.10 * 3_386.389, (77 + 459.67) / 1.8  # Pa, Pa, K
DENSITY = PRESSURE / (287.055 * TEMPERATURE)
DROP = "air meter pressure drop [inH2O]"


def drop_of(flow):
    """The drop [inH2O] of a flow by the older Stolz equation of ISO 5167:1991, from memory; within 0.5 % of the new."""
    beta = BORE / PIPE
    reynolds = 4 * flow / (np.pi * PIPE * 1.84e-5)
    coefficient = 0.5959 + 0.0312 * beta**2.1 - 0.184 * beta**8 + 0.0029 * beta**2.5 * (1e6 / reynolds) ** 0.75
    expansion = 1.0
    for _ in range(20):
        through = coefficient * expansion * np.pi / 4 * BORE**2 / np.sqrt(1 - beta**4)
        drop = (flow / through) ** 2 / (2 * DENSITY)
        expansion = 1 - (0.41 + 0.35 * beta**4) * drop / (1.4 * PRESSURE)
    return f"{drop / INH2O:.3f}"


def reduced(folder, drop, meter, change=None, lacks=()):
    return reduce_run(written(folder, {DROP: drop} | (change or {}), lacks, BENCH + meter))


def test_an_orifice_gives_the_flow_that_made_its_drop_within_its_own_width(tmp_path):
    results = reduced(tmp_path, drop_of(MADE), ORIFICE)
    flow = results["air_flow"]
    assert abs(flow.value[0] - MADE) < flow.plus_or_minus[0] < 0.025 * MADE
    assert flow.value[0] == pytest.approx(MADE, rel=0.006)
    assert "air flow: orifice, ISO 5167-2" in origin_lines(results)
    assert results["volumetric_efficiency"].value[0] == pytest.approx(0.92 * flow.value[0] / 0.4657, rel=0.005)


def test_its_width_has_the_gauge_the_air_the_plate_and_the_standard_in_it(tmp_path):
    """By hand: half of what the coefficient is unsure of, 1.667 x 0.6183 - 0.5 = 0.531 % (ISO 5167-2, 5.3.3.1)."""
    flow = reduced(tmp_path, drop_of(MADE), ORIFICE)["air_flow"]
    parts = {name: float(np.abs(part)[0]) / flow.value[0] for name, part in flow.contributions.items()}
    drop = float(drop_of(MADE))
    expansion = 0.035 * drop * INH2O / PRESSURE / 1.4
    assert parts["orifice_factors"] == pytest.approx(np.hypot(0.00531, expansion) / 2, rel=0.01)
    # half of the share of the drop: 1 % of 20 inH2O, and half of a step of 0.1 inH2O
    assert parts["air_meter_pressure_drop"] == pytest.approx(np.hypot(0.2, 0.05) / np.sqrt(3) / drop / 2, rel=0.03)
    assert parts["barometer"] > 0
    assert parts["ambient_temperature"] > parts["barometer"]
    assert parts["bore_diameter"] > 1e-3 > parts["pipe_diameter"] > 1e-4
    assert "volumetric_efficiency" not in parts or parts["volumetric_efficiency"] == 0
    assert input_words("orifice_factors") == "coefficient of the orifice (ISO 5167-2)"
    assert input_words("bore_diameter") == "bore diameter (bench.toml)"


def test_a_laminar_element_gives_its_constant_times_the_drop(tmp_path):
    """By hand: 98 cfm per inH2O x 7.6 inH2O, viscosities 18.19 and 18.37 (USSA1976, eq. 51), density of the day."""
    results = reduced(tmp_path, "7.6", LAMINAR)
    by_hand = 98 * 7.6 * 0.3048**3 / 60 * (18.19 / 18.37) * DENSITY
    assert results["air_flow"].value[0] == pytest.approx(by_hand, rel=1e-3)
    assert "air flow: laminar-flow element, the maker's constant" in origin_lines(results)
    assert input_words("laminar_flow_constant") == "laminar flow constant (bench.toml)"


def test_a_measured_air_flow_goes_before_the_meter_and_the_meter_before_speed_density(tmp_path):
    both = reduced(tmp_path, drop_of(MADE), ORIFICE, {"air flow [lb/min]": "60"})
    assert both["air_flow"].value[0] == pytest.approx(60 * 0.45359237 / 60)
    assert list(both.sources["air_flow"]) == ["air flow"]
    no_speed = reduced(tmp_path, drop_of(MADE), ORIFICE, lacks=("engine speed [rpm]",))
    assert no_speed["air_flow"].value[0] == pytest.approx(MADE, rel=0.006)


def test_where_the_standard_does_not_know_the_coefficient_speed_density_serves(tmp_path):
    nearly_none = reduced(tmp_path, "0.001", ORIFICE)
    assert nearly_none["air_flow"].value[0] == pytest.approx(0.4657, rel=0.005)
    assert "orifice, ISO 5167-2" not in nearly_none.sources["air_flow"]
    choked = reduced(tmp_path, "120", ORIFICE, lacks=("engine speed [rpm]",))
    assert np.isnan(choked["air_flow"].value[0])


def test_the_flow_is_worked_from_the_drop(tmp_path):
    """In perfect dry air; the report has real air, which weighs the same to 0.1 %."""
    run = written(tmp_path, {DROP: drop_of(MADE)}, (), BENCH + ORIFICE)
    lines = worked(run, "1", "us").splitlines()
    shown = next(line for line in lines if line.startswith("  air flow: "))
    assert float(shown.split()[2]) == pytest.approx(MADE / 0.45359237 * 60, rel=0.006)


def test_without_a_meter_in_the_bench_the_drop_is_said_to_be_of_no_use(tmp_path):
    results = reduced(tmp_path, "8", "")
    assert results.missing["air_meter_pressure_drop"].startswith("bench.toml has no [air_meter]")
    assert results["air_flow"].value[0] == pytest.approx(0.4657, rel=0.005)
    assert "air_meter_pressure_drop" not in reduced(tmp_path, "8", ORIFICE).missing
    assert results.missing["volumetric_efficiency"] == (
        "no reading of air flow, air volume flow or air meter pressure drop"
    )
