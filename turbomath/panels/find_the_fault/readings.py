"""Lesson 09: what each reading of a job shows beside the engine's own healthy run, in a reader's units."""

from dataclasses import dataclass

import numpy as np

from turbomath import units
from turbomath.engine.faults.observed import FUEL
from turbomath.lab.faults.in_part import held_beside
from turbomath.panels.find_the_fault.told import EARLIER
from turbomath.table.quantities import QUANTITIES
from turbomath.units.rounding import decimals, fixed, with_plus_or_minus
from turbomath.units.shown import RISE, words

WIDE = 2.0  # standard uncertainties in a ±


@dataclass(frozen=True)
class Reading:
    """One reading at one load: the load, healthy, now and change as text, and the change counted in its own ±."""

    load: str
    healthy: str
    now: str
    change: str
    times: float


def readings(run: str, name: str, system: str) -> tuple[Reading, ...]:
    """Return a gauge, or the fuel flow, at each load that both runs have."""
    both = held_beside(run, EARLIER)
    points = both.changes.points
    row = len(both.changes.gauges) if name == FUEL else both.changes.gauges.index(name)
    unsure = np.sqrt(np.diag(both.changes.noise)[row * points : (row + 1) * points])
    now, before = both.now.read[name], both.before.read[name]
    plus_minus = WIDE * unsure * (before if name == FUEL else 1.0)
    return tuple(
        Reading(
            fixed(100 * float(both.now.load[place]), 0),
            _level(name, before[place], plus_minus[place], system),
            _level(name, now[place], plus_minus[place], system),
            _change(name, now[place] - before[place], plus_minus[place], system),
            float((now[place] - before[place]) / plus_minus[place]),
        )
        for place in range(points)
    )


def outside(run: str, system: str) -> tuple[str, str]:
    """Return the temperature outside on the day of a job, and on that of the healthy run."""
    both = held_beside(run, EARLIER)
    now, before = (float(np.mean(one.site["ambient_temperature"])) for one in (both.now, both.before))
    return words("ambient_temperature", now, system), words("ambient_temperature", before, system)


def _level(name, value, plus_minus, system):
    """Return a reading with as many decimals as its change has."""
    unit, rise = units.display(name, system), _unit_of_change(name, system)
    places = decimals(float(units.from_si(plus_minus, rise[1], rise[0])))
    return f"{fixed(float(units.from_si(value, unit, name)), places)} {unit}"


def _change(name, value, plus_minus, system):
    quantity, unit = _unit_of_change(name, system)
    size, around = (float(units.from_si(one, unit, quantity)) for one in (value, plus_minus))
    text = f"{with_plus_or_minus(size, around)} {unit}"
    return f"+{text}" if text[0] != "−" and float(text.split()[0]) else text


def _unit_of_change(name, system):
    warm = QUANTITIES[name].kind == "temperature"
    return ("temperature_rise", RISE[system]) if warm else (name, units.display(name, system))
