"""Killed at any moment, or entered by two programs at once: nothing that was called saved is lost, no file is torn."""

import pytest

from tests.lab.entry.entry_trials import outcome

pytestmark = pytest.mark.process

TRIALS, TOGETHER = {"killed": 150, "record": 30}, 120


@pytest.mark.parametrize("what", TRIALS)
def test_killed_while_entering_nothing_that_was_called_saved_is_lost_and_no_file_is_torn(what, tmp_path):
    found = outcome(what, tmp_path, TRIALS[what])
    assert found["acknowledged"] > 3 * TRIALS[what]
    assert found["lost"] == []
    assert found["torn"] == []


def test_two_programs_that_enter_into_one_run_at_once_lose_and_mix_nothing(tmp_path):
    found = outcome("together", tmp_path, TOGETHER)
    assert (found["note"], found["torn"], found["written"]) == ("", [], "readings.csv")
    assert sorted(found["told"]) == sorted(found["there"])
    for who in "ab":
        assert [one for one in found["there"] if one.startswith(who)] == [f"{who} {at}" for at in range(TOGETHER)]
