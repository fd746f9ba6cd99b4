"""The class pool: what several groups read on one engine, side by side, and whether they differ more than gauges do."""

from collections.abc import Sequence
from pathlib import Path

import numpy as np

from turbomath import units
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.report import faults_shown
from turbomath.lab.report.compressor_line_shown import LineShown, line_shown
from turbomath.lab.report.page_figure import page_figure
from turbomath.lab.run.readings import Run
from turbomath.lab.several import answers_of_groups, shared_steps
from turbomath.lab.several.answers_of_groups import GroupAnswers
from turbomath.lab.several.shared_steps import Compared, amount, head, judged_by
from turbomath.paper.parts import Head, Table
from turbomath.pictures.run_by_run import picture_run_by_run
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES

TITLE = "Class pool: one engine, several groups"
OWN_GAUGES = (
    "The ± takes the gauges of each group to err on their own. Groups that read the same gauges share their errors, "
    "and should agree better than that."
)

UNTOLD = "What fault would show the pooled readings cannot be said yet. {}"
DIFFER = (
    "The groups differ by more than their gauges allow in {}. Look there first: a mean hides which of them is right."
)


def write(
    reduced: Sequence[Reduced], folder: Path | str, system: str, earlier: Run | None = None, *, own: bool = True
) -> tuple[list[str], list[Path]]:
    """Write pool.html and pool.csv into *folder*; return (sentences, paths).

    Parameters
    ----------
    reduced : sequence of Reduced
        One run of each group, of one engine.
    folder : path
        Where the two files go; never a run's own folder.
    system : "us" or "si"
        The units shown.
    earlier : Run, optional
        The engine's *own* earlier run, or one of another of its make and type, for the fault finder.
    own : bool
        Which of the two it is.

    Raises
    ------
    TurbomathError
        If the runs are not of one engine or share no load step.
    """
    runs, found = [one.run for one in reduced], shared_steps.compared(reduced)
    answers, line = answers_of_groups.group_answers(reduced, system), line_shown(reduced, system)
    said = [*answers_of_groups.counted(answers), *pool_sentences(found, runs, system)]
    faults, first = _faults(reduced, found, earlier, own)
    page = _page(reduced, found, said, answers, line, system, faults_shown.section(faults), first)
    texts = {"pool.html": page, "pool.csv": pool_csv(found, runs, system, answers, line)}
    said += line.sentences if line else []
    told = [one for one in (first, faults_shown.on_terminal(faults)) if one]
    return [*said, "", *told], shared_steps.write(folder, runs, texts)


def spread(one: Compared) -> tuple[float, float, int]:
    """Return (greatest difference of two groups, what their gauges allow, place of the group furthest off) [SI]."""
    values, widths = one.values[one.known], one.widths[one.known]
    low, high = int(np.argmin(values)), int(np.argmax(values))
    furthest = one.known[int(np.argmax(np.abs(values - np.median(values))))]
    return values[high] - values[low], float(np.hypot(widths[low], widths[high])), int(furthest)


def pool_sentences(found: Sequence[Compared], runs: Sequence[Run], system: str) -> list[str]:
    """Say at the step with most boost, quantity by quantity, whether the groups differ by more than their gauges."""
    return [_sentence(one, runs, system) for one in shared_steps.at_most_boost(found)]


def pool_csv(
    found: Sequence[Compared],
    runs: Sequence[Run],
    system: str,
    answers: Sequence[GroupAnswers] = (),
    line: LineShown | None = None,
) -> str:
    """Return pool.csv as text: a row for each group, step and quantity, for each group and question, then the line."""
    rows = [("step", "quantity", "unit", "group", "value", "±")]
    for one in found:
        unit = units.display(one.name, system)
        rows += [
            (
                one.step.replace("\u00a0", " "),
                QUANTITIES[one.name].plain_name,
                unit,
                runs[place].name,
                *shared_steps.figures(one.name, one.values[place], one.widths[place], system),
            )
            for place in one.known
        ]
    return shared_steps.csv_text([*rows, *answers_of_groups.csv_rows(answers), *(line.csv_rows() if line else ())])


def _sentence(one, runs, system):
    name, place = QUANTITIES[one.name].plain_name, f"At {one.step}"
    if not judged_by(one):
        return f"{place}, {name}: these gauges cannot tell."
    apart, allowed, furthest = spread(one)
    unit = shared_steps.unit_of_a_difference(one.name, system)
    words = f"{place}, {name}: the groups lie {f'{amount(one.name, apart, allowed, system)} {unit}'.strip()} apart"
    if apart <= allowed:
        return f"{words}, which is no more than their gauges allow."
    first = (
        f"Look first at {short(runs[furthest].name, 30)}." if len(one.known) > 2 else "Read it again in both groups."
    )
    return f"{words}, which is more than their gauges allow. {first}"


def _faults(reduced, found, earlier, own):
    """Return (what would show the pooled readings, `None` where it cannot be said; what is to be said before it)."""
    faults = faults_shown.pooled_faults(reduced, earlier, own=own)
    if isinstance(faults, str):
        return None, UNTOLD.format(faults)
    apart = [one for one in shared_steps.at_most_boost(found) if judged_by(one) and _differ(one)]
    names = ", ".join(QUANTITIES[one.name].plain_name for one in apart)
    return faults, DIFFER.format(names) if names else ""


def _differ(one):
    apart, allowed, _ = spread(one)
    return apart > allowed


def _page(reduced, found, said, answers, line, system, faults, first):
    runs, groups = [one.run for one in reduced], []
    for number, run in enumerate(runs, 1):
        groups.append(f"{number}: {short(run.name)}, {run.bench.run.title or 'no title'}")
    pictures = [_picture(one, system) for one in shared_steps.at_most_boost(found) if judged_by(one)]
    return shared_steps.page_of(
        reduced,
        title=TITLE,
        sentences=said,
        faults=faults,
        first=first,
        notes=[answers_of_groups.NEVER_JOINED, OWN_GAUGES],
        runs=groups,
        figures=[page_figure(one, shared_steps.HIGH) for one in pictures],
        line=line,
        tables=[
            answers_of_groups.table(answers),
            *(_table(title, here, runs, system) for title, here in shared_steps.in_tables(found)),
        ],
    )


def _picture(one, system):
    title = f"{QUANTITIES[one.name].plain_name.capitalize()} at {one.step}, group by group"
    return picture_run_by_run(one.name, one.values, one.widths, system, title=title, label="group")


def _table(title, here, runs, system):
    """A step: a row for each group, then the mean and the greatest difference."""
    rows = [
        (f"{number}: {short(run.name, 30)}", *(_cell(one, number - 1, system) for one in here))
        for number, run in enumerate(runs, 1)
    ]
    rows.append(("mean of the groups", *(_mean(one, system) for one in here)))
    rows.append(("furthest apart, ± of the two", *(_apart(one, system) for one in here)))
    return Table(title, (Head("group"), *(head(one.name, system) for one in here)), tuple(rows))


def _cell(one, place, system):
    return shared_steps.text(one, place, system) if place in one.known else "–"


def _mean(one, system):
    if not judged_by(one):
        return "–"
    widths = one.widths[one.known]
    return amount(one.name, np.mean(one.values[one.known]), np.sqrt(np.sum(widths**2)) / len(widths), system)


def _apart(one, system):
    apart, allowed, _ = spread(one)
    return amount(one.name, apart, allowed, system) if judged_by(one) else "–"
