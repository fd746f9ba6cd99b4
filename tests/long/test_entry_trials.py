"""2,000 programs killed while they enter readings, 2,000 while they answer the run-up record.

Nothing that was called saved is lost, no file is torn. Not part of a plain pytest:
`python -m pytest -s tests/long/test_entry_trials.py` takes twenty to fifty minutes.
"""

import pytest

from tests.lab.entry.entry_trials import outcome

TRIALS = 2_000


@pytest.mark.timeout(7200)
@pytest.mark.parametrize("what", ["killed", "record"])
def test_2000_kills_lose_nothing(what, tmp_path):
    found = outcome(what, tmp_path, TRIALS)
    print({name: len(one) if isinstance(one, list) else one for name, one in found.items()})
    assert found["acknowledged"] > 3 * TRIALS
    assert found["lost"] == []
    assert found["torn"] == []
    assert found["half"] > 10, "hardly a kill came while a file was written: these trials prove little"
