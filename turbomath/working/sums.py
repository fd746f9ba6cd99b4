"""Small sums: gauge and absolute pressure, differences, and flow times heat, which stand between the formulas."""

from collections.abc import Callable

from turbomath.table.formulas import Tied, formula
from turbomath.table.kinds_of_value import Values


def sum_formula(
    quantity: str, equation: str, conditions: str, source: str = "CommonPractice", /, **letters: tuple[str, str]
) -> Callable[[Callable], Tied]:
    """Tie a function to its equation; *letters* are parameter=(letter, quantity) where the table has none."""

    def tie(function):
        tied = formula(result=quantity, equation=equation, source=source, conditions=conditions)(function)
        tied.letters = letters
        return tied

    return tie


@sum_formula("pressure", r"p = p_\mathrm{baro} + p_\mathrm{boost}", "station barometer")
def absolute_pressure(barometer: Values, boost: Values) -> Values:
    """Absolute pressure [Pa] behind a gauge reading."""
    return barometer + boost


@sum_formula("boost", r"p_\mathrm{boost} = p - p_\mathrm{baro}", "station barometer")
def gauge_pressure(pressure: Values, barometer: Values) -> Values:
    """What a gauge shows [Pa] of an absolute pressure."""
    return pressure - barometer


@sum_formula("compressor_inlet_pressure", r"p_1 = p_\mathrm{baro} - \Delta p_\mathrm{intake}", "station barometer")
def inlet_pressure(barometer: Values, intake_restriction: Values) -> Values:
    """Absolute pressure [Pa] behind the air filter."""
    return barometer - intake_restriction


@sum_formula(
    "density_gain",
    r"G_\rho = \frac{\rho_\mathrm{B}}{\rho_\mathrm{A}} - 1",
    "",
    density_a=(r"\rho_\mathrm{A}", "density"),
    density_b=(r"\rho_\mathrm{B}", "density"),
)
def gain_between(density_a: Values, density_b: Values) -> Values:
    """How much denser B is than A, as a fraction."""
    return density_b / density_a - 1


@sum_formula("power", r"P = \dot m \, q", "", "Heywood", result=("P", "power"))
def flow_of_heat(mass_flow: Values, specific_heat_rejected: Values) -> Values:
    """Heat [W] carried away from a flow of air."""
    return mass_flow * specific_heat_rejected


@sum_formula("power", r"P = \dot m \, w_\mathrm{c}", "", "Heywood")
def flow_of_work(mass_flow: Values, specific_compressor_work: Values) -> Values:
    """Power [W] that a compressor takes."""
    return mass_flow * specific_compressor_work


@sum_formula("compressor_outlet_pressure", r"p_2 = p_3 + \Delta p_\mathrm{cooler}", "absolute pressures")
def outlet_pressure(manifold_pressure: Values, cooler_pressure_loss: Values) -> Values:
    """Absolute pressure [Pa] before an aftercooler."""
    return manifold_pressure + cooler_pressure_loss


@sum_formula(
    "humidity_ratio", r"w_\mathrm{left} = w - w_\mathrm{water}", "", result=(r"w_\mathrm{left}", "humidity_ratio")
)
def vapour_left(humidity_ratio: Values, condensate: Values) -> Values:
    """Water [kg/kg] that is still vapour."""
    return humidity_ratio - condensate


@sum_formula("charge_gain_difference", r"\Delta G = G_\mathrm{measured} - G_\mathrm{theory}", "the same gauges")
def gain_difference(measured_charge_gain: Values, theoretical_charge_gain: Values) -> Values:
    """Measured less theoretical charge gain, as a fraction."""
    return measured_charge_gain - theoretical_charge_gain


@sum_formula("dry_air_mass_flow", r"\dot m_\mathrm{dry} = \frac{\dot m}{1 + w}", "all the water as vapour")
def dry_part(mass_flow: Values, humidity_ratio: Values) -> Values:
    """Dry air [kg/s] in a flow of moist air."""
    return mass_flow / (1 + humidity_ratio)


@sum_formula("compressor_mass_flow", r"\dot m_\mathrm{compressor} = \dot m_\mathrm{dry} \, (1 + w)", "all the water")
def with_vapour(dry_air_mass_flow: Values, humidity_ratio: Values) -> Values:
    """Moist air [kg/s] with the water that it had outside."""
    return dry_air_mass_flow * (1 + humidity_ratio)


@sum_formula("exhaust_mass_flow", r"\dot m_\mathrm{exhaust} = \dot m + \dot m_\mathrm{fuel}", "nothing leaks", "Stone")
def exhaust_mass_flow(mass_flow: Values, fuel_flow: Values) -> Values:
    """Exhaust [kg/s] of an engine: all the air it drew in and all the fuel it burnt."""
    return mass_flow + fuel_flow


@sum_formula("turbine_outlet_pressure", r"p_5 = p_\mathrm{baro} + \Delta p_\mathrm{exhaust}", "station barometer")
def turbine_outlet_pressure(barometer: Values, exhaust_back_pressure: Values) -> Values:
    """Absolute pressure [Pa] after the turbine."""
    return barometer + exhaust_back_pressure


@sum_formula(
    "manifold_minus_turbine_inlet_pressure", r"\Delta p_\mathrm{pistons} = p_3 - p_4", "absolute pressures", "Stone"
)
def manifold_minus_turbine_inlet_pressure(manifold_pressure: Values, turbine_inlet_pressure: Values) -> Values:
    """How far the pressure [Pa] that fills the cylinders is above the one that the pistons push the exhaust against."""
    return manifold_pressure - turbine_inlet_pressure
