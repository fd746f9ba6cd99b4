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
BY_SHAFT = ("compressor_outlet_temperature_by_shaft", "compressor_efficiency_by_shaft", "effectiveness_by_shaft")
ON_PAGE = (
    "expansion_ratio",
    "exhaust_mass_flow",
    "turbine_power",
    "shaft_power_ratio",
    "turbine_efficiency",
    "turbocharger_efficiency",
    "manifold_minus_turbine_inlet_pressure",
)
WHAT_IT_IS = "The shaft: what the exhaust gives the turbine, and what of it the compressor takes"
NOT_MEASURED = "The compressor by the shaft: from the turbine's power, not measured"


def page_groups(reduced: Reduced) -> dict[str, tuple[str, ...]]:
    """Return the tables of the shaft on a page by caption; see `terminal_groups`."""
    return {WHAT_IT_IS: ON_PAGE, **_by_shaft(reduced)}


def terminal_groups(reduced: Reduced) -> dict[str, tuple[str, ...]]:
    """Return the tables of the shaft by caption: none where nothing of the turbine was read that says more.

    What is by the shaft is shown where no thermometer stood at the compressor outlet.
    """
    if not any(np.isfinite(reduced[name].value).any() for name in ("expansion_ratio", "turbine_temperature_drop")):
        return {}
    return {"The shaft": ("expansion_ratio", *SHAFT), **_by_shaft(reduced)}


def _by_shaft(reduced: Reduced) -> dict[str, tuple[str, ...]]:
    measured = np.isfinite(reduced["compressor_efficiency"].value).any()
    return {} if measured else {NOT_MEASURED: BY_SHAFT}
