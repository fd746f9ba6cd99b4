"""Aftercoolers cooled by liquid: their ranges, water that is hotter than the charge, a limit that is no reading.

All runs INVENTED; the ranges are common practice (makers' sheets of gas engines show 0.80 to 0.99).
"""

import pytest

from turbomath.lab import checks
from turbomath.lab.run import readings

HEAD = (
    "point,condition,load [%],barometer [kPa],ambient temperature [°C],boost [kPa],intake restriction [kPa],"
    "compressor outlet temperature [°C],manifold temperature [°C],cooling medium temperature [°C]"
)


@pytest.fixture
def found(run_folder):
    """Return (level of check 9, all flags) of one point."""

    def made(aftercooler, outlet, manifold, medium, *, condition="load", load=100, boost=160, limits=""):
        row = f"1,{condition},{load},100,25,{boost},2,{outlet},{manifold},{medium}"
        bench = f'[engine]\naftercooler = "{aftercooler}"\n{limits}'
        run = readings.read_run(run_folder(f"{HEAD}\n{row}\n", bench))
        return checks.evaluated(run).get((9, 0)), checks.check_run(run)

    return made


@pytest.mark.parametrize(
    ("aftercooler", "manifold", "wanted"),
    [  # outlet 150 °C, medium 50 °C: 1 °C is 0.01 of effectiveness
        ("two-part", 51, ""),
        ("two-part", 65, ""),
        ("two-part", 80, "amber"),
        ("separate-circuit", 51, ""),
        ("separate-circuit", 95, ""),
        ("separate-circuit", 110, "amber"),
        ("jacket-water", 75, ""),
        ("jacket-water", 55, "amber"),
        ("air-to-air", 70, ""),
    ],
)
def test_each_kind_of_cooler_has_its_own_range(found, aftercooler, manifold, wanted):
    level, flags = found(aftercooler, 150, manifold, 50 if aftercooler != "air-to-air" else 27)
    assert level == wanted, flags


def test_water_that_is_hotter_than_the_charge_heats_it_said_and_not_red(found):
    level, flags = found("jacket-water", 40, 68, 75, condition="low idle", load=0, boost=4)
    assert level == "note"
    assert [flag for flag in flags if flag.level in ("red", "amber")] == []
    assert "here it heats it, and effectiveness says nothing" in next(one for one in flags if one.check == 9).reason


def test_a_charge_hotter_than_both_is_looked_at_again_and_not_called_impossible(found):
    _, flags = found("jacket-water", 40, 84, 75, condition="low idle", load=0, boost=4)
    assert [(flag.check, flag.level) for flag in flags if flag.check == 7] == [(7, "amber")]
    assert "a hot engine does that where little air flows" in next(one for one in flags if one.check == 7).reason
    _, flags = found("jacket-water", 40, 30, 75, condition="low idle", load=0, boost=4)
    assert "red" in {flag.level for flag in flags}  # colder than both nothing makes it


def test_a_limit_of_the_maker_is_no_reading(found):
    """A coolant that may have at most 72 °C was not read at 72 °C: a charge of 71 °C contradicts nothing."""
    limits = '[limits]\ncooling_medium_temperature = "..72 °C"\n'
    level, flags = found("separate-circuit", 150, 71, "", limits=limits)
    assert level is None
    assert [flag for flag in flags if flag.level in ("red", "amber", "limit")] == []
    assert "no reading for the limit" in next(one for one in flags if one.check == 35).reason


def test_at_idle_a_cooler_that_hardly_cools_is_a_note(found):
    """A warm engine heats what little flows: 34 °C in, 33 °C out, air of 22 °C is no fouled core."""
    level, flags = found("air-to-air", 34, 33, 22, condition="low idle", load=0, boost=3)
    assert level == "note"
    assert [flag.action for flag in flags if flag.check == 9] == ["Judge the aftercooler where there is more to cool."]
    assert found("air-to-air", 150, 110, 27)[0] == "amber"


def test_at_idle_a_hot_engine_warms_the_charge_a_little_whatever_cools_it(found):
    level, flags = found("air-to-air", 28, 38, 21, condition="low idle", load=0, boost=1)
    assert level == "note"
    (flag,) = [flag for flag in flags if flag.level in ("red", "amber")]
    assert (flag.check, flag.level) == (7, "amber")
    assert [flag.action for flag in flags if flag.check == 9] == ["Judge the aftercooler where more air flows."]
    assert flag.reason.endswith("a hot engine does that where little air flows")  # and no cells are called swapped
    _, flags = found("air-to-air", 28, 58, 21, condition="low idle", load=0, boost=1)
    assert "red" in {flag.level for flag in flags}
    _, flags = found("air-to-air", 100, 108, 27)
    assert "red" in {flag.level for flag in flags}


def test_where_there_is_little_to_cool_a_few_degrees_decide_and_no_core_is_called_fouled(found):
    level, flags = found("air-to-air", 44, 39, 24, load=20, boost=10)
    assert level == "note"
    assert [flag for flag in flags if flag.level in ("red", "amber") and flag.check == 9] == []
