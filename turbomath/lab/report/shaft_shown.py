"""The results of the shaft as a report groups them: what was measured at both ends, and what is only by the shaft."""

import numpy as np

from turbomath.lab.reduction.reduce import Reduced

SHAFT = (
    "turbine_temperature_drop",
    "turbine_power",
    "shaft_power_ratio",
    "usual_shaft_power_ratio",
    "turbine_efficiency",
    "turbocharger_efficiency",
)
EXHAUST = ("expansion_ratio", "exhaust_mass_flow", "manifold_minus_turbine_inlet_pressure")
BY_SHAFT = ("compressor_outlet_temperature_by_shaft", "compressor_efficiency_by_shaft", "effectiveness_by_shaft")
PAGE_GROUPS: dict[str, tuple[str, ...]] = {
    "The shaft: what the exhaust gives the turbine, and what of it the compressor takes": SHAFT,
    "Exhaust, and the compressor by the shaft: from the turbine's power, not measured": (*EXHAUST, *BY_SHAFT),
}


def terminal_groups(reduced: Reduced) -> dict[str, tuple[str, ...]]:
    """Return the tables of the shaft by caption: none where nothing of the turbine was read that says more.

    What is by the shaft is shown where no thermometer stood at the compressor outlet.
    """
    if not any(np.isfinite(reduced[name].value).any() for name in ("expansion_ratio", "turbine_temperature_drop")):
        return {}
    groups: dict[str, tuple[str, ...]] = {"The shaft": ("expansion_ratio", *SHAFT)}
    if not np.isfinite(reduced["compressor_efficiency"].value).any():
        groups["The compressor by the shaft: from the turbine's power, not measured"] = BY_SHAFT
    return groups
