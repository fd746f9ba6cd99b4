"""The two air paths of a run: the one that was read, and the one that the design makes of the same boost."""

from collections.abc import Mapping
from typing import Any

import numpy as np

from turbomath.engine import path
from turbomath.engine.charge_air import mixture
from turbomath.engine.through import Stations, densities
from turbomath.lab.reduction.stations import AtStations, at_stations
from turbomath.lab.run.readings import Run


def vapour(gas: Any, at: AtStations) -> Any:
    """Return the humidity ratio of the air drawn in; where it cannot be known the air is taken as dry, and said so."""
    found = gas.humidity_ratio(at.ambient_pressure, at.ambient_temperature, at.relative_humidity)
    return np.where(np.isnan(at.ambient_pressure * at.ambient_temperature), 0.0, found)


def measured_path(at: AtStations, efficiency: Any, gas: Any, humidity_ratio: Any) -> path.ChargePath:
    """Return the air path through the stations as read; without the engine's efficiency some gains stay `nan`."""
    believable = np.where((efficiency > 0) & (efficiency <= 1), efficiency, np.nan)
    return path.through(_stations(at, humidity_ratio), believable, gas)


def theoretical_path(at: AtStations, read: Mapping[str, Any], air: Any) -> path.ChargePath:
    """Return the air path at the same ambient, restriction and boost, with the design's own numbers."""
    return path.charge_path(**_design(at, read, air))


def theoretical_gains(at: AtStations, read: Mapping[str, Any], air: Any) -> path.Gains:
    """Return the two gains of density of `theoretical_path`, in a third of its time."""
    return path.charge_gains(**_design(at, read, air))


def three_gains(run: Run, air: Any, read: Mapping[str, Any]) -> dict[str, Any]:
    """Return measured and theoretical charge gain and their difference alone, as a whole reduction has them."""
    at, gas = at_stations(run, read), mixture(air)
    ambient, _, _, _, manifold = densities(_stations(at, vapour(gas, at)), gas)
    measured, theory = manifold / ambient - 1, theoretical_gains(at, read, air).charge_gain
    return {
        "measured_charge_gain": measured,
        "theoretical_charge_gain": theory,
        "charge_gain_difference": measured - theory,
    }


def _stations(at, humidity_ratio):
    return Stations(
        at.ambient_pressure,
        at.ambient_temperature,
        at.compressor_inlet_pressure,
        at.compressor_inlet_temperature,
        at.compressor_outlet_pressure,
        at.compressor_outlet_temperature,
        at.manifold_pressure,
        at.manifold_temperature,
        at.medium_temperature,
        humidity_ratio,
    )


def _design(at, read, air):
    """The arguments of `charge_path` for the design: the same ambient, restriction and boost, its own numbers."""
    return dict(
        ambient_pressure=at.ambient_pressure,
        ambient_temperature=at.ambient_temperature,
        compressor_inlet_temperature=at.compressor_inlet_temperature,
        intake_restriction=at.intake_restriction,
        manifold_pressure=at.manifold_pressure,
        isentropic_efficiency=np.minimum(read["design_compressor_efficiency"], 1.0),
        effectiveness=np.clip(read["design_effectiveness"], 0.0, 1.0),
        medium_temperature=at.medium_temperature,
        cooler_pressure_loss=at.expected_pressure_loss,
        relative_humidity=at.relative_humidity,
        air=air,
    )
