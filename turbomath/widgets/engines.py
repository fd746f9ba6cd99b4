"""Engines drawn from pressures and temperatures alone: each station is filled with dry air as a perfect gas."""

from collections.abc import Collection, Mapping
from typing import Any

from turbomath.physics import charge
from turbomath.pictures.air_path import AirPath, State

OF_CHARGE = ("compressor", "aftercooler", "manifold", "cylinder")


def engine(
    title: str,
    system: str,
    stations: Mapping[str, tuple[float, float]],
    *,
    aftercooler: str = "none",
    medium_temperature: float | None = None,
    speaks: Collection[str] | None = OF_CHARGE,
    silent: Collection[str] = (),
    shaft_power: float | None = None,
) -> AirPath:
    """Return an `AirPath`.

    Parameters
    ----------
    title : str
        One line.
    system : "us" or "si"
        The units shown.
    stations : dict of name to (pressure [Pa], temperature [K])
        Absolute; a temperature of `nan` is drawn like any air, and nothing is said of it.
    aftercooler, medium_temperature, speaks, shaft_power
        As in `AirPath`.
    silent : names of stations
        Drawn without words.
    """
    states = {
        name: State(pressure, temperature, float(charge.density(pressure, temperature)), silent=name in silent)
        for name, (pressure, temperature) in stations.items()
    }
    return AirPath(title, states, aftercooler, system, medium_temperature, speaks, shaft_power)


def engine_of_balance(title: str, found: Any, aftercooler: str, system: str) -> AirPath:
    """Return the drawing of an engine in balance, with its exhaust.

    *found* has the pressures [Pa] and temperatures [K] of a `turbomath.engine.balance.Balance` at one point.
    """
    names = ("ambient", "compressor_inlet", "compressor_outlet", "manifold", "turbine_inlet", "turbine_outlet")
    stations = {
        name: (float(getattr(found, f"{name}_pressure")), float(getattr(found, f"{name}_temperature")))
        for name in names
    }
    medium = None if aftercooler == "none" else float(found.medium_temperature)
    return engine(
        title,
        system,
        stations,
        aftercooler=aftercooler,
        medium_temperature=medium,
        speaks=None,
        shaft_power=float(found.compressor_power),
    )
