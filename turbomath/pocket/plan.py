"""Which states of a panel are recorded: each control alone from each case, and every two in sight together."""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from turbomath.widgets.controls import Choice, Control
from turbomath.widgets.run_desk import RunDesk
from turbomath.widgets.steps import values_asked

SYSTEMS = ("us", "si")
FINE, COARSE = 25, 9  # how many places each of two controls has when both move: of the first two, of any others
NO_READINGS = ("", None)


@dataclass(frozen=True)
class Place:
    """One state: the units, the run and the row that are open, the place of each control in its list."""

    system: str
    chosen: tuple[str, Any]
    at: tuple[int, ...]


class Plan:
    """The states of one desk.

    `values` has for each system and each control the list of places where it can stand: SI, or the keys of a choice.
    `bases` are the rows of values from which controls move alone; `follows` says for a row of readings which base
    its gauges set.
    """

    def __init__(self, desk: Any) -> None:
        self.desk, self.controls = desk, desk.sheet.controls
        start = {one.name: one.start for one in self.controls}
        self.bases = _distinct([start, *({**start, **case} for _, case in desk.sheet.cases)])
        self.chosen = [NO_READINGS, *_readings(desk)]
        self.follows = {one: {**start, **_followed(desk, *one)} for one in self.chosen[1:]}
        desk.reset()
        self.most = {run: _most(desk, run) for run in dict.fromkeys(run for run, _ in self.chosen[1:])}
        standing = [*self.bases, *self.follows.values()]
        self.asked = [_asked(desk, one) for one in self.controls]
        self.values = {
            system: [
                _places(one, system, [*asked, *(base[one.name] for base in standing)])
                for one, asked in zip(self.controls, self.asked, strict=True)
            ]
            for system in SYSTEMS
        }

    def at(self, system: str, values: dict[str, Any]) -> tuple[int, ...]:
        """Return the place of each control for a row of values."""
        return tuple(
            places.index(values[one.name]) for one, places in zip(self.controls, self.values[system], strict=True)
        )

    def places(self) -> list[Place]:
        """Return every state once, in an order in which neighbours are alike."""
        return list(dict.fromkeys(one for system in SYSTEMS for one in self._of(system)))

    def alike(self, places: list[Place]) -> list[Place]:
        """Return them in an order in which a case in one system of units stands beside the same in the other."""
        first: dict[Any, int] = {}
        turn = {one: first.setdefault((one.chosen, self.set_to(one)), len(first)) for one in places}
        return sorted(places, key=lambda one: (self.chosen.index(one.chosen), turn[one]))

    def set_to(self, place: Place) -> tuple[Any, ...]:
        """Return what each control is set to, in SI or as the key of a choice."""
        return tuple(places[turn] for places, turn in zip(self.values[place.system], place.at, strict=True))

    def _of(self, system: str) -> Iterator[Place]:
        free = [turn for turn, one in enumerate(self.controls) if not one.locked]
        base, *others = (self.at(system, one) for one in self.bases)
        for one in (base, *others):
            yield Place(system, NO_READINGS, one)
            for turn in free:
                yield from self._moved(system, NO_READINGS, one, (turn,))
        for pair, levels in self._pairs():
            yield from self._moved(system, NO_READINGS, base, pair, levels)
        for chosen, follow in self.follows.items():
            for one in (base, self.at(system, follow)):
                yield Place(system, chosen, one)
                for turn in self._together() if chosen == self.most[chosen[0]] else ():
                    yield from self._moved(system, chosen, one, (turn,), COARSE)

    def _moved(self, system, chosen, base, turns, levels=None) -> Iterator[Place]:
        """Yield the states in which the controls *turns* move together and the others stay."""
        lists = [self._levels(system, turn, levels, base[turn]) for turn in turns]
        for combined in itertools.product(*lists):
            at = list(base)
            for turn, place in zip(turns, combined, strict=True):
                at[turn] = place
            yield Place(system, chosen, tuple(at))

    def _levels(self, system, turn, levels, own):
        """Return the places a control takes: all, or every so many steps, its own, those of bases and of tasks."""
        control, places = self.controls[turn], self.values[system][turn]
        if levels is None or isinstance(control, Choice):
            return range(len(places))
        spread = [value for _, value in steps(control, system)[:: stride(control, system, levels)]]
        known = [*spread, *self.asked[turn], *(one[control.name] for one in self.bases)]
        return sorted({places.index(one) for one in known} | {own})

    def strides(self, system: str) -> dict[str, Any]:
        """Return how many steps of its slider a control takes at once: in each pair, and beside readings."""
        of = {
            levels: [1 if isinstance(one, Choice) else stride(one, system, levels) for one in self.controls]
            for levels in (FINE, COARSE)
        }
        pairs = [(*pair, *(of[levels][turn] for turn in pair)) for pair, levels in self._pairs()]
        return {"pairs": pairs, "beside": of[COARSE]}

    def _pairs(self) -> list[tuple[tuple[int, int], int]]:
        """Return every two controls that move together, and on how many places each; the first two on the most."""
        pairs = itertools.combinations(self._together(), 2)
        return [(pair, COARSE if number else FINE) for number, pair in enumerate(pairs)]

    def _together(self):
        free = [turn for turn, one in enumerate(self.controls) if not one.locked]
        return [turn for turn in free if not self.controls[turn].more or isinstance(self.controls[turn], Choice)]


def stride(control: Control, system: str, levels: int) -> int:
    """Return every how many steps of a slider it has at most so many places."""
    low, high, step = control.scale(system)
    return math.ceil(round((high - low) / step) / (levels - 1))


def steps(control: Control, system: str) -> list[tuple[str, float]]:
    """Return (text, SI value) of each step of a slider, as its panel would take it up."""
    low, high, step = control.scale(system)
    texts = [f"{low + count * step:.10g}" for count in range(round((high - low) / step) + 1)]
    return [(text, control.read(text, system)) for text in texts]


def _places(control, system, standing):
    if isinstance(control, Choice):
        return [key for key, _ in control.options]
    values = [] if control.locked else [value for _, value in steps(control, system)]
    return sorted({*standing, *values})


def _asked(desk, control):
    return [] if isinstance(control, Choice) else values_asked(desk.sheet.steps, control)


def _readings(desk):
    """Return (run, row) of each reading of the shipped runs, where the desk opens any."""
    if not isinstance(desk, RunDesk):
        return []
    opening, found = desk.opening(), []
    for run, _ in opening["runs"]:
        if run and run != opening["own"]:
            desk.run(run)
            found += [(run, row) for row in (desk.chosen.readings.rows if desk.chosen else ())]
    desk.run("")
    return found


def _followed(desk, run, row):
    """Return what "set the sliders to this point" sets."""
    desk.reset()
    if run != desk.picked:
        desk.run(run)
    desk.point(str(row))
    before = dict(desk.values)
    desk.follow()
    return {name: value for name, value in desk.values.items() if value != before[name]}


def _most(desk, run):
    desk.run(run)
    found = run, desk.chosen.row
    desk.run("")
    return found


def _distinct(rows):
    return [one for turn, one in enumerate(rows) if one not in rows[:turn]]
