"""A panel on paper: its pictures from the records of the panel, their tables, and its cases in US and SI units."""

from dataclasses import dataclass
from itertools import zip_longest
from typing import Any

from turbomath.lab.report.page_figure import engine_figure, page_figure
from turbomath.paper.parts import Figure, Head
from turbomath.paper.parts import Table as PaperTable
from turbomath.pictures import printed
from turbomath.units.rounding import NO_VALUE
from turbomath.widgets.answers import Answer, Table
from turbomath.widgets.desk import Desk

# px: of an engine, of one of several, of a chart, of a picture without axes that states no height
ENGINE_HIGH, STRIP_HIGH, USUAL, BARE = 285, 210, 270, 150
START = "to begin with"


@dataclass(frozen=True)
class Shown:
    """What a page shows of one panel."""

    title: str
    figures: tuple[Figure, ...]
    sentence: str
    tables: tuple[PaperTable, ...]


def shown(panel: Any, system: str = "us") -> Shown:
    """Return a panel, or a figure, as it opens, with its cases in numbers."""
    answer = panel.desk.printed(system)
    several = len(answer.engines) > 1
    engines = tuple(engine_figure(one, STRIP_HIGH if several else ENGINE_HIGH, strip=several) for one in answer.engines)
    charts = tuple(page_figure(one, _high(one)) for one in answer.pictures)
    twins = [_table(one) for one in (*answer.twins(), *_twins(answer))]
    cases = [case_table(panel)] if isinstance(panel.desk, Desk) else []
    tables = (*(one for one in cases if one.rows), *twins)
    return Shown(panel.opening["title"], engines + charts, answer.sentence, tables)


def sketch(panel: Any, system: str = "us") -> Figure:
    """Return the first drawing of a panel, to be copied on a board."""
    answer = panel.desk.printed(system)
    if answer.engines:
        return engine_figure(answer.engines[0], STRIP_HIGH, strip=True)
    return page_figure(answer.pictures[0], _high(answer.pictures[0]))


def case_table(panel: Any) -> PaperTable:
    """Return what is set and what is read in each case of a panel, in US units and, in brackets, in SI."""
    columns = cases(panel)
    names = list(dict.fromkeys(name for numbers in columns.values() for name in numbers))
    rows = [(name, *(numbers.get(name, NO_VALUE) for numbers in columns.values())) for name in names]
    heads = ["", *columns]
    if len(columns) == 1:  # two beside each other
        half = -(-len(rows) // 2)
        rows = [(*one, *other) for one, other in zip_longest(rows[:half], rows[half:], fillvalue=("", ""))]
        heads *= 2
    return PaperTable("In numbers: US units (SI)", tuple(map(Head, heads)), tuple(rows), style="words")


def cases(panel: Any) -> dict[str, dict[str, str]]:
    """Return what `case_table` has: case -> name -> value. The start is left out where it is one of the cases."""
    desk = panel.desk
    desk.reset()
    columns = {START: _numbers(desk)}
    for label, _ in desk.sheet.cases:
        desk.reset()
        numbers = _numbers(desk, label)
        if numbers == columns.get(START):
            del columns[START]
        columns[label] = numbers
    desk.reset()
    return columns


def _numbers(desk, case=""):
    """Return name -> value in both systems, of what is set and of what is read."""
    answers = [desk.printed(system, case) for system in ("us", "si")]
    found = {}
    for one in (control for control in desk.controls.values() if not control.more):
        found[one.label] = _both(*(one.words(desk.values[one.name], system) for system in ("us", "si")))
    for us, si in zip(*(answer.readouts for answer in answers), strict=True):
        found[us.label] = _both(*(f"{one.text} {one.unit}".strip() for one in (us, si)))
    return found


def _both(us, si):
    return us if us == si else f"{us} ({si})"


def _high(picture):
    high = getattr(picture, "height", 0) * printed.WIDTH / 700  # on the screen it is about 700 px wide
    return round(high) or (USUAL if picture.x.words else BARE)


def _twins(answer: Answer):
    return [_without_empty(Table(one.title, one.heads, one.rows)) for one in answer.engines]


def _without_empty(one):
    """Leave out the columns in which nothing stands."""
    kept = [place for place, cells in enumerate(zip(*one.rows, strict=True)) if set(cells) != {NO_VALUE}]
    heads, *rows = (tuple(row[place] for place in kept) for row in (one.heads, *one.rows))
    return Table(one.title, heads, tuple(rows))


def _table(one):
    return PaperTable(one.title, tuple(map(Head, one.heads)), one.rows, style="words")
