"""The two factors of an orifice plate, their limits and their uncertainty, by ISO 5167-2."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from turbomath.table.constants import AIR_HEAT_CAPACITY_RATIO
from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import choice, defined, formula
from turbomath.table.kinds_of_value import Values

SMALL_PIPE = 0.07112  # m; below it the edge of the plate matters more
FLANGE = SMALL_PIPE / 2.8  # m, from the plate to each tapping
LEAST_PRESSURE_RATIO = 0.75  # downstream over upstream
# Tappings -> distance (upstream, downstream) from the plate over the pipe diameter; of flange ones over `FLANGE`
_TAPPINGS = {"corner": (0.0, 0.0), "D and D/2": (1.0, 0.47), "flange": (1.0, 1.0)}
TAPPINGS = tuple(_TAPPINGS)


@formula(
    result="discharge_coefficient",
    equation=r"C = B + F + U - L + N, \quad B = 0.5961 + 0.0261 \beta^2 - 0.216 \beta^8, \quad"
    r" F = 0.000521 \left(\frac{10^6 \beta}{\mathrm{Re}}\right)^{0.7}"
    r" + (0.0188 + 0.0063 A) \beta^{3.5} \left(\frac{10^6}{\mathrm{Re}}\right)^{0.3}, \quad"
    r" U = \left(0.043 + 0.080 \exp(-10 x) - 0.123 \exp(-7 x)\right) (1 - 0.11 A) \frac{\beta^4}{1 - \beta^4}, \quad"
    r" L = 0.031 \left(M - 0.8 M^{1.1}\right) \beta^{1.3}, \quad"
    r" N = 0.0308 (0.75 - \beta) \max\left(1 - \frac{D}{D_\mathrm{small}}, 0\right), \quad"
    r" A = \left(\frac{19000 \beta}{\mathrm{Re}}\right)^{0.8}, \quad M = \frac{2 y}{1 - \beta}",
    source="ISO5167-2",
    conditions="sharp clean edge, a straight pipe before it",
    where={
        "B": "what the ratio alone gives",
        "F": "what the flow adds",
        "U": "what the tapping before the plate adds",
        "L": "what the tapping behind the plate takes",
        "N": "what a small pipe adds",
        "A": "what a slow flow adds",
        "x": "distance of the tapping before the plate, over the pipe diameter",
        "y": "distance of the tapping behind the plate, over the pipe diameter",
        "M": "what the tapping behind the plate feels of the dammed flow",
        r"D_\mathrm{small}": "71.12 mm, the least pipe that needs no term of its own",
    },
)
def discharge_coefficient(
    diameter_ratio: Values, reynolds_number: Values, pipe_diameter: Values, tappings: str = "corner"
) -> Values:
    """Flow through an orifice plate over what the same drop would drive without contraction or loss.

    Parameters
    ----------
    diameter_ratio : float or array [-]
        Bore over pipe diameter.
    reynolds_number : float or array [-]
        Of the flow in the pipe.
    pipe_diameter : float or array [m]
        Inside diameter of the pipe before the plate.
    tappings : str
        Where the drop is taken: "corner", "D and D/2" or "flange".

    Returns
    -------
    float or array of the broadcast shape [-]
        Discharge coefficient, near 0.6.

    Raises
    ------
    OutOfRangeError
        If an argument is not above zero, or the tappings are none of those listed.

    Notes
    -----
    The Reader-Harris/Gallagher equation. Where no `Plate` of the standard covers it, there is a `RangeWarning`.

    Examples
    --------
    >>> round(discharge_coefficient(0.6, 150_000.0, 0.15, "flange"), 4)
    0.6091

    References
    ----------
    ISO5167-2, section 5.3.2.1.
    """
    beta, re = diameter_ratio, reynolds_number
    up, down = choice("tappings", tappings, _TAPPINGS)
    if tappings == "flange":
        up = down = FLANGE / pipe_diameter
    slow, dam = (19e3 * beta / re) ** 0.8, 2 * down / (1 - beta)
    ratio = beta**4 / (1 - beta**4)
    before = (0.043 + 0.080 * np.exp(-10 * up) - 0.123 * np.exp(-7 * up)) * (1 - 0.11 * slow) * ratio
    behind = 0.031 * (dam - 0.8 * dam**1.1) * beta**1.3
    small = 0.0308 * (0.75 - beta) * np.maximum(1 - pipe_diameter / SMALL_PIPE, 0.0)
    _warn_outside(Plate(beta, pipe_diameter, tappings), re)
    return (
        0.5961
        + 0.0261 * beta**2
        - 0.216 * beta**8
        + 0.000521 * (1e6 * beta / re) ** 0.7
        + (0.0188 + 0.0063 * slow) * beta**3.5 * (1e6 / re) ** 0.3
        + before
        - behind
        + small
    )


@formula(
    result="expansibility_factor",
    equation=r"\varepsilon_\mathrm{gas} = 1 - \left(0.351 + 0.256 \beta^4 + 0.93 \beta^8\right) \left[1 - \left(1 -"
    r" \frac{\Delta p_\mathrm{meter}}{p}\right)^{1/\gamma}\right]",
    source="ISO5167-2",
    conditions="no more than a quarter of the pressure is lost",
)
def expansibility_factor(
    air_meter_pressure_drop: Values,
    pressure: Values,
    diameter_ratio: Values,
    heat_capacity_ratio: Values = AIR_HEAT_CAPACITY_RATIO,
) -> Values:
    """How much less flows through an orifice because the air expands in it.

    Parameters
    ----------
    air_meter_pressure_drop : float or array [Pa]
        Drop between the tappings.
    pressure : float or array [Pa]
        Absolute pressure before the plate.
    diameter_ratio : float or array [-]
        Bore over pipe diameter.
    heat_capacity_ratio : float or array [-]
        Of the gas, 1.4 for air.

    Returns
    -------
    float or array of the broadcast shape [-]
        Expansibility factor, at most 1; `nan` where the drop is more than the pressure.

    Raises
    ------
    OutOfRangeError
        If a pressure or a ratio is not above zero.

    Notes
    -----
    More than a quarter of the pressure lost gives a `RangeWarning`.

    Examples
    --------
    >>> round(expansibility_factor(2_000.0, 98_000.0, 0.6), 4)
    0.9942

    References
    ----------
    ISO5167-2, section 5.3.2.2.
    """
    left = 1 - air_meter_pressure_drop / pressure
    if np.any(left < LEAST_PRESSURE_RATIO):
        warn_at_caller("the drop across the orifice is more than a quarter of the pressure, beyond ISO 5167-2.")
    share = 0.351 + 0.256 * diameter_ratio**4 + 0.93 * diameter_ratio**8
    return defined(left >= 0, 1 - share * (1 - np.maximum(left, 0.0) ** (1 / heat_capacity_ratio)))


@dataclass(frozen=True)
class Plate:
    """An orifice plate as ISO 5167-2 judges it; all may be arrays [-, m]."""

    diameter_ratio: Values
    pipe_diameter: Values
    tappings: str

    def covered(self, reynolds_number: Values) -> Any:
        """Return where the standard knows the discharge coefficient (5.3.1); `nan` is nowhere."""
        beta, millimetres = self.diameter_ratio, 1e3 * self.pipe_diameter
        sizes = (beta >= 0.1) & (beta <= 0.75) & (millimetres >= 50) & (millimetres <= 1000)
        flange, others = 170 * beta**2 * millimetres, np.where(beta > 0.56, 16e3 * beta**2, 0.0)
        slowest = np.maximum(5e3, flange if self.tappings == "flange" else others)
        return sizes & (beta * millimetres >= 12.5) & (reynolds_number >= slowest)

    def uncertainty(self, reynolds_number: Values) -> Any:
        """Return how far the discharge coefficient may be off, as a fraction of it with k = 2 (5.3.3.1)."""
        beta = np.asarray(self.diameter_ratio)
        plain = np.select([beta < 0.2, beta <= 0.6], [0.7 - beta, 0.5 + 0 * beta], 1.667 * beta - 0.5)
        small = 2.52 * (0.75 - beta) * np.maximum(1 - self.pipe_diameter / SMALL_PIPE, 0.0)
        slow = np.where((beta > 0.5) & (reynolds_number < 1e4), 0.5, 0.0)
        return (plain + small + slow) / 100


def _warn_outside(plate, reynolds_number):
    known = np.isfinite(plate.diameter_ratio * plate.pipe_diameter * reynolds_number)
    if np.any(known & ~plate.covered(reynolds_number)):
        warn_at_caller(
            "the orifice is outside ISO 5167-2: bore 12.5 mm or more, pipe 50 to 1000 mm, bore over pipe 0.1 to 0.75, "
            "Reynolds number 5000 or more and more for a wide bore; the coefficient is not known there."
        )
