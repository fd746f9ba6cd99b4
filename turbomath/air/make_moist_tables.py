"""Makes `moist_tables.json`: what water vapour adds to real dry air, as polynomials of temperature.

Run ``python -m turbomath.air.make_moist_tables`` to write the file again; a test does the same sums at other
temperatures. Moist air is the virial equation of Hyland and Wexler (1983) as Herrmann et al. (2009) use it:

- air with air and vapour with vapour from the reference equations (Lemmon et al. 2000, IAPWS-95), by CoolProp,
- air with vapour from Harvey and Huang (2007), the triplets of both from Hyland and Wexler (1983).

With y moles of vapour to each mole of dry air, the Gibbs energy of a kilogram of dry air and its vapour is that of
real dry air, plus that of the vapour as an ideal gas, plus

    p (b1 y + b2 y^2) / (1 + y)  +  p^2 (e1 y + e2 y^2 + e3 y^3 + e4 y^4) / (1 + y)^3

The second term is the virial series in powers of pressure, (C - B^2) p^2 / (2 R T), multiplied out, less its dry part.
"""

import json
from pathlib import Path
from typing import Any

import numpy as np
from numpy.polynomial import Chebyshev, Polynomial

from turbomath.air import coolprop
from turbomath.physics.water import saturation_pressure

FILE = Path(__file__).with_name("moist_tables.json")
LOWEST, HIGHEST = 210.0, 720.0  # K, as for dry air
SCALE = 300.0  # K
DEGREE, HEAT_DEGREE, CONDENSATION_DEGREE, NODES = 10, 9, 3, 120
HOTTEST_WATER = 480.0  # K, where boiling water is above the pressures of charge air
AIR_MOLAR_MASS, WATER_MOLAR_MASS = 0.02896546, 0.018015268  # kg/mol, Lemmon et al. 2000 and IAPWS-95
AIR_MOLAR_GAS_CONSTANT, WATER_MOLAR_GAS_CONSTANT = 8.31451, 8.314371  # J/(mol K), the same
DRIEST_PRESSURE, MOST_VAPOUR = 60e3, 2.0  # Pa; moles of vapour to a mole of dry air: beyond these no weight


def air_vapour(T: Any) -> Any:
    """Second virial coefficient of air with vapour [m^3/mol] (Harvey and Huang 2007, eq. 5)."""
    return 1e-6 * (66.5687 * (T / 100) ** -0.237 - 238.834 * (T / 100) ** -1.048 - 176.755 * (T / 100) ** -3.183)


def air_air_vapour(T: Any) -> Any:
    """Third virial coefficient of two of air with one of vapour [m^6/mol^2] (Hyland and Wexler 1983)."""
    return 1e-12 * np.polyval([-0.319317e13, 0.294442e11, -0.656394e8, 0.105678e6, 0.482737e3], 1 / T)


def air_vapour_vapour(T: Any) -> Any:
    """Third virial coefficient of one of air with two of vapour [m^6/mol^2] (Hyland and Wexler 1983)."""
    return -1e-6 * np.exp(np.polyval([0.33406e8, -0.383383e6, 0.347804e4, -0.10728876e2], 1 / T))


def rows_at(T: Any) -> tuple[list[Any], Any]:
    """The six coefficients b1..e4 at one temperature [m^3/kg, m^3/(kg Pa)], and the vapour's heat [J/(kg K)]."""
    b_air, c_air, _ = coolprop.thin_gas("Air", T)
    b_water, c_water, heat = coolprop.thin_gas("Water", T)
    pairs = Polynomial([b_air, 2 * air_vapour(T), b_water])
    triplets = Polynomial([c_air, 3 * air_air_vapour(T), 3 * air_vapour_vapour(T), c_water])
    both = Polynomial([1, 1])
    first = (pairs - b_air * both).coef[1:]
    second = (triplets * both - pairs**2 - (c_air - b_air**2) * both**3).coef[1:]
    rows = [*first, *(second / (2 * AIR_MOLAR_GAS_CONSTANT * T))]
    return [row / AIR_MOLAR_MASS for row in rows], heat / WATER_MOLAR_MASS


def inverse_scale() -> tuple[float, float]:
    """Middle and half-width of SCALE/T over the range: the polynomials run in u = (SCALE/T - middle)/half."""
    ends = np.array([SCALE / HIGHEST, SCALE / LOWEST])
    return ends.mean(), np.diff(ends)[0] / 2


def most_vapour(T: Any) -> Any:
    """The most vapour that air can carry at a temperature and DRIEST_PRESSURE: where the rows have to be right."""
    pressure = saturation_pressure(np.clip(T, 233.15, 647.0))
    return np.where(pressure < DRIEST_PRESSURE / 2, pressure / (DRIEST_PRESSURE - pressure), MOST_VAPOUR)


def tables() -> dict[str, Any]:
    """Return the tables: coefficients in rising powers of u for b1..e4, of T/SCALE for the heat of vapour and water.

    The heat of condensation has a low degree because it also has to serve water that is colder than 273 K.
    """
    u = np.cos(np.pi * (np.arange(NODES) + 0.5) / NODES)
    middle, half = inverse_scale()
    T = SCALE / (middle + half * u)
    found = [rows_at(t) for t in T]
    powers = (1, 2, 1, 2, 3, 4)
    rows = [
        _fit(u, np.array([row[k] for row, _ in found]), DEGREE, most_vapour(T) ** (power - 1))
        for k, power in enumerate(powers)
    ]
    wet = np.linspace(273.16, HOTTEST_WATER, NODES)
    return {
        "made_by": "turbomath/air/make_moist_tables.py",
        "range_K": [LOWEST, HIGHEST],
        "scale_K": SCALE,
        "middle": middle,
        "half": half,
        "mole_ratio": AIR_MOLAR_MASS / WATER_MOLAR_MASS,
        "vapour_gas_constant": WATER_MOLAR_GAS_CONSTANT / WATER_MOLAR_MASS,
        "pairs": [list(row) for row in rows[:2]],
        "triplets": [list(row) for row in rows[2:]],
        "vapour_heat": _powers(T, [heat for _, heat in found], HEAT_DEGREE),
        "condensation_heat": _powers(wet, [coolprop.condensation_heat(t) for t in wet], CONDENSATION_DEGREE),
    }


def _powers(T, values, degree):
    return list(Chebyshev.fit(T / SCALE, values, degree).convert(kind=Polynomial, domain=[-1, 1]).coef)


def _fit(u, values, degree, weight):
    return Chebyshev.fit(u, values, degree, domain=[-1, 1], w=weight).convert(kind=Polynomial).coef


if __name__ == "__main__":
    FILE.write_text(json.dumps(tables(), indent=1) + "\n", encoding="utf-8")
    print(f"{FILE.name}: {FILE.stat().st_size} bytes")
