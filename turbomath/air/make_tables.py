"""Makes `real_tables.json`: dry air by Lemmon et al. (2000) in a form that needs no iteration.

Run ``python -m turbomath.air.make_tables`` to write the file again; a test does the same sums at other states.

A perfect gas has compressibility 1, enthalpy 3.5 R T, and entropy 3.5 R ln T - R ln p. Each table says by which factor
real air differs, so that every one of its numbers has no unit and is near 1. With the two temperatures

    heat temperature        T_h = h / (3.5 R)                       (h = 0 set so that T_h = T at 300 K and no pressure)
    isentropic temperature  T_s = exp((s + R ln p) / (3.5 R))       (in kelvin, and the same at 300 K)

which both are T itself in a perfect gas, the six tables are

    compressibility    p / (rho R T)   of T           heat_from_entropy      T_h / T_s   of T_s
    heat               T_h / T         of T           temperature_from_heat  T / T_h     of T_h
    entropy            T_s / T         of T           specific_heat          cp / (3.5 R)   of T

and a compressor without losses does T_s2 = T_s1 (p2/p1)^(2/7), as in the first lesson on the perfect gas.

A factor is one polynomial for the ideal gas, and one more for each power of pressure. With x the temperature of the
table, the first runs in (x - MIDDLE) / (x + MIDDLE) and the others in (x - MIDDLE) / (x + FORCES_SHIFT): the heat of
the molecules is smooth in the one, their forces, which fade with powers of 1/T, in the other.
Each state comes from density and temperature, for which the equation is solved without iteration, to rounding.
"""

import json
from pathlib import Path
from typing import Any

import numpy as np
from numpy.polynomial import Chebyshev, Polynomial
from numpy.polynomial.chebyshev import cheb2poly, chebvander

FILE = Path(__file__).with_name("real_tables.json")
LOWEST, HIGHEST, HIGHEST_PRESSURE = 210.0, 720.0, 900e3  # K, K, Pa: the range that the tables serve
COLDEST, HOTTEST = 205.0, 722.0  # K, a little wider, so that the ends are as good as the middle
MIDDLE, FORCES_SHIFT = 390.0, 60.0  # K
# Powers of temperature for the ideal gas, and for each power of pressure from the first upwards: about 3e-11 in all
IDEAL_DEGREE, FORCES_DEGREES = 15, (13, 11, 9, 7, 5)
PRESSURE_UNIT = 1e6  # Pa
STANDARD_PRESSURE = 101_325.0  # Pa
EQUAL = 300.0  # K, where the three temperatures are one
NODES, PRESSURE_NODES = 64, 16


class Air:
    """The reference equation, and what it gives at one state: the named numbers of which the tables are made."""

    def __init__(self):
        from turbomath.air import coolprop

        self._reference = coolprop
        self.gas_constant = coolprop.gas_constant()
        self.heat_unit = 3.5 * self.gas_constant
        _, enthalpy, entropy, _ = self._at(EQUAL, 0.0)
        self.enthalpy_at_zero = enthalpy - self.heat_unit * EQUAL
        self.entropy_at_equal = entropy

    def numbers(self, temperature: float, pressure: float) -> dict[str, Any]:
        """Each table's factor, and the three temperatures, at one state; a pressure of 0 is the ideal gas."""
        compressibility, enthalpy, entropy, specific_heat = self._at(temperature, pressure)
        heat = (enthalpy - self.enthalpy_at_zero) / self.heat_unit
        isentropic = EQUAL * np.exp((entropy - self.entropy_at_equal) / self.heat_unit)
        return {
            "temperature": temperature,
            "heat temperature": heat,
            "isentropic temperature": isentropic,
            "compressibility": compressibility,
            "heat": heat / temperature,
            "entropy": isentropic / temperature,
            "heat_from_entropy": heat / isentropic,
            "temperature_from_heat": temperature / heat,
            "specific_heat": specific_heat / self.heat_unit,
        }

    def _at(self, temperature, pressure):
        """Compressibility, enthalpy, entropy less that of the pressure, specific heat; SI units."""
        density = self._reference.CoolPropAir().density(pressure, temperature) if pressure else 1e-10
        found, enthalpy, entropy, specific_heat = self._reference.at_density(density, temperature)
        entropy += self.gas_constant * np.log(found / STANDARD_PRESSURE)
        return found / (density * self.gas_constant * temperature), enthalpy, entropy, specific_heat


COORDINATE = {  # of the tables; the others are of T itself
    "heat_from_entropy": "isentropic temperature",
    "temperature_from_heat": "heat temperature",
}
NAMES = ("compressibility", "heat", "entropy", "specific_heat", "heat_from_entropy", "temperature_from_heat")


def tables() -> dict[str, Any]:
    """Return what the file holds: the ranges and constants, and for each table a list of polynomials, powers falling.

    The polynomials of a table are that of the ideal gas and those of the forces, from the first power of pressure in
    MPa upwards.
    """
    air = Air()
    T = _nodes(_place(COLDEST, MIDDLE), _place(HOTTEST, MIDDLE), NODES)
    T = MIDDLE * (1 + T) / (1 - T)
    p = _nodes(0.0, HIGHEST_PRESSURE, PRESSURE_NODES)
    ideal = _columns([air.numbers(t, 0.0) for t in T])
    real = _columns([air.numbers(t, one) for t in T for one in p])
    p = np.tile(p, NODES) / PRESSURE_UNIT
    return {
        "made_by": "turbomath/air/make_tables.py",
        "range_K": [LOWEST, HIGHEST],
        "highest_pressure_Pa": HIGHEST_PRESSURE,
        "middle_K": MIDDLE,
        "forces_shift_K": FORCES_SHIFT,
        "pressure_unit_Pa": PRESSURE_UNIT,
        "standard_pressure_Pa": STANDARD_PRESSURE,
        "equal_K": EQUAL,
        "gas_constant": air.gas_constant,
        "enthalpy_at_zero": air.enthalpy_at_zero,
        "entropy_at_equal": air.entropy_at_equal,
        "factors": {name: _table(name, ideal, real, p) for name in NAMES},
    }


def _table(name, ideal, real, p):
    """The polynomials of one table by least squares: the ideal gas first, then what the forces add to it."""
    coordinate = COORDINATE.get(name, "temperature")
    if name == "compressibility":
        fit = Polynomial([1.0, 0.0])  # that of the ideal gas, without the rounding
    else:
        fit = Chebyshev.fit(_place(ideal[coordinate], MIDDLE), ideal[name], IDEAL_DEGREE)
        fit = fit.convert(kind=Polynomial, domain=[-1, 1])
    rest = real[name] - fit(_place(real[coordinate], MIDDLE))
    rows = _forces(_place(real[coordinate], FORCES_SHIFT), p, rest)
    return [[float(one) for one in row[::-1]] for row in (fit.coef, *rows)]


def _forces(place, p, rest):
    """One polynomial of *place* for each power of p, whose sum with those powers is *rest*."""
    low, high = place.min(), place.max()
    u, v = (2 * place - low - high) / (high - low), 2 * p / p.max() - 1
    columns = [
        chebvander(u, degree) * (p * chebvander(v, power)[:, power])[:, None]
        for power, degree in enumerate(FORCES_DEGREES)
    ]
    found = np.linalg.lstsq(np.hstack(columns), rest, rcond=None)[0]
    parts = np.split(found, np.cumsum([degree + 1 for degree in FORCES_DEGREES])[:-1])
    parts = [Chebyshev(part, domain=[low, high]).convert(kind=Polynomial, domain=[-1, 1]) for part in parts]
    in_powers = [
        Polynomial(cheb2poly([0] * power + [1]), domain=[0, p.max()]).convert(domain=[-1, 1]).coef
        for power in range(len(parts))
    ]
    return [
        sum(part * powers[k] for part, powers in zip(parts[k:], in_powers[k:], strict=True)).coef
        for k in range(len(parts))
    ]


def _place(temperature, shift):
    return (temperature - MIDDLE) / (temperature + shift)


def _nodes(low, high, count):
    """Chebyshev nodes from *low* to *high*."""
    return (low + high) / 2 + (high - low) / 2 * np.cos(np.pi * (np.arange(count) + 0.5) / count)


def _columns(rows):
    return {name: np.array([row[name] for row in rows]) for name in rows[0]}


if __name__ == "__main__":
    FILE.write_text(json.dumps(tables(), indent=1) + "\n", encoding="utf-8")
    print(f"{FILE.name}: {FILE.stat().st_size} bytes")
