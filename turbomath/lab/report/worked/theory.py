"""The steps of the theoretical side: the same ambient, restriction and boost, with the numbers of the design."""

import math

from turbomath.lab.report.worked.steps import ReadingSteps
from turbomath.physics import compression, cooling
from turbomath.working import sums

DESIGN = {
    "compressor_efficiency": r"\eta_\mathrm{design}",
    "effectiveness": r"\varepsilon_\mathrm{design}",
    "cooler_pressure_loss": r"\Delta p_\mathrm{design}",
}


def add_theory(to: ReadingSteps) -> None:
    """Add the steps to the theoretical charge gain and the difference, if bench.toml states the whole design."""
    known = all(math.isfinite(to.read[f"design_{name}"]) for name in DESIGN)
    if not known or not to.has("manifold_pressure", "ambient_density"):
        return
    for name, symbol in DESIGN.items():
        to.take_design(name, symbol)
    hot = _add_temperatures(to)
    left = to.left_as_vapour("manifold_pressure", hot, "design")
    to.density("theoretical_manifold_density", "manifold_pressure", hot, left, r"\rho_\mathrm{3,design}")
    to.step(
        "theoretical_charge_gain",
        sums.gain_between,
        density_a="ambient_density",
        density_b="theoretical_manifold_density",
    )
    to.step("charge_gain_difference", sums.gain_difference)


def _add_temperatures(to):
    """Return the name of the manifold temperature by design."""
    to.step(
        "theoretical_outlet_pressure",
        sums.outlet_pressure,
        r"p_\mathrm{2,design}",
        cooler_pressure_loss="design_cooler_pressure_loss",
    )
    to.step(
        "theoretical_outlet_temperature",
        compression.outlet_temperature,
        r"T_\mathrm{2,design}",
        inlet_pressure="compressor_inlet_pressure",
        inlet_temperature="compressor_inlet_temperature",
        outlet_pressure="theoretical_outlet_pressure",
        isentropic_efficiency="design_compressor_efficiency",
    )
    if not to.cooled:
        return "theoretical_outlet_temperature"
    to.step(
        "theoretical_manifold_temperature",
        cooling.outlet_temperature,
        r"T_\mathrm{3,design}",
        inlet_temperature="theoretical_outlet_temperature",
        effectiveness="design_effectiveness",
    )
    return "theoretical_manifold_temperature"
