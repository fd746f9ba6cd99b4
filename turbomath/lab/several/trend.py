"""The trend of one engine from term to term: the same load step on several dates, and what moved more than its ±."""

from collections.abc import Sequence
from pathlib import Path

import numpy as np

from turbomath import units
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.report.page_figure import page_figure
from turbomath.lab.run.readings import Run
from turbomath.lab.several import shared_steps
from turbomath.lab.several.shared_steps import Compared, amount, head, judged_by
from turbomath.lab.verdicts import judge_run
from turbomath.paper.parts import Head, Table
from turbomath.pictures.run_by_run import picture_run_by_run
from turbomath.table.errors import TurbomathError, short
from turbomath.table.quantities import QUANTITIES

TITLE = "Trend of one engine"
NOTES = (
    "Each change is from the first date to the last. Its ± takes the gauges of the two dates to err on their own; with "
    "the same gauges, unadjusted, a change is known better than that.",
    "Look at what was held equal: load, speed, barometer, air temperature. A hot day moves boost and density without "
    "any fault.",
    "What falls slowly is often dirt: effectiveness (outside of the core), pressure loss (inside of it), compressor "
    "efficiency (the wheel). Common practice; the maker's manual decides.",
)


def write(reduced: Sequence[Reduced], folder: Path | str, system: str) -> tuple[list[str], list[Path]]:
    """Write trend.html and trend.csv into *folder*; return (sentences, paths).

    Parameters
    ----------
    reduced : sequence of Reduced
        Runs of one engine, each with a date in its bench.toml, in any order.
    folder : path
        Where the two files go; never a run's own folder.
    system : "us" or "si"
        The units shown.

    Raises
    ------
    TurbomathError
        If a run has no date, or the runs are not of one engine or share no load step.
    """
    reduced = in_order(reduced)
    runs, found = [one.run for one in reduced], shared_steps.compared(reduced)
    boost = judge_run(reduced[-1], runs[0], system=system).boost  # fuel and weather of both days are in it
    moved = [one for one in shared_steps.at_most_boost(found) if one.name != "boost"]
    said = [boost.sentence, *(_sentence(one, runs, system) for one in moved)]
    texts = {"trend.html": _page(reduced, found, said, system), "trend.csv": trend_csv(found, runs, system)}
    return said, shared_steps.write(folder, runs, texts)


def in_order(reduced: Sequence[Reduced]) -> list[Reduced]:
    """Return the runs in the order of their dates, or refuse one without."""
    for one in reduced:
        if one.run.bench.run.date is None:
            raise TurbomathError(
                f"{short(one.run.name, 30)}, bench.toml: found no date under [run], expected one such as "
                "date = 2026-03-12. A trend needs to know when each run was made."
            )
    return sorted(reduced, key=lambda one: str(one.run.bench.run.date))


def change(one: Compared) -> tuple[float, float]:
    """Return (last less first, its ±) of a quantity [SI]."""
    first, last = one.known[0], one.known[-1]
    return one.values[last] - one.values[first], float(np.hypot(one.widths[first], one.widths[last]))


def trend_csv(found: Sequence[Compared], runs: Sequence[Run], system: str) -> str:
    """Return trend.csv as text: a row for each date, step and quantity."""
    rows = [("step", "quantity", "unit", "date", "run", "value", "±")]
    for one in found:
        unit = units.display(one.name, system)
        rows += [
            (
                one.step.replace("\u00a0", " "),
                QUANTITIES[one.name].plain_name,
                unit,
                str(runs[place].bench.run.date),
                runs[place].name,
                *shared_steps.figures(one.name, one.values[place], one.widths[place], system),
            )
            for place in one.known
        ]
    return shared_steps.csv_text(rows)


def _sentence(one, runs, system):
    name, unit = QUANTITIES[one.name].plain_name, shared_steps.unit_of_a_difference(one.name, system)
    if not judged_by(one):
        return f"At {one.step}, {name}: these gauges cannot tell."
    moved, allowed = change(one)
    first, last = (runs[place].bench.run.date for place in (one.known[0], one.known[-1]))
    size = f"{amount(one.name, abs(moved), allowed, system)} {unit}".strip()
    if abs(moved) <= allowed:
        return f"At {one.step}, {name} moved by {size} from {first} to {last}: no more than its ±."
    return f"At {one.step}, {name} {'rose' if moved > 0 else 'fell'} by {size} from {first} to {last}: more than its ±."


def _page(reduced, found, said, system):
    runs = [one.run for one in reduced]
    pictures = [_picture(one, system) for one in shared_steps.at_most_boost(found) if judged_by(one)]
    return shared_steps.page_of(
        reduced,
        title=TITLE,
        sentences=said,
        notes=NOTES,
        runs=[f"{number}: {run.bench.run.date}, {short(run.name)}" for number, run in enumerate(runs, 1)],
        figures=[page_figure(one, shared_steps.HIGH) for one in pictures],
        tables=[_table(title, here, runs, system) for title, here in shared_steps.in_tables(found)],
    )


def _picture(one, system):
    title = f"{QUANTITIES[one.name].plain_name.capitalize()} at {one.step}, run after run"
    return picture_run_by_run(one.name, one.values, one.widths, system, title=title, label="run")


def _table(title, here, runs, system):
    rows = [
        (
            f"{run.bench.run.date} {short(run.name, 24)}",
            *(shared_steps.text(one, place, system) if place in one.known else "–" for one in here),
        )
        for place, run in enumerate(runs)
    ]
    rows.append(
        ("last less first", *(amount(one.name, *change(one), system) if judged_by(one) else "–" for one in here))
    )
    return Table(title, (Head("run"), *(head(one.name, system) for one in here)), tuple(rows))
