"""A lesson as one page for any browser: the words of its notebook, and its panels with all they can show."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from markupsafe import Markup

from turbomath.handouts import texts
from turbomath.handouts.lesson_page import lettered, made
from turbomath.handouts.shown import Shown, shown
from turbomath.paper.markdown import markdown
from turbomath.paper.page import in_script, page
from turbomath.table.prose import read
from turbomath.widgets.lesson import Lesson
from turbomath.widgets.panel import SCRIPT, STYLE

_HERE = Path(__file__).parent
CAUTIONS = "cautions"  # how the functions are called that show them
_FILES = ("unpack", "drawn", "asked", "controls", "replay", "mount")
_NOTES = re.compile(r" For the instructor: \[[^]]*\]\([^)]*\)\.")  # they are no part of what a student gets


@dataclass(frozen=True)
class Part:
    """One part of the page: its sort, which the template knows, and what it holds."""

    sort: str
    content: Any
    name: str = ""
    still: Shown | None = None


def panel_names(lesson: Lesson) -> list[str]:
    """Return the functions that make the panels, figures and tickets of a lesson, in the order of its notebook."""
    called = [texts.called(source) for kind, source in texts.cells(lesson) if kind == "code"]
    return [name for name in called if not name.startswith(CAUTIONS)]


def pocket_page(lesson: Lesson, records: Mapping[str, Any], beside: Sequence[Lesson] = ()) -> str:
    """Return a lesson as HTML that needs nothing but a browser.

    *records* has what was recorded of each of `panel_names`, or None; *beside* are the lessons that it can link to.
    """
    return page(
        "pocket.html",
        title=lesson.heading,
        invented=True,
        lesson=lesson,
        parts=list(_parts(lesson, records)),
        others=[one for one in beside if one.name in (lesson.previous, lesson.next)],
        alone=not beside,
        words=words(),
        words_record=in_script(words()),
        script=Markup(_script()),
        panel_style=Markup(STYLE),
        css=Markup((_HERE / "pocket.css").read_text(encoding="utf-8")),
    )


def index_page(lessons: Sequence[Lesson]) -> str:
    """Return the page that leads to the lessons in the same folder."""
    return page(
        "pocket_index.html",
        title=words()["index_head"],
        invented=False,
        lessons=lessons,
        words=words(),
        css=Markup((_HERE / "pocket.css").read_text(encoding="utf-8")),
    )


def words() -> dict[str, str]:
    """Return what the recorded model says in its own words, by name."""
    prose = read(__file__, "words.toml")
    return {name: prose.raw(name) for name in prose.names()}


def _parts(lesson: Lesson, records: Mapping[str, Any]) -> Iterator[Part]:
    for kind, source in texts.cells(lesson, title=True):
        if kind == "markdown":
            yield Part("words", markdown(_NOTES.sub("", source).removeprefix(f"# {lesson.heading}\n")))
        elif texts.called(source).startswith(CAUTIONS):
            yield Part("cautions", "whole=True" in source)
        else:
            yield _panel(lesson, texts.called(source), records[texts.called(source)])


def _panel(lesson, name, record):
    panel = made(lesson, name)
    still = shown(panel) if hasattr(panel.desk, "printed") else None
    if record is None:
        asked = [lettered(one["text"], one["options"]) for one in panel.opening["questions"]]
        return Part("not recorded", {"title": panel.opening["title"], "said": _not_recorded(lesson), "asked": asked})
    return Part("panel", in_script(record), name, still)


def _not_recorded(lesson):
    return words()["not_recorded"].format(number=lesson.number)


def _script():
    """The panels' own script, and the recorded model in a scope of its own."""
    own = "\n".join((_HERE / f"{name}.js").read_text(encoding="utf-8") for name in _FILES)
    return f"{SCRIPT}\n{{\n{own}\n}}"
