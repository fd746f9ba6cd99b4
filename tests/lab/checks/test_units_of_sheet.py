"""One sheet, one system of units: no finding names a unit that the reader did not choose.

The only other unit that may stand in a finding is the one that a reading would fit: "fits kPa".
"""

import csv
import io
import re
from itertools import product

import numpy as np
import pytest

from turbomath import units
from turbomath.disk import files
from turbomath.lab import checks
from turbomath.lab.checks import unit_slips
from turbomath.lab.checks.finding import spoken
from turbomath.lab.checks.look import full_look
from turbomath.lab.checks.units_of_sheet import range_end, system, unit_told
from turbomath.lab.run import readings
from turbomath.table.errors import RefusedFileError

SOURCE = files.shipped("data") / "generator_air_to_air"
SI = {"inHg": "kPa", "°F": "°C", "psi": "kPa", "inH2O": "kPa", "lb/h": "kg/h", "kW": "kW", "rpm": "rpm", "%": "%"}
AMERICAN = re.compile(r"(?<![\w·])(psi|inHg|inH2O|°F|F°|ft|ft/min|lb|lb/h|lb/min|lb/hp·h|hp|cfm|Btu)(?![\w·/])")
METRIC = re.compile(r"(?<![\w·])(kPa|Pa|bar|mbar|°C|K|kg|kg/h|kg/s|g/kW·h|m|m/s|N·m)(?![\w·/])")
ADDED = {  # columns that the shipped run has not, so that every check has a look
    "compressor outlet pressure": ("psi gauge", "kPa gauge", lambda row: float(row["boost"]) + 1.2),
    "manifold pressure": ("psi abs", "kPa abs", lambda row: float(row["boost"]) + 14.29),
    "turbine outlet temperature": ("°F", "°C", lambda row: 700.0),
    "turbine inlet pressure": ("psi gauge", "kPa gauge", lambda row: 20.0),
    "air flow": ("lb/min", "kg/h", lambda row: 40.0),
    "torque": ("lbf·ft", "N·m", lambda row: 900.0),
}
FAR, NEAR = (0.3, 1.3, 4.0, -1.0, 0.0, 30.0), (0.97, 1.045, 1.2, 1.5)  # times what was read


def sheet(si):
    """Return the heads, name -> unit, and the rows of the shipped run with six more columns, in US units or SI."""
    head, *lines = csv.reader(io.StringIO((SOURCE / "readings.csv").read_text(encoding="utf-8-sig")))
    named = [re.fullmatch(r"(.*?)(?: \[(.*)\])?", text).groups() for text in head]
    rows = [dict(zip([name for name, _ in named], line, strict=True)) for line in lines]
    there = {name: unit for name, unit in named if unit}
    for name, (american, _, worked_out) in ADDED.items():
        there[name] = american
        for row in rows:
            row[name] = f"{worked_out(row):.4g}"
    if si:
        for name, american in there.items():
            for row in rows:
                row[name] = row[name] and converted(float(row[name]), name, american, _metric(name, american))
        there = {name: _metric(name, unit) for name, unit in there.items()}
    return there, rows


def _metric(name, unit):
    return ADDED[name][1] if name in ADDED else SI[unit]


def converted(number, name, unit, other):
    """Return a number of the sheet in another unit, as text."""
    quantity = name.replace(" ", "_")
    if "gauge" in unit or "abs" in unit:
        quantity, unit, other = "boost", unit.split()[0], other.split()[0]
    return f"{units.from_si(units.to_si(number, unit, quantity), other, quantity):.5g}"


def written(folder, there, rows, bench):
    """Write a run folder and read it."""
    text = io.StringIO()
    names = ["point", "condition", *there]
    heads = [f"{name} [{there[name]}]" if name in there else name for name in names]
    csv.writer(text).writerows([heads, *([row[name] for name in names] for row in rows)])
    (folder / "readings.csv").write_text(text.getvalue(), encoding="utf-8-sig")
    (folder / "bench.toml").write_text(bench, encoding="utf-8-sig")
    return readings.read_run(folder)


def bench_text(si):
    """Return bench.toml of the shipped run with a stroke and a band of boost, shown in one system."""
    text = (
        (SOURCE / "bench.toml")
        .read_text(encoding="utf-8-sig")
        .replace('units = "us"', f'units = "{"si" if si else "us"}"')
    )
    text = text.replace("cylinders = 6", 'cylinders = 6\nstroke = "600 mm"')
    return text.replace('boost = "..30 psi"', 'boost = "18..30 psi"')


def harmed(rows, column, factors):
    """Return the rows with one column off, by another factor in each row."""
    found = []
    for number, row in enumerate(rows):
        new = dict(row)
        if row[column]:
            new[column] = f"{factors[number % len(factors)] * float(row[column]) + 0.01:.4g}"
        found.append(new)
    return found


@pytest.mark.parametrize("si", [True, False], ids=["SI", "US"])
def test_no_finding_names_a_unit_of_the_other_system(tmp_path, monkeypatch, si):
    monkeypatch.setattr(unit_slips, "explained", lambda look, found, pointwise: found)  # only it names other units
    (there, rows), foreign, looked = sheet(si), AMERICAN if si else METRIC, set()
    for column, factors in product(there, (FAR, NEAR)):
        try:
            run = written(tmp_path, there, harmed(rows, column, factors), bench_text(si))
        except RefusedFileError:  # a temperature or a pressure below zero
            continue
        for flag in checks.check_run(run):
            assert not foreign.search(f"{flag.reason} {flag.action}"), f"{flag.reason} {flag.action}"
            looked.add(flag.check)
    assert looked >= {1, 2, 4, 5, 6, 7, 8, 9, 10, 11, 13, 16, 18, 19, 20, 22, 23, 24, 25, 27, 28, 35, 36, 38, 39, 40}


def test_a_range_is_told_in_the_unit_of_its_own_column(tmp_path):
    there, rows = sheet(si=True)
    there["cooler pressure loss"], there["barometer"] = "mbar", "hPa"
    for row in rows:
        row["cooler pressure loss"] = str(10 * float(row["cooler pressure loss"]))
        row["barometer"] = str(10 * float(row["barometer"]))
    rows[7]["cooler pressure loss"], rows[7]["barometer"] = "300", "950"
    told = {flag.check: flag.reason for flag in checks.check_run(written(tmp_path, there, rows, bench_text(si=True)))}
    assert "6.9 to 210 mbar" in told[11]  # 0.1 to 3 psi
    assert re.search(r"at 231\.\d m has 985\.\d hPa; .* −20 to 20 hPa", told[1])  # 760 ft; 0.6 inHg


def test_ranges_are_rounded_as_a_person_would():
    told = {0.689: "0.69", 41.37: "41", 760.0: "760", 104.44: "104", 98.9: "99", 188.6: "190", -11.1: "−11"}
    assert {end: range_end(end) for end in told} == told


@pytest.mark.parametrize(("heads", "wanted"), [("boost [psi]", "us"), ("boost [bar]", "si"), ("load [%]", "si")])
def test_the_heads_decide_and_else_the_bench(run_folder, heads, wanted):
    run = readings.read_run(run_folder(f"point,{heads}\n1,1.2\n", '[run]\nunits = "si"\n'))
    assert system(run) == wanted


def test_a_difference_of_temperatures_goes_with_its_thermometers(run_folder):
    run = readings.read_run(
        run_folder("point,manifold temperature [°C],boost [psi],ambient temperature [°F]\n1,50,20,70\n")
    )
    assert unit_told(run, "temperature_rise", "F°", ["manifold_temperature"]) == "K"
    assert unit_told(run, "temperature_rise", "F°", ["boost", "ambient_temperature"]) == "F°"
    assert unit_told(run, "cooler_pressure_loss", "psi", ["manifold_temperature", "boost"]) == "psi"
    assert np.isfinite(run["boost"]).all()


@pytest.mark.parametrize(("stop", "action"), [(True, "Stop the engine."), (False, unit_slips.ASK)])
def test_what_stops_an_engine_is_still_to_be_done_where_its_reading_fits_another_unit(stop, action):
    look = full_look(readings.read_run("generator_air_to_air"))
    found = spoken(9, 7, "red", ("oil_pressure",), "oil pressure 4 psi", "Stop the engine.", stop=stop)
    told = unit_slips.fitting(look, found, "oil_pressure", "bar gauge")
    assert told.action == action
    assert told.reason == "oil pressure 4 psi: oil pressure 60 fits bar gauge"
