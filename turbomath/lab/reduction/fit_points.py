"""The loaded points of a run as an engine of the balance is fitted to them, and what bench.toml says of the engine."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from turbomath.engine.expected import START
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.lab.reduction.fuel_and_core import fuel_flow, shaft_power
from turbomath.lab.reduction.stations import above_zero, at_stations, gauge_readings
from turbomath.lab.run.readings import Run, as_run
from turbomath.table.errors import TurbomathError, short, unwarned

LOADED = ("", "load")  # conditions of a row; an idling or unloaded engine says little of a turbine
_PLACE = {"engine_speed": "engine speed", "ambient_pressure": "barometer", "ambient_temperature": "ambient temperature"}
_AS_READ = ("turbine_inlet_temperature", "turbine_inlet_pressure", "turbine_outlet_temperature")


def sheet_of_run(run: Run | Path | str) -> tuple[list[dict[str, float]], TurbochargedEngine]:
    """Return (points, engine) of a run, as `turbomath.engine.fitting.fit` takes them.

    Raises
    ------
    TurbomathError
        If bench.toml does not say what the engine is, or no row says how hard it worked.
    """
    run = as_run(run)
    engine, columns = engine_of(run), _columns(run)
    points = [{name: float(one[row]) for name, one in columns.items()} for row in fitted_rows(run)]
    return points, engine


def fitted_rows(run: Run) -> list[int]:
    """Return the rows that an engine is fitted to: under load, with speed, weather, and fuel or else power."""
    columns = _columns(run)
    loaded = np.array([condition in LOADED for condition in run.conditions], dtype=bool)
    placed = sum(columns[name] for name in _PLACE)
    for drive in ("fuel_flow", "power"):
        rows = np.flatnonzero(loaded & np.isfinite(placed + columns[drive]))
        if rows.size:
            return [int(row) for row in rows]
    raise TurbomathError(
        f"{short(run.name)}: found {_lack(columns, loaded)}, expected at least one point under load with engine speed, "
        "barometer, ambient temperature, and fuel flow or power in the same row. An engine can be fitted only where it "
        "is known how hard it worked."
    )


def _lack(columns, loaded):
    """Return what no loaded row has, in words."""
    if not loaded.any():
        return "no point under load"
    absent = [words for name, words in _PLACE.items() if not np.isfinite(columns[name][loaded]).any()]
    if not any(np.isfinite(columns[name][loaded]).any() for name in ("fuel_flow", "power")):
        absent.append("fuel flow or power")
    return f"no reading of {' and of '.join(absent)} under load" if absent else "no row under load that has them all"


def engine_of(run: Run) -> TurbochargedEngine:
    """Return the ready engine with the size, filling, fuel and aftercooler that bench.toml states."""
    stated = run.bench.engine
    if stated.displacement is None or stated.aftercooler is None:
        raise TurbomathError(
            f"{short(run.bench.file)}: displacement and aftercooler are not both stated under [engine]; no engine can "
            "be fitted without them."
        )
    if stated.egr:
        raise TurbomathError(
            f"{short(run.bench.file)}: found egr = true, expected an engine without it. The model has no exhaust gas "
            "in the charge."
        )
    own: dict[str, Any] = {"name": run.name, "displacement": stated.displacement * 4 / stated.strokes}
    if stated.volumetric_efficiency:
        own["volumetric_efficiency"] = stated.volumetric_efficiency.value
    if stated.fuel_lower_heating_value:
        own["fuel_lower_heating_value"] = stated.fuel_lower_heating_value
    ready = replace(START[stated.aftercooler], **own)
    if stated.aftercooler == "separate-circuit":  # a liquid of its own, near the air; common practice
        cooler = replace(ready.aftercooler, jacket_water_temperature=SEPARATE_CIRCUIT)
        ready = replace(ready, aftercooler=cooler)
    return ready


SEPARATE_CIRCUIT = 315.0  # K


@unwarned()
def _columns(run):
    """Return the readings by the names of the fit, an element a row."""
    read, _ = gauge_readings(run)
    at = at_stations(run, read)
    cooled_by_liquid = run.bench.engine.aftercooler in ("jacket-water", "separate-circuit")
    return {
        "engine_speed": above_zero(read["engine_speed"]),
        "ambient_pressure": at.ambient_pressure,
        "ambient_temperature": at.ambient_temperature,
        "fuel_flow": above_zero(fuel_flow(read)),
        "power": above_zero(shaft_power(read)),
        "manifold_pressure": at.manifold_pressure,
        "manifold_temperature": at.manifold_temperature,
        "compressor_outlet_temperature": at.compressor_outlet_temperature,
        "medium_temperature": at.medium_temperature if cooled_by_liquid else np.nan * at.medium_temperature,
    } | {name: run[name] for name in _AS_READ}
