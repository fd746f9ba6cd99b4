"""The table of quantities: one name for each thing that is measured, asked or worked out.

A parameter's name is a quantity's name. Docstrings, columns, sliders, axis labels and the glossary
are all read from here, so that nothing is typed twice.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turbomath.table.banks import with_banks
from turbomath.table.errors import OutOfRangeError
from turbomath.table.kinds import KINDS
from turbomath.table.kinds_of_value import Values


@dataclass(frozen=True)
class Quantity:
    """One row of the table. `sensible` is the range an instructor meets, in SI units; it refuses nothing."""

    name: str
    meaning: str
    symbol: str
    kind: str
    sensible: tuple[float, float]
    us: str
    si: str

    @property
    def unit(self) -> str:
        """The SI unit as docstrings write it."""
        return KINDS[self.kind].unit

    @property
    def plain_name(self) -> str:
        """The name in words, as a column or a label shows it."""
        return self.name.replace("_", " ")


def _row(name, meaning, symbol, kind, low, high, *, us=None, si=None):
    return Quantity(name, meaning, symbol, kind, (low, high), us or KINDS[kind].us, si or KINDS[kind].si)


# one row a quantity, most of them one line, read from top to bottom
# fmt: off
_ROWS = (
    # Any state of the air
    _row("pressure", "absolute pressure", r"p", "pressure", 50e3, 600e3),
    _row("temperature", "temperature", r"T", "temperature", 230, 550),
    _row("density", "mass of air in a cubic metre", r"\rho", "density", 0.6, 6.0),
    _row("enthalpy", "enthalpy of a kilogram of air (differences only)", r"h", "specific energy", 0, 3e5),
    _row("entropy", "entropy of a kilogram of air (differences only)", r"s", "specific entropy", -500, 1000),
    _row("specific_heat", "specific heat at constant pressure", r"c_p", "gas constant", 1000, 1100),
    _row("gas_constant", "gas constant of the mixture", r"R_\mathrm{mix}", "gas constant", 287, 300),
    # In and out of one machine
    _row("inlet_pressure", "absolute pressure at the inlet", r"p_\mathrm{in}", "pressure", 50e3, 110e3),
    _row("outlet_pressure", "absolute pressure at the outlet", r"p_\mathrm{out}", "pressure", 80e3, 600e3),
    _row("inlet_temperature", "temperature at the inlet", r"T_\mathrm{in}", "temperature", 240, 550),
    _row("outlet_temperature", "temperature at the outlet", r"T_\mathrm{out}", "temperature", 240, 550),
    _row("medium_temperature", "temperature of the cooling medium where it enters the aftercooler",
         r"T_\mathrm{medium}", "temperature", 240, 380),
    _row("temperature_rise", "how much hotter the air leaves", r"\Delta T", "temperature difference", 0, 250),
    _row("pressure_ratio", "outlet over inlet absolute pressure of the compressor",
         r"\pi", "ratio", 1.0, 5.0),
    _row("density_ratio", "manifold density over ambient density", r"\rho_r", "ratio", 0.9, 4.0),
    _row("isentropic_efficiency", "ideal temperature rise over the real one", r"\eta", "efficiency", 0.5, 0.85),
    _row("effectiveness", "temperature drop over the greatest possible drop, charge side",
         r"\varepsilon", "effectiveness", 0.0, 1.0),
    _row("density_gain", "how much denser the charge leaves than it came in", r"G_\rho", "gain", -0.2, 1.0),
    _row("break_even_pressure_loss", "pressure loss that would undo the whole gain of cooling",
         r"\Delta p_\mathrm{even}", "pressure difference", 0, 200e3),
    # Stations
    _row("ambient_pressure", "station barometer", r"p_0", "absolute pressure", 60e3, 106e3),
    _row("ambient_temperature", "air temperature at the engine", r"T_0", "temperature", 233, 323),
    _row("ambient_density", "density of the air at the engine", r"\rho_0", "density", 0.7, 1.5),
    _row("compressor_inlet_pressure", "absolute pressure at the compressor inlet", r"p_1", "pressure", 55e3, 106e3),
    _row("compressor_inlet_temperature", "air temperature at the compressor inlet", r"T_1", "temperature", 233, 333),
    _row("compressor_inlet_density", "density at the compressor inlet", r"\rho_1", "density", 0.7, 1.5),
    _row("compressor_outlet_pressure", "absolute pressure at the compressor outlet", r"p_2", "pressure",
         80e3, 600e3, us="psi gauge", si="kPa gauge"),
    _row("compressor_outlet_temperature", "air temperature at the compressor outlet", r"T_2", "temperature", 280, 550),
    _row("compressor_outlet_density", "density at the compressor outlet", r"\rho_2", "density", 1.0, 5.0),
    _row("throttle_inlet_pressure", "absolute pressure between aftercooler and throttle", r"p_\mathrm{throttle}",
         "pressure", 80e3, 600e3, us="psi gauge", si="kPa gauge"),
    _row("manifold_pressure", "absolute pressure in the manifold", r"p_3", "pressure", 80e3, 600e3),
    _row("cooler_outlet_temperature", "charge temperature at the aftercooler outlet, before exhaust gas mixes in",
         r"T_{3,\mathrm{cooler}}", "temperature", 270, 550),
    _row("manifold_temperature", "air temperature in the manifold", r"T_3", "temperature", 270, 550),
    _row("manifold_density", "density in the manifold", r"\rho_3", "density", 1.0, 6.0),
    _row("manifold_dry_air_density", "dry air in a cubic metre of manifold", r"\rho_{3,\mathrm{dry}}",
         "density", 1.0, 6.0),
    # The path and its gains
    _row("ideal_outlet_temperature", "outlet temperature of a compressor without losses", r"T_{2s}",
         "temperature", 280, 500),
    _row("specific_compressor_work", "work to compress a kilogram of air", r"w_\mathrm{c}", "specific energy", 0, 3e5),
    _row("specific_heat_rejected", "heat a kilogram of air gives to the aftercooler", r"q",
         "specific energy", -5e4, 3e5),
    _row("charge_gain", "manifold density over ambient density, less 1", r"G_\mathrm{charge}", "gain", 0, 3),
    _row("aftercooling_density_gain", "manifold density over compressor-outlet density, less 1",
         r"G_\mathrm{cooling}", "gain", -0.2, 1),
    _row("mass_flow_gain", "dry air flow over that of the same engine without aftercooler at equal manifold "
         "pressure, less 1", r"G_\mathrm{flow}", "gain", -0.2, 1),
    _row("greatest_possible_gain", "mass flow gain of a perfect aftercooler", r"G_\mathrm{max}", "gain", 0, 1),
    _row("measured_charge_gain", "charge gain from the readings", r"G_\mathrm{measured}", "gain", 0, 3),
    _row("theoretical_charge_gain", "charge gain the design promises at the same boost",
         r"G_\mathrm{theory}", "gain", 0, 3),
    _row("charge_gain_difference", "measured less theoretical charge gain", r"\Delta G", "gain", -0.5, 0.5),
    _row("measured_aftercooling_density_gain", "aftercooling density gain from the readings",
         r"G_\mathrm{cooling,measured}", "gain", -0.2, 1),
    _row("theoretical_aftercooling_density_gain", "aftercooling density gain the design promises",
         r"G_\mathrm{cooling,theory}", "gain", -0.2, 1),
    # Moist air
    _row("relative_humidity", "vapour pressure over saturation pressure", r"\varphi", "share", 0.0, 1.0),
    _row("wet_bulb_temperature", "temperature of the wet thermometer", r"T_\mathrm{wet}", "temperature", 260, 310),
    _row("humidity_ratio", "kilograms of water vapour with each kilogram of dry air", r"w",
         "humidity ratio", 0.0, 0.04),
    _row("vapour_pressure", "part of the pressure that is water vapour", r"p_\mathrm{v}", "absolute pressure",
         100, 7000, us="inHg", si="kPa"),
    _row("saturation_pressure", "greatest vapour pressure at a temperature", r"p_\mathrm{sat}",
         "absolute pressure", 100, 7000, us="inHg", si="kPa"),
    _row("enhancement_factor", "vapour pressure at saturation in air over that of water alone", r"f", "ratio",
         1.0, 1.03),
    _row("dew_point", "temperature at which water begins to form", r"T_\mathrm{dew}", "temperature", 250, 340),
    _row("condensate", "kilograms of water formed with each kilogram of dry air", r"w_\mathrm{water}",
         "humidity ratio", 0.0, 0.04),
    _row("dry_air_density", "mass of dry air in a cubic metre", r"\rho_\mathrm{dry}", "density", 0.6, 6.0),
    # Place
    _row("elevation", "height above sea level (geopotential)", r"H", "elevation", -400, 4500),
    _row("sea_level_pressure", "barometer reading corrected to sea level", r"p_\mathrm{sea}",
         "absolute pressure", 95e3, 105e3),
    _row("station_pressure", "what an open barometer reads where you stand", r"p_\mathrm{station}",
         "absolute pressure", 60e3, 106e3),
    # Engine and air flow
    _row("displacement", "volume swept by all pistons", r"V_\mathrm{d}", "volume", 0.005, 0.017),
    _row("engine_speed", "turns of the crankshaft", r"N", "rotational speed", 8, 42),
    _row("volumetric_efficiency", "air drawn in over what the swept volume would hold at manifold density",
         r"\eta_\mathrm{v}", "ratio", 0.8, 1.0),
    _row("strokes", "strokes of one working cycle, 2 or 4", r"n_\mathrm{strokes}", "ratio", 2, 4),
    _row("mass_flow", "air drawn in by the engine", r"\dot m", "mass flow", 0.0, 1.0),
    _row("dry_air_mass_flow", "dry air drawn in by the engine", r"\dot m_\mathrm{dry}", "mass flow", 0.0, 1.0),
    _row("volume_flow", "volume of air drawn in", r"\dot V", "volume flow", 0.0, 1.0),
    _row("volume_flow_at_ambient", "air flow as a volume of ambient air", r"\dot V_0", "volume flow", 0.0, 1.0),
    _row("compressor_power", "power the turbine must give the compressor", r"P_\mathrm{c}", "power", 0, 150e3),
    _row("heat_rejected", "heat the aftercooler carries away", r"\dot Q", "power", -2e4, 150e3),
    _row("condensate_flow", "water formed in the aftercooler", r"\dot m_\mathrm{water}", "water flow", 0, 0.02),
    _row("stroke", "way of a piston from its top to its bottom", r"s", "length", 0.05, 3.0),
    _row("piston_speed", "mean speed of the pistons: twice the stroke in each turn", r"c_\mathrm{m}", "velocity",
         4, 14),
    _row("mean_effective_pressure", "work of a cycle for each cubic metre of displacement", r"p_\mathrm{me}",
         "pressure difference", 0, 3.1e6),
    # Gauges of the shop
    _row("barometer", "barometer reading", r"p_\mathrm{baro}", "absolute pressure", 60e3, 106e3),
    _row("boost", "manifold pressure above the barometer, as the gauge shows it", r"p_\mathrm{boost}",
         "gauge pressure", 0, 350e3),
    _row("intake_restriction", "fall of pressure from ambient to the compressor inlet", r"\Delta p_\mathrm{intake}",
         "pressure difference", 0, 7e3, us="inH2O"),
    _row("cooler_pressure_loss", "fall of pressure across the aftercooler", r"\Delta p_\mathrm{cooler}",
         "pressure difference", 0, 30e3),
    _row("load", "share of rated power", r"L", "load", 0, 1.1),
    _row("cooling_medium_temperature", "temperature of the cooling medium where it enters the aftercooler",
         r"T_\mathrm{medium}", "temperature", 240, 380),
    _row("cooling_medium_outlet_temperature", "temperature of the cooling medium where it leaves the aftercooler",
         r"T_\mathrm{medium,out}", "temperature", 240, 390),
    _row("cooling_medium_flow", "flow of the cooling medium", r"\dot V_\mathrm{medium}", "coolant flow", 0, 0.02),
    _row("engine_coolant_temperature", "temperature of the engine coolant", r"T_\mathrm{coolant}",
         "temperature", 280, 385),
    _row("core_face_temperature", "air temperature at the face of the core", r"T_\mathrm{face}",
         "temperature", 230, 340),
    _row("air_flow", "air drawn in by the engine", r"\dot m", "mass flow", 0, 1),
    _row("air_volume_flow", "air drawn in, as a volume at ambient conditions", r"\dot V_0", "volume flow", 0, 1),
    _row("fuel_flow", "fuel burnt", r"\dot m_\mathrm{fuel}", "fuel flow", 0, 0.04),
    _row("gas_mass", "carbon dioxide let out", r"m", "mass", 0, 50),
    _row("room_volume", "free volume of a room", r"V_\mathrm{room}", "volume", 10, 5000, us="m³", si="m³"),
    _row("carbon_dioxide_share", "share of carbon dioxide by volume", r"y_\mathrm{CO_2}", "share", 0, 0.3),
    _row("oxygen_share", "share of oxygen by volume", r"y_\mathrm{O_2}", "share", 0, 0.2095),
    _row("fuel_mass", "fuel weighed", r"m_\mathrm{fuel}", "mass", 0, 20),
    _row("fuel_time", "time in which the fuel was burnt", r"t_\mathrm{fuel}", "time", 10, 1000),
    _row("torque", "torque at the crankshaft", r"M", "torque", 0, 4000),
    _row("power", "power at the crankshaft", r"P", "power", 0, 600e3),
    _row("specific_fuel_consumption", "fuel burnt for each unit of work at the crankshaft", r"b",
         "specific fuel consumption", 5e-8, 1.2e-7),
    _row("turbine_inlet_temperature", "exhaust temperature before the turbine", r"T_4", "temperature", 350, 1050),
    _row("turbine_outlet_temperature", "exhaust temperature after the turbine", r"T_5", "temperature", 350, 950),
    _row("turbine_inlet_pressure", "exhaust pressure before the turbine", r"p_4", "pressure", 90e3, 600e3,
         us="psi gauge", si="kPa gauge"),
    _row("exhaust_back_pressure", "exhaust pressure after the turbine above the barometer",
         r"\Delta p_\mathrm{exhaust}", "pressure difference", 0, 40e3, us="inHg"),
    _row("oil_pressure", "oil pressure at the gauge", r"p_\mathrm{oil}", "gauge pressure", 0, 700e3),
    _row("compressor_efficiency", "ideal temperature rise over the real one", r"\eta_\mathrm{c}",
         "efficiency", 0.5, 0.85),
    # Fuel and what the air allows
    _row("hydrogen_carbon_ratio", "hydrogen atoms in the fuel for each carbon atom", r"y", "ratio", 1.7, 2.25),
    _row("stoichiometric_air_fuel_ratio", "kilograms of air that burn a kilogram of fuel with nothing left over",
         r"\mathrm{AFR}_\mathrm{st}", "ratio", 14.0, 15.5),
    _row("air_fuel_ratio", "kilograms of air with each kilogram of fuel", r"\mathrm{AFR}", "ratio", 18, 100),
    _row("smoke_limit", "air-fuel ratio under which smoke is expected (common practice, not a specification)",
         r"\mathrm{AFR}_\mathrm{smoke}", "ratio", 16.0, 30.0),
    _row("excess_air_ratio", "air-fuel ratio over the stoichiometric one", r"\lambda", "ratio", 1.2, 7.0),
    _row("thermal_efficiency", "work at the crankshaft over the heat of the fuel burnt",
         r"\eta_\mathrm{th}", "efficiency", 0.30, 0.46),
    _row("power_potential", "power that the air allows at a given air-fuel ratio", r"P_\mathrm{air}",
         "power", 0, 600e3),
    _row("fuel_delivery", "fuel in a working cycle for each cubic metre of displacement",
         r"q_\mathrm{fuel}", "density", 0.08, 0.15),
    # Meters of the air that an engine draws in
    _row("air_meter_pressure_drop", "fall of pressure across an orifice plate or a laminar-flow element",
         r"\Delta p_\mathrm{meter}", "pressure difference", 0, 10e3, us="inH2O"),
    _row("pipe_diameter", "inside diameter of the pipe before an orifice", r"D", "length", 0.05, 0.5),
    _row("bore_diameter", "diameter of the hole of an orifice", r"d_\mathrm{bore}", "length", 0.0125, 0.3),
    _row("diameter_ratio", "bore over pipe diameter of an orifice", r"\beta", "ratio", 0.1, 0.75),
    _row("discharge_coefficient", "flow over that without contraction or loss", r"C", "ratio", 0.59, 0.66),
    _row("expansibility_factor", "flow over that without expansion", r"\varepsilon_\mathrm{gas}", "ratio", 0.9, 1),
    _row("reynolds_number", "how turbulent the flow in a pipe is", r"\mathrm{Re}", "ratio", 5e3, 1e6),
    _row("dynamic_viscosity", "how hard a gas is to shear", r"\mu", "viscosity", 1.5e-5, 2.2e-5),
    _row("laminar_flow_constant", "volume flow for each unit of drop", r"K_\mathrm{laminar}", "flow for each drop",
         1e-5, 1e-3),
    # The aftercooler as a heat exchanger
    _row("ntu", "number of transfer units: conductance over the smaller capacity rate", r"\mathrm{NTU}",
         "number", 0, 6),
    _row("capacity_ratio", "smaller capacity rate over the larger", r"C_\mathrm{r}", "effectiveness", 0.0, 1.0),
    _row("charge_capacity_rate", "heat that warms the charge flow by one kelvin, each second",
         r"C_\mathrm{charge}", "heat capacity rate", 100, 900),
    _row("medium_capacity_rate", "heat that warms the flow of the cooling medium by one kelvin, each second",
         r"C_\mathrm{medium}", "heat capacity rate", 300, 8000),
    _row("charge_effectiveness", "temperature drop of the charge over the greatest possible drop",
         r"\varepsilon_\mathrm{charge}", "effectiveness", 0.0, 1.0),
    _row("conductance", "heat through the core for each kelvin between the two sides (UA)",
         r"UA", "heat capacity rate", 100, 4000),
    _row("charge_side_share", "share of the core's thermal resistance that lies on the charge side",
         r"s_\mathrm{charge}", "share", 0.2, 0.8),
    _row("fouling_ratio", "thermal resistance of the dirt over that of the clean core", r"f_\mathrm{dirt}",
         "number", 0.0, 1.0),
    _row("charge_flow_ratio", "mass flow of the charge over that of the known point", r"r_\mathrm{charge}",
         "ratio", 0.3, 1.5),
    _row("medium_flow_ratio", "flow of the cooling medium over that of the known point", r"r_\mathrm{medium}",
         "ratio", 0.05, 1.5),
    _row("charge_density_ratio", "mean density in the core over that of the known point", r"r_\rho", "ratio", 0.5, 1.5),
    # Reference days, and the power of another day
    _row("dry_pressure", "barometer less the vapour pressure", r"p_\mathrm{dry}", "absolute pressure", 80e3, 105e3),
    _row("reference_pressure", "pressure of the reference state", r"p_\mathrm{ref}", "absolute pressure", 95e3, 102e3),
    _row("reference_temperature", "temperature of the reference state", r"T_\mathrm{ref}", "temperature", 288, 303),
    _row("reference_vapour_pressure", "vapour pressure of the reference state", r"p_\mathrm{v,ref}",
         "vapour pressure", 0, 2000),
    _row("reference_medium_temperature", "temperature of the cooling medium in the reference state",
         r"T_\mathrm{medium,ref}", "temperature", 288, 308),
    _row("reference_power", "power in the reference state", r"P_\mathrm{ref}", "power", 50e3, 600e3),
    _row("site_pressure", "barometer at the site", r"p_\mathrm{site}", "absolute pressure", 60e3, 105e3),
    _row("site_temperature", "air temperature at the site", r"T_\mathrm{site}", "temperature", 263, 323),
    _row("site_vapour_pressure", "vapour pressure at the site", r"p_\mathrm{v,site}", "vapour pressure", 0, 5000),
    _row("site_power", "power that the engine gives at the site", r"P_\mathrm{site}", "power", 50e3, 600e3),
    _row("site_fuel_ratio", "specific fuel consumption at the site over that in the reference state",
         r"\beta", "ratio", 0.98, 1.1),
    _row("mechanical_efficiency", "power at the crankshaft over power on the pistons",
         r"\eta_\mathrm{m}", "efficiency", 0.75, 0.92),
    _row("power_correction_factor", "power on a standard day over power on the day of the test",
         r"\alpha_\mathrm{c}", "ratio", 0.9, 1.1),
    _row("corrected_power", "power brought to the day of the standard", r"P_\mathrm{corr}", "power", 0, 600e3),
    _row("corrected_mass_flow", "air flow brought to a reference state", r"\dot m_\mathrm{corr}", "mass flow", 0, 1),
    _row("corrected_speed", "speed brought to a reference temperature", r"N_\mathrm{corr}",
         "rotational speed", 0, 2500),
    _row("polytropic_efficiency", "efficiency of each small step of a compression", r"\eta_\mathrm{p}",
         "efficiency", 0.6, 0.85),
    # The engine's own numbers
    _row("compression_ratio", "largest over smallest cylinder volume", r"r", "ratio", 12, 22),
    _row("fuel_lower_heating_value", "heat of burning a kilogram of fuel, water leaving as vapour",
         r"H_\mathrm{u}", "heating value", 40e6, 45e6),
    _row("fuel_density", "mass of fuel in a cubic metre", r"\rho_\mathrm{fuel}", "density", 800, 900),
    # The turbine, the exhaust, and the engine that drives itself
    _row("turbine_outlet_pressure", "exhaust pressure after the turbine", r"p_5", "pressure", 80e3, 130e3),
    _row("expansion_ratio", "absolute pressure before the turbine over that after it", r"\pi_\mathrm{t}",
         "ratio", 1.0, 3.0),
    _row("critical_expansion_ratio", "expansion ratio at which gas reaches the speed of sound in a nozzle",
         r"\pi_\mathrm{crit}", "ratio", 1.8, 1.9),
    _row("fitted_expansion_ratio", "expansion ratio at which the ellipse law agrees with a nozzle",
         r"\pi_\mathrm{fit}", "ratio", 2.0, 2.6),
    _row("flow_parameter", "flow through a nozzle as a pure number", r"\Phi", "number", 0.0, 0.7),
    _row("turbine_efficiency", "real temperature drop in the turbine over the ideal one", r"\eta_\mathrm{t}",
         "efficiency", 0.6, 0.8),
    _row("shaft_efficiency", "power that reaches the compressor over power of the turbine",
         r"\eta_\mathrm{shaft}", "efficiency", 0.9, 0.99),
    _row("heat_capacity_ratio", "specific heat at constant pressure over that at constant volume", r"\gamma",
         "ratio", 1.3, 1.4),
    _row("specific_turbine_work", "work a kilogram of exhaust gives to the turbine", r"w_\mathrm{t}",
         "specific energy", 0, 2.5e5),
    _row("turbine_power", "power the exhaust gives to the turbine", r"P_\mathrm{t}", "power", 0, 150e3),
    _row("exhaust_mass_flow", "exhaust through the turbine", r"\dot m_\mathrm{exhaust}", "mass flow", 0.0, 1.0),
    _row("turbine_temperature_drop", "cooling of the exhaust in the turbine", r"\Delta T_\mathrm{t}",
         "temperature difference", 0, 250),
    _row("shaft_power_ratio", "compressor power over turbine power", r"r_\mathrm{shaft}", "ratio", 0.8, 1.0),
    _row("usual_shaft_power_ratio", "what bearings and hot housing leave of it", r"r_\mathrm{usual}", "ratio", 0.8, 1),
    _row("work_coefficient", "work a kilogram of air takes over the square of the rim's speed", r"\psi", "ratio",
         0.6, 1.1),
    _row("tip_speed", "speed of the rim of the compressor wheel", r"u_2", "velocity", 0, 560, us="ft/s"),
    _row("wheel_diameter", "outer diameter of the compressor wheel", r"D_2", "length", 0.03, 0.3),
    _row("shaft_speed", "turns of the turbocharger's shaft", r"n", "rotational speed", 0, 4000),
    _row("rotor_inertia", "moment of inertia of shaft and both wheels", r"J", "moment of inertia", 1e-6, 0.02),
    _row("rotor_energy", "energy stored in the turning rotor", r"E", "energy", 0, 1e5),
    _row("turbocharger_efficiency", "power of an ideal compressor over power of an ideal turbine",
         r"\eta_\mathrm{TC}", "efficiency", 0.4, 0.65),
    _row("manifold_minus_turbine_inlet_pressure", "manifold pressure less exhaust pressure before the turbine",
         r"\Delta p_\mathrm{pistons}", "pressure difference", -100e3, 100e3),
    _row("compressor_outlet_temperature_by_shaft", "air temperature at the compressor outlet, from the turbine's power",
         r"T_{2,\mathrm{shaft}}", "temperature", 280, 550),
    _row("compressor_efficiency_by_shaft", "compressor efficiency, from the turbine's power",
         r"\eta_\mathrm{c,shaft}", "efficiency", 0.5, 0.85),
    _row("effectiveness_by_shaft", "effectiveness of the aftercooler, from the turbine's power",
         r"\varepsilon_\mathrm{shaft}", "effectiveness", 0.0, 1.0),
    _row("compressor_mass_flow", "air through the compressor", r"\dot m_\mathrm{compressor}", "mass flow", 0.0, 1.0),
    _row("leak_mass_flow", "air lost through leaks of the charge pipes", r"\dot m_\mathrm{leak}", "mass flow",
         0.0, 0.1),
    _row("wastegate_mass_flow", "exhaust that the wastegate lets past the turbine", r"\dot m_\mathrm{gate}",
         "mass flow", 0.0, 0.2),
    _row("wastegate_opening", "open share of the wastegate", r"s_\mathrm{gate}", "share", 0.0, 1.0),
    _row("fuel_heat", "heat of the fuel burnt, each second", r"\dot Q_\mathrm{fuel}", "power", 0, 900e3),
    _row("coolant_heat", "heat to coolant, oil and engine room, friction and pumping counted in",
         r"\dot Q_\mathrm{coolant}", "power", 0, 300e3),
    _row("exhaust_heat", "heat that leaves by the tail pipe, from ambient temperature", r"\dot Q_\mathrm{exhaust}",
         "power", 0, 500e3),
    _row("leak_heat", "heat that leaves with leaking charge air, from ambient temperature", r"\dot Q_\mathrm{leak}",
         "power", 0, 20e3),
    _row("unburnt_heat", "heat of the fuel that found no air", r"\dot Q_\mathrm{unburnt}", "power", 0, 50e3),
    _row("friction_power", "power that the engine's own friction takes", r"P_\mathrm{friction}", "power", 0, 60e3),
)
# fmt: on

QUANTITIES: dict[str, Quantity] = with_banks({row.name: row for row in _ROWS})


def possible(name: str, values: ArrayLike) -> Any:
    """Return *values* of the quantity *name* as a float or a float array, or refuse what cannot be.

    Missing values (`nan`, masked elements) pass as `nan`.

    Raises
    ------
    OutOfRangeError
        For text, infinity and values outside what is possible for the quantity's kind.
    """
    kind = KINDS[QUANTITIES[name].kind]
    if isinstance(values, float) and within(values, kind.low, kind.high):  # the usual case, and the cheapest
        return np.float64(values)
    array = numbers(name, values)
    if within(array, kind.low, kind.high):
        return array[()]
    low_ok = array >= kind.low if kind.low_allowed else array > kind.low
    bad = ~(np.isnan(array) | (low_ok & (array <= kind.high) & np.isfinite(array)))
    if bad.any():
        count = f"{bad.sum()} of {bad.size} values are not, the first is" if array.ndim else "found"
        raise OutOfRangeError(f"{name} must be {kind.needed} [{kind.unit}]; {count} {array[bad][0]:g}.")
    return array[()]  # a numpy scalar, so that a division by zero gives nan or inf, not an exception


def within(values: Values, low: float, high: float) -> bool:
    """Return whether all values lie between two limits and none is missing; the limits themselves may count as out."""
    if isinstance(values, float):
        return low < values < high
    return values.size > 0 and low < values.min() and values.max() < high


def numbers(name: str, values: ArrayLike) -> NDArray[np.float64]:
    """Return *values* as a float array, missing ones as `nan`, or refuse what is not numbers."""
    kind = KINDS[QUANTITIES[name].kind]
    if isinstance(values, np.ma.MaskedArray):
        values = np.ma.filled(values.astype(float), np.nan)
    try:
        array = np.asarray(values)
    except ValueError:  # a ragged list
        array = np.asarray(None)
    if array.dtype.kind not in "iuf":
        raise OutOfRangeError(f"{name} must be {kind.needed} [{kind.unit}]; found {str(values)[:40]!r}, not a number.")
    return array.astype(float, copy=False)
