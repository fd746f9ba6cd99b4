"""How a record of results is shown: in one line, as a table in a notebook, as a pandas table; in US or SI units."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import numpy as np

from turbomath import units
from turbomath.paper.parts import Head, Table
from turbomath.table.errors import short
from turbomath.table.formulas import choice
from turbomath.table.quantities import QUANTITIES
from turbomath.table.records import Record
from turbomath.units.rounding import NO_VALUE, with_plus_or_minus
from turbomath.units.shown import in_unit, width_unit

if TYPE_CHECKING:
    import pandas

MOST_POINTS = 12  # side by side in a notebook


@dataclass(frozen=True)
class Sheet:
    """A record laid out: SI values and their ± by quantity, and what is no quantity, before and after them.

    Every column has one element a point. `system` is that of the reader.
    """

    title: str
    values: Mapping[str, Any]
    widths: Mapping[str, Any] = field(default_factory=dict)
    before: Mapping[str, Any] = field(default_factory=dict)
    after: Mapping[str, Any] = field(default_factory=dict)
    system: str = "si"

    def __len__(self) -> int:
        return max(map(len, [*self.values.values(), *self.before.values()]), default=0)

    @property
    def labels(self) -> list[str]:
        """The name of each point."""
        return [short(one, 24) for one in self.before.get("point", range(1, len(self) + 1))]


def line(record: Record) -> str:
    """Return what a record is, how many points it has, and the smallest and the largest of its headline results."""
    sheet = _sheet(record)
    told = [_span(sheet, name) for name in record.HEADLINE if name in sheet.values]
    told += [f"{name} {_counted(sheet.after[name])}" for name in record.HEADLINE if name in sheet.after]
    return f"{sheet.title}, {len(sheet)} point{'s' * (len(sheet) != 1)}: {', '.join(told)}"


def html(record: Record) -> str:
    """Return a record as an HTML table, a row a result, a column a point; every text from outside is escaped."""
    from turbomath.paper.page import page  # slow to import, and needed in a notebook only

    sheet = _sheet(record)
    many = len(sheet) > MOST_POINTS
    more = f"; the first {MOST_POINTS} of {len(sheet)} points, to_frame() has all" if many else ""
    heads = (Head("result"), Head("unit"), *(Head(label) for label in sheet.labels[:MOST_POINTS]))
    above, below = (
        [_row(name, "", map(_word, words)) for name, words in columns.items() if name != "point"]
        for columns in (sheet.before, sheet.after)
    )
    rows = [_row(QUANTITIES[name].plain_name, _unit(name, sheet.system), _texts(sheet, name)) for name in sheet.values]
    return page("record.html", one=Table(sheet.title + more, heads, (*above, *rows, *below)))


def frame(record: Record, system: str | None = None) -> "pandas.DataFrame":
    """Return a record as a pandas table, one row a point, under the heads that reduced.csv has."""
    import pandas

    sheet = _sheet(record)
    system = choice("units", system or sheet.system, {"us": "us", "si": "si"})
    columns: dict[str, Any] = dict(sheet.before)
    for name, value in sheet.values.items():
        plain_name, unit = QUANTITIES[name].plain_name, _unit(name, system)
        columns[f"{plain_name} [{unit}]"] = units.from_si(value, unit, name)
        if name in sheet.widths:
            quantity, width = width_unit(name, system)
            columns[f"{plain_name} ± [{width}]"] = units.from_si(sheet.widths[name], width, quantity)
    return pandas.DataFrame({**columns, **sheet.after})


def _sheet(record: Any) -> Sheet:
    """The record as it lays itself out, or else its fields: those that are quantities, then the others."""
    if hasattr(record, "sheet"):
        return record.sheet()
    columns = {name: np.ravel(value) for name, value in vars(record).items()}
    values = {name: value for name, value in columns.items() if name in QUANTITIES}
    others = {name: value for name, value in columns.items() if name not in QUANTITIES}
    return Sheet(type(record).__name__, values, after=others)


def _unit(name: str, system: str) -> str:
    """The unit of a quantity; a pressure is shown absolute, as the record holds it and as no barometer can change."""
    return units.display(name, system).replace(" gauge", " abs")


def _texts(sheet: Sheet, name: str) -> list[str]:
    """The result of each point in words, with its ± where it has one."""
    unit = _unit(name, sheet.system)
    values = np.asarray(units.from_si(sheet.values[name], unit, name))
    if name not in sheet.widths:
        return [in_unit(value, unit) for value in values]
    quantity, unit = width_unit(name, sheet.system)
    widths = np.asarray(units.from_si(sheet.widths[name], unit, quantity))
    return [with_plus_or_minus(value, width) for value, width in zip(values, widths, strict=True)]


def _span(sheet: Sheet, name: str) -> str:
    """The smallest and the largest value of a result, with the unit."""
    values, texts = sheet.values[name], _texts(sheet, name)
    known = np.flatnonzero(np.isfinite(values))
    ends = [texts[known[find(values[known])]] for find in (np.argmin, np.argmax)] if known.size else [NO_VALUE]
    unit = _unit(name, sheet.system)
    return f"{QUANTITIES[name].plain_name} {' to '.join(dict.fromkeys(ends))} {unit}".removesuffix(" -")


def _counted(words: Sequence) -> str:
    """How many points have which word; the word alone where all have it."""
    counts = Counter(filter(None, map(_word, words)))
    if len(words) == 1:
        return next(iter(counts), NO_VALUE)
    return ", ".join(f"{count} {word}" for word, count in counts.items()) or NO_VALUE


def _word(value: Any) -> str:
    return in_unit(float(value), "") if isinstance(value, float) else short(value, 24)


def _row(name: str, unit: str, texts: Any) -> tuple[str, ...]:
    return (name, "" if unit == "-" else unit, *list(texts)[:MOST_POINTS])
