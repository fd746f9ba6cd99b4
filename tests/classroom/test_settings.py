"""The settings of one launch: what of the user's environment gets in."""

import os
from pathlib import Path

from turbomath.classroom import settings


def test_what_the_user_put_in_the_environment_still_reaches_the_lesson(tmp_path, monkeypatch):
    monkeypatch.setenv("TURBOMATH_WORK", "kept")
    monkeypatch.setenv("JUPYTER_ANYTHING", "dropped")
    monkeypatch.setenv("PYTHONPATH", os.pathsep.join(["here", ""]))
    found = settings.environment(tmp_path)
    assert found["TURBOMATH_WORK"] == "kept"
    assert "JUPYTER_ANYTHING" not in found
    assert all(Path(entry).is_absolute() for entry in found["PYTHONPATH"].split(os.pathsep))
