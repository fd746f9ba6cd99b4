"""A lesson on paper, in the order of its notebook; what it asks stands on the first sheet, the answers behind it."""

import string
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from turbomath.handouts import texts
from turbomath.handouts.shown import shown
from turbomath.paper.markdown import markdown
from turbomath.paper.page import page
from turbomath.widgets.asking import Question
from turbomath.widgets.lesson import Lesson

LETTERS = string.ascii_uppercase
LEFT_OUT = ("## Keys",)  # on paper there is nothing to press
SORTS = {"## Write it down": "to-write-in", texts.ABOUT: "about"}  # how a cell begins that is set in its own way


@dataclass(frozen=True)
class Part:
    """One part of the page: its sort, which the template knows, and what it holds."""

    sort: str
    content: Any


def lesson_page(lesson: Lesson) -> str:
    """Return a lesson as HTML that prints."""
    return page(
        "lesson.html",
        title=lesson.heading,
        invented=True,
        lesson=lesson,
        predictions=[lettered(one.text, one.sheet()["options"]) for one in lesson.predictions.values()],
        parts=[one for kind, source in texts.cells(lesson) for one in _parts(lesson, kind, source)],
    )


def lettered(text: str, options: Sequence[str]) -> dict[str, Any]:
    """Return a question with (letter, words) of each option; a letter that the words begin with is not said twice."""
    told = [(letter, words.removeprefix(f"{letter}: ")) for letter, words in zip(LETTERS, options, strict=False)]
    return {"text": text, "options": told}


def made(lesson: Lesson, name: str) -> Any:
    """Return what a function of the lesson's own folder makes, such as its panel or its ticket."""
    return vars(sys.modules[lesson.panels[0].__module__])[name]()


def _parts(lesson, kind, source):
    if kind == "markdown":
        if not source.startswith(LEFT_OUT):
            sort = next((name for start, name in SORTS.items() if source.startswith(start)), "")
            yield Part("words", {"sort": sort, "words": markdown(texts.on_paper(source))})
    elif texts.called(source).startswith("cautions"):
        yield Part("cautions", "whole=True" in source)
    else:
        yield _made_part(lesson, texts.called(source))


def _made_part(lesson, name):
    found = made(lesson, name)
    if hasattr(found.desk, "printed"):
        asked = lesson.words.get(name.removeprefix("panel_"))
        told = {"outcome": _outcome(found), "steps": _steps(found)} if asked and asked.prediction else {}
        return Part("panel", {"outcome": None, "steps": [], **told, "shown": shown(found)})
    asked = [{**lettered(one["text"], one["options"]), "entry": one["entry"]} for one in found.opening["questions"]]
    return Part("ticket", {"title": found.opening["title"], "questions": asked})


def _outcome(panel):
    """Return the right letter, the reply to it, and what the air does in US and SI units."""
    asked = panel.desk.asked.question
    us, si = (asked.outcome(system) for system in ("us", "si"))
    return {"right": right(asked), "reply": asked.answer(), "us": us, "si": si if si != us else ""}


def _steps(panel):
    """Return the tasks beside a panel, which are on the screen once it is open."""
    panel.desk.asked.go_on()
    return [markdown(words) for words, _ in panel.desk.frame().get("steps", [])]


def right(asked: Question) -> str:
    """Return the letter of the right option, or nothing where none is right alone."""
    return " or ".join(letter for letter, one in zip(LETTERS, asked.options, strict=False) if one.right)
