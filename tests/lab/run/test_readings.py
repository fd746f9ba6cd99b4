"""readings.csv: every form that is accepted, and the numbers that come of it in SI. All data INVENTED.

Sizes of units: NIST SP 811, appendix B.8 (psi 6894.757 Pa, inch of mercury 3386.389 Pa, pound
0.453 592 37 kg, US gallon 3.785 412 L); 0 °F is 255.372 K.
"""

import dataclasses

import numpy as np
import pytest

from turbomath.disk import files
from turbomath.lab.run.channels import CONDITIONS, NUMBER_COLUMNS, TEXT_COLUMNS
from turbomath.lab.run.readings import read_run
from turbomath.table.banks import BANKS, OF_EACH_BANK, of_bank
from turbomath.table.errors import RefusedFileError

PSI, INCH_MERCURY, POUND, GALLON = 6894.757, 3386.389, 0.45359237, 3.785412e-3
BAROMETER = 29.10 * INCH_MERCURY
QUANTITIES_OF_BANKS = [of_bank(name, bank) for name in OF_EACH_BANK for bank in BANKS]


def one(run_folder, header, row, bench=""):
    """Read a sheet of a header and one row."""
    return read_run(run_folder(f"{header}\n{row}\n", bench))


def kelvin(fahrenheit):
    return (fahrenheit + 459.67) / 1.8


def test_a_full_sheet_arrives_whole(run_folder):
    run = read_run(run_folder())
    assert len(run) == 5
    assert run.name == "invented-run"
    assert run.rows == (2, 3, 4, 5, 6)
    assert run.points == ("z1", "1", "2", "2", "3")
    assert run.conditions == ("zero", "low idle", "load", "load", "load")
    of_other_engines = {
        "wet_bulb_temperature",
        "throttle_inlet_pressure",
        "cooler_outlet_temperature",
        "air_meter_pressure_drop",
        *QUANTITIES_OF_BANKS,
    }
    assert set(run.columns) == {*TEXT_COLUMNS, *NUMBER_COLUMNS} - of_other_engines
    assert run.columns[:4] == ("point", "condition", "time", "pass")
    assert run.unknown_columns == ()
    assert run.cells["remark"] == ("engine off", "", "steady, two readers", "", "gauge at its stop")
    assert run.cells["barometer"] == ("29.10", "29.10", "29.09", "29.09", "29.08")
    assert run.headers["compressor_outlet_pressure"] == "compressor outlet pressure [psi gauge]"
    assert run.units["compressor_outlet_pressure"] == "psi gauge"


@pytest.mark.parametrize(
    ("column", "last", "tolerance"),
    [
        ("load", 1.0, 0),
        ("engine_speed", 1799 / 60, 1e-12),
        ("barometer", 29.08 * INCH_MERCURY, 0.05),
        ("ambient_temperature", kelvin(79), 1e-9),
        ("relative_humidity", 0.43, 1e-12),
        ("intake_restriction", 12 * 249.0889, 0.01),
        ("compressor_outlet_pressure", 26 * PSI + 29.08 * INCH_MERCURY, 0.1),
        ("compressor_outlet_temperature", kelvin(337), 1e-9),
        ("boost", 24.5 * PSI, 0.05),
        ("manifold_pressure", 268e3, 1e-6),
        ("cooling_medium_flow", 12 / 60_000, 1e-9),
        ("cooler_pressure_loss", 1.5 * PSI, 0.01),
        ("air_flow", 61 * POUND / 60, 1e-9),
        ("air_volume_flow", 862 * 0.02831685 / 60, 1e-7),
        ("fuel_flow", 129 * POUND / 3600, 1e-9),
        ("fuel_mass", 6.5 * POUND, 1e-9),
        ("fuel_time", 181, 0),
        ("torque", 1175 * 1.355818, 1e-3),
        ("power", 300e3, 1e-6),
        ("turbine_inlet_temperature", kelvin(1105), 1e-9),
        ("exhaust_back_pressure", 1.7 * INCH_MERCURY, 0.01),
        ("oil_pressure", 54 * PSI, 0.05),
    ],
)
def test_every_column_arrives_in_si(run_folder, column, last, tolerance):
    assert read_run(run_folder())[column][-1] == pytest.approx(last, abs=tolerance)


def test_gauge_pressures_become_absolute_with_the_barometer_of_their_own_row(run_folder):
    run = read_run(run_folder())
    assert run.gauge_columns == {"compressor_outlet_pressure", "turbine_inlet_pressure"}
    expected = np.array([0, 1, 14, 14, 26]) * PSI + np.array([29.10, 29.10, 29.09, 29.09, 29.08]) * INCH_MERCURY
    np.testing.assert_allclose(run["compressor_outlet_pressure"], expected, rtol=1e-6)
    np.testing.assert_array_equal(run.station_pressure, run["barometer"])


def test_a_pegged_gauge_is_no_reading_but_a_least_value(run_folder):
    run = read_run(run_folder())
    assert list(run.pegged["turbine_inlet_pressure"]) == [False, False, False, False, True]
    assert np.isnan(run["turbine_inlet_pressure"][-1])
    assert run.at_least["turbine_inlet_pressure"][-1] == pytest.approx(25 * PSI + 29.08 * INCH_MERCURY, abs=0.1)
    assert np.isnan(run.at_least["turbine_inlet_pressure"][:-1]).all()
    assert not run.pegged["boost"].any()


@pytest.mark.parametrize("cell", [">60", "> 60", "60+", "60 +", "≥60", " ≥ 60 ", ">=60", ">60 "])
def test_every_way_to_write_a_pegged_gauge(run_folder, cell):
    run = one(run_folder, "point,boost [psi]", f"1,{cell}")
    assert run.pegged["boost"].tolist() == [True]
    assert np.isnan(run["boost"][0])
    assert run.at_least["boost"][0] == pytest.approx(60 * PSI, rel=1e-6)
    assert run.cells["boost"] == (cell,)


@pytest.mark.parametrize("cell", ["", " ", "-", "–", "—", "−", "n/a", "N/A", "na", " - "])
def test_every_way_to_write_no_reading(run_folder, cell):
    run = one(run_folder, "point,boost [psi]", f"1,{cell}")
    assert np.isnan(run["boost"][0])
    assert not run.pegged["boost"][0]


@pytest.mark.parametrize(
    ("cell", "value"),
    [("24.5", 24.5), ("−0.5", -0.5), ("-0.5", -0.5), ("+3", 3), (" 24.5 ", 24.5), (".5", 0.5), ("24", 24), ("1e1", 10)],
)
def test_every_way_to_write_a_number(run_folder, cell, value):
    run = one(run_folder, "point,boost [psi]", f"1,{cell}")
    assert run["boost"][0] == pytest.approx(value * PSI, rel=1e-6)


@pytest.mark.parametrize(
    "header",
    [
        "ambient temperature [°F]",
        "Ambient Temperature [degF]",
        "AMBIENT TEMPERATURE [F]",
        "ambient_temperature [°F]",
        "ambient temperature °F",
        "ambient temperature degF",
        "ambient temperature F",
        "ambient temperature (°F)",
        "  ambient   temperature  [ °F ]  ",
        "ambient_temperature_F",
        "ambient temperature deg F",
    ],
)
def test_every_way_to_write_a_temperature_header(run_folder, header):
    run = one(run_folder, f"{header},point", "77,1")
    assert run["ambient_temperature"][0] == pytest.approx(298.15)
    assert run.headers["ambient_temperature"] == header.strip()


@pytest.mark.parametrize(
    ("header", "column", "value"),
    [
        ("boost psi", "boost", 25 * PSI),
        ("Boost (psi)", "boost", 25 * PSI),
        ("load %", "load", 0.25),
        ("engine_speed_rpm", "engine_speed", 25 / 60),
        ("manifold pressure kPa abs", "manifold_pressure", 25e3),
        ("fuel time min", "fuel_time", 1500),
        ("exhaust back pressure in. Hg", "exhaust_back_pressure", 25 * INCH_MERCURY),
    ],
)
def test_a_unit_without_its_brackets_is_understood(run_folder, header, column, value):
    run = one(run_folder, f"point,{header}", "1,25")
    assert run.columns == ("point", column)
    assert run[column][0] == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(
    ("header", "value"),
    [
        ("manifold pressure [psi gauge]", 25 * PSI + BAROMETER),
        ("manifold pressure [psig]", 25 * PSI + BAROMETER),
        ("manifold pressure [psi abs]", 25 * PSI),
        ("manifold pressure [psia]", 25 * PSI),
        ("manifold pressure [kPa abs]", 25e3),
        ("manifold pressure [bar gauge]", 25e5 + BAROMETER),
        ("manifold pressure (kPa abs)", 25e3),
    ],
)
def test_a_pressure_says_gauge_or_absolute(run_folder, header, value):
    run = one(run_folder, f"barometer [inHg],{header}", "29.10,25")
    assert run["manifold_pressure"][0] == pytest.approx(value, rel=1e-6)
    assert ("manifold_pressure" in run.gauge_columns) == ("g" in header.split("pressure")[1])


def test_a_gauge_reading_without_barometer_stays_missing_and_is_listed(run_folder):
    sheet = "point,barometer [inHg],compressor outlet pressure [psi gauge]\n1,29.10,26\n2,,27\n3,,\n4,>31,28\n"
    run = read_run(run_folder(sheet))
    assert run["compressor_outlet_pressure"][0] == pytest.approx(26 * PSI + BAROMETER, rel=1e-6)
    assert np.isnan(run["compressor_outlet_pressure"][1:]).all()
    assert run.without_barometer == ((3, "compressor_outlet_pressure"), (5, "compressor_outlet_pressure"))


def test_a_sheet_without_barometer_keeps_its_boost(run_folder):
    run = one(run_folder, "point,compressor outlet pressure [psi gauge],boost [psi]", "1,26,24.5")
    assert np.isnan(run.station_pressure[0])
    assert run["boost"][0] == pytest.approx(24.5 * PSI, rel=1e-6)


def test_sea_level_barometer_is_brought_to_the_station_and_kept_as_read(run_folder):
    """U.S. Standard Atmosphere 1976, table: 89 874.6 Pa at 1000 m geopotential, 101 325 Pa at 0 m."""
    bench = '[site]\nbarometer = "sea-level"\nelevation = "1000 m"\n'
    run = one(run_folder, "barometer [hPa],manifold pressure [kPa gauge]", "1013.25,150", bench)
    assert run["barometer"][0] == pytest.approx(101_325)
    assert run.station_pressure[0] == pytest.approx(89_874.6, rel=2e-6)
    assert run["manifold_pressure"][0] == pytest.approx(239_874.6, rel=2e-6)


@pytest.mark.parametrize(
    ("unit", "value"), [("L/h", 60e-3 / 3600 * 840), ("US gal/h", 60 * GALLON / 3600 * 840), ("kg/h", 60 / 3600)]
)
def test_a_volume_of_fuel_is_weighed_by_its_density(run_folder, unit, value):
    run = one(run_folder, f"point,fuel flow [{unit}]", "1,60", '[engine]\nfuel_density = "840 kg/m3"')
    assert run["fuel_flow"][0] == pytest.approx(value, rel=1e-6)


# Forms of the file

PLAIN = "point,condition,barometer [inHg],boost [psi],remark\n1,load,29.10,24.5,steady\n2,load,29.08,9.5,°F é\n"


@pytest.mark.parametrize(
    "raw",
    [
        PLAIN.encode(),
        b"\xef\xbb\xbf" + PLAIN.encode(),
        PLAIN.encode("cp1252"),
        PLAIN.replace("\n", "\r\n").encode(),
        PLAIN.replace("\n", "\r").encode(),
        PLAIN.rstrip().encode(),
        PLAIN.replace(",", "\t").encode(),
        PLAIN.replace(",", ";").encode(),
        PLAIN.replace(",", ";").replace(".", ",").encode(),
        PLAIN.replace(",", "\t").replace(".", ",").encode(),
        PLAIN.replace("load", '"load"').encode(),
        PLAIN.replace("29.10", '"29.10"').encode(),
        PLAIN.replace("\n", ",,\n").encode(),
        PLAIN.replace("point", '"point"').encode(),
        PLAIN.replace("load", "LOAD").encode(),
        PLAIN.replace("inHg", "in. Hg").encode(),
        PLAIN.replace("barometer", "Barometer").encode(),
    ],
    ids=[
        "plain",
        "byte-order mark",
        "cp1252",
        "windows line ends",
        "old line ends",
        "no last line end",
        "tab",
        "semicolon and point",
        "semicolon and comma",
        "tab and comma",
        "quoted text",
        "quoted number",
        "blank end",
        "quoted header",
        "capitals",
        "spelling of a unit",
        "capital in a name",
    ],
)
def test_one_sheet_in_every_form_gives_the_same_run(run_folder, raw):
    run = read_run(run_folder(raw, ""))
    assert run.points == ("1", "2")
    assert run.conditions == ("load", "load")
    assert run.rows == (2, 3)
    assert run.cells["remark"] == ("steady", "°F é")
    np.testing.assert_allclose(run["boost"], np.array([24.5, 9.5]) * PSI, rtol=1e-6)
    np.testing.assert_allclose(run["barometer"], np.array([29.10, 29.08]) * INCH_MERCURY, rtol=1e-6)


def test_units_may_stand_in_a_second_header_row(run_folder):
    sheet = "point,barometer,boost,ambient temperature,remark\n,inHg,[psi],°F,\n1,29.10,24.5,77,-\n"
    run = read_run(run_folder(sheet))
    assert run.rows == (3,)
    assert run.units["boost"] == "psi"
    assert run["boost"][0] == pytest.approx(24.5 * PSI, rel=1e-6)
    assert run["ambient_temperature"][0] == pytest.approx(298.15)


def test_some_units_in_the_header_and_the_rest_below_it(run_folder):
    run = read_run(run_folder("point,engine speed,boost [psi],opacity\n-,1/min,,%\n1,1800,24.5,7\n"))
    assert run["engine_speed"][0] == pytest.approx(30.0)
    assert run["boost"][0] == pytest.approx(24.5 * PSI, rel=1e-6)
    assert run.cells["opacity"] == ("7",)
    assert run.units["opacity"] == "%"


def test_blank_rows_are_passed_over_but_counted(run_folder):
    run = read_run(run_folder("\n,,\npoint,boost [psi]\n\n1,24.5\n , \n2,9.5\n\n"))
    assert run.rows == (5, 7)


def test_a_quoted_cell_may_hold_separators_quotes_and_line_ends(run_folder):
    run = read_run(run_folder('point,boost [psi],remark\n1,24.5,"said ""steady"",\nthen rose"\n2,9.5,4" hose\n'))
    assert run.cells["remark"] == ('said "steady",\nthen rose', '4" hose')
    assert run.rows == (2, 3)


def test_a_header_may_hold_the_separator_inside_quotes(run_folder):
    run = read_run(run_folder('point,boost [psi],"notes; free, or none"\n1,24.5,x\n'))
    assert run.unknown_columns == ("notes; free, or none",)


def test_hostile_text_is_kept_as_it_was_written(run_folder):
    texts = ["=1+1", "<img src=x onerror=alert(1)>", "../../etc", "@SUM(A1)", "{{7*7}}", "$(reboot)"]
    sheet = "point,boost [psi],remark,=cmd()\n" + "".join(f"{text},1,{text},{text}\n" for text in texts)
    run = read_run(run_folder(sheet))
    assert run.cells["remark"] == run.cells["point"] == run.cells["=cmd()"] == tuple(texts)
    assert run.points == tuple(texts)


@pytest.mark.parametrize(
    "header",
    [
        "oil temperature [°F]",
        "rail pressure [bar]",
        "fuel pressure [psi]",
        "turbine speed [rpm]",
        "hours",
        "opacity [%]",
        "crankcase pressure",
        "boost target [psi]",
        "oil pressure min",
        "torque limit",
        "exhaust temperature [°F]",
    ],
)
def test_columns_the_kit_does_not_know_are_kept_and_listed(run_folder, header):
    run = one(run_folder, f"point,{header},boost [psi]", "1,abc,24.5")
    assert run.unknown_columns == (header,)
    assert run.columns == ("point", "boost")
    assert run.cells[header] == ("abc",)


def test_a_column_without_name_and_cells_is_left_out(run_folder):
    run = read_run(run_folder("point,,boost [psi],,\n1,,24.5,,\n2, ,9.5,,\n"))
    assert run.columns == ("point", "boost")
    np.testing.assert_allclose(run["boost"], np.array([24.5, 9.5]) * PSI, rtol=1e-6)


@pytest.mark.parametrize("condition", CONDITIONS)
@pytest.mark.parametrize("form", [str, str.upper, str.title, lambda text: text.replace(" ", "_"), lambda t: f" {t} "])
def test_every_condition_in_every_form(run_folder, condition, form):
    run = one(run_folder, "point,condition,boost [psi]", f"1,{form(condition)},0")
    assert run.conditions == (condition,)


def test_readings_without_point_are_named_for_their_row(run_folder):
    assert read_run(run_folder("boost [psi]\n24.5\n\n9.5\n")).points == ("row 2", "row 4")
    assert read_run(run_folder("point,boost [psi]\n7,24.5\n,9.5\n")).points == ("7", "row 3")


def test_what_a_gauge_can_show_is_never_refused(run_folder):
    header = "boost [psi],relative humidity [%],cooler pressure loss [psi],air flow [lb/min],load [%]"
    run = one(run_folder, header, "-0.5,103,-0.1,-2,112")
    assert run["relative_humidity"][0] == pytest.approx(1.03)
    assert run["air_flow"][0] < 0
    assert run["boost"][0] == pytest.approx(-0.5 * PSI, rel=1e-6)


# The record


def test_a_missing_column_is_missing_throughout_and_a_wrong_name_is_an_error(run_folder):
    run = one(run_folder, "point,boost [psi]", "1,24.5")
    assert run.has("boost")
    assert run.has("point")
    assert not run.has("torque")
    assert np.isnan(run["torque"]).tolist() == [True]
    with pytest.raises(KeyError, match="did you mean 'torque'"):
        run["torq"]
    with pytest.raises(KeyError):
        run["point"]


def test_a_run_cannot_be_changed(run_folder):
    run = read_run(run_folder())
    with pytest.raises(dataclasses.FrozenInstanceError):
        run.name = "x"
    with pytest.raises(ValueError, match="read-only"):
        run["boost"][0] = 1.0


def test_a_run_knows_its_bench_and_its_folder(run_folder, monkeypatch):
    folder = run_folder()
    run = read_run(folder)
    assert run.folder == folder
    assert run.bench.engine.cylinders == 6
    assert read_run(str(folder)).points == run.points
    monkeypatch.chdir(folder)
    assert read_run(".").name == "invented-run"


def test_a_shipped_run_is_found_by_its_name(run_folder, tmp_path, monkeypatch):
    folder = run_folder()
    monkeypatch.setattr(files, "shipped", lambda _: tmp_path)
    assert read_run("invented-run").folder == folder
    with pytest.raises(RefusedFileError, match="The nearest shipped run is 'invented-run'") as caught:
        read_run("invented-rum")
    assert caught.value.found == "no such folder"
    assert caught.value.file == "invented-rum"


@pytest.mark.parametrize("folder", ["nowhere", "", "x" * 5000, "a\0b", "bench.toml"])
def test_a_folder_that_is_not_there_is_refused(folder, run_folder, monkeypatch):
    monkeypatch.chdir(run_folder())
    with pytest.raises(RefusedFileError, match="expected a run folder, or a shipped run"):
        read_run(folder)
