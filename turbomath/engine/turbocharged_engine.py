"""INVENTED turbocharged diesel engines: the numbers that the balance of turbine and compressor needs, and whence each.

"Common practice": a usual value of the trade, of no engine in particular. "Fitted": chosen so that the engine shows
the readings that `READY` names at its rated point. A changed engine is `dataclasses.replace(engine, ...)`.
"""

from dataclasses import dataclass, field

from turbomath.physics.turbine_flow import ellipse_flow_parameter
from turbomath.table.kinds_of_value import Values

FITTED_EXPANSION_RATIO = 2.3  # where the ellipse law of every turbine here agrees with a nozzle
EXHAUST_GAMMA = 1.34  # heat-capacity ratio of the exhaust for these laws
EXHAUST_SPECIFIC_HEAT = 1140.0  # J/(kg K), near enough for what the walls of a manifold take
GREATEST_FLOW_PARAMETER = ellipse_flow_parameter(1e9, FITTED_EXPANSION_RATIO, EXHAUST_GAMMA)


@dataclass(frozen=True)
class Aftercooler:
    """An aftercooler; `arrangement` is "none", "jacket-water" or "air-to-air"."""

    arrangement: str = "none"
    conductance: float = 0.0  # W/K at the reference flow; fitted to the effectiveness
    reference_mass_flow: float = 0.45  # kg/s
    flow_exponent: float = 0.8  # conductance grows with (flow/reference)^0.8, as in turbulent pipes; common practice
    pressure_loss_coefficient: float = 0.0  # 1/m^4: loss = coefficient x flow^2/density; fitted to the loss
    cooling_air_flow: float = 3.04  # m^3/s of ambient air through an air-to-air core; common practice
    jacket_water_temperature: Values = 358.15  # K, 185 °F; common practice
    held_temperature: float = 0.0  # K of the charge, held by a valve in the water; 0 is no such valve


@dataclass(frozen=True)
class Wastegate:
    """A gate past the turbine that boost opens little by little."""

    area: float = 0.0  # m^2, fully open; 0 is no gate
    opening_boost: float = 110e3  # Pa above the barometer where it begins to open
    span: float = 120e3  # Pa from there to fully open
    least_opening: Values = 0.0  # share that a stuck gate stays open; 0 is a gate that shuts


@dataclass(frozen=True)
class TurbochargedEngine:
    """A four-stroke diesel engine with one turbocharger. Every number may be an array, one for each point."""

    name: str
    rated_power: float  # W
    rated_fuel_flow: float  # kg/s
    turbine_area: float  # m^2, effective nozzle area; fitted to the boost
    intake_coefficient: float  # 1/m^4: restriction = coefficient x flow^2/density; fitted
    exhaust_coefficient: float  # 1/m^4: back pressure = coefficient x flow^2/density; fitted
    coolant_share: float  # of the fuel's heat, through the cylinder walls; fitted to the exhaust temperature
    best_indicated_efficiency: float  # of the lean end; fitted to the power
    best_compressor_flow: float  # kg/s of 25 °C, 100 kPa where the compressor is best; fitted
    aftercooler: Aftercooler = field(default_factory=Aftercooler)
    wastegate: Wastegate = field(default_factory=Wastegate)
    displacement: float = 0.012  # m^3; INVENTED
    rated_speed: float = 30.0  # rev/s; INVENTED
    volumetric_efficiency: float = 0.92  # on manifold density; common practice
    intake_warming: float = 5 / 3  # K the air gains on its way to the compressor; common practice
    best_compressor_efficiency: float = 0.74  # common practice
    compressor_narrowness: float = 0.18  # how fast it falls away from the best flow; common practice
    best_pressure_ratio: float = 3.0  # of the compressor
    fast_wheel_fall: float = 3.4  # how fast its efficiency falls where the wheel is faster than at that ratio: 8 points
    # at a ratio of 4.1. Of two compressors measured and published, one falls by 2 points there (Wahlström and
    # Eriksson 2011), the other by 13 (Sivertsson and Eriksson 2014)
    turbine_efficiency: float = 0.72  # common practice
    shaft_efficiency: float = 0.96  # common practice
    efficiency_fall: float = 0.10  # of the indicated efficiency with the square of the burnt share; common practice
    warm_charge_fall: float = 5e-4  # of the indicated efficiency for each K of charge; common practice, see `gas_path`
    timing_retard: float = 0.0  # degrees later than the engine's best; its effect is from memory
    friction_at_rest: float = 107e3  # Pa: 75e3 of Heywood, eq. 13.6, from memory; the rest pumps, fan; common practice
    friction_per_speed: float = 2880.0  # Pa for each rev/s; Heywood, eq. 13.6, from memory
    hydrogen_carbon_ratio: float = 1.8  # light diesel; Heywood, app. D, from memory
    fuel_lower_heating_value: float = 42.5e6  # J/kg, light diesel; Heywood, app. D, from memory
    fuel_stop: float = 1.25  # most fuel over the rated fuel; common practice
    least_air_fuel_ratio: float = 0.0  # below it the governor gives less fuel, until there is air; 0 is no such limiter
    leak_area_before_aftercooler: float = 0.0  # m^2, effective; 0 is a tight pipe
    leak_area_after_aftercooler: float = 0.0  # m^2
    exhaust_leak_area: float = 0.0  # m^2, of the manifold before the turbine

    # How the machines do off their best point. Nought is the simple machine that the ready engines have; `fitting`
    # begins with the usual shapes of `free_numbers`
    best_flow_lean: float = 0.0  # 1: the best flow goes with the wheel's speed; Eriksson, ch. 8, from memory
    compressor_fall: float = 0.0  # how fast the efficiency falls away from the best wheel speed; the same
    blade_speed_fall: float = 0.0  # 1: a parabola of blade speed over gas speed; Watson, ch. 6, from memory
    matched_speed_ratio: float = 1.0  # that speed ratio where the turbine is matched, over the best one
    nozzle_share: float = 0.0  # of a nozzle's law in the turbine's flow, the rest the ellipse's; Heywood, app. C
    turbine_fall: float = 0.0  # how fast the turbine does worse below the best ratio; common practice
    bearing_fall: float = 0.0  # 1: bearings take power with the square of the speed; Watson, ch. 6, from memory
    exhaust_conductance: float = 0.0  # W/K from the exhaust through its manifold; Wahlström and Eriksson (2011)
    wall_heat_fall: float = 0.0  # power of the fuel with which the walls' share shrinks; Heywood, ch. 12, from memory

    @property
    def greatest_fuel_flow(self) -> float:
        """Fuel flow at the stop [kg/s]; nothing takes the engine past it."""
        return self.fuel_stop * self.rated_fuel_flow
