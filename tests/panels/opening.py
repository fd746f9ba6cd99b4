"""Panels as the tests of the lessons handle them: opened, numbers read, sliders set by lot; and what is written."""

import functools
import json

from hypothesis import strategies as st

from tests.widgets.told import line, tell
from turbomath.disk import files
from turbomath.panels.registry import LESSONS

BY_NAME = {lesson.name: lesson for lesson in LESSONS}
LESSON_OF = {name: lesson for lesson in LESSONS for name in lesson.words}
MAKERS = {make.__name__.removeprefix("panel_"): make for lesson in LESSONS for make in lesson.panels}


def asked(name):
    """Return the question that opens a panel."""
    return LESSON_OF[name].predictions[name]


def opened(name, system="us", option=0):
    """Return a panel with a prediction made."""
    panel = MAKERS[name]()
    tell(panel, "answer", text=asked(name).options[option].words)
    tell(panel, "system", system=system)
    return panel


def readouts(frame):
    """Return label -> text of the numbers below the sentence."""
    return {one["label"]: one["text"] for one in frame["shown"]["readouts"]}


def outcome(panel):
    """Return what the air does, as it stands beside the prediction."""
    return panel.frame["asked"][0]["outcome"]


def number(text):
    """Return a number as it is shown; a minus is real, thousands may have a comma."""
    return float(text.replace("−", "-").replace(",", ""))


def same(text, value):
    """Whether a text is *value* to its last printed digit."""
    places = len(text.partition(".")[2])
    return abs(number(text) - value) <= 0.5 * 10.0**-places + 1e-7 + 1e-9 * abs(value)


@functools.cache
def shared(name, system="us", option=0):
    """Return a panel that all random cases share: it is opened once."""
    return opened(name, system, option)


def unseen(panel, say, **words):
    """Do what the reader did without drawing it."""
    panel._desk.hear(say, **words)


def slid(panel, texts, say="slide"):
    """Slide controls to these texts and return the frame that is drawn then."""
    *before, (last, text) = texts.items()
    for name, early in before:
        unseen(panel, say, name=name, text=early)
    return tell(panel, say, name=last, text=text)


def typed(panel, **texts):
    """Type a number into each of these controls and return the frame."""
    frame = slid(panel, texts, "type")
    assert not [name for name in texts if "cannot be" in line(frame, name)["fault"]]
    return frame


def places_of(panel, name):
    """Return a strategy for the places of a slider, as text."""
    control = line(panel.frame, name)
    steps = round((control["high"] - control["low"]) / control["step"])
    return st.integers(0, steps).map(lambda turn: f"{control['low'] + turn * control['step']:.10g}")


def notebook(name):
    """Return the notebook of a lesson as JSON gives it."""
    path = files.shipped("lessons") / f"{BY_NAME[name].notebook}.ipynb"
    return json.loads(path.read_text(encoding="utf-8"))


def words(name):
    """Return all that a lesson's notebook says."""
    return "\n".join("".join(cell["source"]) for cell in notebook(name)["cells"] if cell["cell_type"] == "markdown")


def notes(name):
    """Return the teaching notes of a lesson."""
    folder = files.shipped("lessons") / "teaching_notes"
    return (folder / f"{BY_NAME[name].notebook}.md").read_text(encoding="utf-8")
