"""A picture as plain data. A browser panel and the printer draw the same record, and both read the same alt text.

The forms are a line, a band, and points with bars; every series is labelled at its end.
"""

import dataclasses
from dataclasses import dataclass
from typing import Any

from turbomath.pictures.roles import ROLES
from turbomath.table.errors import OutOfRangeError
from turbomath.table.formulas import choice
from turbomath.units.rounding import rounded, with_plus_or_minus

KINDS = ("line", "band", "points")


@dataclass(frozen=True)
class Axis:
    """One axis: its plain name, its unit ("" for none) and its ends."""

    label: str
    unit: str
    low: float
    high: float

    @property
    def words(self) -> str:
        """The axis as it is labelled: "boost [psi]"."""
        return f"{self.label} [{self.unit}]" if self.unit else self.label


@dataclass(frozen=True)
class Series:
    """One line, band or set of points.

    `low` and `high` are the edges of a band or the ends of the bars; those of a line are told, not drawn. `left` and
    `right` are the ends of bars along x, which points alone have.
    """

    kind: str
    role: str
    label: str
    x: tuple[float, ...]
    y: tuple[float, ...]
    low: tuple[float, ...] = ()
    high: tuple[float, ...] = ()
    left: tuple[float, ...] = ()
    right: tuple[float, ...] = ()

    def __post_init__(self):
        choice("kind", self.kind, dict.fromkeys(KINDS))
        choice("role", self.role, ROLES)
        edges = {(len(self.low), len(self.high)), (len(self.left), len(self.right))}
        if len(self.x) != len(self.y) or edges - {(0, 0), (len(self.x),) * 2}:
            raise OutOfRangeError(f"the series {self.label!r} must have as many y and ends of bars as x.")


@dataclass(frozen=True)
class Text:
    """Words at a place in the picture, in the units of its axes."""

    x: float
    y: float
    words: str


@dataclass(frozen=True)
class Picture:
    """Everything that is drawn, and what says the same without eyes: `alt`, and the table `heads` and `rows`."""

    title: str
    x: Axis
    y: Axis
    series: tuple[Series, ...]
    texts: tuple[Text, ...] = ()

    @property
    def alt(self) -> str:
        """The type, the axes with their ends, and what each series does, in words."""
        kinds = dict.fromkeys(
            {"line": "lines", "band": "bands", "points": "points with bars"}[one.kind] for one in self.series
        )
        axes = f"{_extent(self.y)} against {_extent(self.x)}"
        trends = " ".join(trend(one, self.y.unit) for one in self._told)
        return f"{self.title}. Chart of {' and '.join(kinds)}: {axes}. {trends}"

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the table twin, each with its unit."""
        unit = f" [{self.y.unit}]" if self.y.unit else ""
        return (self.x.words, *(f"{one.label}{unit}" for one in self._told))

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the table twin as text: x, then each series with its ± where it has bars."""
        table: dict[tuple[float, int], list[str]] = {}
        for column, one in enumerate(self._told):
            for key, text in zip(_keys(one.x), _values(one), strict=True):
                table.setdefault(key, ["–"] * len(self._told))[column] = text
        return tuple((rounded(x), *table[x, turn]) for x, turn in sorted(table))

    @property
    def _told(self):
        """The series that say something of their own: a line is passed over where points of its label are there."""
        pointed = {one.label for one in self.series if one.kind == "points"}
        return tuple(one for one in self.series if one.kind != "line" or one.label not in pointed)

    def to_dict(self) -> dict[str, Any]:
        """Return the picture as text, numbers, lists and dicts only, ready for JSON."""
        return {**self.drawn(), "alt": self.alt, "heads": list(self.heads), "rows": [list(row) for row in self.rows]}

    def drawn(self) -> dict[str, Any]:
        """Return the same without what says it to those who do not see it."""
        record = {one.name: getattr(self, one.name) for one in dataclasses.fields(self)}
        record |= {"x": dict(vars(self.x)), "y": dict(vars(self.y)), "texts": [dict(vars(one)) for one in self.texts]}
        record["series"] = [
            {name: list(value) if isinstance(value, tuple) else value for name, value in _kept(one).items()}
            for one in self.series
        ]
        return record


def _kept(one):
    """Return the fields of a series, without bars along x where it has none, as nearly all."""
    return {name: value for name, value in vars(one).items() if value or name not in ("left", "right")}


def _extent(axis):
    return f"{axis.words} from {rounded(axis.low)} to {rounded(axis.high)}"


def trend(one: Series, unit: str) -> str:
    """Say where a series starts and ends, from the smallest x to the largest, and in the end its label."""
    if not one.x:
        return f"No points: {one.label}."
    ends = sorted(zip(one.x, one.y, _values(one), strict=True))
    (_, first, first_words), (_, last, last_words) = ends[0], ends[-1]
    unit = f" {unit}" if unit else ""
    if first_words == last_words:
        return f"Steady at {first_words}{unit}: {one.label}."
    return f"{'Rising' if last > first else 'Falling'} from {first_words} to {last_words}{unit}: {one.label}."


def _keys(x):
    """Tell apart points at one x: (x, how many stood there before)."""
    return [(value, x[:index].count(value)) for index, value in enumerate(x)]


def _values(one):
    if not one.low:
        return [rounded(y) for y in one.y]
    return [with_plus_or_minus(y, (high - low) / 2) for y, low, high in zip(one.y, one.low, one.high, strict=True)]
