"""The steps from the stations to what compressor and aftercooler do, and to the measured gains."""

from turbomath.lab.report.worked.steps import ReadingSteps
from turbomath.physics import charge, compression, cooling, mixture
from turbomath.working import sums

P1, T1 = "compressor_inlet_pressure", "compressor_inlet_temperature"
P2, T2 = "compressor_outlet_pressure", "compressor_outlet_temperature"
P3, T3 = "manifold_pressure", "manifold_temperature"


def add_machines(to: ReadingSteps) -> str:
    """Add the steps to efficiency, effectiveness and gains; return the name of the vapour left in the manifold."""
    to.step("pressure_ratio", compression.pressure_ratio, inlet_pressure=P1, outlet_pressure=P2)
    inlet = {"inlet_pressure": P1, "inlet_temperature": T1, "outlet_pressure": P2}
    to.step("ideal_outlet_temperature", compression.ideal_outlet_temperature, **inlet)
    to.step("compressor_efficiency", compression.isentropic_efficiency, **inlet, outlet_temperature=T2)
    to.step("effectiveness", cooling.effectiveness, inlet_temperature=T2, outlet_temperature=T3)
    to.density("compressor_outlet_density", P2, T2)
    left = to.left_as_vapour(P3, T3, "3")
    to.density("manifold_density", P3, T3, left)
    _add_gain(to, "measured_charge_gain", "ambient_density", "manifold_density")
    if to.cooled:
        _add_gain(to, "measured_aftercooling_density_gain", "compressor_outlet_density", "manifold_density")
        if to.efficiency_told:
            _add_mass_flow_gain(to, left)
    return left


def _add_gain(to, result, before, after):
    to.step(result, sums.gain_between, density_a=before, density_b=after)


def _add_mass_flow_gain(to, left):
    """What the same engine would breathe without aftercooler, at the same manifold pressure."""
    to.step(
        "uncooled_temperature",
        compression.outlet_temperature,
        r"T_\mathrm{uncooled}",
        inlet_pressure=P1,
        inlet_temperature=T1,
        outlet_pressure=P3,
        isentropic_efficiency="compressor_efficiency",
    )
    _add_dry_air_density(to, "uncooled", "uncooled_temperature", "humidity_ratio")
    _add_dry_air_density(to, "cooled", T3, left)
    _add_gain(to, "mass_flow_gain", "uncooled_dry_air_density", "cooled_dry_air_density")


def _add_dry_air_density(to, name, temperature, vapour):
    formula, wet = (mixture.dry_air_density, {"humidity_ratio": vapour}) if to.wet else (charge.density, {})
    symbol = rf"\rho_\mathrm{{{name}}}"
    to.step(f"{name}_dry_air_density", formula, symbol, pressure=P3, temperature=temperature, **wet)
