"""What every lesson promises, whatever it teaches: questions, replies, closed panels, words for any input."""

import itertools
import json
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import turbomath.panels
from tests.panels.opening import LESSON_OF, MAKERS, asked, notes, opened, shared, unseen
from tests.widgets.told import line, tell
from turbomath.panels.registry import LESSONS
from turbomath.pictures import air_path_printed
from turbomath.pictures.printed import svg
from turbomath.table.prose import ProseError
from turbomath.widgets.controls import Control, at_start
from turbomath.widgets.lesson import lesson as read_lesson
from turbomath.widgets.panel import Ticket

CODES = {f"M{turn}" for turn in range(1, 19)}
SAFETY = {"S1", "S2", "S3"}
NAMES = tuple(asked_name for one in LESSONS for asked_name in one.predictions)
JOBS = tuple(next(one for one in LESSONS if one.number == "09").predictions)  # lists with a bill
SLIDING = tuple(name for name in NAMES if name not in ("run_up", "live_lab", "lost_boost", *JOBS))  # nothing to slide
TICKETS = {name: (one, questions) for one in LESSONS for name, questions in one.tickets.items()}
each_panel = pytest.mark.parametrize("name", NAMES)
each_sliding = pytest.mark.parametrize("name", SLIDING)
each_ticket = pytest.mark.parametrize("name", TICKETS)
OURS = "the lesson's own sums failed"
WORDS = (
    "",
    "x",
    "nan",
    "inf",
    "1e999",
    "--5",
    "1,234",
    "0x10",
    "٣",
    "½",
    "None",
    "\x00",
    "<b>1</b>",
    "f()",
    "9" * 5000,
)
NUMBERS = ("0", "-0.0", "−3", "1e-300", "-1e7", "1e7", "1e300", "0,5")


@pytest.fixture(autouse=True)
def work(tmp_path, monkeypatch):
    """No test finds a run or a sheet that somebody left in the work folder."""
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path))


# The record, and the registry


def test_each_folder_is_a_lesson_and_stands_in_the_registry_once():
    folders = {path.parent.name for path in Path(turbomath.panels.__file__).parent.glob("*/lesson.toml")}
    assert sorted(one.name for one in LESSONS) == sorted(folders)
    assert [one.number for one in LESSONS] == sorted(one.number for one in LESSONS)
    assert len({one.number for one in LESSONS}) == len(LESSONS)


def test_each_lesson_knows_its_neighbours():
    assert LESSONS[0].previous == LESSONS[-1].next == ""
    for one, other in itertools.pairwise(LESSONS):
        assert (one.next, other.previous) == (other.name, one.name)


@pytest.mark.process
def test_a_list_of_lessons_opens_no_widget_and_nothing_slow():
    heavy = ("ipywidgets", "anywidget", "matplotlib", "pandas", "pint", "scipy", "CoolProp")
    code = f"import sys, turbomath.panels.registry; print([name for name in {heavy} if name in sys.modules])"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"


GOOD = """
number = "99"
title = "A lesson"
question = "What?"
minutes = "45"
needs = "nothing"
tasks = ["look"]
[panels.one]
title = "One"
prediction = "Is it so?"
outcome = "It is {much}."
[panels.one.cases]
start = "the start"
[[panels.one.options]]
words = "yes"
reply = "Yes."
right = true
[[tickets.folder]]
text = "Was it so?"
[[tickets.folder.options]]
words = "no"
reply = "Look again."
mistake = "M1"
"""


def panel_one():
    """Stand for a function that makes a panel."""


def folder(tmp_path, text):
    place = tmp_path / "folder"
    place.mkdir()
    (place / "lesson.toml").write_text(text, encoding="utf-8")
    return str(place / "__init__.py")


def test_a_lesson_is_what_its_file_says(tmp_path):
    found = read_lesson(folder(tmp_path, GOOD), panel_one)
    assert (found.name, found.notebook, found.head) == ("folder", "99_folder", "Lesson 99. 45 minutes. Task: look.")
    assert found.predictions["one"].options[0].right
    assert found.ticket[0].options[0].mistake == "M1"
    words = found.words["one"]
    assert words.asked(lambda system: {"much": system}).outcome("si") == "It is si."
    sheet = words.sheet((Control("boost", 1e5),), None, cases={"start": {"boost": 2e5}})
    assert sheet.cases == (("the start", {"boost": 2e5}),)
    with pytest.raises(ProseError, match="cases must be other"):
        words.sheet((Control("boost", 1e5),), None, cases={"other": {}})
    with pytest.raises(ProseError, match="places"):
        words.asked(lambda system: {"many": system}).outcome("si")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('needs = "nothing"\n', "", "'needs' is missing"),
        ('title = "A lesson"', 'title = "A lesson"\nwarning = "x"', "warning is used nowhere"),
        ('reply = "Yes."\nright', 'reply = "Yes."\nrigth', "rigth is used nowhere"),
        ('reply = "Yes."', 'reply = ""', "must be a sentence"),
        ('outcome = "It is {much}."\n', "", "'outcome' is missing"),
        ("panels.one", "panels.two", "the panels must be one; found two"),
        ('mistake = "M1"', "mistake = 1", "must be of the kind str"),
        ("right = true", 'right = "yes"', "must be of the kind bool"),
    ],
)
def test_a_file_that_does_not_fit_is_refused_where_it_is_read(tmp_path, old, new, said):
    assert old in GOOD
    with pytest.raises(ProseError, match=said):
        read_lesson(folder(tmp_path, GOOD.replace(old, new)), panel_one)


# Questions


@each_panel
def test_a_prediction_has_one_right_option_and_names_only_known_mistakes(name):
    *options, last = asked(name).options
    right = [one for one in asked(name).options if one.right]
    assert len(right) == 1
    assert last.words == "something else" or name == "live_lab"
    assert all(one.mistake in CODES | {""} for one in options)
    assert not right[0].mistake
    assert len({one.words for one in asked(name).options}) == len(asked(name).options)
    assert len({one.reply for one in asked(name).options}) == len(asked(name).options)


@each_ticket
def test_one_option_of_a_ticket_is_right_and_each_wrong_one_names_a_mistake(name):
    lesson, questions = TICKETS[name]
    assert 2 <= len(questions) <= 4
    for question in questions:
        *options, last = question.options
        assert last.words == "my answer is not here"
        assert sum(one.right for one in options) == 1
        known = CODES | (SAFETY if lesson.name == "start_here" else set())
        free = name == "is_ideal_air_good_enough" and question is questions[-1]  # its wrong answers are no usual slips
        assert all(one.mistake in known or (free and not one.mistake) for one in options if not one.right)
        assert all(one.reply for one in question.options)
        assert len({one.words for one in question.options}) == len(question.options)


def test_every_lesson_but_homework_ends_with_a_ticket():
    assert [one.name for one in LESSONS if not one.ticket] == ["homework"]


def test_the_mistakes_of_safety_are_in_the_notes():
    lesson = LESSONS[0]
    wrong = [one for questions in lesson.tickets.values() for one in questions for one in one.options if one.mistake]
    assert all(f"| {one.mistake} " in notes(lesson.name) for one in wrong)


@each_ticket
def test_no_reply_is_on_the_page_before_an_answer_and_each_option_gets_its_own(name):
    questions = TICKETS[name][1]
    ticket = Ticket(questions)
    sent = json.dumps([ticket.opening, ticket.frame], ensure_ascii=False)
    assert all(option.reply not in sent for question in questions for option in question.options)
    assert not [code for code in CODES | SAFETY if f'"{code}"' in sent]
    for place, question in enumerate(questions):
        fault = tell(ticket, "answer", question=place, text="")["asked"][place]["fault"]
        assert "choose one answer" in fault.lower()
        for option in question.options:
            told = tell(ticket, "answer", question=place, text=option.words)["asked"]
            assert told[place]["reply"] == option.reply
            assert not any(one["said"] for turn, one in enumerate(told) if turn != place)
            assert tell(ticket, "again", question=place)["asked"][place]["said"] == ""
    assert tell(ticket, "answer", question=7, text="x")["notice"]


# A panel before and after its prediction


@each_panel
def test_nothing_of_the_outcome_is_there_before_a_prediction(name):
    panel, open_ = MAKERS[name](), opened(name)
    controls = panel.opening["controls"]
    tries = [("keep", {}), ("answer", {"text": ""}), ("answer", {"text": "C"}), ("system", {"system": "us"})]
    tries += [("slide", {"name": one["name"], "text": "20"}) for one in controls]
    tries += [("case", {"label": label}) for label in panel.opening.get("cases", ())]
    tries += [("run", {"key": "generator_air_to_air"}), ("follow", {})] if "runs" in panel.opening else []
    told = [one.reply for one in asked(name).options] + [open_.frame["asked"][0]["outcome"]]
    if LESSON_OF[name].specimens.get(name):
        told.append(LESSON_OF[name].specimens[name])
    for say, words in tries:
        sent = json.dumps([panel.opening, tell(panel, say, **words)], ensure_ascii=False)
        assert panel.frame["shown"] is None
        assert not [one for one in told if json.dumps(one, ensure_ascii=False)[1:-1] in sent], say


@each_panel
def test_each_option_gets_its_reply_beside_the_outcome_in_both_systems(name):
    panel = MAKERS[name]()
    for option in asked(name).options:
        unseen(panel, "answer", text=option.words, why="it is hotter")
        for system in ("us", "si"):
            told = panel._desk.asked.frame(system)
            assert (told["said"], told["why"], told["reply"]) == (option.words, "it is hotter", option.reply)
            assert told["outcome"]
            assert not {"{", "}", "nan", "None"} & set(told["outcome"].split())
        tell(panel, "again", question=0)
        assert panel.frame["asked"][0]["said"] == panel.frame["asked"][0]["outcome"] == ""
        assert panel.frame["shown"] is None


@each_panel
def test_after_the_outcome_the_readers_own_reason_stands_beside_how_it_is_explained_now(name):
    panel = MAKERS[name]()
    assert panel.opening["predict"]
    unseen(panel, "answer", text=asked(name).options[-1].words, why="hot air is thin")
    told = tell(panel, "now", text="mass counts")["asked"][0]
    assert (told["said"], told["why"], told["now"]) == (asked(name).options[-1].words, "hot air is thin", "mass counts")
    assert told["outcome"]
    assert tell(panel, "again")["asked"][0]["now"] == ""


@each_panel
def test_a_panel_opens_with_its_specimen(name):
    if name != "live_lab":  # it has no readings yet
        assert opened(name).frame["shown"]["sentence"] == LESSON_OF[name].specimens[name]


# A panel and its reader


@each_sliding
def test_a_case_is_kept_reset_comes_back_and_units_change_nothing(name):
    panel = opened(name)
    before, record = panel.frame["shown"], panel._desk.record()
    first = next(one for one in panel.frame["controls"] if "position" in one and not one["held"])
    tell(panel, "keep")
    frame = tell(panel, "slide", name=first["name"], text=f"{(first['low'] + first['high']) / 2 + first['step']:.10g}")
    assert [one["kept"] for one in frame["shown"]["readouts"]] == [one["text"] for one in before["readouts"]]
    assert frame["shown"]["readouts"] != before["readouts"]
    moved = panel._desk.record()
    assert moved != record
    tell(panel, "system", system="si")
    tell(panel, "system", system="us")
    assert panel._desk.record() == moved
    assert panel.frame["shown"] == frame["shown"]
    frame = tell(panel, "reset")
    assert frame["shown"] == before
    assert not frame["kept"]


@each_sliding
@pytest.mark.parametrize("system", ["us", pytest.param("si", marks=pytest.mark.long)])
def test_at_the_ends_of_every_control_there_is_an_answer_or_a_sentence(name, system):
    panel = opened(name, system)
    for control in [one for one in panel.frame["controls"] if "position" in one]:
        unseen(panel, "hold", name=control["name"], on=False)
        for end in (control["low"], control["high"]):
            frame = tell(panel, "slide", name=control["name"], text=f"{end:.12g}")
            json.dumps(frame, allow_nan=False)
            assert frame["notice"] == ""
            assert frame["error"] is None or OURS not in frame["error"]["words"], (control["name"], end)
        unseen(panel, "reset")


@each_sliding
def test_hostile_text_is_answered_in_words_and_changes_no_number_in_silence(name):
    """Each panel takes a share of the texts, beginning elsewhere; the long test below gives each panel any text."""
    panel, first = opened(name), SLIDING.index(name)
    names = itertools.cycle([one["name"] for one in panel.frame["controls"] if "position" in one])
    for turn in range(4):
        for texts in (WORDS, NUMBERS):
            typed_into_every_control(panel, [next(names)], [texts[(first + 4 * turn) % len(texts)]])
        unseen(panel, "reset")


def typed_into_every_control(panel, names, texts):
    """Type a text into each control; an answer, a sentence, or the number as it was."""
    for name, text in zip(names, texts, strict=True):
        unseen(panel, "hold", name=name, on=False)
        before, shown = panel._desk.record(), line(panel.frame, name)["text"]
        frame = tell(panel, "type", name=name, text=text)
        json.dumps(frame, allow_nan=False)
        assert frame["notice"] == ""
        assert frame["error"] is None or OURS not in frame["error"]["words"], text
        changed = panel._desk.record() != before
        assert changed or line(frame, name)["fault"] or as_typed(text) == pytest.approx(as_typed(shown))


def as_typed(text):
    return float(text.replace(",", ".").replace("−", "-"))


@pytest.mark.long
@each_sliding
@given(st.data())
def test_whatever_is_typed_there_is_an_answer_or_a_sentence(name, data):
    panel = shared(name, data.draw(st.sampled_from(["us", "si"])))
    unseen(panel, "reset")
    for control in panel._desk.choices.values():
        unseen(panel, "pick", name=control.name, key=data.draw(st.sampled_from([key for key, _ in control.options])))
    names = [one["name"] for one in panel.frame["controls"] if "position" in one]
    anything = st.one_of(st.text(max_size=30), st.floats(-1e7, 1e7).map("{:.6g}".format), st.just("0"))
    typed_into_every_control(panel, names, [data.draw(anything) for _ in names])


@each_panel
def test_a_message_that_makes_no_sense_is_answered_with_words(name):
    panel = MAKERS[name]()
    for message in (
        {"say": "dance"},
        {"say": "slide"},
        {},
        {"say": "slide", "name": "torque", "text": "1"},
        {"say": "case", "label": ["A"]},
        {"say": "pick", "name": "__class__", "key": "B"},
    ):
        panel._handle_custom_msg({**message, "turn": "1"}, [])
        assert panel.frame["notice"], message
        assert panel.frame["turn"] == "1"


@each_sliding
def test_at_most_four_controls_are_in_sight(name):
    in_sight = [one for one in MAKERS[name]().opening["controls"] if not (one["more"] or one["locked"])]
    assert 1 <= len(in_sight) <= 4


# What the script draws


KEYS = {"asked", "error", "shown"}
DRAWN = {"engines", "pictures", "sentence", "readouts", "tables"}


@each_panel
def test_the_script_finds_the_keys_it_reads(name):
    panel = opened(name) if name != "live_lab" else MAKERS[name]()
    assert {"title", "questions", "controls", "silence"} <= set(panel.opening)
    assert set(panel.frame) >= KEYS
    for question in panel.opening["questions"]:
        assert set(question) == {"text", "options", "unit", "entry", "stays"}
    if panel.frame["shown"]:
        assert set(panel.frame["shown"]) == DRAWN
        for picture in panel.frame["shown"]["pictures"]:
            assert picture["alt"]
            assert "nan" not in picture["alt"]
            assert {"title", "x", "y", "series", "texts", "heads", "rows"} <= set(picture)
        for engine in panel.frame["shown"]["engines"]:
            assert "nan" not in engine["alt"]
            for place in ("wide", "narrow"):
                assert set(engine[place]) == {"size", "lines", "crowds", "words", "dot"}
        assert panel.frame["shown"]["tables"]


@pytest.mark.parametrize("system", ["us", pytest.param("si", marks=pytest.mark.long)])
@each_panel
def test_the_pictures_print(name, system):
    if name == "live_lab":  # it draws what the tests of the pictures print
        return
    panel = opened(name)
    sheet = panel._desk.sheet
    record = panel._desk.record() if hasattr(panel._desk, "record") else at_start(sheet.controls)
    answer = sheet.answer(record, system)
    for engine in answer.engines:
        assert air_path_printed.svg(engine).count("<path") > 30
    for picture in answer.pictures:
        assert svg(picture).count("<path") > 5
        assert picture.rows
