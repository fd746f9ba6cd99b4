"""Both ends of the turbocharger's shaft: what the exhaust gives up in the turbine, and what the compressor takes.

Beside the gauges three things are not known, each bounded by usual practice: exhaust comes in pulses, and a
thermocouple in them does not show the mean of what flows; the bearings take some power; the turbine's hot housing loses
heat, which cools the exhaust without driving anything. So the power from two thermometers is the most that the turbine
can have given.
"""

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.air import exhaust
from turbomath.lab.reduction import not_read
from turbomath.lab.reduction.fuel_and_core import fuel_flow, stoichiometric
from turbomath.lab.reduction.stations import AtStations, above_zero
from turbomath.lab.run import fuels
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.readings import Run
from turbomath.physics import cooling, exhaust_readings, fuel, turbine_work
from turbomath.physics import shaft as shaft_formulas
from turbomath.working import sums

# Value and half-width of what no gauge shows; common practice
PULSES, BEARINGS, HOUSING = "exhaust_pulses", "shaft_bearings", "turbine_housing_heat"
STATED = {
    PULSES: Stated(0.0, 0.01),  # of the temperature above ambient, in what the two thermometers show of the drop
    BEARINGS: Stated(0.97, 0.03),  # share of the turbine's power that the bearings leave
    HOUSING: Stated(0.0075, 0.0075),  # of the temperature above ambient, by which the housing cools the exhaust
}
WORDS = {
    PULSES: "pulses of the exhaust and lag of its thermometers",
    BEARINGS: "bearings of the shaft",
    HOUSING: "heat that the turbine housing loses",
}
_ROOM = 298.15  # K; where no ambient temperature was read it matters little
_AIR_HEAT = 1_010.0  # J/(kg K), near enough to close in on a temperature
_STEPS = 4

_AIR_FLOW = ("engine_speed", "displacement", "volumetric_efficiency", "manifold_pressure", "manifold_temperature")
_DROP = ("turbine_inlet_temperature", "turbine_outlet_temperature")
_TURBINE = (*_DROP, "known_fuel", "fuel_flow", *_AIR_FLOW)
_COMPRESSOR = ("compressor_inlet_temperature", "compressor_outlet_pressure", "compressor_outlet_temperature")
_UNCOOLED = "uncooled_between_stages"
_SQUEEZED = ("compressor_inlet_pressure", "compressor_inlet_temperature", "compressor_outlet_pressure")
RESULTS = {
    "expansion_ratio": ("turbine_inlet_pressure", "ambient_pressure"),
    "manifold_minus_turbine_inlet_pressure": ("turbine_inlet_pressure", "manifold_pressure"),
    "turbine_temperature_drop": _DROP,
    "exhaust_mass_flow": ("fuel_flow", *_AIR_FLOW),
    "turbine_power": _TURBINE,
    "turbine_efficiency": ("turbine_inlet_pressure", "ambient_pressure", *_TURBINE),
    "shaft_power_ratio": (_UNCOOLED, *_TURBINE, *_COMPRESSOR),
    "usual_shaft_power_ratio": _DROP,
    "turbocharger_efficiency": (
        _UNCOOLED,
        "turbine_inlet_pressure",
        "turbine_inlet_temperature",
        "known_fuel",
        "fuel_flow",
        *_SQUEEZED,
        *_AIR_FLOW,
    ),
    "compressor_outlet_temperature_by_shaft": (_UNCOOLED, *_TURBINE, "compressor_inlet_temperature"),
    "compressor_efficiency_by_shaft": (_UNCOOLED, *_TURBINE, *_SQUEEZED),
    "effectiveness_by_shaft": (
        "aftercooler",
        _UNCOOLED,
        *_TURBINE,
        "compressor_inlet_temperature",
        "manifold_temperature",
        "medium_temperature",
    ),
}
CLOSING = "shaft_power_ratio"
BY_SHAFT = tuple(name for name in RESULTS if name.endswith("_by_shaft"))
REASONS = {
    _UNCOOLED: "an intercooler between two stages (intercooler = true) takes out heat that the turbine has paid for",
    "turbine_inlet_temperature": "no reading of turbine inlet temperature",
    "turbine_outlet_temperature": "no reading of turbine outlet temperature",
    "turbine_inlet_pressure": "no reading of turbine inlet pressure",
}


def with_shaft(run: Run, values: dict, unsure: dict) -> tuple[dict, dict]:
    """Return readings and their standard uncertainties, with what no gauge shows of the shaft as further numbers."""
    read = run.has("turbine_inlet_temperature")
    values = values | {name: one.value for name, one in STATED.items()}
    return values, unsure | {name: one.tolerance / np.sqrt(3) * read for name, one in STATED.items()}


def known_needs(run: Run, read: Mapping[str, Any]) -> dict[str, Any]:
    """Return which needs of the turbine are met, and in which rows."""
    met = {name: ~np.isnan(read[name]) for name in REASONS if name != _UNCOOLED}
    return met | {_UNCOOLED: not _cooled_between(run)}


def _cooled_between(run):
    return run.bench.engine.stages == 2 and run.bench.engine.intercooler


def shaft_results(
    run: Run, at: AtStations, read: Mapping[str, Any], charge: Any, flows: Mapping[str, NDArray]
) -> dict[str, NDArray]:
    """Return the results of the shaft by name.

    *charge* is the gas of the charge, as `engine.charge_air` has it. *flows* holds "dry_air", "drawn_in" (dry air with
    its vapour), "air_flow" (that without what has condensed) and "compressor_power" [kg/s, W], and "vapour" [kg/kg].
    """
    read = {name: one.value for name, one in STATED.items()} | dict(read)
    hot, cold, ambient = _temperatures(at, read)
    before, after = exhaust_pressures(run, at, read)
    burnt = fuel_flow(read)
    gas, flow = _burnt_gas(run, burnt, flows), flows["air_flow"] + burnt
    drop = hot - cold
    power = turbine_work.power(flow, hot, cold, gas.specific_heat(_ANY, (hot + cold) / 2))
    usual = read[BEARINGS] * (1 - read[HOUSING] * (hot - ambient) / np.where(drop > 0, drop, np.nan))
    outlet = _outlet_by_shaft(at, charge, flows, power * above_zero(usual))
    ideal_turbine = above_zero(flow * _ideal_drop(gas, before, hot, after))
    ideal_compressor = (
        np.nan if _unknown(ideal_turbine) else flows["drawn_in"] * _ideal_work(at, charge, flows["vapour"])
    )
    results = {
        "expansion_ratio": exhaust_readings.expansion_ratio(before, after),
        "manifold_minus_turbine_inlet_pressure": sums.manifold_minus_turbine_inlet_pressure(
            at.manifold_pressure, before
        ),
        "turbine_temperature_drop": exhaust_readings.temperature_drop(hot, cold),
        "exhaust_mass_flow": flow,
        "turbine_power": power,
        "turbine_efficiency": flow * (gas.enthalpy(_ANY, hot) - gas.enthalpy(_ANY, cold)) / ideal_turbine,
        "shaft_power_ratio": shaft_formulas.power_ratio(flows["compressor_power"], power),
        "usual_shaft_power_ratio": usual,
        "turbocharger_efficiency": ideal_compressor / ideal_turbine,
        "compressor_outlet_temperature_by_shaft": outlet,
        "compressor_efficiency_by_shaft": _efficiency_by_shaft(at, charge, flows, outlet),
        "effectiveness_by_shaft": cooling.effectiveness(outlet, at.manifold_temperature, at.medium_temperature),
    }
    blank = [name for name, needs in RESULTS.items() if _UNCOOLED in needs] if _cooled_between(run) else []
    return results | dict.fromkeys(blank, np.nan)


_ANY = 1e5  # Pa; the heat of an ideal gas does not depend on its pressure


def _temperatures(at, read):
    """Return the mean temperature of the exhaust before and after the turbine, and that of the room."""
    ambient = np.where(np.isnan(at.ambient_temperature), _ROOM, at.ambient_temperature)
    shown = _inside(read["turbine_inlet_temperature"])
    return _inside(shown + read[PULSES] * (shown - ambient)), _inside(read["turbine_outlet_temperature"]), ambient


def _inside(temperature):
    """Leave out what no exhaust can show."""
    return np.where((temperature > exhaust.LOWEST) & (temperature < exhaust.HIGHEST), temperature, np.nan)


def exhaust_pressures(run: Run, at: AtStations, read: Mapping[str, Any]) -> tuple[NDArray, NDArray]:
    """Return the absolute pressures before and after the turbine [Pa]."""
    absolute = at.ambient_pressure if "turbine_inlet_pressure" in run.gauge_columns else 0.0
    back = read["exhaust_back_pressure"]
    back = np.where(np.isnan(back), read[not_read.BACK_PRESSURE], back)
    return above_zero(read["turbine_inlet_pressure"] + absolute), above_zero(at.ambient_pressure + back)


def _burnt_gas(run, burnt, flows):
    known = fuels.known(run.bench.engine.fuel) or fuels.FUELS["diesel"]  # of another the excess air is not known
    ratio = fuel.air_fuel_ratio(flows["dry_air"], burnt)
    excess = fuel.excess_air_ratio(above_zero(ratio), stoichiometric(run.bench.engine))
    excess = np.where(excess >= 1, excess, np.nan)
    return exhaust.choose(known.hydrogen_carbon_ratio, excess, flows["vapour"])


def _ideal_drop(gas, before, hot, after):
    """Return the enthalpy [J/kg] that the exhaust loses in a turbine without losses."""
    before = np.where(before > after, before, np.nan)
    if _unknown(before * hot):
        return before * hot
    ideal = gas.turbine_outlet_temperature(before, hot, after, 1.0)
    return gas.enthalpy(_ANY, hot) - gas.enthalpy(_ANY, _inside(ideal))


def _ideal_work(at, charge, vapour):
    """Return the work [J/kg] that a compressor without losses takes."""
    inlet = at.compressor_inlet_pressure, at.compressor_inlet_temperature
    outlet = charge.outlet_temperature(*inlet, at.compressor_outlet_pressure, 1.0, vapour)
    return charge.enthalpy(at.compressor_outlet_pressure, outlet, vapour) - charge.enthalpy(*inlet, vapour)


def _outlet_by_shaft(at, charge, flows, power):
    """Return the temperature at which the air leaves a compressor that puts *power* [W] into it."""
    if _unknown(power):
        return power
    inlet = at.compressor_inlet_pressure, at.compressor_inlet_temperature
    pressure = np.where(np.isnan(at.compressor_outlet_pressure), inlet[0], at.compressor_outlet_pressure)
    work = power / flows["drawn_in"]
    wanted = charge.enthalpy(*inlet, flows["vapour"]) + work
    temperature = inlet[1] + work / _AIR_HEAT
    for _ in range(_STEPS):
        temperature = temperature - (charge.enthalpy(pressure, temperature, flows["vapour"]) - wanted) / _AIR_HEAT
    return temperature


def _efficiency_by_shaft(at, charge, flows, outlet):
    if _unknown(outlet):
        return outlet
    inlet = at.compressor_inlet_pressure, at.compressor_inlet_temperature
    return charge.isentropic_efficiency(*inlet, at.compressor_outlet_pressure, outlet, flows["vapour"])


def _unknown(value):
    """Whether no row has a number, so that nothing follows from it and nothing need be worked out."""
    return np.isnan(value).all()
