"""The air flow that a run has measured: by its own reading, as a volume, or by the drop across an air meter."""

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.lab.reduction.meter_inputs import FACTORS
from turbomath.lab.reduction.stations import AtStations, Choice
from turbomath.lab.run.air_meter import ORIFICE, AirMeter
from turbomath.lab.run.readings import Run
from turbomath.physics import flow_meters
from turbomath.physics.orifice import LEAST_PRESSURE_RATIO, Plate
from turbomath.table.constants import AIR_HEAT_CAPACITY_RATIO

WORDS = {ORIFICE: "orifice, ISO 5167-2", "laminar": "laminar-flow element, the maker's constant"}
_EXPANSION = 0.035 / AIR_HEAT_CAPACITY_RATIO  # of the drop over the pressure, k = 2: ISO 5167-2, 5.3.3.2
SPEED_DENSITY = "engine speed, displacement and volumetric efficiency"
NO_METER = (
    "bench.toml has no [air_meter], so the drop says nothing of the air flow; state its kind there, orifice or laminar"
)


def metered(run: Run, at: AtStations, read: Mapping[str, Any], ambient_density: Any) -> tuple[NDArray, dict]:
    """Return (air flow [kg/s], {source in words: rows it serves}); `nan` where nothing measured it.

    *ambient_density* [kg/m^3] is that of the air before the meter, and of a volume flow.
    """
    choice, meter = Choice(), run.bench.air_meter
    flow = choice.first(
        "air_flow",
        ("air flow", read["air_flow"]),
        ("air volume flow", read["air_volume_flow"] * ambient_density),
        *([] if meter.kind is None else [(WORDS[meter.kind], _by_drop(meter, at, read, ambient_density))]),
    )
    return flow, choice.sources["air_flow"]


def with_the_rest(sources: dict, rest: NDArray[np.bool_]) -> dict:
    """Return the sources of `metered` with what serves the rows that it leaves, if any of both are there."""
    return sources | {SPEED_DENSITY: rest} if sources and rest.any() else sources


def unused_drop(run: Run) -> str:
    """Return why the drop across an air meter is of no use, or "" where it is of use or was not read."""
    return NO_METER if run.bench.air_meter.kind is None and run.has("air_meter_pressure_drop") else ""


def _by_drop(meter: AirMeter, at, read, density):
    drop = read["air_meter_pressure_drop"]
    if meter.kind == ORIFICE:
        return _through_orifice(meter, at, read, drop, density)
    constants = read["laminar_flow_constant"], meter.at
    return flow_meters.laminar_volume_flow(drop, at.ambient_temperature, *constants) * density


def _through_orifice(meter, at, read, drop, density):
    """Return the flow where the standard knows the coefficient; elsewhere nothing comes of the drop."""
    pipe, bore = read["pipe_diameter"], read["bore_diameter"]
    viscosity = flow_meters.air_viscosity(at.ambient_temperature)
    state = at.ambient_pressure, density, viscosity
    flow = flow_meters.orifice_mass_flow(drop, *state, pipe, bore, meter.tappings)
    reynolds = flow_meters.pipe_reynolds_number(np.nan_to_num(flow), pipe, viscosity)
    plate, lost = Plate(bore / pipe, pipe, meter.tappings), drop / at.ambient_pressure
    covered = plate.covered(reynolds) & (lost <= 1 - LEAST_PRESSURE_RATIO)
    unsure = np.hypot(plate.uncertainty(reynolds), _EXPANSION * lost)
    return np.where(covered, flow * (1 + unsure * read[FACTORS]), np.nan)
