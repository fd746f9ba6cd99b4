"""The results of a run in the order of reduced.csv, what each needs, and why one could not be worked out."""

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.lab.reduction import metered_air, not_read, shaft
from turbomath.lab.reduction.fuel_and_core import (
    NEAR_FULL_LOAD,
    fuel_flow,
    is_diesel,
    shaft_power,
    stoichiometric,
    within_standard,
)
from turbomath.lab.reduction.stations import CHANNELS, AtStations, at_stations
from turbomath.lab.run.fuels import FUELS
from turbomath.lab.run.readings import Run
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import Estimate

DESIGN = ("compressor_efficiency", "effectiveness", "cooler_pressure_loss")
_GAIN = ("ambient_pressure", "ambient_temperature", "manifold_pressure")
_OUTLET = ("compressor_outlet_pressure", "compressor_outlet_temperature")
_INLET = ("compressor_inlet_pressure", "compressor_inlet_temperature")
_AIR_FLOW = ("engine_speed", "displacement", "volumetric_efficiency", "manifold_pressure", "manifold_temperature")

RESULTS = {
    "pressure_ratio": ("compressor_inlet_pressure", "compressor_outlet_pressure"),
    "density_ratio": (*_GAIN, "manifold_temperature"),
    "compressor_efficiency": (*_INLET, *_OUTLET),
    "effectiveness": ("aftercooler", "compressor_outlet_temperature", "manifold_temperature", "medium_temperature"),
    "volumetric_efficiency": ("air_flow", "engine_speed", "displacement", "manifold_pressure", "manifold_temperature"),
    "ideal_outlet_temperature": (*_INLET, "compressor_outlet_pressure"),
    "dew_point": ("humidity", "manifold_pressure"),
    "ambient_density": ("ambient_pressure", "ambient_temperature"),
    "compressor_outlet_density": _OUTLET,
    "manifold_density": ("manifold_pressure", "manifold_temperature"),
    "cooler_pressure_loss": ("aftercooler", "cooler_pressure_loss"),
    "measured_charge_gain": (*_GAIN, "manifold_temperature"),
    "theoretical_charge_gain": (*_GAIN, "design", "medium_temperature"),
    "charge_gain_difference": (*_GAIN, "manifold_temperature", "design", "medium_temperature"),
    "measured_aftercooling_density_gain": ("aftercooler", *_OUTLET, "manifold_pressure", "manifold_temperature"),
    "theoretical_aftercooling_density_gain": ("aftercooler", *_GAIN, "design", "medium_temperature"),
    "mass_flow_gain": ("aftercooler", *_INLET, *_OUTLET, "manifold_temperature"),
    "greatest_possible_gain": (*_INLET, *_OUTLET, "medium_temperature"),
    "air_flow": _AIR_FLOW,
    "heat_rejected": ("aftercooler", *_AIR_FLOW, *_OUTLET),
    "compressor_power": (*_AIR_FLOW, "compressor_inlet_temperature", *_OUTLET),
    "condensate_flow": ("aftercooler", "humidity", *_AIR_FLOW),
    "conductance": ("aftercooler", *_AIR_FLOW, "compressor_outlet_temperature", "medium_temperature", "medium_flow"),
    "fuel_flow": ("fuel_flow",),
    "power": ("power",),
    "air_fuel_ratio": ("fuel_flow", *_AIR_FLOW),
    "excess_air_ratio": ("known_fuel", "fuel_flow", *_AIR_FLOW),
    "specific_fuel_consumption": ("fuel_flow", "power"),
    "corrected_power": (
        "diesel",
        "full_load",
        "standard_day",
        "power",
        "fuel_flow",
        "engine_speed",
        "displacement",
        "ambient_pressure",
        "ambient_temperature",
        "compressor_outlet_pressure",
    ),
    **shaft.RESULTS,
}
AFTERCOOLER_RESULTS = tuple(name for name, needs in RESULTS.items() if "aftercooler" in needs)
# They set the manifold beside the compressor, and the throttle is between the two
NOT_BEHIND_A_THROTTLE = (
    "measured_aftercooling_density_gain",
    "theoretical_aftercooling_density_gain",
    "mass_flow_gain",
    "greatest_possible_gain",
)

# What is wanting, in words
_REASONS = {
    "aftercooler": "this engine has no aftercooler",
    "humidity": "no reading of relative humidity or wet bulb temperature, so the air is taken as dry",
    "design": "bench.toml [design] does not state {}",
    "displacement": "bench.toml [engine] does not state the displacement",
    "volumetric_efficiency": "bench.toml [engine] does not state a volumetric_efficiency",
    "engine_speed": "no reading of engine speed",
    "air_flow": "no reading of air flow, air volume flow or air meter pressure drop",
    "ambient_pressure": "no reading of the barometer",
    "ambient_temperature": "no reading of ambient temperature",
    "compressor_inlet_pressure": "an intake restriction that is more than the barometer",
    "compressor_inlet_temperature": "no reading of compressor inlet temperature or ambient temperature",
    "compressor_outlet_pressure": "no reading of compressor outlet pressure, nor of boost with cooler pressure loss",
    "compressor_outlet_temperature": "no reading of compressor outlet temperature",
    "manifold_pressure": "no reading of boost or manifold pressure",
    "manifold_temperature": "no reading of manifold temperature",
    "medium_temperature": "no reading of cooling medium temperature",
    "cooler_pressure_loss": "no reading of cooler pressure loss, nor of compressor outlet pressure",
    "medium_flow": "no reading of cooling medium outlet temperature, nor of cooling medium flow",
    "fuel_flow": "no reading of fuel flow, nor of fuel mass with fuel time",
    "power": "no reading of power, nor of torque with engine speed",
    "known_fuel": f"bench.toml [engine] names a fuel that the kit does not know; it knows {', '.join(FUELS)}",
    "diesel": "bench.toml [engine] names a fuel other than diesel, and the standard's rule here is for diesel engines",
    "full_load": "no reading at 90 % load or more, and the standard corrects full load only",
    "standard_day": "the day is outside what ISO 1585 corrects: 10 to 40 °C, 80 to 110 kPa of dry air, "
    "a factor of 0.9 to 1.1",
    # What the engine itself forbids
    "throttle": "a throttle (throttle = true) takes pressure between aftercooler and manifold, so this says nothing of "
    "either",
    "unmixed": "exhaust gas is mixed in before the manifold thermometer (egr = true); a thermometer at the aftercooler "
    "outlet, in a column cooler outlet temperature, would tell",
    "air_alone": "exhaust gas is mixed in (egr = true), so the cylinders take in more than air; read the air flow "
    "itself",
    **shaft.REASONS,
}
_SOME_BAROMETER = 101_325.0  # Pa; any will do to see what else is there
CANNOT_TELL = "the gauges cannot tell at so little boost: the efficiency of the compressor may be anything"
LEANS_ON_EFFICIENCY = ("mass_flow_gain", "greatest_possible_gain")
_OF_THE_AIR = ("pressure", "absolute pressure", "gauge pressure", "pressure difference", "temperature", "share")


def untold(efficiency: Estimate) -> NDArray[np.bool_]:
    """Return the rows where the ± of the compressor efficiency reaches below 0 or above 1, as no compressor does.

    More than two in a hundred draws are there, and what leans on the efficiency has no ± that holds.
    """
    value, width = efficiency.value, efficiency.plus_or_minus
    return (value - width < 0) | (value + width > 1)


def wanting(
    run: Run, at: AtStations, read: Mapping[str, Any], estimates: Mapping[str, Estimate], metered: NDArray[np.bool_]
) -> tuple[dict[str, tuple[str, ...]], dict[str, str]]:
    """Return what each result lacks that no row allows, as names of needs, and the same in words.

    What a barometer would put right stands as "ambient_pressure"; a barometer that could be had is offered in the
    words. Nothing lacks where all was read and yet nothing comes of it. *metered* says in which rows the air flow was
    measured.
    """
    known = _known(run, at, read, metered)
    absent = {name for name, here in known.items() if not np.any(here)}
    roots = {need: need for need in absent} | dict.fromkeys(
        _for_want_of_a_barometer(run, read, absent), "ambient_pressure"
    )
    nothing = [name for name in RESULTS if not np.isfinite(estimates[name].value).any()]
    lacking = {name: _lacking(run.bench.engine, name, roots) for name in nothing}
    unstated = ", ".join(name for name in DESIGN if np.isnan(read[f"design_{name}"]).all())
    words = {
        name: "; ".join(_REASONS[need].format(unstated) for need in needs)
        or _nothing_wanting(run, name, known, estimates)
        for name, needs in lacking.items()
    }
    offers = {
        "barometer": not_read.barometer_offer(run),
        "air_meter_pressure_drop": metered_air.unused_drop(run),
    }
    return lacking, words | {name: offer for name, offer in offers.items() if offer}


def _lacking(engine, name, roots):
    """Return the needs of a result that no row meets; what the engine itself forbids stands alone."""
    needs = RESULTS[name]
    if engine.throttle and name in NOT_BEHIND_A_THROTTLE:
        return ("throttle",)
    if engine.egr and "manifold_temperature" in needs and "manifold_temperature" in roots:
        return ("unmixed",)
    if engine.egr and "displacement" in needs and "air_flow" in roots:
        return ("air_alone",)
    if "aftercooler" in needs and "aftercooler" in roots:
        return ("aftercooler",)
    return tuple(dict.fromkeys(roots[need] for need in needs if need in roots))


def _for_want_of_a_barometer(run, read, absent):
    """Return the needs that would be there if the barometer had been read."""
    if "ambient_pressure" not in absent:
        return set()
    gauges = {column: 0.0 for _, column in run.without_barometer}
    there = at_stations(run, {**read, **gauges, "barometer": np.full(len(run), _SOME_BAROMETER)})
    return {name for name in absent if np.isfinite(getattr(there, name, np.nan)).any()}


def _nothing_wanting(run, name, known, estimates):
    """Return why nothing comes of a result although every reading is there: in one row, or in none."""
    met = [known.get(need, True) for need in RESULTS[name]]
    rows = np.flatnonzero(np.logical_and.reduce(np.broadcast_arrays(np.ones(len(run), dtype=bool), *met)))
    if not rows.size:
        return "no row has all the readings it needs"
    if name in LEANS_ON_EFFICIENCY and untold(estimates["compressor_efficiency"])[rows].all():
        return CANNOT_TELL
    gauges = [name for name in run.cells if name in CHANNELS and QUANTITIES[name].kind in _OF_THE_AIR]
    told = next((one for row in rows for column in gauges if (one := _beyond(run, column, row))), "")
    return told or "nothing that can be comes of these readings"


def _beyond(run, column, row):
    """Return a reading that is outside all that an instructor meets, in words; "" for any other."""
    low, high = QUANTITIES[column].sensible
    if not (run[column][row] < low or run[column][row] > high):
        return ""
    written = f"{run.cells[column][row].strip()} {run.units[column]}"
    return f"nothing comes of {QUANTITIES[column].plain_name} {short(written)} at point {short(run.points[row])}"


def _known(run, at, read, metered):
    """Which needs are met, and in which rows."""
    design = [read[f"design_{name}"] for name in DESIGN]
    stations = {name: ~np.isnan(getattr(at, name)) for name in _REASONS if hasattr(at, name)}
    return {
        **stations,
        "aftercooler": run.bench.engine.aftercooler != "none",
        "humidity": at.humidity_known,
        "design": not np.isnan(design).any(),
        "displacement": run.bench.engine.displacement is not None,
        "volumetric_efficiency": metered | ~np.isnan(read["volumetric_efficiency"]),
        "engine_speed": metered | ~np.isnan(read["engine_speed"]),
        "air_flow": metered,
        "medium_flow": ~np.isnan(read["cooling_medium_outlet_temperature"]) | ~np.isnan(read["cooling_medium_flow"]),
        "fuel_flow": ~np.isnan(fuel_flow(read)),
        "power": ~np.isnan(shaft_power(read)),
        "known_fuel": np.isfinite(stoichiometric(run.bench.engine)),
        "diesel": is_diesel(run.bench.engine),
        "full_load": ~(run["load"] < NEAR_FULL_LOAD),
        "standard_day": within_standard(run, at, read),
        **shaft.known_needs(run, read),
    }
