"""What a lesson's function hands back: pictures, a sentence, a few read-outs and a table."""

from dataclasses import dataclass, replace
from itertools import zip_longest
from typing import Any

from turbomath.pictures.air_path import AirPath
from turbomath.pictures.picture import Picture
from turbomath.pictures.roles import ROLES
from turbomath.units.shown import Shown, shown

KEPT = "kept"
MARKS = {name: {"dash": role.dash, "marker": role.marker} for name, role in ROLES.items()}


@dataclass(frozen=True)
class Readout:
    """One number that matters: its label, the number as text, and its unit."""

    label: str
    text: str
    unit: str


@dataclass(frozen=True)
class Table:
    """A table as text: its title, the heads with their units, and the rows; the first cell of a row names it."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Answer:
    """All a panel shows of one case.

    `own` are the labels of the series that are this case, and so worth keeping beside another. Without `tables` the
    table twin is that of the pictures. `engines` are drawn first, above each other; then the sentence, then the
    pictures.
    """

    pictures: tuple[Picture, ...]
    sentence: str
    readouts: tuple[Readout, ...]
    tables: tuple[Table, ...] = ()
    own: tuple[str, ...] = ()
    engines: tuple[AirPath, ...] = ()

    def twins(self) -> tuple[Table, ...]:
        """Return the tables that say what the pictures say."""
        return self.tables or tuple(Table(one.title, one.heads, one.rows) for one in self.pictures)


def readout(label: str, quantity: str | Shown, value: Any, system: str, unit: str | None = None) -> Readout:
    """Return a `Readout` of an SI value; *quantity* is a name of the table, or says how it is shown here."""
    if isinstance(quantity, Shown):
        return Readout(label, quantity.text(value, system), quantity.unit(system))
    return Readout(label, *shown(quantity, value, system, unit))


def drawn(answer: Answer, kept: Answer | None = None, *, wall: bool = False) -> dict[str, Any]:
    """Return what the page draws of an answer, ready for JSON; a kept one stands beside it, all large on a *wall*."""
    tables = answer.twins()
    if kept is not None:
        tables += tuple(replace(one, title=f"Kept case. {one.title}") for one in kept.twins() if one not in tables)
        answer = beside(answer, kept)
    tables += tuple(Table(one.title, one.heads, one.rows) for one in answer.engines)
    before = {one.label: one.text for one in kept.readouts} if kept else {}
    lines = [
        {"label": one.label, "text": one.text, "unit": one.unit, "kept": before.get(one.label, "")}
        for one in answer.readouts
    ]
    return {
        "engines": [one.to_dict(strip=len(answer.engines) > 1, wall=wall) for one in answer.engines],
        "pictures": [one.to_dict() for one in answer.pictures],
        "sentence": answer.sentence,
        "readouts": lines,
        "tables": [dict(vars(one)) for one in tables],
    }


def beside(answer: Answer, kept: Answer) -> Answer:
    """Return *answer* with the kept case beside it: its own series in each picture that has axes, its engines below."""
    pictures = tuple(
        _beside(one, other, kept.own) if other else one
        for one, other in zip_longest(answer.pictures, kept.pictures[: len(answer.pictures)])
    )
    engines = tuple(replace(one, title=f"{KEPT}: {one.title}") for one in kept.engines)
    return replace(answer, pictures=pictures, engines=answer.engines + engines)


def _beside(picture, kept, own):
    if not picture.x.words:
        return picture
    name = KEPT if len(own) == 1 else KEPT + ": {}"
    ghosts = tuple(replace(one, label=name.format(one.label)) for one in kept.series if one.label in own)
    return replace(picture, x=_both(picture.x, kept.x), y=_both(picture.y, kept.y), series=picture.series + ghosts)


def _both(axis, other):
    return replace(axis, low=min(axis.low, other.low), high=max(axis.high, other.high))
