"""Size is no fault: an engine is judged by what large and small ones have alike. Checks 38 and 39.

Mean effective pressure and piston speed are alike from 1 kW to 100 MW, so they say whether a power or a speed can be;
only in cylinders as small as a car's do pistons move faster (common practice).
"""

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from turbomath.lab.checks import fuel_bounds
from turbomath.lab.checks.bounds import BOUNDS
from turbomath.lab.checks.finding import Finding, judged
from turbomath.lab.checks.look import Look
from turbomath.table.constants import STANDARD_PRESSURE
from turbomath.table.quantities import QUANTITIES

LARGE_CYLINDER = 4e-3  # m^3; larger ones idle and run slower than a truck's
SMALL_CYLINDER = 0.8e-3  # m^3; smaller ones run faster: cars
SLOWEST, FASTEST = 0.3, 200.0  # rev/s, of any engine with pistons
# The most that a cubic metre of swept volume gives or takes, common practice, with room to spare [SI]
MOST_IN_SWEPT = {"power": 4.5e6, "air_flow": 12.0, "air_volume_flow": 10.0, "fuel_flow": 0.5}
# Where the size of the engine is not stated: those of 100 MW
MOST_OF_ALL = {
    "power": 1e8,
    "torque": 1e7,
    "air_flow": 300.0,
    "air_volume_flow": 300.0,
    "fuel_flow": 8.0,
    "fuel_mass": 1e5,
    "cooling_medium_flow": 5.0,
}
ABOVE_OPEN_AIR = (  # absolute pressures that stand little above the barometer at idle, so less on a mountain
    "manifold_pressure",
    "compressor_outlet_pressure",
    "throttle_inlet_pressure",
    "turbine_inlet_pressure",
    "turbine_outlet_pressure",
)
ABOVE_OUTSIDE = (  # temperatures that stand little above that outside at idle, so less in winter
    "compressor_outlet_temperature",
    "cooler_outlet_temperature",
    "manifold_temperature",
    "turbine_inlet_temperature",
    "turbine_outlet_temperature",
)
MILD_DAY = 293.15  # K
MOST_VACUUM = {"boost": -95e3, "manifold_pressure": 10e3}  # behind a closed throttle [Pa]


def mean_effective_pressure(look: Look) -> Iterable[Finding]:
    """38: the work of a cycle for each cubic metre of displacement, whatever the size of the engine."""
    power, swept = look.value("power"), swept_flow(look)
    pressure = power / swept
    read = look.present("power") or look.present("torque")
    columns = (*read, *look.present("engine_speed"))
    part_load = sorted(set(look.loaded) - set(look.full_load))
    groups = ((look.others(look.loaded), ""), (part_load, " at load"), (look.full_load, " at full load"))
    for rows, bound in groups:
        yield from judged(
            look,
            38,
            rows,
            pressure,
            look.result_width("power") / swept,
            BOUNDS[f"mean effective pressure{bound}"],
            columns,
            lambda row: (
                f"mean effective pressure {look.amount(pressure[row], 'psi', 'mean_effective_pressure')} from "
                f"{look.told(row, *columns)} and the displacement in bench.toml"
            ),
            "Check the units of power and speed, and the displacement: it is that of all cylinders together.",
        )


def piston_speed(look: Look) -> Iterable[Finding]:
    """39: how fast the pistons move, where bench.toml states the stroke."""
    stroke = look.bench.engine.stroke or np.nan
    speed = 2 * stroke * look.run["engine_speed"]
    return judged(
        look,
        39,
        look.steady,
        speed,
        2 * stroke * look.widths("engine_speed"),
        BOUNDS[f"piston speed{', small cylinders' if _has_small_cylinders(look) else ''}"],
        ("engine_speed",),
        lambda row: (
            f"{look.tell('engine_speed', row)} and the stroke in bench.toml: the pistons move at "
            f"{look.amount(speed[row], 'ft/min', 'piston_speed')}"
        ),
        "Check what the tachometer counts for each turn, and the stroke.",
    )


def sensible(look: Look, column: str) -> tuple[NDArray, NDArray]:
    """Return the (lowest, highest) reading of each row that some engine of this size may show [SI]."""
    low, high = QUANTITIES[column].sensible
    if column.startswith(ABOVE_OPEN_AIR):
        low = low * np.fmin(look.run.station_pressure / STANDARD_PRESSURE, 1.0)
    if column.startswith(ABOVE_OUTSIDE):
        low = low + np.fmin(look.run["ambient_temperature"] - MILD_DAY, 0.0)
    if column == "turbine_inlet_temperature":
        high = max(high, fuel_bounds.turbine_inlet_temperature(look.bench.engine).possible_in_si[1])
    if look.bench.engine.throttle and column in MOST_VACUUM:
        low = MOST_VACUUM[column]
    if column in MOST_IN_SWEPT:
        of_this_size = MOST_IN_SWEPT[column] * swept_flow(look)
        high = np.where(np.isnan(of_this_size), MOST_OF_ALL[column], of_this_size)
    elif column == "torque" and look.bench.engine.displacement:
        high = MOST_IN_SWEPT["power"] * look.bench.engine.displacement / (np.pi * look.bench.engine.strokes)
    elif column in MOST_OF_ALL:
        high = MOST_OF_ALL[column]
    elif column == "engine_speed" and is_large(look) is not None:
        low, high = (SLOWEST, high) if is_large(look) else (low, FASTEST)
    return np.broadcast_to(low, len(look.run)), np.broadcast_to(high, len(look.run))


def swept_flow(look: Look) -> NDArray:
    """Return the volume that the pistons sweep in working strokes each second [m^3/s]; `nan` where not known."""
    engine, speed = look.bench.engine, look.run["engine_speed"]
    return np.where(speed > 0, (engine.displacement or np.nan) * speed * 2 / engine.strokes, np.nan)


def is_large(look: Look) -> bool | None:
    """Return whether the cylinders are larger than a truck's; None where bench.toml does not tell."""
    cylinder = _cylinder(look)
    return None if cylinder is None else cylinder > LARGE_CYLINDER


def _has_small_cylinders(look):
    cylinder = _cylinder(look)
    return cylinder is not None and cylinder < SMALL_CYLINDER


def _cylinder(look):
    engine = look.bench.engine
    return engine.displacement / engine.cylinders if engine.displacement and engine.cylinders else None
