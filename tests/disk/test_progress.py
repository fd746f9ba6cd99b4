"""What is done is noted for the lesson that is open, in its work folder, and nowhere else."""

import pytest

from tests.widgets.told import PREDICTION, tell
from turbomath.disk import progress
from turbomath.panels.hot_air_is_thin import LESSON, panel_hot_air_is_thin

NOTHING = {"prediction": [], "ticket": []}


@pytest.fixture
def lesson(tmp_path, monkeypatch):
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path))
    monkeypatch.setenv("JPY_SESSION_NAME", "/any/where/03_hot_air_is_thin.ipynb")
    (tmp_path / ".turbomath").mkdir()
    return "03_hot_air_is_thin"


def test_an_answer_is_noted_once_and_what_was_not_taken_is_not(lesson):
    panel, ticket = panel_hot_air_is_thin(), LESSON.exit_ticket()
    for text in ("", "no such option"):
        tell(panel, "answer", text=text)
    assert progress.answered(lesson) == NOTHING
    for one in PREDICTION.options[:2]:
        tell(panel, "answer", text=one.words, question=0)
    tell(ticket, "answer", text=LESSON.ticket[1].options[0].words, question=1)
    assert progress.answered(lesson) == {"prediction": [PREDICTION.text], "ticket": [LESSON.ticket[1].text]}
    progress.forget()
    assert progress.answered(lesson) == NOTHING


def test_without_a_lesson_or_its_folder_nothing_is_written(lesson, tmp_path, monkeypatch):
    monkeypatch.delenv("JPY_SESSION_NAME")
    progress.note("ticket", "which?")
    monkeypatch.setenv("JPY_SESSION_NAME", "03_hot_air_is_thin.ipynb")
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path / "nowhere"))
    progress.note("ticket", "which?")
    assert list(tmp_path.rglob("*.json")) == []


@pytest.mark.parametrize("torn", ["", "{", "[]", '{"ticket": 3}', '{"prediction": [1], "ticket": null}'])
def test_a_torn_note_counts_as_nothing_done(lesson, torn):
    progress.note("ticket", "which?")
    (progress.folder() / f"{lesson}.json").write_text(torn, encoding="utf-8")
    assert progress.answered(lesson) == NOTHING
