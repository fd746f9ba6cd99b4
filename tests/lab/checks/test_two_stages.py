"""Two stages of compression, one behind the other, with or without an intercooler. All runs INVENTED."""

import pytest

from turbomath.lab import checks
from turbomath.lab.run import readings

HEAD = (
    "point,condition,load [%],barometer [kPa],ambient temperature [°C],intake restriction [kPa],"
    "compressor outlet pressure [kPa abs],boost [kPa],compressor outlet temperature [°C],manifold temperature [°C],"
    "cooling medium temperature [°C]"
)


@pytest.fixture
def levels(run_folder):
    """Return the level of each check at one point of an engine with a pressure ratio of 5.3."""

    def found(stages, outlet, ratio=5.3):
        pressure = 98 * ratio
        row = f"1,load,100,100,25,2,{pressure},{pressure - 105},{outlet},60,40"
        run = readings.read_run(
            run_folder(f"{HEAD}\n{row}\n", f'[engine]\naftercooler = "separate-circuit"\n{stages}\n')
        )
        return {check: level for (check, _), level in checks.evaluated(run).items()}

    return found


TWO, COOLED = "stages = 2", "stages = 2\nintercooler = true"


def test_a_ratio_of_two_stages_is_red_in_one_and_sound_in_two(levels):
    # squeezing by 5.3 from 25 °C without loss: 298 K times 5.3^0.286 is 480 K; at an efficiency of 0.74 it is 271 °C
    assert levels("", 271)[19] == "red"
    assert levels(TWO, 271)[19] == ""
    assert levels(TWO, 271, ratio=9)[19] == "amber"
    assert levels(TWO, 271, ratio=14)[19] == "red"


def test_both_stages_together_are_judged_by_one_efficiency(levels):
    assert levels(TWO, 271)[6] == ""
    assert levels(TWO, 180)[6] == "red"  # colder than without loss


def test_an_intercooler_takes_that_judgement_away_and_it_is_said(levels):
    found = levels(COOLED, 160)
    assert found[6] == "note"
    assert found[19] == ""
    assert "red" not in found.values()


def test_a_gauge_that_is_only_assumed_to_end_somewhere_convicts_no_boost(levels):
    assert 4 not in levels(TWO, 271)  # 414 kPa, beyond the 60 psi of a usual gauge
    assert levels(f'{TWO}\n[instruments.boost]\nspan = "0..400 kPa"\ngrade = "B"', 271)[4] == "red"
