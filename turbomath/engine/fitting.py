"""An engine of the balance fitted to a maker's sheet, or to an engine's own earlier run, with the model's own ±.

A ready engine is brought to the size, and every number of it to its usual place. Then those numbers are moved that the
points can tell, each no further from its usual place than the points ask for (least squares, in which the usual place
counts like one more reading). What the fit does not know of each number comes back as the ± of what it expects.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

import numpy as np

from turbomath.engine import free_numbers, least_squares, start
from turbomath.engine.fitted import COVERAGE, FAR, Fit, Freed
from turbomath.engine.free_numbers import ALL, engine_with, number
from turbomath.engine.outputs import outputs, unsure_of
from turbomath.engine.ready_engines import AIR_TO_AIR
from turbomath.engine.sheet import sheet_of
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.table.doors import from_above
from turbomath.table.errors import OutOfRangeError, unwarned
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES

TELLS_NOTHING = 0.90  # of its usual width left: the points say nothing of this number
NO_ANSWER = 30.0  # the miss of a point at which the balance finds no answer
WORTH_A_PART = 6.0  # what a valve or a gate must take off the sum of squares to be believed
LEAST_FOR_A_GATE = 3  # points with a boost
MOST_LEFT, FARTHEST = 5.0, 4.0  # standard uncertainties that may be left at a point; widths from a usual place


class OddFigureError(OutOfRangeError):
    """A sheet that no engine of the model fits, and the figure that fits least.

    `name` is its quantity, `place` its point (the first is 0), `value` what the sheet says [SI], and `side` whether
    that is "below" or "above" what the other points ask for.
    """

    def __init__(self, name: str, place: int, count: int, value: float, side: str) -> None:
        self.name, self.place, self.value, self.side = name, place, value, side
        found = f"{float(f'{value:.4g}'):,.10g} {KINDS[QUANTITIES[name].kind].unit}"
        super().__init__(
            f"no engine of the model fits these points: at point {place + 1} of {count} the {name.replace('_', ' ')} "
            f"of {found} is far {side} what the rest of the points ask for. Check it, or leave it out."
        )


@unwarned()
def fit(points: Any, *, engine: TurbochargedEngine | None = None) -> Fit:
    """Return an engine of the balance fitted to the points of a sheet.

    Parameters
    ----------
    points : list of dicts, or a run
        For each point `engine_speed` [rev/s], `ambient_pressure` [Pa], `ambient_temperature` [K], `fuel_flow` [kg/s]
        (or `power` at every point), and any of `manifold_pressure` [Pa], `power` [W], `manifold_temperature` [K],
        `compressor_outlet_temperature` [K], `turbine_inlet_temperature` [K], `turbine_inlet_pressure` [Pa],
        `turbine_outlet_temperature` [K]; `medium_temperature` [K] of a liquid where it enters the aftercooler. What was
        not read is left out, `None` or `nan`. Or a run, a run folder or the name of a shipped run: its loaded points.
    engine : TurbochargedEngine, optional
        Its displacement (0.5 to 2,000 L), aftercooler, volumetric efficiency and fuel are taken, and that it has a
        wastegate; nothing else of it is used. If not given, what the run's bench.toml states, or for a list of dicts
        the air-to-air ready engine.

    Returns
    -------
    Fit
        The engine, what was freed, what is left over, and with `expected` what it should do elsewhere.

    Raises
    ------
    OutOfRangeError
        For points that cannot be read, and for a sheet that no engine of the model fits, with what does not fit.

    Examples
    --------
    >>> day = dict(engine_speed=30.0, ambient_pressure=98_544.0, ambient_temperature=298.15)
    >>> full = fit([dict(**day, fuel_flow=0.0165, power=291e3, manifold_pressure=264e3)])
    >>> sorted(full.freed)[:2], bool(abs(full.leftover["power"][0]) < 300)
    (['best_indicated_efficiency', 'turbine_area'], True)
    """
    if isinstance(points, str) or not isinstance(points, Sequence | Mapping):
        points, stated = from_above("sheet of a run")(points)
        engine = engine or stated
    sheet = sheet_of(points)
    begun = start.starting_engine(sheet, AIR_TO_AIR if engine is None else engine)
    found = _settled(sheet, begun)
    for another in (_held, _gated):
        enough = found.found.cost <= WORTH_A_PART  # no part can take more off than there is
        changed = None if enough else another(sheet, found.begun)
        found = found if changed is None else _better(found, _settled(sheet, changed))
    found = _freed(sheet, found)
    _refuse_what_does_not_fit(sheet, found)
    return _as_fit(sheet, found)


@dataclass(frozen=True)
class _Settled:
    """A start, the names of its numbers, and where their sum of squares is least."""

    begun: TurbochargedEngine
    names: tuple[str, ...]
    found: least_squares.Found
    kept: Any = None

    @property
    def engine(self):
        return engine_with(self.begun, dict(zip(self.names, self.found.steps, strict=True)))


def _settled(sheet, begun, kept=None):
    names = _names(sheet, begun)
    return _Settled(begun, names, least_squares.least(partial(_misses, sheet, begun, names), len(names), kept), kept)


def _names(sheet, engine):
    """Return the numbers that an engine of these parts has."""
    cooler, names = engine.aftercooler, dict(free_numbers.ENGINE_NUMBERS)
    if cooler.held_temperature:
        names |= free_numbers.VALVE_NUMBERS
    elif cooler.arrangement != "none":
        names |= {"conductance": ALL["conductance"]}
    if cooler.arrangement != "none":
        names |= {"pressure_loss_coefficient": ALL["pressure_loss_coefficient"]}
    if cooler.arrangement == "jacket-water" and sheet.medium is None and not cooler.held_temperature:
        names |= free_numbers.LIQUID_NUMBERS
    if engine.wastegate.area:
        names |= free_numbers.GATE_NUMBERS
    return tuple(names)


def _misses(sheet, begun, names, steps):
    """Return model less sheet over the standard uncertainty of the sheet; a row for each trial of the steps."""
    engine = engine_with(begun, {name: steps[:, place, None] for place, name in enumerate(names)})
    found = outputs(engine, sheet.at(slice(None)))
    columns = [
        (found[name] - told) / unsure_of(name, told, sheet.given["ambient_pressure"])
        for name, told in sheet.told.items()
    ]
    read = np.isfinite(np.concatenate(list(sheet.told.values())))
    return np.nan_to_num(np.concatenate(columns, axis=1)[:, read], nan=NO_ANSWER)


def _held(sheet, engine):
    """Return the engine with a valve that holds the charge's temperature, where the sheet could tell."""
    told, arrangement = sheet.told["manifold_temperature"], engine.aftercooler.arrangement
    if arrangement == "none" or not np.isfinite(told).any():
        return None
    charge = float(np.nanmean(told))
    coldest = sheet.given["ambient_temperature"] if arrangement == "air-to-air" else sheet.medium
    if coldest is not None and charge < np.mean(coldest):  # nothing holds a charge below what cools it
        return None
    return start.with_held_charge(engine, charge)


def _gated(sheet, engine):
    """Return the engine with a wastegate, where the sheet could tell."""
    if engine.wastegate.area or np.isfinite(sheet.boost).sum() < LEAST_FOR_A_GATE:
        return None
    return start.with_gate(engine, float(np.nanmax(sheet.boost)))


def _better(one, other):
    return other if other.found.cost < one.found.cost - WORTH_A_PART else one


def _freed(sheet, settled):
    """Return the same start with those numbers kept at their usual place of which the points say nothing."""
    left = np.sqrt(np.diag(settled.found.spread()))
    return _settled(sheet, settled.begun, left > TELLS_NOTHING)


def _refuse_what_does_not_fit(sheet, settled):
    """Refuse a sheet that asks for an engine that cannot be, or leaves too much over at a point."""
    steps, misses = settled.found.steps, settled.found.misses
    worst = int(np.argmax(np.abs(misses)))
    names = [(name, place) for name, told in sheet.told.items() for place in np.flatnonzero(np.isfinite(told))]
    if np.abs(misses[worst]) > MOST_LEFT:
        name, place = names[worst]
        side, told = "below" if misses[worst] > 0 else "above", sheet.told[name]
        raise OddFigureError(name, int(place), len(told), float(told[place]), side)
    odd = int(np.argmax(np.abs(steps)))
    if np.abs(steps[odd]) > FARTHEST:
        asked, name = ALL[settled.names[odd]].words, settled.names[odd]
        raise OutOfRangeError(
            f"no engine of the model fits these points: they ask for a {asked} of {number(settled.engine, name):.3g}, "
            f"where about {number(settled.begun, name):.3g} is usual. Check units, displacement and what was read."
        )


def _as_fit(sheet, settled):
    """Return the `Fit`, with what is left unknown as independent directions."""
    engine, found, names = settled.engine, settled.found, settled.names
    scale = max(1.0, float(np.sqrt(np.mean(found.misses**2)))) if found.misses.size else 1.0
    spread = found.spread(scale)
    left = np.sqrt(np.diag(spread))
    sizes, ways = np.linalg.eigh(spread)
    directions = ways * np.sqrt(np.maximum(sizes, 0.0))
    made = outputs(engine, sheet.at(slice(None)))
    return Fit(
        engine=replace(engine, aftercooler=_with_liquid(engine.aftercooler, sheet)),
        freed={
            name: _told(engine, settled.begun, name, width)
            for name, width, kept in zip(names, left, settled.kept, strict=True)
            if not kept
        },
        leftover={name: made[name] - told for name, told in sheet.told.items() if np.isfinite(told).any()},
        usual=tuple(name for name, kept in zip(names, settled.kept, strict=True) if kept),
        driven_by=sheet.drive,
        liquid_read=sheet.medium is not None,
        points={name: sheet.given[sheet.drive if name == "drive" else name] for name in FAR} | {"boost": sheet.boost},
        directions=dict(zip(names, directions, strict=True)),
        scale=scale,
    )


def _with_liquid(cooler, sheet):
    """Return the aftercooler with the liquid's temperature that was read, if it was."""
    if sheet.medium is None or cooler.arrangement != "jacket-water":
        return cooler
    return replace(cooler, jacket_water_temperature=float(np.mean(sheet.medium)))


def _told(engine, begun, name, width):
    """Return one freed number with the ± that is left of it."""
    value = float(number(engine, name))
    one = float(ALL[name].moved(value, width)) - value
    return Freed(value, float(number(begun, name)), COVERAGE * one)
