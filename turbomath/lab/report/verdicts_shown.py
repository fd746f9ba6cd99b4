"""The three verdicts of a run as a report shows them: the answers first, then what stands behind the boost."""

from collections.abc import Iterable, Sequence

from turbomath import units
from turbomath.lab.checks.flags import Flag, doubtful_points
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.stations import ENGINE_OFF
from turbomath.lab.report.tables import six_figures
from turbomath.lab.run.readings import Run
from turbomath.lab.verdicts import FAILS, HOLDS, UNKNOWN, Verdict, Verdicts, judge_run
from turbomath.lab.verdicts.known_boost import EARLIER, FITTED, MAKER, MODEL, same_engine
from turbomath.units.rounding import with_plus_or_minus

ANSWERS = {HOLDS: "yes", FAILS: "no", UNKNOWN: "cannot tell"}
ANSWER_HEADS = ("boost as it should be", "machines as designed", "charge fits the boost")
SHAFT_HEAD = "shaft closes"
SOURCES = {MAKER: "the maker", EARLIER: "the earlier run", FITTED: "the fitted engine", MODEL: "a model"}


def verdicts(reduced: Reduced, baselines: Sequence[Reduced], system: str, flags: Iterable[Flag] = ()) -> Verdicts:
    """Return the verdicts of a run; the first of *baselines* that is the same engine tells what its boost was.

    Points with a red one among *flags*, or where the banks differ, are what to look at first.
    """
    beside = [one.run for one in baselines]
    same = [run for run in beside if same_engine(reduced.run, run)]
    return judge_run(reduced, next(iter(same or beside), None), system=system, doubtful=doubtful_points(flags))


def answered(found: Verdicts) -> list[tuple[str, Verdict]]:
    """Return for each of the three questions its answer in one word, and the verdict."""
    three = (found.boost, found.machines, found.charge)
    return [(ANSWERS[one.answer], one) for one in three]


def shaft_answered(found: Verdicts) -> list[tuple[str, Verdict]]:
    """Return whether the shaft closes, as `answered` does; nothing where it was not asked."""
    return [] if found.shaft is None else [(ANSWERS[found.shaft.answer], found.shaft)]


def columns(found: Verdicts, run: Run, system: str) -> list[list[str]]:
    """Return the head and the rows of what reduced.csv has of the verdicts; the answers are those of the whole run."""
    unit = units.display("boost", system)
    heads = [f"expected boost [{unit}]", f"expected boost ± [{unit}]", "expected boost from", *ANSWER_HEADS, SHAFT_HEAD]
    answers = [answer for answer, _ in answered(found)] + ([answer for answer, _ in shaft_answered(found)] or [""])
    trusted = {one.row: one for one in reversed(found.boost.points)}  # the most trusted stands first
    rows = []
    for row, condition in enumerate(run.conditions):
        one = trusted.get(row)
        amounts = () if one is None else (one.expected, one.plus_or_minus)
        figures = [six_figures(float(units.from_si(value, unit, "boost"))) for value in amounts]
        rows.append(
            [
                *(figures or ["", ""]),
                "" if one is None else SOURCES[one.source],
                *(answers if condition not in ENGINE_OFF else [""] * len(answers)),
            ]
        )
    return [heads, *rows]


def boost_due(found: Verdicts, system: str) -> dict[int, tuple[str, str]]:
    """Return for each row of which something says it: the boost it should make with its ±, and what says so."""
    unit, due = units.display("boost", system), {}
    for one in reversed(found.boost.points):  # the most trusted stands first
        expected, width = (float(units.from_si(value, unit, "boost")) for value in (one.expected, one.plus_or_minus))
        due[one.row] = with_plus_or_minus(expected, width), SOURCES[one.source]
    return due
