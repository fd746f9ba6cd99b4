"""Whatever a valid run holds, the kit reads it, judges it and reports it; a sound engine is not called faulty."""

import pytest

from tests.lab.healthy_runs import healthy_runs
from tests.lab.through_the_kit import faults, in_less_time
from turbomath.lab.checks import check_run

SEED = 20261129
BLOCK, BLOCKS = 50, [0, 1, *(pytest.param(block, marks=pytest.mark.long) for block in (2, 3))]
WHOLE, WITH_PAGE = 25, 50  # one in so many goes through all, or has its page made too
HEALTHY, MOST_RED = 50, 0.02


@pytest.mark.parametrize("block", BLOCKS)
def test_a_random_valid_run_is_read_reduced_and_checked_without_a_warning_or_a_word_that_is_no_number(
    tmp_path, one_way, monkeypatch, block
):
    found = {}
    for number in range(block * BLOCK, (block + 1) * BLOCK):
        with monkeypatch.context() as patch:
            if number % WHOLE:
                in_less_time(patch)
            parts = {"whole": number % WHOLE == 0, "with_page": number % WITH_PAGE == 0}
            found[number] = faults(tmp_path, SEED, number, **parts)
    assert {number: words for number, words in found.items() if words} == {}


@pytest.mark.usefixtures("one_way")
@pytest.mark.parametrize(
    ("seed", "number", "once"),
    [
        (3011, 334, "a density below nothing, within the ± of a coarse gauge"),
        (3011, 369, "a turbine without a drop"),
        (3011, 4672, "boost at no load, which the outlet gauge alone tells"),
        (3012, 4000, "a line through points that may all stand at one place"),
        (6103, 505, "a bent line through points that may stand at two places"),
    ],
)
def test_a_run_that_once_fell_over_does_not(tmp_path, seed, number, once):
    assert faults(tmp_path, seed, number) == [], once


def test_of_sound_engines_within_their_gauges_hardly_one_is_called_wrong():
    flags = [check_run(run) for run in healthy_runs(SEED, HEALTHY)]
    red = [flag for one in flags for flag in one if flag.level == "red"]
    assert len(red) <= MOST_RED * HEALTHY, red
    assert sum(len(one) for one in flags) > HEALTHY / 2, "hardly anything was said of any"
