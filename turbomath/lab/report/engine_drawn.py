"""The engine of one reading: theory at each station of its air path, and beside it what the gauges show there."""

import numpy as np

from turbomath import air as air_models
from turbomath import units
from turbomath.lab.reduction.design_here import readings_and_design
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.shaft import exhaust_pressures
from turbomath.lab.reduction.stations import at_stations
from turbomath.lab.reduction.two_paths import theoretical_path
from turbomath.lab.run.readings import Run
from turbomath.physics import charge
from turbomath.pictures.air_path import COOLERS, AirPath, State, picture_air_path
from turbomath.table.errors import short, unwarned
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import COVERAGE_FACTOR, standard
from turbomath.units.rounding import with_plus_or_minus
from turbomath.units.shown import width_unit

# Station -> the columns that are read there
READ_AT = {
    "ambient": ("ambient_temperature",),
    "compressor_inlet": ("compressor_inlet_temperature",),
    "compressor_outlet": ("compressor_outlet_pressure", "compressor_outlet_temperature"),
    "manifold": ("boost", "manifold_temperature"),
    "turbine_inlet": ("turbine_inlet_temperature",),
    "turbine_outlet": ("turbine_outlet_temperature",),
}
NEEDED = ("compressor_inlet_density", "compressor_outlet_density", "manifold_density")
EXHAUST = {"turbine_inlet": "turbine_inlet_pressure", "turbine_outlet": "exhaust_back_pressure"}


@unwarned()
def engine_of_readings(reduced: Reduced, row: int, system: str) -> AirPath | None:
    """Return the drawing of one row of a run, or None where theory has no state for it.

    Parameters
    ----------
    reduced : Reduced
        The run.
    row : int
        One of its rows.
    system : "us" or "si"
        The units shown.
    """
    run, aftercooler = reduced.run, reduced.run.bench.engine.aftercooler
    if aftercooler not in COOLERS:
        return None
    values = readings_and_design(run)
    at = at_stations(run, values)
    found = theoretical_path(at, values, air_models.chosen(reduced.air))
    if not all(np.isfinite(getattr(found, name)[row]) for name in NEEDED):
        return None
    read = {station: _read(run, columns, row, system) for station, columns in READ_AT.items()}
    pressures = zip(EXHAUST.items(), exhaust_pressures(run, at, values), strict=True)
    exhaust = {
        station: _exhaust(run, station, pressure[row] if np.isfinite(run[column][row]) else np.nan, row, read[station])
        for (station, column), pressure in pressures
    }
    title = f"Point {short(run.points[row], 24)}: theory for these readings, and what was read"
    medium = float(at.medium_temperature[row])
    return picture_air_path(
        title,
        found,
        aftercooler,
        system,
        medium_temperature=medium if np.isfinite(medium) else None,
        read=read,
        exhaust={station: one for station, one in exhaust.items() if np.isfinite(one.temperature)},
        shaft_power=_shaft_power(reduced, row),
        row=row,
    )


def _exhaust(run, station, pressure, row, read):
    """Return the state of the exhaust as it was read; as dense as dry air of its pressure and temperature."""
    temperature = float(run[f"{station}_temperature"][row])
    density = charge.density(pressure, temperature) if temperature > 0 else np.nan
    return State(float(pressure), temperature, float(density), read)


def _shaft_power(reduced, row):
    """Return the power through the shaft: what the compressor takes, else what the turbine gives; None if unknown."""
    powers = (float(reduced[name].value[row]) for name in ("compressor_power", "turbine_power"))
    return next((power for power in powers if np.isfinite(power)), None)


def _read(run: Run, columns: tuple[str, ...], row: int, system: str) -> str:
    """Return what was read at a station: each reading with its ±, "" for nothing."""
    return ", ".join(_amount(run, name, row, system) for name in columns if np.isfinite(run[name][row]))


def _amount(run, name, row, system):
    gauge = name in run.gauge_columns
    value = float(run[name][row] - (run.station_pressure[row] if gauge else 0.0))
    width = COVERAGE_FACTOR * float(standard(run.bench.instrument(name), value))
    absolute = "manifold_pressure" if QUANTITIES[name].kind == "pressure" else name
    quantity = "boost" if gauge else absolute
    unit = units.display(quantity, system)
    width_quantity, width_in = width_unit(quantity, system)
    figures = units.from_si(value, unit, quantity), units.from_si(width, width_in, width_quantity)
    return f"{with_plus_or_minus(*figures)} {unit}"
