"""What physics forbids is said whatever was not read, with its reason, its ± and what would decide. All runs INVENTED.

Squeezing without loss: T2 = T1 (p2 / p1)^((g - 1) / g), g = 1.4 (Heywood, section 6.8, eq. 6.39, from memory).
Lower heating values and the ratios that burn: `turbomath.lab.run.fuels` names their sources.
"""

import re

import pytest

from turbomath.lab import checks
from turbomath.lab.run import readings

HEADS = {
    "load": "%",
    "engine speed": "rpm",
    "barometer": "kPa",
    "ambient temperature": "°C",
    "compressor outlet temperature": "°C",
    "manifold pressure": "kPa abs",
    "manifold temperature": "°C",
    "cooling medium temperature": "°C",
    "fuel flow": "kg/h",
    "power": "kW",
    "turbine inlet temperature": "°C",
    "turbine outlet temperature": "°C",
    "turbine inlet pressure": "kPa abs",
    "exhaust back pressure": "kPa",
}
# A sound engine of about 21 L; neither restriction nor outlet pressure was read
SHOWN = (100, 1500, 90.0, 11, 110, 205, 55, 44, 88, 420, 480, 400, 180, 4)
SOUND = dict(zip(HEADS, map(str, SHOWN), strict=True))
BENCH = """\
[run]
title = "INVENTED: an engine that the kit never saw"
invented = true
units = "si"
[engine]
displacement = "21 L"
cylinders = 6
aftercooler = "{aftercooler}"
volumetric_efficiency = "0.90 ± 0.03"
fuel = "{fuel}"
[instruments.manifold_pressure]
accuracy = "2 kPa"
"""


@pytest.fixture
def run_of(run_folder):
    """Return a run of one point: the sound one, with some cells changed; a cell that is None was not read."""

    def made(fuel="diesel", aftercooler="separate-circuit", condition="load", **cells):
        row = {name: text for name, text in {**SOUND, **_named(cells)}.items() if text is not None}
        head = ",".join(["point", "condition", *(f"{name} [{HEADS[name]}]" for name in row)])
        text = f"{head}\n1,{condition},{','.join(row.values())}\n"
        return readings.read_run(run_folder(text, BENCH.format(fuel=fuel, aftercooler=aftercooler)))

    return made


def _named(cells):
    return {name.replace("_", " "): text for name, text in cells.items()}


def laws_broken(run):
    """The flags of check 40."""
    return [flag for flag in checks.check_run(run) if flag.check == 40]


@pytest.mark.parametrize("fuel", ["diesel", "natural gas", "wood gas"])
@pytest.mark.parametrize("aftercooler", ["separate-circuit", "jacket-water", "two-part", "air-to-air"])
def test_a_sound_point_breaks_no_law(run_of, fuel, aftercooler):
    run = run_of(fuel=fuel, aftercooler=aftercooler)
    assert laws_broken(run) == []
    assert checks.evaluated(run)[40, 0] == ""  # it was looked at


FORBIDDEN = [
    # what is wrong, all readings that contradict each other, words of the reason
    (
        {"compressor_outlet_temperature": "62"},
        "compressor outlet, manifold pressure, barometer, ambient",
        "one of these",
    ),
    (
        {"manifold_temperature": "-9", "compressor_outlet_temperature": None},
        "manifold temperature, cooling medium, manifold pressure",
        "where the coldest possible charge weighs 2.2",
    ),
    ({"power": "1100", "load": None}, "fuel flow, power", "all the heat of that fuel is 1039 kW"),
    ({"fuel_flow": "210", "load": "0", "power": "0", "condition": "no load"}, "fuel flow", "needs at least 14.5"),
    (
        {"fuel_flow": "16", "load": "0", "power": "0", "condition": "no load", "fuel": "natural gas"},
        "fuel flow",
        "natural gas does not burn in an engine above",
    ),
    ({"turbine_outlet_temperature": "520"}, "turbine inlet, turbine outlet", "cannot leave hotter than it came"),
    ({"turbine_inlet_pressure": "70"}, "turbine inlet pressure, exhaust back", "cannot be below 94 kPa abs"),
]


@pytest.mark.parametrize(("cells", "named", "words"), FORBIDDEN)
def test_readings_that_no_engine_can_show_are_named_with_their_reason(run_of, cells, named, words):
    found = laws_broken(run_of(**cells))
    assert [flag.level for flag in found] == ["red"], found
    reason = found[0].reason
    assert all(name in reason for name in named.split(", ")), reason
    assert words in reason
    assert found[0].fits_unit == {"power": "hp", "turbine_inlet_pressure": "kPa gauge"}.get(next(iter(cells)), "")


def test_the_least_outlet_temperature_is_that_of_squeezing_without_loss(run_of):
    reason = laws_broken(run_of(compressor_outlet_temperature="62"))[0].reason
    least, width = re.search(r"make the air (\S+) ± (\S+) °C", reason).groups()
    by_hand = (11 + 273.15) * (205 / 90) ** (0.4 / 1.4) - 273.15  # 86.3 °C
    assert float(least) == pytest.approx(by_hand, abs=0.6)  # real air, told to a degree
    # ± by hand: exponent 0.286 of 2 kPa in 205 and 0.1 kPa in 90, with 2.2 K of a type K standard; 2 / sqrt(3) of all
    assert float(width) == pytest.approx(3.3, abs=0.4)


def test_within_its_width_nothing_is_said(run_of):
    assert laws_broken(run_of(compressor_outlet_temperature="83.5")) == []
    assert len(laws_broken(run_of(compressor_outlet_temperature="80"))) == 1


def test_what_would_decide_is_said(run_of):
    action = laws_broken(run_of(compressor_outlet_temperature="62"))[0].action
    assert "engine off and cold: all thermometers should agree" in action
    assert "warm room" in action


def test_a_thermometer_that_breaks_a_law_is_no_measure_of_the_cooler(run_of):
    found = checks.check_run(run_of(compressor_outlet_temperature="78", manifold_temperature="70"))
    assert {flag.check for flag in found if flag.level in ("red", "amber")} == {40}


def test_at_idle_too_air_does_not_leave_colder_than_it_came(run_of):
    idle = run_of(condition="low idle", load="0", manifold_pressure="91", compressor_outlet_temperature="-8", power="0")
    assert "compressor outlet temperature" in laws_broken(idle)[0].reason


def test_without_a_barometer_or_a_manifold_pressure_no_law_is_guessed(run_of):
    assert laws_broken(run_of(compressor_outlet_temperature="62", barometer=None)) == []
    assert laws_broken(run_of(compressor_outlet_temperature="62", manifold_pressure=None)) == []


def test_a_closer_range_that_names_the_same_goes_before_the_law(run_of):
    found = checks.check_run(run_of(compressor_outlet_temperature="8"))  # below ambient: check 5 says it
    assert 5 in {flag.check for flag in found}
    assert 40 not in {flag.check for flag in found}


def test_an_engine_without_aftercooler_has_a_manifold_no_colder_than_squeezing_makes_it(run_of):
    """The efficiency of the compressor speaks for that law here: nothing cools between it and the thermometer."""

    def red(temperature):
        run = run_of(
            aftercooler="none",
            manifold_temperature=temperature,
            compressor_outlet_temperature=None,
            cooling_medium_temperature=None,
        )
        return [flag.reason for flag in checks.check_run(run) if flag.level == "red"]

    assert red("110") == []
    assert any(reason.startswith("compressor efficiency 1.6") for reason in red("60"))
