"""From gauge readings to measured and theoretical gain, each with its ±.

Measured and theoretical share the same gauges, so both are worked out in one function of the raw readings
and the uncertainty is carried through that one function.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np

from turbomath import air as air_models
from turbomath import uncertainty
from turbomath.engine import wheels
from turbomath.engine.charge_air import mixture
from turbomath.lab.reduction import against_design, metered_air, two_paths
from turbomath.lab.reduction.against_design import Comparison
from turbomath.lab.reduction.design_here import design_here, rated_row, with_design
from turbomath.lab.reduction.fuel_and_core import conductance, fuel_results
from turbomath.lab.reduction.results import (
    AFTERCOOLER_RESULTS,
    DESIGN,
    LEANS_ON_EFFICIENCY,
    NOT_BEHIND_A_THROTTLE,
    untold,
    wanting,
)
from turbomath.lab.reduction.shaft import shaft_results, with_shaft
from turbomath.lab.reduction.shaft_closing import closing
from turbomath.lab.reduction.stations import above_zero, at_stations, gauge_readings
from turbomath.lab.run.readings import Run, as_run
from turbomath.paper.records import Sheet
from turbomath.physics import airflow, cooling
from turbomath.table.errors import short, unwarned
from turbomath.table.records import Record, item
from turbomath.uncertainty import Estimate


@dataclass(frozen=True, eq=False, repr=False)
class Reduced(Record):
    """The results of a run. ``reduced[name]`` is an `Estimate` (SI, fractions), one element a row of readings.

    `design` is what the stated design does at each row, by the same gauges. `compressor_flow` is the air that the
    compressor draws in, brought to the state of its map. `sources` says for each station quantity
    which reading or assumption stands behind it, with the rows it serves. `missing` names the results no row allows,
    with the reason, and `wanting` what each of them lacks, by the names of stations and readings.
    """

    HEADLINE = ("measured_charge_gain", "theoretical_charge_gain", "agree")

    run: Run
    estimates: dict[str, Estimate]
    design: dict[str, Estimate]
    compressor_flow: Estimate
    sources: dict
    missing: dict[str, str]
    wanting: dict[str, tuple[str, ...]]
    air: str

    @cached_property
    def against_design(self) -> tuple[against_design.Comparison, ...]:
        """The machines and the charge against the design, at the rows where these gauges can tell."""
        if not self["measured_charge_gain"].shares:  # of a joint distribution, which leaves no shares
            return reduce_run(self.run, air=self.air).against_design
        at = at_stations(self.run, gauge_readings(self.run)[0])
        boost = at.manifold_pressure - at.ambient_pressure
        return against_design.comparisons(self.run, self.estimates, self.design, boost)

    @cached_property
    def shaft(self) -> Comparison | None:
        """The two ends of the shaft against each other, at the rows where these readings can tell; None for no row."""
        if not self["measured_charge_gain"].shares:
            return reduce_run(self.run, air=self.air).shaft
        at = at_stations(self.run, gauge_readings(self.run)[0])
        return closing(self.run, self.estimates, at.manifold_pressure - at.ambient_pressure)

    @cached_property
    def agree(self) -> tuple[str, ...]:
        """ "yes", "no", "cannot tell" or "" row by row: do the charge gains agree, by the ± of the whole run?"""
        charge = next((one for one in self.against_design if one.quantity == against_design.CHARGE), None)
        return against_design.agreement(self["charge_gain_difference"], charge)

    def __getitem__(self, name: str) -> Estimate:
        return item(self.estimates, name, "result")

    def sheet(self) -> Sheet:
        """Return the results laid out to be shown, each with its ±."""
        return Sheet(
            f"Reduced '{short(self.run.name)}', air {self.air}",
            {name: one.value for name, one in self.estimates.items()},
            {name: one.plus_or_minus for name, one in self.estimates.items()},
            before={"point": self.run.points, "condition": self.run.conditions},
            after={"agree": self.agree},
            system=self.run.bench.run.units,
        )


def reduce_run(run: Run | Path | str, *, air: Any = None, method: str = "linear") -> Reduced:
    """Work out every result that the columns of a run allow.

    Parameters
    ----------
    run : Run, its folder, or the name of a shipped run
        What `turbomath.lab.run.readings.read_run` gives or takes.
    air : air model or its name, optional
        From `turbomath.air.choose`, or what it takes, such as "ideal"; that of `usual_air` if not given.
    method : "linear" or "sobol"
        How uncertainty is carried through; see `turbomath.uncertainty.propagate`.

    Returns
    -------
    Reduced
        Measured and theoretical results, `nan` where a reading is missing.
    """
    run = as_run(run)
    air = air_models.chosen(air) or usual_air(run)
    readings, unsure = gauge_readings(run)
    values, unsure = with_shaft(run, *with_design(run, readings, unsure))
    with unwarned():
        found = uncertainty.propagate(_function(run, air, values), values, unsure, method=method)
        design = {name: found.pop(f"design_{name}") for name in DESIGN}
        compressor_flow = found.pop("corrected_mass_flow")
        too_coarse = untold(found["compressor_efficiency"])
        found |= {name: _hidden(found[name], too_coarse) for name in LEANS_ON_EFFICIENCY}
        stations = at_stations(run, readings)
        metered, by_meter = metered_air.metered(run, stations, readings, found["ambient_density"].value)
        lacking, reasons = wanting(run, stations, readings, found, ~np.isnan(metered))
        used = metered_air.with_the_rest(by_meter, np.isnan(metered) & ~np.isnan(found["air_flow"].value))
    known = {name: one for name, one in design.items() if np.isfinite(one.value).any()}
    sources = stations.sources | {"air_flow": used}
    return Reduced(run, found, known, compressor_flow, sources, reasons, lacking, air.name)


def _hidden(estimate, rows):
    """Return an estimate without a number in some rows."""
    parts = (np.where(rows, np.nan, part) for part in (estimate.value, estimate.standard_uncertainty))
    return Estimate(*parts, estimate.shares)


def gains_a_second_way(run: Run, air: Any = None) -> dict[str, Estimate]:
    """Return the three charge gains of a run with their joint distribution: method "sobol" of `reduce_run`, sooner."""
    air = air_models.chosen(air) or usual_air(run)
    values, unsure = with_shaft(run, *with_design(run, *gauge_readings(run)))
    row = rated_row(run, values)

    def function(**read):
        return two_paths.three_gains(run, air, read if row is None else {**read, **design_here(run, read, row)})

    with unwarned():
        return uncertainty.propagate(function, values, unsure, method="sobol")


def _function(run, air, values):
    """Return every result and the design at each row as one function of the raw readings."""
    row = rated_row(run, values)

    def function(**read):
        here = {} if row is None else design_here(run, read, row)
        design = {f"design_{name}": here.get(f"design_{name}", np.nan) for name in DESIGN}
        return measured_and_theoretical(run, air, {**read, **here}) | design

    return function


def usual_air(run: Run | Path | str) -> Any:
    """Return the best model of air for a run: moist where humidity was read, else real dry air."""
    run = as_run(run)
    humid = run.has("relative_humidity") or run.has("wet_bulb_temperature")
    return air_models.choose("moist" if humid else "real")


def measured_and_theoretical(run: Run, air: Any, read: Mapping[str, Any]) -> dict[str, Any]:
    """Return every result by name from the raw readings of each gauge and the design at each row.

    All are SI arrays that broadcast together.
    """
    at, engine = at_stations(run, read), run.bench.engine
    gas = mixture(air)
    vapour = two_paths.vapour(gas, at)
    efficiency = gas.isentropic_efficiency(
        at.compressor_inlet_pressure,
        at.compressor_inlet_temperature,
        at.compressor_outlet_pressure,
        at.compressor_outlet_temperature,
        vapour,
    )
    measured = two_paths.measured_path(at, efficiency, gas, vapour)
    theory = two_paths.theoretical_gains(at, read, air)
    swept: dict[str, Any] = dict(
        displacement=np.nan if engine.displacement is None else engine.displacement,
        engine_speed=above_zero(read["engine_speed"]),
        strokes=engine.strokes,
    )
    metered, _ = metered_air.metered(run, at, read, measured.ambient_density)
    charge = airflow.mass_flow(
        measured.manifold_dry_air_density, volumetric_efficiency=read["volumetric_efficiency"], **swept
    )
    if engine.egr:  # the cylinders take in exhaust gas too, and nobody read how much
        charge = np.nan * charge
    dry = above_zero(_first(metered / (1 + vapour), charge))
    drawn_in = dry * (1 + vapour)
    flows = {
        "vapour": vapour,
        "dry_air": dry,
        "drawn_in": drawn_in,
        "air_flow": _first(above_zero(metered), drawn_in - dry * measured.condensate),
        "compressor_power": drawn_in * measured.specific_compressor_work,
    }
    results = {
        "pressure_ratio": measured.pressure_ratio,
        "density_ratio": measured.density_ratio,
        "compressor_efficiency": efficiency,
        "effectiveness": cooling.effectiveness(
            at.compressor_outlet_temperature, at.manifold_temperature, at.medium_temperature
        ),
        "volumetric_efficiency": airflow.volumetric_efficiency(above_zero(metered), measured.manifold_density, **swept),
        "ideal_outlet_temperature": measured.ideal_outlet_temperature,
        "dew_point": measured.dew_point,
        "ambient_density": measured.ambient_density,
        "compressor_outlet_density": measured.compressor_outlet_density,
        "manifold_density": measured.manifold_density,
        "cooler_pressure_loss": at.cooler_pressure_loss,
        "measured_charge_gain": measured.charge_gain,
        "theoretical_charge_gain": theory.charge_gain,
        "charge_gain_difference": measured.charge_gain - theory.charge_gain,
        "measured_aftercooling_density_gain": measured.aftercooling_density_gain,
        "theoretical_aftercooling_density_gain": theory.aftercooling_density_gain,
        "mass_flow_gain": measured.mass_flow_gain,
        "greatest_possible_gain": measured.greatest_possible_gain,
        "air_flow": flows["air_flow"],
        "corrected_mass_flow": wheels.corrected_flow(
            drawn_in, at.compressor_inlet_pressure, at.compressor_inlet_temperature
        ),
        "heat_rejected": drawn_in * measured.specific_heat_rejected,
        "compressor_power": flows["compressor_power"],
        "condensate_flow": np.where(at.humidity_known, dry * measured.condensate, np.nan),
        "conductance": conductance(at, read, engine, drawn_in),
        **fuel_results(run, at, read, dry),
        **shaft_results(run, at, read, gas, flows),
    }
    if engine.aftercooler == "none":
        results.update(dict.fromkeys(AFTERCOOLER_RESULTS, np.nan))
    if engine.egr:
        results["volumetric_efficiency"] = np.nan * results["volumetric_efficiency"]
    if engine.throttle:
        results.update(dict.fromkeys(NOT_BEHIND_A_THROTTLE, np.nan))
    return results


def _first(value, otherwise):
    return np.where(np.isnan(value), otherwise, value)
