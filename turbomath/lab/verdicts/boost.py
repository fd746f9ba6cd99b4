"""What the boost should be at each point: by the maker's figure, by the engine's own earlier run, or by a model.

The balance carries a known boost to today's fuel, speed, barometer and air. What the carrying itself may have wrong is
a share of the way it goes, so a sound engine on another day is not called wrong.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath import uncertainty
from turbomath.engine import expected
from turbomath.engine.expected import Point
from turbomath.lab.reduction.fuel_and_core import fuel_flow, shaft_power
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.stations import above_zero, at_stations, gauge_readings
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.readings import Run
from turbomath.lab.verdicts.design_here import stated_design
from turbomath.lab.verdicts.joint import split
from turbomath.lab.verdicts.machines_and_charge import Comparison
from turbomath.table.errors import unwarned

MAKER, EARLIER, MODEL = "maker", "earlier run", "model"

# Common practice, all half-widths
USUAL_WIDTH = 0.10  # of a maker's boost that states no ±
RETURNING = 0.02  # of the boost: the same engine on another day
CARRYING = 0.3  # of the way that the balance carries a boost
LEAST_OF_MODEL, MODEL_AT_NO_FUEL = 0.15, 0.5  # away from the rated point; tried on makers' figures of three engines

AT_RATED = {"driven": 0.10, "engine_speed": 0.03}  # a point this near is the rated point
AT_EARLIER = {"driven": 0.25, "engine_speed": 0.05}  # an earlier point this near is the same load step
LEAST_EXPECTED = 20_000.0  # Pa; where a turbine gives less, a balance says nothing of it
USUAL = {"volumetric_efficiency": 0.92, "compressor_efficiency": 0.74, "cooler_pressure_loss": 8_000.0}
USUAL_EFFECTIVENESS = {"none": 0.0, "air-to-air": 0.80, "jacket-water": 0.75, "separate-circuit": 0.75}


@dataclass(frozen=True)
class Known:
    """A boost that was known, one for each row judged: where the engine ran then, and the half-width of its ±."""

    source: str
    rows: NDArray[np.int_]
    boost: NDArray[np.float64]
    values: dict
    unsure: dict
    point: object  # a function of the values: where the engine ran then


def comparisons(reduced: Reduced, baseline: Reduced | None = None) -> tuple[Comparison, ...]:
    """Return the boost of this run against each expectation there is, the most trusted first."""
    run = reduced.run
    if run.bench.engine.aftercooler not in expected.START or run.bench.engine.displacement is None:
        return ()
    ...
