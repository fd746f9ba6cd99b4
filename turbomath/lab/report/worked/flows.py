"""The steps to the flow of air, what it takes up and gives off, and what fuel and power make of it."""

import math

from turbomath.lab.reduction.fuel_and_core import stoichiometric
from turbomath.lab.reduction.metered_air import SPEED_DENSITY, WORDS
from turbomath.lab.report.worked.steps import ReadingSteps
from turbomath.lab.run import fuels
from turbomath.lab.run.air_meter import ORIFICE
from turbomath.physics import airflow, compression, cooling, flow_meters, fuel
from turbomath.working import sums


def add_flows(to: ReadingSteps, left: str) -> None:
    """Add the steps to air and its dry part, and to the power and heat of the two machines.

    *left* names the vapour left in the manifold.
    """
    metered = to.air_flow_source not in ("", SPEED_DENSITY)
    if math.isfinite(to.read["air_flow"]):
        to.take_flow("air_flow")
    elif to.air_flow_source == WORDS[ORIFICE]:
        _add_orifice(to)
    elif not metered and to.engine.displacement is not None:
        to.take("displacement", to.engine.displacement)
        to.take_flow("engine_speed")
        to.take("volumetric_efficiency", to.read["volumetric_efficiency"])
        to.step("air_flow", airflow.mass_flow, density="manifold_density", strokes=to.engine.strokes)
    vapour = "humidity_ratio" if metered else left
    if to.wet:
        to.step("dry_air_mass_flow", sums.dry_part, mass_flow="air_flow", humidity_ratio=vapour)
    drawn_in = "air_flow"
    if vapour != "humidity_ratio":  # what formed in the aftercooler went through the compressor
        drawn_in = "compressor_mass_flow"
        to.step(drawn_in, sums.with_vapour)
    _add_work_and_heat(to, drawn_in)


def _add_orifice(to):
    """The drop across the plate, the air before it, and the flow that comes of both."""
    meter = to.run.bench.air_meter
    to.take_reading("air_meter_pressure_drop")
    to.take("pipe_diameter", meter.pipe_diameter.value)
    to.take("bore_diameter", meter.bore_diameter.value)
    to.step("dynamic_viscosity", flow_meters.air_viscosity, temperature="ambient_temperature")
    before = {"pressure": "ambient_pressure", "density": "ambient_density"}
    to.step("air_flow", flow_meters.orifice_mass_flow, **before, tappings=meter.tappings)


def _add_work_and_heat(to, drawn_in):
    cold, hot, cool = "compressor_inlet_temperature", "compressor_outlet_temperature", "manifold_temperature"
    to.step("specific_compressor_work", compression.specific_work, inlet_temperature=cold, outlet_temperature=hot)
    to.step("compressor_power", sums.flow_of_work, mass_flow=drawn_in)
    if to.cooled:
        to.step(
            "specific_heat_rejected", cooling.specific_heat_rejected, inlet_temperature=hot, outlet_temperature=cool
        )
        to.step("heat_rejected", sums.flow_of_heat, mass_flow=drawn_in)


def add_fuel(to: ReadingSteps) -> None:
    """Add the steps to fuel, power and what they make of the dry air."""
    _read_or(to, "fuel_flow", fuel.weighed_fuel_flow, "fuel_mass", "fuel_time")
    _read_or(to, "power", fuel.power, "torque", "engine_speed")
    to.step("air_fuel_ratio", fuel.air_fuel_ratio, mass_flow="dry_air_mass_flow" if to.wet else "air_flow")
    if math.isfinite(stoichiometric(to.engine)):
        to.take("hydrogen_carbon_ratio", fuels.FUELS[fuels.plain(to.engine.fuel)].hydrogen_carbon_ratio)
        to.step("stoichiometric_air_fuel_ratio", fuel.stoichiometric_air_fuel_ratio)
    to.step("excess_air_ratio", fuel.excess_air_ratio)
    to.step("specific_fuel_consumption", fuel.specific_consumption)


def _read_or(to, result, formula, *columns):
    """Take a reading, or work it out from two others."""
    if not math.isfinite(to.read[result]):
        for column in columns:
            to.take_reading(column)
        to.step(result, formula)
    elif result == "power":
        to.take_reading(result)
    else:
        to.take_flow(result)
