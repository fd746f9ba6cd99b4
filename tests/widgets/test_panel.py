"""What a panel promises: predict first, nothing changed behind your back, and words instead of silence."""

import gc
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.widgets.told import PREDICTION, line, opened, tell
from turbomath.panels.hot_air_is_thin import panel_hot_air_is_thin
from turbomath.table.errors import OutOfRangeError
from turbomath.table.quantities import QUANTITIES
from turbomath.widgets.answers import Answer, Readout
from turbomath.widgets.asking import Option, Question
from turbomath.widgets.controls import Control
from turbomath.widgets.desk import FAILED, Sheet
from turbomath.widgets.panel import Panel


def test_nothing_of_the_outcome_reaches_the_browser_before_a_prediction():
    panel = panel_hot_air_is_thin()
    for say, words in (
        ("slide", {"name": "boost", "text": "30"}),
        ("keep", {}),
        ("case", {"label": "B"}),
        ("system", {"system": "si"}),
        ("answer", {"text": ""}),
        ("answer", {"text": "C"}),
    ):
        frame = tell(panel, say, **words)
        assert frame["shown"] is None
        sent = json.dumps([panel.opening, frame], ensure_ascii=False)
        assert "0.1360" not in sent
        assert "2.178" not in sent
        assert "B holds more" not in sent
    assert "choose one answer" in frame["asked"][0]["fault"].lower()


@pytest.mark.parametrize("option", PREDICTION.options, ids=lambda option: option.words[:6])
def test_a_prediction_stays_beside_the_outcome_until_try_again(option):
    panel = panel_hot_air_is_thin()
    tell(panel, "answer", text=option.words, why="it is hotter")
    frame = tell(panel, "slide", name="boost", text="12.4")
    asked = frame["asked"][0]
    assert (asked["said"], asked["why"], asked["reply"]) == (option.words, "it is hotter", option.reply)
    assert "0.1360" in asked["outcome"]
    assert frame["shown"]
    frame = tell(panel, "again", question=0)
    assert frame["shown"] is None
    assert frame["asked"][0]["said"] == ""


def test_a_prediction_can_be_a_number_with_a_decimal_comma():
    asked = Question("How dense is it?", unit="lb/ft³")
    panel = Panel(Sheet("Density", asked, (Control("boost", 1e5),), lambda controls, system: Answer((), "So.", ())))
    frame = tell(panel, "answer", text="a lot")
    assert frame["shown"] is None
    assert "expected one number" in frame["asked"][0]["fault"]
    frame = tell(panel, "answer", text="0,12")
    assert frame["asked"][0]["said"] == "0,12 lb/ft³"
    assert frame["shown"]["sentence"] == "So."


@pytest.mark.parametrize(("typed", "psi"), [("15,25", 15.25), (" 7.5 ", 7.5), ("−2,5", -2.5), ("1e1", 10.0)])
def test_a_number_is_read_as_a_shop_writes_it_and_stays_as_typed(panel, typed, psi):
    frame = tell(panel, "type", name="boost", text=typed)
    assert panel._desk.record().boost == pytest.approx(psi * 6894.757293168)
    assert line(frame, "boost")["text"] == typed.strip()


def test_out_of_range_is_said_in_words_and_not_clamped(panel):
    frame = tell(panel, "type", name="boost", text="80")
    control = line(frame, "boost")
    assert control["text"] == "80"
    assert control["fault"].startswith("Out of range: this lesson goes from 0 to 40 psi.")
    assert "80.0 psi of boost" in frame["shown"]["sentence"]
    assert frame["shown"]["pictures"][0]["y"]["high"] >= 80


def test_what_cannot_be_is_refused_with_what_is_still_shown(panel):
    frame = tell(panel, "type", name="manifold_temperature", text="-500")
    control = line(frame, "manifold_temperature")
    refusal, still = control["fault"].split(". ")
    assert refusal == "−500 °F cannot be: manifold temperature must be an absolute temperature above 0 K"
    assert still == "The panel still shows 300 °F."
    assert control["text"] == "-500"
    assert "300 °F" in frame["shown"]["sentence"]
    assert line(tell(panel, "type", name="manifold_temperature", text="310"), "manifold_temperature")["fault"] == ""


def test_boost_below_vacuum_is_said_in_the_words_of_the_shop(panel):
    frame = tell(panel, "type", name="boost", text="-20")
    assert "below a full vacuum" in frame["error"]["words"]
    assert "last case that could be worked out" in frame["error"]["words"]
    assert "20.0 psi" in frame["shown"]["sentence"]
    assert tell(panel, "type", name="boost", text="10")["error"] is None


@given(st.text(max_size=60))
def test_no_text_breaks_a_panel_or_changes_a_number_silently(text):
    panel = opened()
    before = panel._desk.record()
    frame = tell(panel, "type", name="boost", text=text)
    assert frame["notice"] == ""
    changed = panel._desk.record() != before
    assert changed or line(frame, "boost")["fault"] or float(text.replace(",", ".")) == pytest.approx(20)
    json.dumps(frame, allow_nan=False)


def test_a_held_control_does_not_move_and_says_so():
    panel = panel_hot_air_is_thin()
    tell(panel, "answer", text=PREDICTION.options[0].words)
    control = line(panel.frame, "manifold_temperature")
    assert control["held"]
    assert control["words"] == "300 °F"
    frame = tell(panel, "slide", name="manifold_temperature", text="100")
    assert "is held: let it go first" in line(frame, "manifold_temperature")["fault"]
    assert line(frame, "manifold_temperature")["words"] == "300 °F"
    assert any(one["label"] == "temperature held" for one in frame["shown"]["pictures"][0]["series"])
    tell(panel, "hold", name="manifold_temperature", on=False)
    assert line(tell(panel, "slide", name="manifold_temperature", text="100"), "manifold_temperature")["text"] == "100"


def test_a_locked_control_cannot_be_let_go(panel):
    frame = tell(panel, "hold", name="barometer", on=False)
    assert line(frame, "barometer")["held"]
    assert line(tell(panel, "type", name="barometer", text="10"), "barometer")["words"] == "14.2 psi abs"


def test_a_kept_case_stands_beside_the_next_one_in_picture_readouts_and_table(panel):
    tell(panel, "slide", name="boost", text="10")
    density = tell(panel, "keep")["shown"]["readouts"][2]["text"]
    frame = tell(panel, "slide", name="boost", text="30")
    assert frame["shown"]["readouts"][2]["kept"] == density != frame["shown"]["readouts"][2]["text"]
    kept = [one for one in frame["shown"]["pictures"][0]["series"] if one["label"] == "kept"]
    assert [one["y"][0] for one in kept] == [pytest.approx(10)]
    assert "kept" in frame["shown"]["pictures"][0]["alt"]
    assert any(density in row for row in frame["shown"]["tables"][2]["rows"])
    frame = tell(panel, "system", system="si")
    assert frame["shown"]["readouts"][2]["kept"] == "1.377"
    frame = tell(panel, "drop")
    assert frame["shown"]["readouts"][2]["kept"] == ""
    assert len(frame["shown"]["tables"]) == 2 + len(frame["shown"]["engines"])


def test_a_kept_case_keeps_its_engine_below_the_next_one(panel):
    before = tell(panel, "slide", name="boost", text="10")["shown"]["engines"]
    tell(panel, "keep")
    after = tell(panel, "slide", name="boost", text="30")["shown"]["engines"]
    assert [one["title"] for one in after[2:]] == [f"kept: {one['title']}" for one in before]
    crowds = [sum(one["count"] for one in engine["wide"]["crowds"]) for engine in (after[0], after[2])]
    assert crowds[0] > crowds[1]


def test_reset_puts_everything_back_but_the_prediction_and_the_units(panel):
    start = opened()
    tell(start, "hold", name="manifold_temperature", on=True)
    for say, words in (
        ("type", {"name": "boost", "text": "x"}),
        ("slide", {"name": "boost", "text": "3"}),
        ("type", {"name": "manifold_temperature", "text": "55"}),
        ("keep", {}),
    ):
        tell(panel, say, **words)
    assert tell(panel, "reset") == tell(start, "reset")


def test_going_to_a_case_reproduces_the_worked_numbers(panel):
    assert tell(panel, "case", label="B")["shown"]["readouts"][2]["text"] == "0.1360"
    assert tell(panel, "case", label="A")["shown"]["readouts"][2]["text"] == "0.1215"


def fragile(**more):
    """Return an open panel whose lesson fails above 30 psi."""

    def answer(controls, system):
        if controls.boost > 2e5:
            raise ZeroDivisionError("a slip in the lesson")
        return Answer((), f"{controls.boost:.0f}", (Readout("boost", "1", "psi"),))

    asked = Question("?", (Option("yes", ""),))
    panel = Panel(Sheet("Fragile", asked, (Control("boost", 1e5),), answer, **more))
    tell(panel, "answer", text="yes")
    return panel


def test_an_exception_in_a_lesson_is_a_sentence_and_the_panel_goes_on():
    panel = fragile()
    frame = tell(panel, "type", name="boost", text="40")
    assert frame["error"]["words"].startswith(FAILED)
    assert "a slip in the lesson" in frame["error"]["details"]
    assert frame["shown"]["sentence"] == "100000"
    frame = tell(panel, "type", name="boost", text="10")
    assert frame["error"] is None
    assert frame["shown"]["sentence"] == "68948"


def test_a_message_that_makes_no_sense_is_answered_with_words(panel):
    for message in (
        {"say": "dance"},
        {"say": "slide"},
        {},
        {"say": "slide", "name": "torque", "text": "1"},
        {"say": "system", "system": "imperial"},
        {"say": "case", "label": ["A"]},
    ):
        panel._handle_custom_msg({**message, "turn": "1"}, [])
        assert panel.frame["notice"], message
    assert tell(panel, "slide", name="boost", text="1")["notice"] == ""


def test_a_fifth_control_in_sight_is_refused_and_more_takes_it():
    names = ("boost", "manifold_temperature", "barometer", "ambient_temperature", "effectiveness")
    controls = [Control(name, QUANTITIES[name].sensible[0]) for name in names]
    with pytest.raises(OutOfRangeError, match="at most 4"):
        Sheet("Five", PREDICTION, tuple(controls), None)
    controls[4] = Control("effectiveness", 0.8, more=True)
    assert Panel(Sheet("Five", PREDICTION, tuple(controls), None)).opening["controls"][4]["more"]


SHOWN = [name for name, row in QUANTITIES.items() if "gauge" not in row.us.split()]


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("name", SHOWN)
def test_a_control_of_any_quantity_takes_its_range_from_the_table(name, system):
    control = Control(name, QUANTITIES[name].sensible[0])
    low, high, step = control.scale(system)
    assert low < high
    assert 30 <= (high - low) / step <= 260
    for end in (low, high):
        value = control.read(f"{end:.12g}", system) if end or name not in IMPOSSIBLE_AT_ZERO else 0
        assert control.outside(value, system) == ""


IMPOSSIBLE_AT_ZERO = {name for name in SHOWN if QUANTITIES[name].sensible[0] == 0}


def test_two_hundred_changes_leave_nothing_behind(panel):
    def living():
        gc.collect()
        return len(gc.get_objects())

    def change(times):
        for turn in range(times):
            tell(panel, "slide", name="boost", text=f"{turn % 40}")

    change(60)
    before, comm, listeners = living(), panel.comm, len(panel._trait_notifiers)
    change(200)
    assert panel.comm is comm
    assert len(panel._trait_notifiers) == listeners
    assert living() - before < 120
