"""Simulated shafts: both ends and what gauges show of them, with gas data of their own.

Enthalpies are those of the NIST-JANAF Thermochemical Tables, 4th ed. (1998), H - H(298.15 K) in kJ/mol, from memory of
the print; argon has 5/2 R. The kit's burnt gas stands on NASA's polynomials, its air on a real-gas equation.
"""

from dataclasses import replace

import numpy as np
from scipy.interpolate import CubicSpline

from turbomath import uncertainty
from turbomath.lab.run.readings import Run, read_run

R = 8.314462618
TABLE = (298.15, 400.0, 500.0, 600.0, 700.0, 800.0, 900.0, 1000.0, 1100.0)
HEATS = {
    "N2": (0.0, 2.971, 5.911, 8.894, 11.937, 15.046, 18.223, 21.463, 24.760),
    "O2": (0.0, 3.025, 6.084, 9.244, 12.499, 15.835, 19.241, 22.703, 26.212),
    "CO2": (0.0, 4.003, 8.305, 12.907, 17.754, 22.806, 28.030, 33.397, 38.884),
    "H2O": (0.0, 3.452, 6.925, 10.501, 14.192, 18.002, 21.938, 26.000, 30.191),
}
MASSES = {"N2": 28.0134, "O2": 31.9988, "CO2": 44.0095, "H2O": 18.0153, "Ar": 39.948}
AIR = {"N2": 0.7809, "O2": 0.2095, "Ar": 0.0093, "CO2": 0.0003}  # dry, by moles
HEAT = {gas: CubicSpline(TABLE, heats) for gas, heats in HEATS.items()}
HEAT["Ar"] = lambda T: 2.5 * R * (T - 298.15) / 1000
CAPACITY = {gas: HEAT[gas].derivative() for gas in HEATS} | {"Ar": lambda T: 2.5 * R / 1000 + 0 * T}
HYDROGEN = 1.8  # atoms for each of carbon in diesel fuel
CH = 12.011 + 1.008 * HYDROGEN


def mass(moles):
    """Kilograms of a mixture with so many kilomoles of each gas."""
    return sum(part * MASSES[gas] for gas, part in moles.items())


def enthalpy(moles, temperature):
    """Enthalpy of a kilogram [J/kg]."""
    return 1e6 * sum(part * HEAT[gas](temperature) for gas, part in moles.items()) / mass(moles)


def capacity(moles, temperature):
    return 1e6 * sum(part * CAPACITY[gas](temperature) for gas, part in moles.items()) / mass(moles)


def temperature_of(moles, wanted, start):
    for _ in range(8):
        start = start - (enthalpy(moles, start) - wanted) / capacity(moles, start)
    return start


def log_pressure_ratio(moles, cold, hot):
    """Logarithm of the pressure ratio that takes a gas from one temperature to the other without loss."""
    steps = np.linspace(cold, hot, 41)
    values = np.array([capacity(moles, step) / step for step in steps])
    gas_constant = 1000 * R * sum(moles.values()) / mass(moles)
    return np.trapezoid(values, steps, axis=0) / gas_constant


def moist_air(humidity):
    vapour = humidity * mass(AIR) / MASSES["H2O"]
    return AIR | {"H2O": vapour}


def burnt(humidity, air_fuel_ratio):
    """Moles of the exhaust for each mole of dry air: diesel fuel burnt with air to spare."""
    fuel = mass(AIR) / air_fuel_ratio / CH
    change = {"CO2": fuel, "H2O": fuel * HYDROGEN / 2, "O2": -fuel * (1 + HYDROGEN / 4)}
    return {gas: part + change.get(gas, 0.0) for gas, part in moist_air(humidity).items()}


def shafts(count, seed):
    """Return the true states of so many shafts by the names of the kit [SI], with the `ratio` of powers."""
    draw = np.random.default_rng(seed)
    between = lambda low, high: draw.uniform(low, high, count)  # noqa: E731
    s = {"barometer": between(85e3, 103e3), "ambient_temperature": between(275, 310)}
    s["relative_humidity"] = between(0.1, 0.9)
    celsius = s["ambient_temperature"] - 273.15
    vapour = s["relative_humidity"] * 611.2 * np.exp(17.62 * celsius / (243.12 + celsius))  # WMO, Magnus form
    humidity = 0.62198 * vapour / (s["barometer"] - vapour)
    s["intake_restriction"] = between(500, 5000)
    s["compressor_inlet_temperature"] = s["ambient_temperature"] + between(0, 4)
    air, ratio = moist_air(humidity), between(22, 40)
    gas = burnt(humidity, ratio)
    s["turbine_inlet_temperature"] = hot = between(700, 950)
    s["exhaust_back_pressure"], expansion = between(500, 9000), between(1.6, 3.0)
    s["turbine_inlet_pressure"] = expansion * (s["barometer"] + s["exhaust_back_pressure"])
    cold = _isentropic(gas, hot, expansion)
    work = between(0.6, 0.8) * (enthalpy(gas, hot) - enthalpy(gas, cold))
    lost = between(0.0, 0.015) * (hot - s["ambient_temperature"])  # K, by the housing
    after = enthalpy(gas, hot) - work
    s["turbine_outlet_temperature"] = temperature_of(gas, after, hot - work / 1150) - lost
    exhaust = 1 + humidity + 1 / ratio  # kg for each kilogram of dry air
    given = exhaust * (enthalpy(gas, hot) - enthalpy(gas, s["turbine_outlet_temperature"]))
    taken = between(0.94, 1.0) * exhaust * work
    s["ratio"] = taken / given
    inlet = s["compressor_inlet_temperature"]
    start = enthalpy(air, inlet)
    lift = taken / (1 + humidity)
    s["compressor_outlet_temperature"] = temperature_of(air, start + lift, inlet + lift / 1010)
    compressor = between(0.65, 0.8)
    ideal = temperature_of(air, start + compressor * lift, inlet + 0.7 * lift / 1010)
    s["turbine_efficiency"] = given / exhaust / (enthalpy(gas, hot) - enthalpy(gas, cold))
    s["turbocharger_efficiency"] = compressor * s["turbine_efficiency"] * s["ratio"]
    pressure = (s["barometer"] - s["intake_restriction"]) * np.exp(log_pressure_ratio(air, inlet, ideal))
    s["cooler_pressure_loss"] = between(2e3, 12e3)
    s["boost"] = pressure - s["cooler_pressure_loss"] - s["barometer"]
    s["cooling_medium_temperature"] = s["ambient_temperature"]
    s["manifold_temperature"] = s["compressor_outlet_temperature"] - between(0.7, 0.9) * (
        s["compressor_outlet_temperature"] - s["ambient_temperature"]
    )
    s["engine_speed"] = between(20, 35)
    density = (s["boost"] + s["barometer"]) / (287.05 * (1 + 0.608 * humidity) * s["manifold_temperature"])
    flow = density / (1 + humidity) * 0.006 * s["engine_speed"] * between(0.90, 0.94)  # dry air; a four-stroke of 12 L
    s["fuel_flow"] = flow / ratio
    return s


def _isentropic(gas, hot, expansion):
    """Temperature after an expansion without loss."""
    cold = hot * expansion ** (-0.25)
    for _ in range(12):
        off = log_pressure_ratio(gas, cold, hot) - np.log(expansion)
        cold = cold + off * 287 * cold / capacity(gas, cold)
    return cold


NOT_READ = ("ratio", "turbine_efficiency", "turbocharger_efficiency")


def as_read(true, seed, errors=1.0):
    """Return the run that the gauges of a shipped run show of these shafts: a row each, with errors of its own.

    *errors* are a share of what gauges and pulses may be off.
    """
    draw, shipped = np.random.default_rng([seed, 1]), read_run("generator_air_to_air")
    count = len(true["barometer"])
    values = {}
    for name, value in true.items():
        if name in NOT_READ:
            continue
        gauge = value - true["barometer"] if name in shipped.gauge_columns else value
        off = uncertainty.tolerance(shipped.bench.instrument(name), gauge)
        shown = gauge + errors * draw.uniform(-1, 1, count) * off
        values[name] = shown
    excess = true["turbine_inlet_temperature"] - true["ambient_temperature"]
    values["turbine_inlet_temperature"] -= errors * draw.uniform(-0.01, 0.01, count) * excess  # pulses and lag
    for name in shipped.gauge_columns:
        values[name] = values[name] + values["barometer"]
    none = {name: np.zeros(count, dtype=bool) for name in values}
    return replace(
        shipped,
        rows=tuple(range(2, count + 2)),
        points=tuple(str(row) for row in range(count)),
        conditions=("load",) * count,
        columns=tuple(values),
        cells={name: tuple(f"{one:.6g}" for one in value) for name, value in values.items()},
        pegged=none,
        at_least={name: np.full(count, np.nan) for name in values},
        station_pressure=values["barometer"],
        values=values,
    )


def inside(run: Run, true):
    """Return for ratio and outlet temperature by the shaft whether the truth lies within the ±, row by row."""
    from turbomath.lab.reduction.reduce import reduce_run

    reduced = reduce_run(run)
    pairs = {
        "shaft_power_ratio": true["ratio"],
        "compressor_outlet_temperature_by_shaft": true["compressor_outlet_temperature"],
    }
    return {name: np.abs(reduced[name].value - truth) <= reduced[name].plus_or_minus for name, truth in pairs.items()}
