"""What each gauge contributes to a ±: its share of the variance, largest first, in words."""

from collections.abc import Mapping

import numpy as np

from turbomath.lab.reduction.design_here import RULES
from turbomath.lab.reduction.meter_inputs import FACTORS
from turbomath.lab.reduction.not_read import BACK_PRESSURE, BAROMETER, RESTRICTION
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.shaft import WORDS
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import Estimate

GAINS = ("measured_charge_gain", "theoretical_charge_gain", "charge_gain_difference")
OF_BENCH = ("volumetric_efficiency", "pipe_diameter", "bore_diameter", "laminar_flow_constant")
LEAST = 0.005  # a smaller share is not worth a line


def shares(estimate: Estimate, row: int) -> dict[str, float]:
    """Return {input: its share of the variance of one result in one row}, largest first."""
    parts = {
        name: float(np.broadcast_to(part, np.shape(estimate.value))[row] ** 2)
        for name, part in estimate.contributions.items()
    }
    whole = sum(parts.values())
    if not (np.isfinite(whole) and whole > 0):
        return {}
    found = {name: part / whole for name, part in parts.items() if part / whole >= LEAST}
    return dict(sorted(found.items(), key=lambda item: -item[1]))


def input_words(name: str) -> str:
    """Return an input of the reduction in words: a gauge, a number that bench.toml states, or a rule of the design."""
    if name in WORDS:
        return WORDS[name]
    if name in RULES:
        return f"rule that brings the design {RULES[name]} to this flow"
    if name in (BAROMETER, RESTRICTION, BACK_PRESSURE):
        return f"{QUANTITIES[name.removesuffix('_not_read')].plain_name} (not read)"
    if name.startswith("design_"):
        return f"design {QUANTITIES[name.removeprefix('design_')].plain_name} (bench.toml)"
    if name == FACTORS:
        return "coefficient of the orifice (ISO 5167-2)"
    if name in OF_BENCH:
        return f"{QUANTITIES[name].plain_name} (bench.toml)"
    word = "thermometer" if QUANTITIES[name].kind == "temperature" else "gauge"
    plain_name = QUANTITIES[name].plain_name.removesuffix(" temperature")
    return plain_name if name == "barometer" else f"{plain_name} {word}"


def share_words(found: Mapping[str, float], most: int = 2) -> str:
    """Return the largest shares in words: "boost gauge 62 %, manifold thermometer 30 %"."""
    return ", ".join(f"{input_words(name)} {per_cent(share)}" for name, share in list(found.items())[:most])


def per_cent(share: float) -> str:
    """Return a share as whole per cent."""
    return f"{100 * share:.0f} %"


def row_of_most_gain(reduced: Reduced) -> int | None:
    """Return the row of the greatest charge gain, of those that can be compared if there are any; else None."""
    gain = np.fmax(reduced["measured_charge_gain"].value, reduced["theoretical_charge_gain"].value)
    compared = np.isfinite(reduced["charge_gain_difference"].value)
    gain = np.where(compared, gain, np.nan) if compared.any() else gain
    return int(np.nanargmax(gain)) if np.isfinite(gain).any() else None
