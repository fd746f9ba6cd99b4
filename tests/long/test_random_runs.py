"""5,000 random valid runs through all of the kit: check, reduce, verdicts, terminal, and the page of each twentieth.

No error, no warning, no inf, no nan told as a number, no finding without words, no unit of the other system.

Part of no plain pytest: `python -m pytest -s tests/long/test_random_runs.py -n 2`; 15 minutes on two processors.
Another seed: ``TURBOMATH_SEED=7``.
"""

import os

import pytest

from tests.lab.healthy_runs import healthy_runs
from tests.lab.through_the_kit import faults
from turbomath.lab.checks import check_run

SEED = int(os.environ.get("TURBOMATH_SEED", 7))
BLOCK, BLOCKS, WITH_PAGE = 250, 20, 20
HEALTHY, MOST_RED = 1_000, 0.02


@pytest.mark.timeout(7200)
@pytest.mark.parametrize("block", range(BLOCKS))
def test_5000_random_valid_runs_give_words_and_numbers(tmp_path, monkeypatch, block):
    monkeypatch.setattr("turbomath.lab.report.page.MOST_READINGS_TWICE", 0)
    found = {}
    for number in range(block * BLOCK, (block + 1) * BLOCK):
        try:
            found[number] = faults(tmp_path, SEED, number, with_page=number % WITH_PAGE == 0, units_too=True)
        except Exception as error:  # told with the number of its run, and the others go on
            found[number] = [repr(error)]
    assert {number: words for number, words in found.items() if words} == {}


@pytest.mark.timeout(7200)
def test_of_1000_sound_engines_at_most_2_per_cent_are_called_wrong():
    red = [any(flag.level == "red" for flag in check_run(run)) for run in healthy_runs(SEED, HEALTHY)]
    print(f"{sum(red)} of {HEALTHY} sound engines have a red finding")
    assert sum(red) <= MOST_RED * HEALTHY
