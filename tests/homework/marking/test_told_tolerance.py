"""The teaching notes promise the tolerance that the marker keeps."""

import re
from pathlib import Path

import pytest

from turbomath.homework.bank import QUESTIONS
from turbomath.homework.bank.question import TOLERANCES

NOTES = Path(__file__).parents[3] / "lessons" / "teaching_notes"
SAID = re.compile(r"Accept a temperature to (\d) °F \((\d) °C\), an (efficiency|effectiveness) to (0\.\d+)")


def test_the_notes_on_power_name_the_markers_own_shares():
    said = (NOTES / "06_air_fuel_and_power.md").read_text(encoding="utf-8")
    air, most = re.search(
        r"Accept air to (\S+) %, power, an air-fuel ratio and a consumption to (\S+) %", said
    ).groups()
    assert float(air) / 100 == TOLERANCES["mass flow"].share
    kinds = (TOLERANCES["power"], TOLERANCES["specific fuel consumption"], QUESTIONS["air_fuel_ratio"].asked[0].allowed)
    assert {one.share for one in kinds} == {float(most) / 100}


@pytest.mark.parametrize("lesson", ["02_squeezing_heats_air", "04_cooling_it_back"])
def test_the_notes_name_the_markers_own_number(lesson):
    fahrenheit, celsius, kind, share = SAID.search((NOTES / f"{lesson}.md").read_text(encoding="utf-8")).groups()
    assert float(fahrenheit) == pytest.approx(TOLERANCES["temperature"].us * 1.8)  # K to F°
    assert float(celsius) == TOLERANCES["temperature"].si
    assert float(share) == TOLERANCES[kind].us == TOLERANCES[kind].si
