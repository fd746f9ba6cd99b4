"""The small sums between the formulas: gauge and absolute, one temperature and another, one airflow and another.

Each is a formula with its equation, so that a worked solution can show it. What engine physics is in them comes
from `turbomath.physics`.
"""

from turbomath.physics import atmosphere, compression
from turbomath.table.kinds_of_value import Values
from turbomath.working.coherent import COOLANT_DENSITY, COOLANT_SPECIFIC_HEAT, EXHAUST_SPECIFIC_HEAT
from turbomath.working.sums import sum_formula

LOSS = "cooler_pressure_loss"


@sum_formula("boost", r"p_2 = p_\mathrm{boost} + \Delta p_\mathrm{cooler}", "gauge pressures", result=("p_2", "boost"))
def outlet_boost(boost: Values, cooler_pressure_loss: Values) -> Values:
    """What a gauge shows [Pa] at the compressor outlet."""
    return boost + cooler_pressure_loss


@sum_formula(
    "station_pressure", r"p_\mathrm{station} = p_\mathrm{sea} \, \pi", "ratio of the standard atmosphere", "ISO2533"
)
def from_sea_level(sea_level_pressure: Values, pressure_ratio: Values) -> Values:
    """Station pressure [Pa] from a corrected barometer and the ratio printed in a table."""
    return sea_level_pressure * pressure_ratio


@sum_formula("outlet_pressure", r"p_\mathrm{out} = p_\mathrm{in} \, \pi", "absolute pressures", "Heywood")
def raised_pressure(inlet_pressure: Values, pressure_ratio: Values) -> Values:
    """Absolute pressure [Pa] behind a compressor."""
    return inlet_pressure * pressure_ratio


@sum_formula(
    LOSS,
    r"\Delta p_\mathrm{full} = k \, \Delta p_\mathrm{idle}",
    "factor given on the sheet",
    result=(r"\Delta p_\mathrm{full}", LOSS),
    no_load=(r"\Delta p_\mathrm{idle}", LOSS),
    factor=("k", "pressure_ratio"),
)
def full_load_restriction(no_load: Values, factor: Values) -> Values:
    """Restriction at full load [Pa] from a reading at no-load high idle."""
    return no_load * factor


@sum_formula(
    "ideal_outlet_temperature",
    r"T_{2s} = T_\mathrm{in} \, \pi^{(\gamma-1)/\gamma}",
    "perfect gas, no losses",
    "Heywood",
)
def ideal_outlet_temperature(inlet_temperature: Values, pressure_ratio: Values) -> Values:
    """Outlet temperature [K] of a compressor without losses."""
    return compression.ideal_outlet_temperature(1e5, inlet_temperature, 1e5 * pressure_ratio)


@sum_formula(
    "outlet_temperature",
    r"T_\mathrm{out} = T_\mathrm{in} + \frac{T_{2s} - T_\mathrm{in}}{\eta}",
    "perfect gas",
    "Heywood",
)
def real_outlet_temperature(
    inlet_temperature: Values, ideal_outlet_temperature: Values, isentropic_efficiency: Values
) -> Values:
    """Outlet temperature [K] of a real compressor."""
    return inlet_temperature + (ideal_outlet_temperature - inlet_temperature) / isentropic_efficiency


@sum_formula(
    "isentropic_efficiency",
    r"\eta = \frac{T_{2s} - T_\mathrm{in}}{T_\mathrm{out} - T_\mathrm{in}}",
    "perfect gas",
    "Heywood",
)
def efficiency_from_rises(
    inlet_temperature: Values, ideal_outlet_temperature: Values, outlet_temperature: Values
) -> Values:
    """Compressor efficiency: ideal rise over the real one."""
    return (ideal_outlet_temperature - inlet_temperature) / (outlet_temperature - inlet_temperature)


@sum_formula(
    "pressure_ratio",
    r"\pi = \left[1 + \eta \left(\frac{T_\mathrm{out}}{T_\mathrm{in}} - 1\right)\right]"
    r"^{\gamma/(\gamma-1)}",
    "perfect gas",
    "Heywood",
)
def highest_pressure_ratio(
    inlet_temperature: Values, outlet_temperature: Values, isentropic_efficiency: Values
) -> Values:
    """Pressure ratio by the time the air is this hot."""
    return compression.outlet_pressure(1.0, inlet_temperature, outlet_temperature, isentropic_efficiency)


@sum_formula("temperature_rise", r"\Delta T = T_\mathrm{out} - T_\mathrm{in}", "")
def rise(inlet_temperature: Values, outlet_temperature: Values) -> Values:
    """How much hotter [K] the second is than the first."""
    return outlet_temperature - inlet_temperature


@sum_formula(
    "density_gain", r"G_\rho = \frac{T_\mathrm{in}}{T_\mathrm{out}} - 1", "equal pressures, perfect gas", "ISO2533"
)
def gain_at_equal_pressure(inlet_temperature: Values, outlet_temperature: Values) -> Values:
    """Change of density between two temperatures at one pressure, as a fraction."""
    return inlet_temperature / outlet_temperature - 1


@sum_formula(
    "density_ratio", r"\rho_r = \frac{T_\mathrm{in}}{T_\mathrm{out}}", "equal pressures, perfect gas", "ISO2533"
)
def ratio_at_equal_pressure(inlet_temperature: Values, outlet_temperature: Values) -> Values:
    """Ratio of densities at one pressure."""
    return inlet_temperature / outlet_temperature


@sum_formula(
    "power",
    r"P = P_\mathrm{before} \frac{\rho_\mathrm{B}}{\rho_\mathrm{A}}",
    "equal air-fuel ratio and efficiency",
    power_before=(r"P_\mathrm{before}", "power"),
    density_a=(r"\rho_\mathrm{A}", "density"),
    density_b=(r"\rho_\mathrm{B}", "density"),
)
def power_at_density(power_before: Values, density_a: Values, density_b: Values) -> Values:
    """Power [W] that the air would allow."""
    return power_before * density_b / density_a


@sum_formula("density_gain", r"G_\rho = \frac{p_\mathrm{v}}{p}", "equal temperature", "ASHRAE2017")
def dry_air_lost(vapour_pressure: Values, pressure: Values) -> Values:
    """Share of the air that water vapour has pushed out."""
    return vapour_pressure / pressure


@sum_formula("vapour_pressure", r"p_\mathrm{v} = \varphi \, p_\mathrm{sat}", "", "ASHRAE2017")
def vapour_pressure(relative_humidity: Values, saturation_pressure: Values) -> Values:
    """Vapour pressure [Pa] from relative humidity and a table."""
    return relative_humidity * saturation_pressure


@sum_formula(
    "temperature_rise",
    r"\Delta T = \frac{\dot Q}{\dot V_\mathrm{medium} \rho_\mathrm{coolant} "
    r"c_\mathrm{coolant}}",
    "half water, half glycol: 1050 kg/m³, 3.6 kJ/(kg K)",
)
def coolant_rise(heat_rejected: Values, cooling_medium_flow: Values) -> Values:
    """How much warmer [K] the coolant leaves."""
    return heat_rejected / (cooling_medium_flow * COOLANT_DENSITY * COOLANT_SPECIFIC_HEAT)


@sum_formula(
    "specific_turbine_work",
    r"w_\mathrm{t} = c_\mathrm{exhaust} \left(T_4 - T_5\right)",
    "exhaust of a loaded diesel: 1.15 kJ/(kg K)",
    "Heywood",
)
def exhaust_work(turbine_inlet_temperature: Values, turbine_outlet_temperature: Values) -> Values:
    """Work [J/kg] that a kilogram of exhaust gives to the turbine."""
    return EXHAUST_SPECIFIC_HEAT * (turbine_inlet_temperature - turbine_outlet_temperature)


@sum_formula("turbine_power", r"P_\mathrm{t} = \dot m_\mathrm{exhaust} \, w_\mathrm{t}", "no heat lost", "Heywood")
def flow_of_exhaust_work(exhaust_mass_flow: Values, specific_turbine_work: Values) -> Values:
    """Power [W] that the exhaust gives to the turbine."""
    return exhaust_mass_flow * specific_turbine_work


@sum_formula(
    LOSS,
    r"\Delta p_\mathrm{B} = \Delta p_\mathrm{cooler} \left(\frac{\dot m_\mathrm{B}}{\dot "
    r"m_\mathrm{A}}\right)^2",
    "turbulent flow, same density",
    result=(r"\Delta p_\mathrm{B}", LOSS),
    flow_a=(r"\dot m_\mathrm{A}", "mass_flow"),
    flow_b=(r"\dot m_\mathrm{B}", "mass_flow"),
)
def loss_at_flow(cooler_pressure_loss: Values, flow_a: Values, flow_b: Values) -> Values:
    """Pressure loss [Pa] of the same aftercooler at another flow."""
    return cooler_pressure_loss * (flow_b / flow_a) ** 2


@sum_formula(
    LOSS,
    r"\Delta p = p_\mathrm{start} - p_\mathrm{end}",
    "",
    result=(r"\Delta p", LOSS),
    start=(r"p_\mathrm{start}", "boost"),
    end=(r"p_\mathrm{end}", "boost"),
)
def pressure_drop(start: Values, end: Values) -> Values:
    """How far [Pa] a gauge fell."""
    return start - end


def standard_ratio(elevation: Values) -> Values:
    """Pressure of the standard atmosphere over that at sea level, as a table prints it."""
    return atmosphere.pressure(elevation) / atmosphere.pressure(0.0)


def standard_density_ratio(elevation: Values) -> Values:
    """Density of the standard atmosphere over that at sea level."""
    return atmosphere.density(elevation) / atmosphere.density(0.0)
