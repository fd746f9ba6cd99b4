"""The three verdicts of a run as a report shows them: the answers first, then what stands behind the boost."""

from collections.abc import Sequence

from turbomath import units
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.verdicts import Verdicts, judge_run
from turbomath.lab.verdicts.known_boost import same_engine
from turbomath.paper.parts import Head, Table
from turbomath.table.errors import short
from turbomath.units.rounding import fixed, with_plus_or_minus

QUESTIONS = ("boost", "machines", "charge")


def verdicts(reduced: Reduced, baselines: Sequence[Reduced], system: str) -> Verdicts:
    """Return the verdicts of a run; the first of *baselines* that is the same engine tells what its boost was."""
    earlier = next((one.run for one in baselines if same_engine(reduced.run, one.run)), None)
    return judge_run(reduced, earlier, system=system)


def answers_table(found: Verdicts) -> Table:
    """Return the table of the three questions, each with its answer and what it was held against."""
    three = [getattr(found, name) for name in QUESTIONS]
    heads = (Head("question"), Head("answer"), Head("held against"))
    rows = tuple((one.question, one.answer, one.source or "nothing") for one in three)
    return Table("Three questions to this run", heads, rows, style="words")


def boost_table(found: Verdicts, system: str) -> Table | None:
    """Return boost as read and as it should be, by point; None where nothing says what it should be."""
    unit = units.display("boost", system)
    rows = []
    for one in found.boost.points:
        read, due, width = (
            float(units.from_si(value, unit, "boost")) for value in (one.measured, one.expected, one.plus_or_minus)
        )
        rows.append((short(one.point, 24), fixed(read, 1), with_plus_or_minus(due, width)))
    heads = (Head("point"), Head("boost as read", unit), Head("boost that this engine should make", unit))
    return Table("Boost", heads, tuple(rows)) if rows else None
