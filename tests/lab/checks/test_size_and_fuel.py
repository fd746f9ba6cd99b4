"""Size is no fault, and each fuel has its own ranges: engines of 1 kW to 100 MW, all INVENTED.

Mean effective pressure: power times revolutions a working cycle, over displacement and speed (Heywood, eq. 2.19).
"""

import pytest

from turbomath.lab import checks
from turbomath.lab.checks.look import full_look
from turbomath.lab.checks.size import sensible
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.run import readings

BENCH = """\
[run]
title = "INVENTED: an engine of another size"
invented = true
units = "si"
[engine]
aftercooler = "none"
strokes = {strokes}
fuel = "{fuel}"
{stated}
"""
HEAD = (
    "point,condition,load [%],engine speed [rpm],barometer [kPa],ambient temperature [°C],boost [kPa],power [kW],"
    "fuel flow [kg/h],air flow [kg/h]"
)


@pytest.fixture
def run_of(run_folder):
    """Return a run of one point at full load."""

    def made(speed, power, fuel_flow="", air_flow="", *, stated="", strokes=4, fuel="diesel", boost=150):
        row = f"1,load,100,{speed},100,25,{boost},{power},{fuel_flow},{air_flow}"
        return readings.read_run(
            run_folder(f"{HEAD}\n{row}\n", BENCH.format(stated=stated, strokes=strokes, fuel=fuel))
        )

    return made


SIZES = [
    # what it might be, speed, power [kW], fuel [kg/h], air [kg/h], what bench.toml states, strokes
    ("one small cylinder", 3600, 1.0, 0.33, 8, 'displacement = "0.1 L"\ncylinders = 1\nstroke = "50 mm"', 4),
    ("a truck", 1800, 290, 60, 1650, 'displacement = "12.0 L"\ncylinders = 6\nstroke = "155 mm"', 4),
    ("a locomotive", 1000, 3400, 680, 20_000, 'displacement = "190 L"\ncylinders = 12\nstroke = "320 mm"', 4),
    ("a power station", 500, 18_000, 3150, 110_000, 'displacement = "2200 L"\ncylinders = 18\nstroke = "580 mm"', 4),
    ("a ship", 100, 80_000, 13_200, 600_000, 'displacement = "25000 L"\ncylinders = 14\nstroke = "2.5 m"', 2),
]
BY_SIZE = pytest.mark.parametrize(
    ("speed", "power", "fuel", "air", "stated", "strokes"), [one[1:] for one in SIZES], ids=[one[0] for one in SIZES]
)


@BY_SIZE
def test_no_size_of_engine_is_a_fault(run_of, speed, power, fuel, air, stated, strokes):
    run = run_of(speed, power, fuel, air, stated=stated, strokes=strokes)
    found = checks.check_run(run)
    assert [flag for flag in found if flag.level == "red" or flag.fits_unit] == []
    assert not any("no engine of this kind" in flag.reason for flag in found)
    assert {38, 39} <= {check for check, _ in checks.evaluated(run)}
    unstated = checks.check_run(run_of(speed, power, fuel, air, strokes=strokes))
    assert [flag for flag in unstated if flag.level == "red" or flag.fits_unit] == []


@BY_SIZE
def test_a_power_that_no_engine_of_that_size_makes_is_found(run_of, speed, power, fuel, air, stated, strokes):
    assert worst(run_of(speed, 15 * power, stated=stated, strokes=strokes), 38) == "red"
    assert worst(run_of(speed, power / 100, stated=stated, strokes=strokes), 38) == "red"


def worst(run, check):
    """The level of one check at the only point."""
    return checks.evaluated(run)[check, 0]


def test_mean_effective_pressure_and_piston_speed_are_those_of_the_textbook(run_of):
    run = run_of(1800, 1160, stated='displacement = "12.0 L"\nstroke = "300 mm"')
    told = {flag.check: flag.reason for flag in checks.check_run(run)}
    # 1,160 kW times 2 turns, over 12 L and 30 turns a second: 6,444 kPa; 2 times 0.3 m times 30: 18 m/s
    assert "mean effective pressure 6444 kPa" in told[38]
    assert "pistons move at 18 m/s" in told[39]


def test_a_car_runs_faster_than_a_truck(run_of):
    car = 'displacement = "1.9 L"\ncylinders = 4\nstroke = "95.5 mm"'
    assert worst(run_of(4500, 66, 17, 400, stated=car), 39) == ""  # 14.3 m/s; common practice: cars reach 20 and more
    truck = run_of(3000, 290, 60, 1650, stated='displacement = "12.0 L"\ncylinders = 6\nstroke = "155 mm"')
    (flag,) = [flag for flag in checks.check_run(truck) if flag.check == 39]
    assert flag.reason.endswith("the pistons move at 15.5 m/s; pistons of heavy-duty engines reach at most 14 m/s")


@pytest.mark.parametrize(
    ("fuel", "celsius", "level"),
    [  # a gasoline turbine is made for 950 to 1,000 °C (common practice); 945 would fit °F, and is none
        ("gasoline", 945, ""),
        ("Gasoline", 1010, "amber"),
        ("gasoline", 1060, "red"),
        ("natural gas", 720, ""),
        ("diesel", 720, "amber"),
        ("diesel", 790, "red"),
        ("wood gas", 790, "red"),
    ],
)
def test_each_fuel_has_its_own_heat_before_the_turbine(run_folder, fuel, celsius, level):
    head = "point,condition,load [%],engine speed [rpm],barometer [kPa],ambient temperature [°C],boost [kPa]"
    row = f"{head},turbine inlet temperature [°C]\n1,load,100,5000,100,25,95,{celsius}\n"
    run = readings.read_run(run_folder(row, BENCH.format(stated="", strokes=4, fuel=fuel)))
    assert worst(run, 20) == level
    assert level or not [flag for flag in checks.check_run(run) if flag.fits_unit]


def test_a_tractor_behind_its_gears_is_no_slip_of_a_unit(run_of):
    at_85_per_cent = run_of(2255, 83.9, 23.8, stated='displacement = "6.8 L"\ncylinders = 6')  # 0.284 kg/kWh
    assert worst(at_85_per_cent, 24) == ""


def test_what_is_sensible_goes_with_the_size_and_is_wide_without_it(run_of):
    def most(column, stated, **more):
        return float(sensible(full_look(run_of(1800, 290, stated=stated, **more)), column)[1][0])

    truck = 'displacement = "12.0 L"\ncylinders = 6'
    assert most("power", truck) == pytest.approx(4.5e6 * 0.012 * 30 / 2)  # 45 bar, well above what any engine has
    assert most("power", truck, strokes=2) == pytest.approx(4.5e6 * 0.012 * 30)
    assert most("torque", truck) == pytest.approx(4.5e6 * 0.012 / (4 * 3.14159), rel=1e-5)
    assert most("power", "") == 1e8
    assert most("engine_speed", truck) > 150  # rev/s: a small engine turns fast


@pytest.mark.parametrize("column", ["turbine inlet pressure", "manifold pressure", "compressor outlet pressure"])
def test_little_above_the_open_air_on_a_mountain_is_sensible(run_folder, column):
    """At 3,500 m a standard day has 65.8 kPa (ISO 2533); at sea level nothing shows 68 kPa there."""
    head = f"point,condition,barometer [kPa],ambient temperature [°C],{column} [kPa abs]"
    bench = '[run]\ntitle = "INVENTED"\ninvented = true\nunits = "si"\n[engine]\naftercooler = "none"\n'
    for barometer, sound in ((65.8, True), (101.3, False)):
        look = full_look(readings.read_run(run_folder(f"{head}\n1,low idle,{barometer},5,68\n", bench)))
        assert bool(sensible(look, column.replace(" ", "_"))[0][0] <= 68e3) is sound


def test_an_exhaust_of_120_fahrenheit_at_idle_is_sensible_in_winter_only(run_folder):
    head = "point,condition,barometer [inHg],ambient temperature [°F],turbine inlet temperature [°F]"
    bench = '[run]\ntitle = "INVENTED"\ninvented = true\nunits = "us"\n[engine]\naftercooler = "none"\n'
    for ambient, sound in ((-13, True), (77, False)):
        run = readings.read_run(run_folder(f"{head}\n1,low idle,29.6,{ambient},120\n", bench))
        assert (
            bool(sensible(full_look(run), "turbine_inlet_temperature")[0][0] < run["turbine_inlet_temperature"])
            is sound
        )
        assert any(flag.fits_unit == "°C" for flag in checks.check_run(run)) is not sound


def test_a_power_in_watts_under_kilowatts_is_still_named(run_of):
    run = run_of(1800, 290_000, 60, 1650, stated='displacement = "12.0 L"')
    assert "W" in {flag.fits_unit for flag in checks.check_run(run)}


@pytest.mark.parametrize(
    ("fuel", "ratio", "wanted"),
    [
        ("diesel", 9.8, "red"),
        ("gasoline", 9.8, "amber"),
        ("gasoline", 12.5, ""),
        ("gasoline", 6.0, "red"),
        ("gasoline", 30, "red"),
        ("natural gas", 30, ""),
        ("natural gas", 16.5, ""),
        ("natural gas", 50, "red"),
        ("propane", 15.5, ""),
        ("propane", 6.0, "red"),
        ("diesel", 28, ""),
    ],
)
def test_each_fuel_has_its_own_air(run_of, fuel, ratio, wanted):
    run = run_of(1800, 150, 40, 40 * ratio, fuel=fuel)
    assert worst(run, 23) == wanted
    ranges = [flag.reason for flag in checks.check_run(run) if flag.check == 23]
    assert all(("diesel" in reason) == (fuel == "diesel") for reason in ranges)


@pytest.mark.parametrize(
    ("fuel", "per_hour", "wanted"),
    [
        ("diesel", 60, ""),
        ("diesel", 42, "red"),
        ("gasoline", 60, "amber"),
        ("gasoline", 85, ""),
        ("natural gas", 52, ""),
    ],
)
def test_each_fuel_has_its_own_consumption(run_of, fuel, per_hour, wanted):
    assert worst(run_of(1800, 290, per_hour, fuel=fuel), 24) == wanted


def test_of_a_fuel_that_is_not_known_nothing_is_judged(run_of):
    run = run_of(1800, 290, 400, 1650, fuel="wood gas")
    assert not {23, 24} & {check for check, _ in checks.evaluated(run)}
    assert "does not know" in reduce_run(run).missing["excess_air_ratio"]


def test_excess_air_is_of_the_fuel_that_is_named(run_of):
    found = {fuel: reduce_run(run_of(1800, 150, 40, 640, fuel=fuel)) for fuel in ("diesel", "natural gas", "gasoline")}
    told = {fuel: float(one["excess_air_ratio"].value[0]) for fuel, one in found.items()}
    # 16 kilograms of air over 14.5, 17.0 and 14.6 (table D.4 of Heywood)
    assert told == pytest.approx({"diesel": 1.10, "natural gas": 0.94, "gasoline": 1.09}, abs=0.01)
    assert "diesel engines" in found["gasoline"].missing["corrected_power"]
