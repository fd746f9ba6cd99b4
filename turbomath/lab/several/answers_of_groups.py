"""What the three verdicts say group by group: counted, and never joined, since all groups read one engine."""

from collections.abc import Sequence
from typing import NamedTuple

from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.report.verdicts_shown import ANSWER_HEADS, ANSWERS, answered
from turbomath.lab.verdicts import judge_run
from turbomath.paper.parts import Head, Table
from turbomath.table.errors import short

WHOLE_RUN = "whole run"
NEVER_JOINED = (
    "Each group's answer is its own. All groups read one engine, so ten answers alike are not ten proofs; where they "
    "differ, look at what was read."
)


class GroupAnswers(NamedTuple):
    """A group, by the name of its run, and its three answers in the order of `ANSWER_HEADS`."""

    group: str
    answers: tuple[str, ...]


def group_answers(reduced: Sequence[Reduced], system: str) -> list[GroupAnswers]:
    """Return the three verdicts of each group's own run, each in one word or two."""
    found = [(one.run.name, answered(judge_run(one, system=system))) for one in reduced]
    return [GroupAnswers(name, tuple(word for word, _ in three)) for name, three in found]


def counted(found: Sequence[GroupAnswers]) -> list[str]:
    """Return a sentence for each question: how many groups say yes, no, and cannot tell, and who says no."""
    return [_counted(question, place, found) for place, question in enumerate(ANSWER_HEADS)]


def table(found: Sequence[GroupAnswers]) -> Table:
    """Return a row for each group with its three answers."""
    heads = (Head("group"), *(Head(question) for question in ANSWER_HEADS))
    rows = [(f"{number}: {short(one.group, 30)}", *one.answers) for number, one in enumerate(found, 1)]
    return Table("What each group's own readings say of the whole run", heads, tuple(rows))


def csv_rows(found: Sequence[GroupAnswers]) -> list[tuple[str, ...]]:
    """Return the rows of pool.csv: step, quantity, unit, group, answer, no ±."""
    return [
        (WHOLE_RUN, question, "", one.group, one.answers[place], "")
        for place, question in enumerate(ANSWER_HEADS)
        for one in found
    ]


def _counted(question, place, found):
    groups = {word: [one.group for one in found if one.answers[place] == word] for word in ANSWERS.values()}
    parts = [f"{len(names)} {word}{_named(word, names)}" for word, names in groups.items() if names]
    return f"{question.capitalize()}? {', '.join(parts)}, of {len(found)} groups."


def _named(word, names):
    return f" ({', '.join(short(name, 30) for name in names)})" if word == "no" else ""
