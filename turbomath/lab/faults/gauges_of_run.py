"""The readings of a run as the fault finder takes them: its loaded points, and what the bench says of each gauge."""

import numpy as np

from turbomath import uncertainty
from turbomath.engine.faults.observed import FUEL, GAUGES, Observed
from turbomath.lab.reduction.fit_points import fitted_rows
from turbomath.lab.reduction.fuel_and_core import fuel_flow, shaft_power
from turbomath.lab.reduction.stations import at_stations, gauge_readings
from turbomath.lab.run.channels import LIQUID_COOLED
from turbomath.lab.run.readings import Run
from turbomath.table.errors import TurbomathError, short, unwarned

NEW_AT_POINT = 0.3  # of a gauge's standard uncertainty; common practice
UNSETTLED = {  # K by which a thermometer may still move when it is read; common practice
    "compressor_outlet_temperature": 1.5,
    "manifold_temperature": 1.5,
    "compressor_inlet_temperature": 1.0,
    "turbine_inlet_temperature": 5.0,
    "turbine_outlet_temperature": 5.0,
}
MOST_POINTS, FEWEST_POINTS, FEWEST_GAUGES = 6, 2, 3
LEAST_SPREAD = 0.1  # of the hardest work: two points nearer than that are one
USUAL_SHARE = 0.01  # uncertainty of a fuel flow or a power that is worked out from two other readings


@unwarned()
def observed(run: Run) -> Observed:
    """Return the loaded points of a run.

    Raises
    ------
    TurbomathError
        If no row is under load, or too few rows or gauges were read to tell one fault from another.
    """
    rows = np.array(fitted_rows(run))
    values, widths = gauge_readings(run)
    at = at_stations(run, values)
    read = {name: values[name] for name in GAUGES if name in values}
    for name in ("compressor_outlet_pressure", "turbine_inlet_pressure"):
        if name not in run.gauge_columns:
            read[name] = read[name] - at.ambient_pressure
    sensor = values["manifold_pressure"] - at.ambient_pressure
    by_sensor = ~np.isfinite(values["boost"]).any()
    read["boost"] = sensor if by_sensor else values["boost"]
    read |= {"power": shaft_power(values), FUEL: fuel_flow(values)}
    unsure = {name: widths.get(name, 0.0) + 0.0 * one for name, one in read.items()}
    if by_sensor:
        unsure["boost"] = widths["manifold_pressure"] + 0.0 * sensor
    for name in ("power", FUEL):
        unsure[name] = np.where(np.isfinite(values[name]), widths[name], USUAL_SHARE * np.abs(read[name]))
    scatter = {name: _scatter(run, name, read[name], unsure[name]) for name in read}
    site = {
        "ambient_pressure": at.ambient_pressure,
        "ambient_temperature": at.ambient_temperature,
        "engine_speed": values["engine_speed"],
    }
    unsure["ambient_pressure"] = widths["barometer"] + 0.0 * at.ambient_pressure
    unsure["ambient_temperature"] = widths["ambient_temperature"] + 0.0 * at.ambient_temperature
    if run.bench.engine.aftercooler in LIQUID_COOLED:
        site["medium_temperature"] = at.medium_temperature
    return _checked(run, Observed(site, read, unsure, scatter, run["load"]).at(rows))


def _scatter(run, name, read, unsure):
    step = uncertainty.resolution_step(run.bench.instrument(name), read)
    return np.sqrt((NEW_AT_POINT * unsure) ** 2 + step**2 / 12 + UNSETTLED.get(name, 0.0) ** 2)


def _checked(run, found):
    work = found.read[FUEL] if np.isfinite(found.read[FUEL]).all() else found.read["power"]
    found = _without_gaps(found)
    if len(work) < FEWEST_POINTS or np.ptp(work) < LEAST_SPREAD * np.max(work):
        raise TurbomathError(
            f"{short(run.name)}: found one load, expected readings at {FEWEST_POINTS} loads or more. At one load too "
            "many faults look alike; read the engine at a part load too."
        )
    if len(found.gauges) < FEWEST_GAUGES:
        names = ", ".join(name.replace("_", " ") for name in found.gauges) or "none"
        raise TurbomathError(
            f"{short(run.name)}: found too few gauges read at every load ({names}), expected {FEWEST_GAUGES} or more, "
            "such as boost, manifold temperature and turbine inlet temperature. Read more of them."
        )
    return found


def _without_gaps(found):
    """Return the readings without the gauges that were not read at every point."""
    kept = {name: one for name, one in found.read.items() if np.isfinite(one).all()}
    return Observed(found.site, kept, found.unsure, found.scatter, found.load)


def side_by_side(now: Observed, before: Observed) -> tuple[Observed, Observed]:
    """Return as many points of both runs: for each of the first the one of the second that ran most like it."""
    drive = next(name for name in (FUEL, "power") if name in now.read and name in before.read)
    loads = np.isfinite(now.load).all() and np.isfinite(before.load).all()
    here, there = (now.load, before.load) if loads else (now.read[drive], before.read[drive])
    now, here = now.at(few := evenly(here)), here[few]
    return now, before.at(np.argmin(np.abs(here[:, None] - there), axis=1))


def evenly(work: np.ndarray) -> np.ndarray:
    """Return the places of a few points, evenly from the least work to the most, each once."""
    wanted = np.linspace(np.min(work), np.max(work), MOST_POINTS)
    return np.unique(np.argmin(np.abs(work[:, None] - wanted), axis=0))
