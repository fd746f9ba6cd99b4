"""The substitute's sheet: one page to teach a lesson from, without a projector and without Python.

Every word and number of it stands elsewhere: in the lesson's record, its panel, its notebook or its teaching notes.
"""

import re
from dataclasses import dataclass, replace

from turbomath.handouts import texts
from turbomath.handouts.lesson_page import lettered
from turbomath.handouts.shown import cases, sketch
from turbomath.paper.markdown import markdown
from turbomath.paper.page import page
from turbomath.table.prose import ProseError
from turbomath.units.rounding import NO_VALUE
from turbomath.widgets.asking import Question
from turbomath.widgets.desk import Desk
from turbomath.widgets.lesson import Lesson

STEPS, VOTE, BOARD = "Without a projector", ("The vote to expect", "What to expect"), "Worked numbers"
TO_WRITE_IN = "## Write it down"
_CODE = re.compile(r" \(M\d+(?:, M\d+)*\)")  # of the instructor's list of mistakes
COUNT, MOST_CASES, MOST_FURTHER, MOST_SAID = 3, 2, 3, 5


@dataclass(frozen=True)
class Asked:
    """A question with its options as (letter, words, reply, whether it is right), and what the air does."""

    text: str
    options: tuple[tuple[str, str, str, bool], ...]
    outcome: str


def substitute_page(lesson: Lesson) -> str:
    """Return the substitute's sheet of a lesson as HTML: one page on Letter and on A4.

    Raises
    ------
    ProseError
        If the teaching notes lack the three steps.
    """
    parts = texts.notes(lesson)
    panel, *others = (make() for make in lesson.panels)
    vote = texts.beginning(parts, *VOTE)
    return page(
        "substitute.html",
        title=f"{lesson.heading}: for a substitute",
        invented=True,
        lesson=lesson,
        steps=_steps(lesson, parts),
        first=_asked(panel.desk.asked.question),
        others=[_asked(one.desk.asked.question) for one in others[:MOST_FURTHER]],
        expected=_expected(vote),
        they_say=[tuple(map(_words, row)) for row in _said(vote)[:MOST_SAID]],
        sketch=sketch(panel),
        **_numbers(panel),
        board=markdown(texts.beginning(parts, BOARD).split("\n\n")[0]),
        copied=_copied(lesson),
        ticket=[_ticket(one) for one in lesson.ticket],
    )


def _asked(one: Question) -> Asked:
    words = lettered(one.text, one.sheet()["options"])["options"]
    no_answer = next((option for option in one.options[-1:] if not (option.right or option.mistake)), None)
    pairs = zip(words, one.options, strict=True)
    told = tuple(
        (letter, words, "" if option is no_answer else option.reply, option.right) for (letter, words), option in pairs
    )
    return Asked(one.text, told, one.outcome("us") if one.outcome else "")


def _ticket(one: Question) -> Asked:
    """A question of the ticket, short: of each reply its first sentence, and no option for another answer."""
    options = [option for option in one.options if option.right or option.mistake] or one.options
    return _asked(replace(one, options=tuple(replace(option, reply=_first(option.reply)) for option in options)))


def _first(text):
    return re.split(r"(?<=[.!?])\s", text)[0]


def _numbers(panel):
    """What stands in the first two cases, (name, first, second) in US units and SI; and what is the same in both."""
    columns = list(cases(panel).items())[:MOST_CASES] if isinstance(panel.desk, Desk) else []
    if not columns:
        return {"names": [], "numbers": [], "same": []}
    first, last = columns[0][1], columns[-1][1]
    rows = [(name, value, last.get(name, NO_VALUE)) for name, value in first.items()]
    alone = first is last
    return {
        "names": [] if alone else [name for name, _ in columns],
        "numbers": [] if alone else [row for row in rows if row[1] != row[2]],
        "same": [row[:2] for row in rows if row[1] == row[2]],
    }


def _steps(lesson, parts):
    """The steps as (minutes, what you do, what it shows)."""
    heads, rows = texts.table(texts.beginning(parts, STEPS), "minutes", f"teaching_notes/{lesson.notebook}.md")
    if len(rows) != COUNT or len(heads) != COUNT:
        raise ProseError(f"teaching_notes/{lesson.notebook}.md: {COUNT} steps are needed below {STEPS!r}.")
    return [tuple(map(_words, row)) for row in rows]


def _expected(vote):
    """What the first vote will be, and what to do: of the first question in a table, else in words."""
    found = next((rows[0] for heads, rows in texts.tables(vote) if heads[0] == "question"), None)
    return _words(": ".join(found[1:]) if found else texts.without_tables(vote))


def _said(vote):
    """The wrong ideas: what they say, what is behind it, what helps."""
    return next((rows for heads, rows in texts.tables(vote) if heads[0] == "they say"), [])


def _copied(lesson):
    """The table that the class copies: (heads, the first cell of each row)."""
    source = next(words for kind, words in texts.cells(lesson) if words.startswith(TO_WRITE_IN))
    heads, rows = texts.tables(source)[0]
    return heads, [row[0] for row in rows]


def _words(text):
    """Markdown of one paragraph, as words within another."""
    return markdown(_CODE.sub("", text)).strip().removeprefix("<p>").removesuffix("</p>")
