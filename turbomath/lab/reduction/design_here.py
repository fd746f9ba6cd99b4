"""What the machines should do at each point of a run: the design is for the rated point, other flows follow rules.

A core loses pressure with the square of its flow and keeps more of its effectiveness when little flows through it. How
much, no rule knows for every core; so each rule brings its own ±, which grows with the way from the rated point.
"""

import numpy as np

from turbomath.engine.expected import MOST_EFFECTIVE
from turbomath.lab.reduction.stations import above_zero, at_stations, gauge_readings
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.bench import Bench
from turbomath.lab.run.channels import LIQUID_COOLED
from turbomath.lab.run.readings import Run
from turbomath.physics import exchanger, fouling_and_flow
from turbomath.table.constants import AIR_HEAT_CAPACITY_RATIO

# Half-width of a design value that states none: what a maker's figure usually allows; common practice
USUAL_WIDTH = {"compressor_efficiency": 0.03, "effectiveness": 0.03}
USUAL_LOSS_WIDTH = 0.25  # of the pressure loss

# What the rules say and what they do not know, the latter as half-widths; common practice
EFFICIENCY_FALL = 0.15  # of a compressor with no flow left; it falls with the square of the flow that is missing
EFFICIENCY_RULE = 1.0  # of that fall
EFFECTIVENESS_RULE = 0.5  # of the change that the rule makes
LOSS_RULE = 0.25  # of the change that the rule makes
RULES = {
    "rule_of_efficiency": "compressor efficiency",
    "rule_of_effectiveness": "effectiveness",
    "rule_of_loss": "cooler pressure loss",
}

# (share of the thermal resistance on the charge side, charge over medium capacity rate at the rated point); the share
# of an air-to-air core lies between a half and the whole; common practice
CORES = {"air-to-air": (0.75, 0.15), **dict.fromkeys(LIQUID_COOLED, (0.9, 0.06))}
ARRANGEMENT = "crossflow, both unmixed"
AIR_EXPONENT = (AIR_HEAT_CAPACITY_RATIO - 1) / AIR_HEAT_CAPACITY_RATIO
_FLOW_AT_NO_LOAD = 0.45  # of the rated air flow, at rated speed; common practice


def stated_design(bench: Bench) -> dict[str, Stated]:
    """Return the design values of a bench, each with a ±: its own, or the usual one."""
    found = {}
    for name in ("compressor_efficiency", "effectiveness", "cooler_pressure_loss"):
        stated = getattr(bench.design, name)
        if stated is not None:
            usual = USUAL_WIDTH.get(name, USUAL_LOSS_WIDTH * stated.value)
            found[name] = Stated(stated.value, stated.tolerance or usual)
    return found


def with_design(run: Run, values: dict, unsure: dict) -> tuple[dict, dict]:
    """Return readings and their standard uncertainties, with the design's own ± and the rules as further numbers."""
    stated = stated_design(run.bench)
    values = values | {f"design_{name}": one.value for name, one in stated.items()} | dict.fromkeys(RULES, 0.0)
    widths = {f"design_{name}": one.tolerance for name, one in stated.items()} | dict.fromkeys(RULES, 1.0)
    return values, unsure | {name: np.asarray(width) / np.sqrt(3) for name, width in widths.items()}


def rated_row(run: Run, values: dict) -> int | None:
    """Return the row of the most boost, for which the design is taken to hold where no rated point is stated."""
    at = at_stations(run, values)
    boost = at.manifold_pressure - at.ambient_pressure
    return int(np.nanargmax(boost)) if np.isfinite(boost).any() else None


def readings_and_design(run: Run) -> dict:
    """Return the readings of each gauge, with the design at each row among them."""
    values, _ = with_design(run, *gauge_readings(run))
    row = rated_row(run, values)
    return values if row is None else values | design_here(run, values, row)


def design_here(run: Run, read: dict, row: int) -> dict:
    """Return the design of each row by the names of the reduction; *read* holds the raw readings and the rules.

    *row* is that of `rated_row`. A speed that was not read is taken as that of the rated point, and a manifold
    temperature that was not read as the one that the design makes.
    """
    at, aftercooler = at_stations(run, read), run.bench.engine.aftercooler
    there = slice(row, row + 1)
    site = at.ambient_pressure, at.ambient_temperature
    by_design = _temperature(run, read, *site, at.manifold_pressure, at.medium_temperature)
    density = above_zero(at.manifold_pressure / _known(at.manifold_temperature, by_design))
    speed = _speed(run, above_zero(read["engine_speed"]), there)
    rated = _rated(run, read, there, density, speed, at)
    flow_ratio, density_ratio, speed_ratio = (now / then for now, then in zip(_at(density, speed), rated, strict=True))
    fall = EFFICIENCY_FALL * (1 - flow_ratio) ** 2 * (1 + EFFICIENCY_RULE * read["rule_of_efficiency"])
    here = {"design_compressor_efficiency": np.clip(read["design_compressor_efficiency"] - fall, 0.05, 1.0)}
    if aftercooler not in CORES:
        return here
    effectiveness, loss = read["design_effectiveness"], read["design_cooler_pressure_loss"]
    cooled = _effectiveness(effectiveness, flow_ratio, speed_ratio, aftercooler) - effectiveness
    lost = fouling_and_flow.pressure_loss_at_flow(loss, flow_ratio, density_ratio) - loss
    effectiveness = effectiveness + cooled * (1 + EFFECTIVENESS_RULE * read["rule_of_effectiveness"])
    return here | {
        "design_effectiveness": np.clip(effectiveness, 0.0, 1.0),
        "design_cooler_pressure_loss": np.maximum(loss + lost * (1 + LOSS_RULE * read["rule_of_loss"]), 0.0),
    }


def _rated(run, read, there, density, speed, at):
    """Return flow, density (as pressure over temperature) and speed at the rated point, or as the run lets expect."""
    rated = run.bench.rated
    if rated.boost is not None:
        pressure = rated.barometer + rated.boost.value
        medium = at.medium_temperature[..., there]
        site = rated.barometer, rated.ambient_temperature
        density = pressure / _temperature(run, read, *site, pressure, medium)
        return density * rated.engine_speed, density, rated.engine_speed
    load = np.minimum(_known(run["load"][there], 1.0), 1.0)
    flow, density, speed = (one[..., there] for one in _at(density, speed))
    return flow / (_FLOW_AT_NO_LOAD + (1 - _FLOW_AT_NO_LOAD) * load), density, speed


def _speed(run, read, there):
    """Return the speed of each row, that of the rated point where none was read; 1 where none is known there."""
    rated = run.bench.rated
    reference = read[..., there] if rated.boost is None else rated.engine_speed
    return np.where(np.isnan(reference), 1.0, _known(read, reference))


def _at(density, speed):
    return above_zero(density * speed), density, speed


def _temperature(run, read, barometer, ambient, pressure, medium):
    """Return the manifold temperature that the design makes of a boost; a liquid is as warm as it is in this run."""
    rise = ((pressure / barometer) ** AIR_EXPONENT - 1) / read["design_compressor_efficiency"]
    outlet, medium = ambient * (1 + rise), ambient if run.bench.engine.aftercooler == "air-to-air" else medium
    return outlet - _known(read["design_effectiveness"], 0.0) * (outlet - _known(medium, ambient))


def _effectiveness(effectiveness, flow_ratio, speed_ratio, aftercooler):
    """Return the charge effectiveness of the same core at other flows; fan and pump turn with the engine."""
    charge_share, rate_ratio = CORES[aftercooler]
    size = exchanger.ntu(np.clip(effectiveness, 0.01, MOST_EFFECTIVE), rate_ratio, ARRANGEMENT)
    size = fouling_and_flow.conductance_at_flows(size, flow_ratio, speed_ratio, charge_share)
    return exchanger.effectiveness_from_conductance(size, flow_ratio, speed_ratio / rate_ratio, ARRANGEMENT)


def _known(value, otherwise):
    return np.where(np.isnan(value), otherwise, value)
