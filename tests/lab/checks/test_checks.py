"""The checks on readings: each goes amber or red where it should, stays silent where it should, and is widened.

Standard atmosphere: U.S. Standard Atmosphere 1976, 29.107 inHg at 760 ft. Gauge grades: ASME B40.100. Thermocouple
limits: ASTM E230. All other limits are common practice, no single published source.
"""

import csv
import functools
import io
import json

import numpy as np
import pytest

from turbomath.disk import files
from turbomath.lab import checks
from turbomath.lab.checks import flags
from turbomath.lab.checks.bounds import BOUNDS
from turbomath.lab.checks.flags import LEVELS
from turbomath.lab.run import readings

SHIPPED = ("generator_air_to_air", "generator_jacket_water", "generator_no_aftercooler", "stand_unloaded_run_up")
OUTLET, INLET, MANIFOLD = "compressor outlet temperature", "compressor inlet temperature", "manifold temperature"
COOLANT, EXHAUST = "engine coolant temperature", "turbine inlet temperature"
BAROMETER = 29.09


@pytest.fixture(autouse=True)
def one_look(monkeypatch):
    """Flags and levels of one run come from one look at it, not from a look each."""
    monkeypatch.setattr(checks, "findings", functools.cache(checks.findings))


@pytest.fixture
def edited(tmp_path):
    """Return the shipped run with some cells, columns or lines of bench.toml changed.

    *cells*: (point or "all", name) -> text, or a function of the number there. *columns*: header -> function of
    (point, the row as name -> text). *bench*: old text -> new text.
    """

    def run(cells=(), *, columns=(), bench=(), source="generator_air_to_air", rows=lambda lines: lines):
        folder = files.shipped("data") / source
        head, *lines = csv.reader(io.StringIO((folder / "readings.csv").read_text(encoding="utf-8-sig")))
        names = [name.split(" [")[0] for name in head]
        for (point, name), new in dict(cells).items():
            place = names.index(name)
            for line in lines:
                if point in ("all", line[0]) and line[place]:
                    line[place] = new if isinstance(new, str) else f"{new(float(line[place])):.4g}"
        for header, made in dict(columns).items():
            head.append(header)
            for line in lines:
                line.append(made(line[0], dict(zip(names, line, strict=False))))
        text = io.StringIO()
        csv.writer(text).writerows([head, *rows(lines)])
        words = (folder / "bench.toml").read_text(encoding="utf-8")
        for old, new in dict(bench).items():
            assert old in words
            words = words.replace(old, new)
        (tmp_path / "readings.csv").write_text(text.getvalue(), encoding="utf-8")
        (tmp_path / "bench.toml").write_text(words, encoding="utf-8")
        return readings.read_run(tmp_path)

    return run


def level(run, check, point="7"):
    """The worst level of one check at one point; None if it could not be judged."""
    return checks.evaluated(run).get((check, run.points.index(point)))


def flag_of(run, check, point="7"):
    """The first flag of one check at one point."""
    return next(flag for flag in checks.check_run(run) if (flag.check, flag.point) == (check, point))


ONE_CELL = [
    # check, level, point, column, value, words of the reason
    (1, "amber", "7", "barometer", "29.80", "29.11 inHg"),
    (1, "amber", "7", "barometer", "28.45", "standard atmosphere"),
    (1, "red", "7", "barometer", "30.50", "corrected to sea level"),
    (2, "amber", "0", "oil pressure", "3", "engine off"),
    (2, "red", "0", "boost", "2.0", "accuracy"),
    (2, "red", "0", "cooler pressure loss", "0.3", "accuracy"),
    (3, "amber", "0", MANIFOLD, "89", "middle of all thermometers"),
    (3, "red", "0", OUTLET, "95", "middle of all thermometers"),
    (4, "amber", "7", "boost", "60.0", "exactly the end of its span"),
    (4, "red", "7", "boost", "61.0", "end of its span, 60 psi"),
    (4, "red", "7", "boost", ">60", "at its stop"),
    (4, "red", "7", "intake restriction", "-2", "less than the start"),
    (5, "amber", "2", OUTLET, "83", "a rise of 3 F°"),
    (5, "red", "7", OUTLET, "70", "hotter than it came"),
    (6, "amber", "7", OUTLET, "300", "0.58 to 0.8"),
    (6, "amber", "7", OUTLET, "440", "0.58 to 0.8"),
    (6, "red", "7", OUTLET, "200", "outside 0.45 to 0.88"),
    (7, "red", "7", MANIFOLD, "60", "above its medium"),
    (7, "red", "1", MANIFOLD, "120", "two temperatures that meet"),
    (8, "amber", "7", MANIFOLD, "325", "a drop of 13 F°"),
    (8, "red", "7", MANIFOLD, "360", "a drop of −22 F°"),
    (9, "amber", "7", MANIFOLD, "195", "0.6 to 0.92"),
    (9, "red", "7", MANIFOLD, "60", "outside 0 to 1"),
    (11, "amber", "7", "cooler pressure loss", "3.5", "0.1 to 3 psi"),
    (11, "red", "7", "cooler pressure loss", "6.5", "outside 0 to 6 psi"),
    (11, "red", "7", "cooler pressure loss", "-0.4", "outside 0 to 6 psi"),
    (13, "amber", "7", "intake restriction", "22", "5 to 20 inH2O"),
    (13, "amber", "7", "intake restriction", "4", "5 to 20 inH2O"),
    (13, "red", "7", "intake restriction", "26", "outside 0 to 25 inH2O"),
    (13, "red", "7", "intake restriction", "-3", "outside 0 to 25 inH2O"),
    (13, "red", "3", "intake restriction", "0.0", "loses pressure on the way"),
    (16, "amber", "8", "boost", "8", "at high idle"),
    (16, "red", "8", "boost", "14", "above 12 psi"),
    (19, "amber", "7", "boost", "43", "at most 4"),
    (19, "red", "7", "boost", "58", "outside 1 to 5"),
    (19, "red", "7", "boost", "-3", "outside 1 to 5"),
    (20, "amber", "7", EXHAUST, "1300", "at most 1,250 °F"),
    (20, "red", "7", EXHAUST, "1405", "above 1,400 °F"),
    (20, "red", "7", EXHAUST, "250", "below 300 °F"),
    (23, "amber", "7", "fuel flow", "200", "20 to 35"),
    (23, "amber", "7", "fuel flow", "95", "20 to 35"),
    (23, "red", "7", "fuel flow", "300", "outside 14.5 to 100"),
    (23, "red", "2", "fuel flow", "15", "outside 14.5 to 100"),
    (24, "amber", "7", "power", "190", "0.27 to 0.5 "),
    (24, "red", "7", "power", "131", "outside 0.25 to 0.6"),
    (24, "red", "7", "power", "400", "outside 0.25 to 0.6"),
    (26, "amber", "1", "engine speed", "740", "700 rpm"),
    (26, "red", "8", "engine speed", "2200", "1950 rpm"),
    (26, "red", "1", "engine speed", "350", "half of it"),
    (26, "amber", "3", "engine speed", "900", "half of it"),
    (27, "amber", "1", "oil pressure", "6", "at least 10 psi"),
    (27, "red", "1", "oil pressure", "4", "below 5 psi"),
    (27, "red", "7", "oil pressure", "24", "below 25 psi"),
    (28, "amber", "7", COOLANT, "150", "160 to 210 °F"),
    (28, "amber", "7", COOLANT, "216", "160 to 210 °F"),
    (28, "red", "7", COOLANT, "221", "above 220 °F"),
    (28, "note", "1", COOLANT, "120", "160 to 210 °F"),
    (33, "amber", "7", MANIFOLD, "70", "dew point"),
    (34, "amber", "5", MANIFOLD, "", "the other points at load have it"),
    (36, "amber", "7", "ambient temperature", "50", "weather station"),
    (36, "red", "7", INLET, "150", "outside −20 to 60 F°"),
    (36, "red", "7", "cooling medium temperature", "183", "looks like engine coolant"),
]


@pytest.mark.parametrize(("check", "wanted", "point", "column", "value", "words"), ONE_CELL)
def test_one_wrong_cell_is_found(edited, check, wanted, point, column, value, words):
    here = [flag for flag in checks.check_run(edited({(point, column): value})) if flag.point == point]
    found = [flag for flag in here if flag.check == check]  # the worst first
    assert found[0].level == wanted
    assert words in f"{found[0].reason} {found[0].action}"
    assert found[0].action.endswith(".")


WITHIN_ITS_GAUGE = [
    # check, point, column, a value beyond the limit by less than its own ±, the next step that is not
    (1, "7", "barometer", "29.73", "29.76"),
    (3, "0", MANIFOLD, "85", "88"),
    (9, "7", MANIFOLD, "182", "192"),
    (11, "7", "cooler pressure loss", "3.1", "3.2"),
    (13, "7", "intake restriction", "20.3", "20.5"),
    (16, "8", "boost", "6.7", "7.0"),
    (20, "7", EXHAUST, "1255", "1265"),
    (28, "7", COOLANT, "214", "216"),
]


@pytest.mark.parametrize(("check", "point", "column", "inside", "outside"), WITHIN_ITS_GAUGE)
def test_a_limit_is_widened_by_the_gauge_of_that_point(edited, check, point, column, inside, outside):
    assert level(edited({(point, column): inside}), check, point) == ""
    assert level(edited({(point, column): outside}), check, point) == "amber"


def test_a_better_gauge_judges_more_sharply(edited):
    high = {("7", "boost"): "29.0"}  # an apparent efficiency a little too high
    assert level(edited(high, bench={'grade = "1A"': 'grade = "B"'}), 6) == ""
    assert level(edited(high, bench={'grade = "1A"': 'grade = "4A"'}), 6) == "amber"


def test_a_stop_is_not_widened_by_the_gauge(edited):
    for cell, check in (
        ({("7", "oil pressure"): "24.9"}, 27),
        ({("7", COOLANT): "220.1"}, 28),
        ({("7", EXHAUST): "1400.1"}, 20),
    ):
        run = edited(cell)
        assert level(run, check) == "red"
        assert flag_of(run, check).action.startswith("Stop the engine")


@pytest.mark.parametrize("name", SHIPPED)
def test_shipped_runs_are_clean_at_load(name):
    run = readings.read_run(name)
    loaded = [row for row, condition in enumerate(run.conditions) if condition == "load"]
    pairs = checks.evaluated(run, loaded)
    worst = [pair for pair, found in pairs.items() if found in ("amber", "red")]
    assert worst == []
    assert bool(pairs) == bool(loaded)


def test_every_check_that_the_columns_allow_has_looked():
    found = {check for check, _ in checks.evaluated(readings.read_run("generator_air_to_air"))}
    assert found >= {1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 12, 13, 14, 15, 16, 19, 20, 23, 24, 26, 27, 28, 31, 32, 33, 34, 36}


def test_without_the_column_a_check_is_silent(edited):
    run = edited(rows=lambda lines: [line[:5] + [""] * (len(line) - 5) for line in lines])
    assert {check for check, _ in checks.evaluated(run)} <= {1, 4, 26, 31, 32, 34}


def test_too_little_boost_gives_the_sentence_and_no_colour(edited):
    run = readings.read_run("stand_unloaded_run_up")
    pairs = checks.evaluated(run)
    running = [row for row, condition in enumerate(run.conditions) if condition != "zero"]
    assert [pairs[6, row] for row in running] == ["note"] * len(running)
    for flag in checks.check_run(run):
        if flag.check == 6:
            assert "too little boost to judge the compressor from these gauges" in flag.reason
    worn = edited({("8", OUTLET): "160"})  # high idle, 2 psi: an apparent efficiency of 0.38
    assert level(worn, 6, "8") == "note"
    too_cool = edited({("8", OUTLET): "92"})  # an apparent efficiency of 2.4, but these gauges tell it to 1.5 only
    assert level(too_cool, 6, "8") == "note"


def test_even_little_boost_convicts_readings_that_are_far_out(edited):
    run = edited({("8", OUTLET): "240"})  # 2 psi of boost does not heat air by 160 F°
    assert level(run, 6, "8") == "red"


def test_swapped_lines_round_the_aftercooler(edited):
    def outlet(point, row):
        return f"{float(row['boost']) + float(row['cooler pressure loss']):.1f}"

    header = "compressor outlet pressure [psi gauge]"
    sharp = {
        '[instruments.boost]\nkind = "bourdon"\nspan = "0..60 psi"\ngrade = "1A"': (
            '[instruments.compressor_outlet_pressure]\nspan = "0..60 psi"\ngrade = "4A"\n'
            '[instruments.boost]\nkind = "bourdon"\nspan = "0..60 psi"\ngrade = "4A"'
        )
    }
    assert level(edited(columns={header: outlet}, bench=sharp), 10) == ""
    swapped = edited(
        {("7", "boost"): "25.5"}, columns={header: lambda point, row: "24.0" if point == "7" else "1"}, bench=sharp
    )
    assert level(swapped, 10) == "red"
    assert "swapped" in flag_of(swapped, 10).action
    blunt = edited({("7", "boost"): "24.5"}, columns={header: lambda point, row: "24.0"})
    assert level(blunt, 10) == "amber"


def test_one_point_out_of_line_with_the_flow(edited):
    assert level(edited({("5", "cooler pressure loss"): "1.9"}), 12, "5") == "amber"
    assert level(edited({("5", "cooler pressure loss"): "2.8"}), 12, "5") == "red"
    assert level(edited({("4", "intake restriction"): "9.5"}), 14, "4") == "amber"
    assert level(edited({("4", "intake restriction"): "14"}), 14, "4") == "red"
    assert level(edited({("4", "intake restriction"): "7.0"}), 14, "4") == ""


def test_no_point_is_blamed_where_no_law_holds(edited):
    cells = {
        (str(point), "intake restriction"): text
        for point, text in zip(range(2, 8), ("14", "6", "18", "7", "5.5", "19"), strict=True)
    }
    assert not any(check == 14 and found for (check, _), found in checks.evaluated(edited(cells)).items())


def test_readings_that_cannot_be_judge_no_other_point(edited):
    run = edited({("all", "boost"): lambda psi: psi * 6.894757})
    assert not [found for (check, _), found in checks.evaluated(run).items() if check in (12, 14) and found]


def test_an_engine_that_cools_down_is_not_judged_on_heat(edited):
    def cooling(lines):
        return [[line[0], "cool down", *line[2:]] if line[0] == "8" else line for line in lines]

    hot = edited({("8", MANIFOLD): "160", ("8", OUTLET): "240"}, rows=cooling)
    assert {check for check, row in checks.evaluated(hot) if row == 8} & {5, 6, 7, 8, 9, 19, 36} == set()
    assert level(edited({("8", "oil pressure"): "4"}, rows=cooling), 27, "8") == "red"


def test_fuel_and_power_bring_their_own_width(edited):
    rough = {'accuracy = "1 % of reading"\nresolution = "1 kW"': 'accuracy = "5 % of reading"\nresolution = "1 kW"'}
    assert level(edited({("7", "power"): "191"}), 24) == "amber"
    assert level(edited({("7", "power"): "191"}, bench=rough), 24) == ""


def test_boost_falls_with_rising_load(edited):
    assert level(edited({("5", "boost"): "12.5"}), 15, "5") == ""
    assert level(edited({("5", "boost"): "12.0"}, bench={'grade = "1A"': 'grade = "B"'}), 15, "5") == "amber"
    assert level(edited({("5", "boost"): "10.0"}), 15, "5") == "red"
    slower = edited({("5", "boost"): "12.0", ("5", "engine speed"): "1400"})
    assert level(slower, 15, "5") is None


def test_boost_against_the_band_of_the_maker(edited):
    def with_band(band):
        return edited(bench={'boost = "..30 psi"': f'boost_load = "{band}"'})

    assert level(with_band("22..28 psi"), 17) == ""
    assert level(with_band("26..34 psi"), 17) == "amber"
    assert level(with_band("34..44 psi"), 17) == "red"
    assert level(edited(), 17) is None


def absolute(shift=0.0):
    """A column of a sensor that reads absolute, off by *shift* psi."""
    return {"manifold pressure [psi abs]": lambda _, row: f"{float(row['boost']) + BAROMETER * 0.49115 + shift:.2f}"}


def test_sensor_against_gauge_and_barometer(edited):
    sharp = {
        "[instruments.oil_pressure]": '[instruments.manifold_pressure]\naccuracy = "0.1 psi"\n\n'
        "[instruments.oil_pressure]"
    }
    assert level(edited(columns=absolute(0.5), bench=sharp), 18) == ""
    assert level(edited(columns=absolute(2.2), bench=sharp), 18) == "amber"
    assert level(edited(columns=absolute(-4.0), bench=sharp), 18) == "red"


@pytest.mark.parametrize(("pounds", "wanted"), [(61, ""), (48, "amber"), (38, "red"), (80, "red")])
def test_volumetric_efficiency_from_measured_air(edited, pounds, wanted):
    run = edited(columns={"air flow [lb/min]": lambda point, _: str(pounds) if point == "7" else ""})
    assert level(run, 22) == wanted


@pytest.mark.parametrize(("share", "wanted"), [(1.0, ""), (1.045, "amber"), (0.92, "red"), (1.3558, "red")])
def test_power_is_torque_times_speed(edited, share, wanted):
    def torque(_, row):
        return f"{share * float(row['power']) * 1000 / (2 * np.pi * 30) / 1.355818:.2f}" if row["power"] else ""

    assert level(edited(columns={"torque [lbf·ft]": torque}), 25) == wanted


def read_again(shift, **last):
    """Read point 7 twice, the second time with other temperatures of the charge, and other cells at the end."""

    def rows(lines):
        again = list(lines[7])
        again[9], again[11] = str(float(again[9]) + 1), str(float(again[11]) + shift)
        again[-1] = last["last"]
        return [*lines[:8], again, *lines[8:]]

    return rows


@pytest.mark.parametrize(("shift", "wanted"), [(3, ""), (7, "amber"), (12, "red")])
def test_a_point_read_twice_shows_the_same(edited, shift, wanted):
    run = edited(columns={"pass": lambda *_: "A"}, rows=read_again(shift, last="B"))
    assert checks.evaluated(run)[29, 8] == wanted


def test_a_reading_that_is_missing_in_one_pass_is_not_compared(edited):
    def rows(lines):
        again = [*lines[7][:-1], "B"]
        again[11] = ""
        return [*lines[:8], again, *lines[8:]]

    run = edited(columns={"pass": lambda *_: "A"}, rows=rows)
    compared = {finding.columns[0] for finding in checks.findings(run) if (finding.check, finding.row) == (29, 8)}
    assert "compressor_outlet_temperature" in compared
    assert "manifold_temperature" not in compared


@pytest.mark.parametrize(("shift", "wanted"), [(4, ""), (8, "amber"), (-14, "red")])
def test_temperatures_of_one_point_stand_still(edited, shift, wanted):
    clock = {"time": lambda point, _: f"09:{10 + 2 * int(point):02d}"}
    run = edited(columns=clock, rows=read_again(shift, last="09:26"))
    assert checks.evaluated(run)[30, 8] == wanted


def test_the_clock_runs_forward(edited):
    run = edited(columns={"time": lambda point, _: "08:59" if point == "5" else f"09:{int(point):02d}"})
    assert level(run, 34, "5") == "amber"
    assert level(run, 34, "6") == ""
    late = edited(columns={"time": lambda point, _: f"{(22 + int(point)) % 24:02d}:00"})
    assert level(late, 34, "2") == ""


def test_a_copied_row_is_found(edited):
    copied = edited(rows=lambda lines: [*lines, ["9", "load", "90", *lines[6][3:]]])
    assert level(copied, 31, "9") == "red"
    assert level(copied, 31, "6") == ""
    assert "point 6" in flag_of(copied, 31, "9").reason


def test_a_gauge_that_never_moves_is_found(edited):
    stuck = edited({(str(point), EXHAUST): "795" for point in range(2, 8)})
    assert [flag.column for flag in checks.check_run(stuck) if flag.check == 31] == ["turbine_inlet_temperature"]
    assert not [flag for flag in checks.check_run(edited()) if flag.check == 31]


def test_order_of_the_flags_is_limit_stop_red_amber_note(edited):
    run = edited(
        {("2", MANIFOLD): "60", ("3", "boost"): "31", ("7", "oil pressure"): "20", ("8", "engine speed"): "2010"}
    )
    found = checks.check_run(run)
    order = [LEVELS.index(flag.level) for flag in found]
    assert order == sorted(order)
    assert found[0].level == "limit"
    reds = [flag for flag in found if flag.level == "red"]
    assert (reds[0].check, reds[0].point) == (27, "7")
    assert [flag.point for flag in reds[1:]] == sorted(flag.point for flag in reds[1:])
    ambers = [flag.point for flag in found if flag.level == "amber"]
    assert ambers == sorted(ambers)


def test_a_limit_without_a_reading_speaks(edited):
    run = edited(bench={"oil_pressure_load": "cooling_medium_outlet_temperature"} | {'"35.. psi"': '"..150 °F"'})
    notes = [flag for flag in checks.check_run(run) if flag.check == 35]
    assert [(flag.level, flag.column) for flag in notes] == [("note", "cooling_medium_outlet_temperature")]
    assert "no reading" in notes[0].reason


def test_a_limit_passed_comes_with_the_unit_that_fits(edited):
    limit = checks.check_run(edited({("7", "boost"): "165"}))[0]
    assert (limit.level, limit.point, limit.column, limit.fits_unit) == ("limit", "7", "boost", "kPa")


def test_sea_level_barometer_stated_is_held_against_sea_level(edited):
    as_stated = {'barometer = "station"': 'barometer = "sea-level"'}
    assert level(edited({("all", "barometer"): "29.95"}, bench=as_stated), 1) == ""
    assert level(edited({("all", "barometer"): "29.09"}, bench=as_stated), 1) == "amber"


def test_corrected_barometer_on_a_mountain_is_red(edited):
    run = edited({("all", "barometer"): "29.52"}, bench={'"760 ft"': '"1520 ft"'})
    assert level(run, 1) == "red"
    assert "weather-report" in flag_of(run, 1).reason


def test_a_barometer_without_elevation_is_held_against_the_world(edited):
    no_elevation = {'elevation = "760 ft"\n': ""}
    assert level(edited(bench=no_elevation), 1) == ""
    assert level(edited({("7", "barometer"): "985"}, bench=no_elevation), 1) == "red"


def test_an_impossible_reading_does_not_throw_blame_on_other_points(edited):
    found = checks.check_run(edited({("7", "boost"): "165"}))
    assert {flag.point for flag in found if flag.level in ("red", "amber")} == {"7"}


def test_nothing_is_changed_by_looking():
    run = readings.read_run("generator_air_to_air")
    before = {name: values.copy() for name, values in run.values.items()}
    checks.check_run(run)
    for name, values in before.items():
        np.testing.assert_array_equal(run[name], values)


def test_jacket_water_may_heat_the_charge_at_light_load():
    run = readings.read_run("generator_jacket_water")
    assert run["manifold_temperature"][2] > run["compressor_outlet_temperature"][2]
    assert level(run, 8, "2") is None
    assert level(run, 7, "2") == ""


def test_flags_as_lines_and_as_json(edited):
    found = checks.check_run(edited({("7", MANIFOLD): "60", ("7", "boost"): "31"}))
    lines = flags.as_text(found).splitlines()
    assert len(lines) == len(found) + 1
    assert lines[0].startswith("LIMIT | point 7 | boost | check 35 | boost 31 psi passes the limit")
    assert all(line.count(" | ") == 5 for line in lines[:-1])
    counts = [sum(flag.level == name for flag in found) for name in ("limit", "red", "amber")]
    assert lines[-1] == "{} limit, {} red, {} amber".format(*counts)
    parsed = json.loads(flags.as_json(found))
    assert parsed["counts"]["red"] == counts[1]
    assert [flags.Flag(**flag) for flag in parsed["flags"]] == list(found)


def test_no_flags_still_count():
    assert flags.as_text(()) == "0 limit, 0 red, 0 amber"
    assert json.loads(flags.as_json(()))["flags"] == []


def test_a_mark_in_a_reading_cannot_break_the_line():
    flag = flags.Flag("red", "a|b\nc", "boost", 4, "x | y", "Do.")
    assert flags.line(flag) == "RED | point a/b c | boost | check 4 | x / y | Do."


def test_every_limit_names_its_source_and_nests():
    for name, bound in BOUNDS.items():
        assert bound.source, name
        assert bound.possible_in_si[0] <= bound.usual_in_si[0] or np.isinf(bound.usual_in_si[0]), name
        assert bound.possible_in_si[1] >= bound.usual_in_si[1] or np.isinf(bound.usual_in_si[1]), name
