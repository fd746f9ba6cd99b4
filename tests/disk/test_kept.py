"""What a reader did is there again: in the lesson that is open, in its work folder, and nowhere else."""

import os

import pytest

from tests.widgets.told import PREDICTION, line, tell
from turbomath.disk import kept
from turbomath.panels.hot_air_is_thin import LESSON, panel_hot_air_is_thin
from turbomath.panels.squeezing_heats_air import panel_compressor_efficiency

NOTHING = {"prediction": [], "ticket": []}
NAME = "03_hot_air_is_thin"
WRONG = PREDICTION.options[0]


@pytest.fixture
def lesson(tmp_path, monkeypatch):
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path))
    monkeypatch.setenv("JPY_SESSION_NAME", f"/any/where/{NAME}.ipynb")
    (tmp_path / ".turbomath").mkdir()
    return kept.folder() / f"{NAME}.journal"


def shown(panel):
    return {name: value for name, value in panel.frame.items() if name not in ("turn", "notice")}


def done(panel):
    """Predict with a reason, set, hold, type what cannot be, keep a case, and explain."""
    tell(panel, "answer", text=WRONG.words, why="it is hotter")
    tell(panel, "hold", name="manifold_temperature", on=False)
    tell(panel, "slide", name="boost", text="12")
    tell(panel, "keep")
    tell(panel, "type", name="boost", text="31,50")
    tell(panel, "type", name="manifold_temperature", text="hot")
    tell(panel, "now", text="mass counts")
    tell(panel, "hand", option=WRONG.words, more=3)
    return panel


def test_all_that_was_done_on_a_panel_is_there_in_the_next_python(lesson):
    before = shown(done(panel_hot_air_is_thin()))
    after = panel_hot_air_is_thin()
    assert shown(after) == before
    asked = after.frame["asked"][0]
    assert (asked["said"], asked["why"], asked["now"]) == (WRONG.words, "it is hotter", "mass counts")
    assert line(after.frame, "boost")["text"] == "31,50"
    assert "hot" in line(after.frame, "manifold_temperature")["text"]
    assert "hot" in line(after.frame, "manifold_temperature")["fault"]
    assert after.frame["kept"]
    for say in ("drop", "reset", "again"):
        tell(after, say)
    assert shown(panel_hot_air_is_thin()) == shown(after), "what was taken away stays away"


def test_an_answer_on_the_ticket_is_there_again_and_counts_for_the_list_of_lessons(lesson):
    panel, ticket = panel_hot_air_is_thin(), LESSON.exit_ticket()
    for text in ("", "no such option"):
        tell(panel, "answer", text=text)
    assert kept.answered(NAME) == NOTHING
    for one in PREDICTION.options[:2]:
        tell(panel, "answer", text=one.words, question=0)
    tell(panel, "again", question=0)
    tell(ticket, "answer", text=LESSON.ticket[1].options[0].words, question=1)
    assert kept.answered(NAME) == {"prediction": [PREDICTION.text], "ticket": [LESSON.ticket[1].text]}
    assert LESSON.exit_ticket().frame["asked"] == ticket.frame["asked"]
    assert panel_hot_air_is_thin().frame["asked"][0]["said"] == ""


def test_the_run_that_was_picked_and_the_point_are_there_again(lesson):
    panel = panel_compressor_efficiency()
    tell(panel, "answer", text=panel.opening["questions"][0]["options"][0])
    tell(panel, "run", key="generator_air_to_air")
    row = panel.frame["readings"]["points"][1][0]
    tell(panel, "point", row=row)
    after = panel_compressor_efficiency()
    assert after.frame["readings"] == panel.frame["readings"]
    assert after.frame["readings"]["row"] == row
    tell(panel, "read", folder="my run")
    told = panel_compressor_efficiency().frame["readings"]
    assert (told["run"], told["folder"]) == ("own", "my run")
    assert told["fault"] == panel.frame["readings"]["fault"] != ""


def test_two_windows_add_to_each_other(lesson):
    one, other = panel_hot_air_is_thin(), panel_hot_air_is_thin()
    tell(one, "answer", text=WRONG.words, why="mine")
    tell(other, "slide", name="boost", text="12")
    tell(one, "system", system="si")
    assert line(other.frame, "boost")["text"] == "12.0"
    assert one.frame["asked"][0]["why"] == "mine"
    after = panel_hot_air_is_thin()
    assert after.frame["asked"][0]["why"] == "mine"
    assert after._desk.record().boost == other._desk.record().boost
    assert after.frame["system"] == "si"


def test_beginning_again_clears_this_lesson_or_every_one_but_no_strange_file(lesson, monkeypatch):
    done(panel_hot_air_is_thin())
    strange = kept.folder() / "letter.journal"
    strange.write_text("Dear friend,\n", encoding="utf-8")
    kept.forget("04_cooling_it_back")
    assert kept.answered(NAME) != NOTHING
    kept.forget(NAME)
    assert kept.answered(NAME) == NOTHING
    assert panel_hot_air_is_thin().frame["shown"] is None
    done(panel_hot_air_is_thin())
    kept.forget()
    assert kept.answered(NAME) == NOTHING
    assert strange.is_file()


def test_a_line_torn_by_a_power_cut_is_left_out_and_told_once(lesson):
    done(panel_hot_air_is_thin())
    with open(lesson, "ab") as stream:
        stream.write(b'0badc0de {"panel": "Which mani')
    after, ticket = panel_hot_air_is_thin(), LESSON.exit_ticket()
    assert "not whole, as after a power cut" in after.frame["journal"]
    assert ticket.frame["journal"] == "", "the first panel tells it"
    assert after.frame["asked"][0]["why"] == "it is hotter"
    tell(after, "slide", name="boost", text="7")
    assert panel_hot_air_is_thin()._desk.record().boost == after._desk.record().boost


@pytest.mark.parametrize("kind", ["text", "folder", "link"])
def test_a_strange_file_is_told_in_a_sentence_and_left_as_it_is(lesson, tmp_path, kind):
    lesson.parent.mkdir()
    if kind == "text":
        lesson.write_text(f"Dear friend {tmp_path.name},\n", encoding="utf-8")
    elif kind == "folder":
        lesson.mkdir()
    else:
        lesson.symlink_to(tmp_path / "elsewhere")
    panel = panel_hot_air_is_thin()
    said = panel.frame["journal"]
    assert f"{NAME}.journal: no line in it is one that this kit wrote. It was left as it is." in said
    assert f"kept in {NAME} 2.journal" in said
    assert panel.frame["shown"] is None
    done(panel)
    assert panel_hot_air_is_thin().frame["asked"][0]["why"] == "it is hotter"
    assert lesson.is_symlink() or lesson.is_dir() or lesson.read_text(encoding="utf-8").startswith("Dear friend")
    assert not (tmp_path / "elsewhere").exists()
    kept.forget(NAME)
    assert os.path.lexists(lesson)


def test_what_the_disk_refuses_is_told_and_tried_again(lesson, monkeypatch):
    panel = panel_hot_air_is_thin()
    lesson.parent.mkdir()
    lesson.symlink_to("/dev/full")
    tell(panel, "answer", text=WRONG.words, why="it is hotter")
    assert panel.frame["journal"].startswith("Not kept: ")
    assert panel.frame["shown"], "the panel goes on"
    lesson.unlink()
    assert tell(panel, "slide", name="boost", text="7")["journal"] == ""
    assert panel_hot_air_is_thin().frame["asked"][0]["why"] == "it is hotter"


def test_what_no_longer_fits_is_left_out(lesson):
    panel = done(panel_hot_air_is_thin())
    memory = kept.Kept(panel.opening["title"], "prediction")
    memory.keep({"values": {"boost": "12", "torque": 3, "barometer": -1.0, "manifold_temperature": "x"}, "held": 3})
    memory.keep({"typed": [], "kept": 1})
    memory.keep({"asked": {PREDICTION.text: {"said": "an option of another edition", "votes": ["?"]}}, "system": "cgs"})
    after = panel_hot_air_is_thin()
    assert after.frame["asked"][0]["said"] == ""
    assert after.frame["system"] == "us"
    assert after._desk.record().barometer == panel._desk.record().barometer
    assert line(after.frame, "boost")["text"] == "20.0"


def test_without_a_lesson_or_its_folder_nothing_is_written(lesson, tmp_path, monkeypatch):
    monkeypatch.delenv("JPY_SESSION_NAME")
    done(panel_hot_air_is_thin())
    monkeypatch.setenv("JPY_SESSION_NAME", f"{NAME}.ipynb")
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path / "nowhere"))
    done(panel_hot_air_is_thin())
    assert list(tmp_path.rglob("*.journal")) == []
