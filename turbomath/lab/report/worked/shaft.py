"""The steps to the power of the turbine, to what of it the compressor takes, and to the compressor by the shaft."""

import math

from turbomath.air import exhaust
from turbomath.lab.reduction import not_read
from turbomath.lab.report.worked.steps import ReadingSteps
from turbomath.physics import compression, cooling, exhaust_readings, shaft, turbine, turbine_work
from turbomath.working import Amount, sums

BEFORE, AFTER, USUAL = "turbine_inlet_temperature", "turbine_outlet_temperature", "usual_shaft_power_ratio"
BY_SHAFT = "compressor_outlet_temperature_by_shaft"
_OF_EXHAUST = {
    "specific_heat": r"c_{p,\mathrm{exhaust}}",
    "heat_capacity_ratio": r"\gamma_\mathrm{exhaust}",
}
P1, T1, P2 = "compressor_inlet_pressure", "compressor_inlet_temperature", "compressor_outlet_pressure"


def add_shaft(to: ReadingSteps) -> None:
    """Add the steps to pressures, power and ratio of the shaft, and to the compressor by the shaft."""
    _add_pressures(to)
    for name in (BEFORE, AFTER):
        to.take_reading(name)
    to.step("turbine_temperature_drop", exhaust_readings.temperature_drop)
    to.step("exhaust_mass_flow", sums.exhaust_mass_flow, mass_flow="air_flow")
    _take_burnt_gas(to)
    to.step("turbine_power", turbine_work.power, specific_heat="exhaust_specific_heat")
    to.step("shaft_power_ratio", shaft.power_ratio)
    to.step("turbine_efficiency", turbine.efficiency, heat_capacity_ratio="exhaust_heat_capacity_ratio")
    to.step("turbocharger_efficiency", shaft.turbocharger_efficiency)
    if to.has(BEFORE, AFTER):
        to.take(USUAL, to.reduced(USUAL))
        _add_compressor(to)


def _add_pressures(to):
    before = to.read["turbine_inlet_pressure"]
    if not math.isfinite(before):
        return
    if "turbine_inlet_pressure" in to.run.gauge_columns:
        to.given["turbine_inlet_gauge"] = Amount(before, "boost", symbol=r"p_{4,\mathrm{gauge}}")
        to.values["turbine_inlet_gauge"] = before
        absolute = {"barometer": "ambient_pressure", "boost": "turbine_inlet_gauge"}
        to.step("turbine_inlet_pressure", sums.absolute_pressure, **absolute)
    else:
        to.take_reading("turbine_inlet_pressure")
    to.take_reading("exhaust_back_pressure")
    if not to.has("exhaust_back_pressure"):
        to.take("exhaust_back_pressure", to.read[not_read.BACK_PRESSURE])
    to.step("turbine_outlet_pressure", sums.turbine_outlet_pressure, barometer="ambient_pressure")
    to.step("expansion_ratio", exhaust_readings.expansion_ratio)
    to.step("manifold_minus_turbine_inlet_pressure", sums.manifold_minus_turbine_inlet_pressure)


def _take_burnt_gas(to):
    """Put on the sheet the heat of this burnt gas, with the water that the air carried, between the two."""
    if not to.has(BEFORE, AFTER, "excess_air_ratio") or to.values["excess_air_ratio"] < 1:
        return
    mean = (to.values[BEFORE] + to.values[AFTER]) / 2
    if exhaust.LOWEST < mean < exhaust.HIGHEST:
        vapour = to.values.get("humidity_ratio", 0.0)
        gas = exhaust.choose(to.values["hydrogen_carbon_ratio"], to.values["excess_air_ratio"], vapour)
        for name, symbol in _OF_EXHAUST.items():
            value = getattr(gas, name)(1e5, mean)
            to.given[f"exhaust_{name}"] = Amount(value, name, symbol=symbol)
            to.values[f"exhaust_{name}"] = value


def _add_compressor(to):
    flow = "compressor_mass_flow" if to.has("compressor_mass_flow") else "air_flow"
    put = {"inlet_temperature": T1, "mass_flow": flow, "shaft_efficiency": USUAL}
    to.step(BY_SHAFT, shaft.compressor_outlet_temperature, **put)
    inlet = {"inlet_pressure": P1, "inlet_temperature": T1, "outlet_pressure": P2}
    to.step("compressor_efficiency_by_shaft", compression.isentropic_efficiency, **inlet, outlet_temperature=BY_SHAFT)
    if to.cooled:
        ends = {"inlet_temperature": BY_SHAFT, "outlet_temperature": "manifold_temperature"}
        to.step("effectiveness_by_shaft", cooling.effectiveness, **ends)
