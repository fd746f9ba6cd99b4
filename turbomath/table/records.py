"""Records of results that show themselves: in a line, as a table in a notebook, as a pandas table, item by item.

A record knows its numbers in SI only. How they look in a reader's units is the work of a higher room, which the front
door names when the kit is imported: so an engine on floor 3 can be shown in °F without knowing of units.
"""

from collections.abc import Iterable, Mapping
from typing import Any, ClassVar, Literal, TypeVar

import numpy as np

from turbomath.table.doors import from_above
from turbomath.table.errors import short
from turbomath.table.nearest import did_you_mean

System = Literal["us", "si"]
Flat = TypeVar("Flat", bound="Record")


class Record:
    """What a record of results can do besides holding its fields. `HEADLINE` names what its one line tells."""

    HEADLINE: ClassVar[tuple[str, ...]] = ()

    def __getitem__(self, name: str) -> Any:
        """Return one result by its name, in SI; a wrong name is told the nearest."""
        return item(vars(self), name, "result")

    def __repr__(self) -> str:
        return from_above("records").line(self)

    def _repr_html_(self) -> str:
        return from_above("records").html(self)

    def to_frame(self, units: System | None = None) -> Any:
        """Return the record as a pandas table, one row a point, with the unit in the name of each column.

        Parameters
        ----------
        units : "us" or "si", optional
            If not given, those of bench.toml for a run and its results, and SI for what was worked out from SI.

        Returns
        -------
        pandas.DataFrame
            Numbers as they are shown: °F, psi abs, per cent. An array of more than one axis is laid out in a row.

        Raises
        ------
        OutOfRangeError
            For other units.
        """
        return from_above("records").frame(self, units)


def each_point(record: Flat) -> list[Flat]:
    """Return a record of single values for each point of one that holds nothing but numbers and words, or arrays."""
    columns = [one.ravel().tolist() for one in np.broadcast_arrays(*vars(record).values())]
    return [type(record)(**dict(zip(vars(record), row, strict=True))) for row in zip(*columns, strict=True)]


def item(options: Mapping[str, Any], name: str, sort: str) -> Any:
    """Return what *options* holds for *name*, or raise a KeyError that names the nearest."""
    if isinstance(name, str) and name in options:
        return options[name]
    raise unknown(name, options, sort)


def unknown(name: object, options: Iterable[str], sort: str) -> KeyError:
    """Return the refusal of a name that is not among *options*; it names the nearest."""
    return KeyError(f"no {sort} {short(name)!r}; {did_you_mean(name, list(options))}")
