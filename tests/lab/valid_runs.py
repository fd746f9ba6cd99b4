"""Random valid runs, INVENTED: whatever a bench.toml and a sheet may hold, in any unit, from idle to overload.

They are drawn from a seed and written as texts, as a person would write them; equations and factors are none of the
kit's. What is drawn can be read on an engine, though the engine need not be well.
"""

from dataclasses import dataclass

import numpy as np

POINTS = 20
LOW, HIGH = 60.2e3, 103.7e3  # Pa: with the weather of a run between 60 and 104 kPa
COLDEST, HOTTEST = 233.15, 323.15
PSI, INHG, INH2O, LB, HP = 6894.757, 3386.389, 249.0889, 0.45359237, 745.69987

# kind -> unit -> (what one of it is in SI, what is added to a reading first, decimals that a gauge shows)
PRESSURES = {"psi": (PSI, 0, 1), "kPa": (1e3, 0, 1), "bar": (1e5, 0, 3), "inHg": (INHG, 0, 2), "mmHg": (133.322, 0, 0)}
DRAUGHTS = {"inH2O": (INH2O, 0, 1), "kPa": (1e3, 0, 2), "mbar": (1e2, 0, 1), "mmH2O": (9.80665, 0, 0)}
TEMPERATURES = {"°F": (5 / 9, 459.67, 0), "°C": (1.0, 273.15, 1), "K": (1.0, 0.0, 0)}
FRACTIONS = {"%": (0.01, 0, 1), "fraction": (1.0, 0, 3)}
SPEEDS = {"rpm": (1 / 60, 0, 0), "rev/s": (1.0, 0, 2)}
FLOWS = {"lb/h": (LB / 3600, 0, 2), "kg/h": (1 / 3600, 0, 2), "lb/min": (LB / 60, 0, 3), "kg/s": (1.0, 0, 5)}
VOLUMES = {"cfm": (0.3048**3 / 60, 0, 1), "m³/h": (1 / 3600, 0, 1), "L/min": (1e-3 / 60, 0, 1)}
POWERS = {"hp": (HP, 0, 1), "kW": (1e3, 0, 1)}
TORQUES = {"lbf·ft": (1.3558179, 0, 0), "N·m": (1.0, 0, 0)}
MASSES = {"lb": (LB, 0, 2), "kg": (1.0, 0, 3)}
TIMES = {"s": (1.0, 0, 1), "min": (60.0, 0, 2)}
KINDS = {
    **dict.fromkeys(("load", "relative_humidity"), FRACTIONS),
    **dict.fromkeys(("boost", "oil_pressure", "barometer", "exhaust_back_pressure", "cooler_pressure_loss"), PRESSURES),
    **dict.fromkeys(("compressor_outlet_pressure", "manifold_pressure", "turbine_inlet_pressure"), PRESSURES),
    **dict.fromkeys(("fuel_flow", "air_flow"), FLOWS),
    **dict.fromkeys(("air_volume_flow", "cooling_medium_flow"), VOLUMES),
    "intake_restriction": DRAUGHTS,
    "engine_speed": SPEEDS,
    "power": POWERS,
    "torque": TORQUES,
    "fuel_mass": MASSES,
    "fuel_time": TIMES,
}
EITHER = ("compressor_outlet_pressure", "manifold_pressure", "turbine_inlet_pressure")  # gauge or absolute
US = {"psi", "inHg", "inH2O", "°F", "%", "rpm", "lb/h", "lb/min", "cfm", "hp", "lbf·ft", "lb", "s"}
SI = {"kPa", "bar", "mbar", "mmHg", "°C", "%", "rpm", "kg/h", "kg/s", "m³/h", "L/min", "kW", "N·m", "kg", "s"}
MAY_BE_ZERO = (
    *("load", "boost", "oil_pressure", "exhaust_back_pressure", "cooler_pressure_loss", "intake_restriction"),
    *("fuel_flow", "air_flow", "power", "torque", "fuel_mass", "cooling_medium_flow", "engine_speed"),
)
COLUMNS = (
    *("load", "engine_speed", "barometer", "ambient_temperature", "relative_humidity", "wet_bulb_temperature"),
    *("intake_restriction", "compressor_inlet_temperature", "compressor_outlet_pressure"),
    *("compressor_outlet_temperature", "boost", "manifold_pressure", "manifold_temperature"),
    *("cooling_medium_temperature", "cooling_medium_outlet_temperature", "cooling_medium_flow"),
    *("engine_coolant_temperature", "cooler_pressure_loss", "air_flow", "air_volume_flow", "fuel_flow", "fuel_mass"),
    *("fuel_time", "torque", "power", "turbine_inlet_temperature", "turbine_outlet_temperature"),
    *("turbine_inlet_pressure", "exhaust_back_pressure", "oil_pressure"),
)
ARRANGEMENTS = ("none", "jacket-water", "air-to-air", "separate-circuit")
ENDS = {
    "compressor_efficiency": ("0.5", "0.60", "0.65", "0.74 ± 0.02", "0.80", "0.85", "1"),
    "effectiveness": ("0", "0.5", "0.6", "0.75 ± 0.03", "0.85", "0.9", "0.99", "1"),
    "cooler_pressure_loss": ("0 psi", "0.1 psi", "1.5 psi", "3 psi ± 0.3 psi", "6 psi", "0 kPa", "5 kPa", "20 kPa"),
}


@dataclass(frozen=True)
class Drawn:
    """The two texts of a run folder; `one_system` is whether all its units are of the one that it is shown in."""

    bench: str
    readings: str
    system: str
    one_system: bool


def drawn(random):
    """Return one random run."""
    system, one_system = ("us", "si")[random.integers(2)], bool(random.uniform() < 0.7)
    known = {"us": US, "si": SI}[system] if one_system else US | SI
    engine, site = _engine(random), _site(random)
    count = int(random.integers(1, POINTS + 1))
    rows, conditions = _points(random, engine, site, count)
    columns = [name for name in COLUMNS if random.uniform() < random.choice([0.3, 0.7, 1.0])] or ["boost"]
    units = {name: _unit(random, name, known) for name in columns}
    heads = [f"{name.replace('_', ' ')} [{' '.join(units[name])}]".replace(" ]", "]") for name in columns]
    lines = [["point", "condition", *heads]]
    for number, (condition, row) in enumerate(zip(conditions, rows, strict=True)):
        lines.append([str(number), condition, *(_cell(random, name, row, units[name]) for name in columns)])
    return Drawn(
        _bench(random, engine, site, system),
        "".join(",".join(line) + "\n" for line in lines),
        system,
        one_system,
    )


def _engine(random):
    litres = float(np.exp(random.uniform(np.log(0.5), np.log(300.0))))
    return {
        "litres": litres,
        "cylinders": int(random.integers(1, 21)),
        "strokes": int(random.choice([2, 4], p=[0.15, 0.85])),
        "arrangement": str(random.choice(ARRANGEMENTS)),
        "speed": float(random.uniform(0.7, 1.3) * 60 / litres ** (1 / 3)),  # rev/s, large engines turn slowly
        "boost": float(random.choice([random.uniform(5e3, 60e3), random.uniform(60e3, 350e3)])),
        "efficiency": float(random.uniform(0.6, 0.82)),
        "effectiveness": float(random.uniform(0.4, 0.97)),
        "filling": float(random.uniform(0.8, 1.0)),
        "air_fuel": float(random.uniform(19, 34)),
        "thermal": float(random.uniform(0.30, 0.45)),
        "loss": float(random.uniform(0.5e3, 15e3)),
        "draught": float(random.uniform(0.3e3, 6e3)),
    }


def _site(random):
    pressure = float(random.choice([LOW, HIGH, random.uniform(LOW, HIGH), random.uniform(LOW, HIGH)]))
    elevation = 44_330 * (1 - (pressure / 101_325) ** 0.1903)  # metres; the standard atmosphere's, near enough
    states_elevation = bool(random.uniform() < 0.5)
    cold = float(random.choice([COLDEST, HOTTEST, 273.15, random.uniform(COLDEST, HOTTEST)]))
    return {
        "pressure": pressure,
        "temperature": cold,
        "humidity": float(random.choice([0.0, 1.0, random.uniform(0, 1)])),
        "elevation": elevation + float(random.uniform(-50, 50)),
        "states elevation": states_elevation,
        "corrected": states_elevation and bool(random.uniform() < 0.1),
        "water": float(random.uniform(350, 368)),
    }


def _points(random, engine, site, count):
    """Return (true state in SI of each point, its condition), idle first, loads in any order."""
    rows, conditions = [], []
    for number in range(count):
        kind = random.choice(["zero", "low idle", "high idle", "no load", "load", "load", "load", "cool down", ""])
        kind = "zero after" if kind == "zero" and number else str(kind)
        load = float(random.choice([0.25, 0.5, 0.75, 1.0, 1.1, random.uniform(0.05, 1.15)]))
        load = load if kind in ("load", "") else 0.0
        rows.append(_state(random, engine, site, kind, load))
        conditions.append(kind)
    return rows, conditions


def _state(random, e, site, kind, load):
    """Return what perfect gauges show at a load: the trade's plain equations, and a little scatter."""
    p0, t0 = site["pressure"] * random.uniform(0.998, 1.002), site["temperature"] + random.uniform(-1, 1)
    stopped = kind.startswith("zero")
    speed = (
        0.0 if stopped else e["speed"] * (random.uniform(0.3, 0.45) if "low" in kind else random.uniform(0.95, 1.05))
    )
    share = 0.0 if stopped else max(load, random.uniform(0, 0.05)) ** random.uniform(1.0, 1.4)
    boost, restriction, loss = e["boost"] * share, e["draught"] * share, e["loss"] * share
    loss = 0.0 if e["arrangement"] == "none" else loss
    medium = site["water"] if e["arrangement"] == "jacket-water" and not stopped else t0
    medium += random.uniform(0, 25) if e["arrangement"] == "separate-circuit" and not stopped else 0.0
    squeezed = ((p0 + boost + loss) / (p0 - restriction)) ** (2 / 7)
    t2 = t0 * (1 + (squeezed - 1) / e["efficiency"]) + (0.0 if stopped else random.uniform(0, 8))
    t3 = t2 if e["arrangement"] == "none" else t2 - e["effectiveness"] * (t2 - medium)
    air = e["filling"] * (p0 + boost) / (287.05 * t3) * e["litres"] / 1e3 * speed * (1 if e["strokes"] == 2 else 0.5)
    fuel = air / e["air_fuel"] * (load or 0.1)
    power = fuel * 42.8e6 * e["thermal"] * (load > 0)
    hot = t3 + 0.0 if stopped else t3 + fuel * 42.8e6 * 0.42 / ((air + fuel) * 1150)
    p4 = p0 + 0.9 * boost
    return {
        "load": load,
        "engine_speed": speed,
        "barometer": p0 / (1 - site["elevation"] / 44_330) ** 5.255 if site["corrected"] else p0,
        "station": p0,
        "ambient_temperature": t0,
        "relative_humidity": site["humidity"],
        "wet_bulb_temperature": t0 - random.uniform(0, 4),
        "intake_restriction": restriction,
        "compressor_inlet_temperature": t0 + random.uniform(0, 3),
        "compressor_outlet_pressure": p0 + boost + loss,
        "compressor_outlet_temperature": t2,
        "boost": boost,
        "manifold_pressure": p0 + boost,
        "manifold_temperature": t3,
        "cooling_medium_temperature": medium,
        "cooling_medium_outlet_temperature": medium + random.uniform(0, 15) * share,
        "cooling_medium_flow": 2e-3 * e["litres"] / 12 * (not stopped),
        "engine_coolant_temperature": t0 if stopped else site["water"],
        "cooler_pressure_loss": loss,
        "air_flow": air,
        "air_volume_flow": air * 287.05 * t0 / p0,
        "fuel_flow": fuel,
        "fuel_mass": fuel * 180,
        "fuel_time": 180.0,
        "torque": power / (2 * np.pi * speed) if speed else 0.0,
        "power": power,
        "turbine_inlet_temperature": hot,
        "turbine_outlet_temperature": hot - 90 * share * (not stopped),
        "turbine_inlet_pressure": p4,
        "exhaust_back_pressure": 8e3 * share,
        "oil_pressure": 0.0 if stopped else 2.5e5 + 1.5e5 * share,
    }


def _unit(random, name, known):
    """Return (unit, what it counts from or "") for a column."""
    kinds = KINDS.get(name, TEMPERATURES)
    fit = [unit for unit in kinds if unit in known] or list(kinds)
    return str(random.choice(fit)), str(random.choice(["gauge", "abs"])) if name in EITHER else ""


def _cell(random, name, row, unit):
    """Return what a gauge shows: rounded to its step; sometimes zero where it can be, nothing, or its stop."""
    (unit, base), value = unit, row[name]
    chance = random.uniform()
    if chance < 0.03:
        return str(random.choice(["", "-", "n/a"]))
    size, zero, decimals = KINDS.get(name, TEMPERATURES)[unit]
    if chance < 0.06 and name in MAY_BE_ZERO:
        return "0"
    value = value - row["station"] if base == "gauge" else value
    shown = value / size - zero
    if chance > 0.985:
        return f">{max(shown, 0):.{decimals}f}"
    return f"{shown + 0.0:.{decimals}f}"


def _bench(random, engine, site, system):
    """Return the text of a bench.toml: any of its keys, on the end of a usual range or off it."""
    may = lambda text, share=0.6: text if random.uniform() < share else ""  # noqa: E731
    design = [f'{name} = "{random.choice(ends)}"\n' for name, ends in ENDS.items() if random.uniform() < 0.8]
    litres = engine["litres"]
    size = f"{litres:.2f} L" if system == "si" else f"{litres * 61.0237:.0f} in³"
    return "".join(
        [
            f'[run]\ninvented = true\nunits = "{system}"\n',
            may('title = "INVENTED: a random run"\n'),
            f'[site]\nbarometer = "{"sea-level" if site["corrected"] else "station"}"\n',
            f'elevation = "{_elevation(site, system)}"\n' if site["states elevation"] else "",
            f"[engine]\nstrokes = {engine['strokes']}\n",
            may(f'aftercooler = "{engine["arrangement"]}"\n', 0.9),
            may(f'displacement = "{size}"\n', 0.8),
            may(f"cylinders = {engine['cylinders']}\n"),
            may(f"egr = {random.choice(['true', 'false'])}\n", 0.2),
            may(f'volumetric_efficiency = "{random.choice(["0.8", "0.92 ± 0.02", "1", "1.1"])}"\n', 0.7),
            may(f"compression_ratio = {random.choice([12, 16.5, 22])}\n"),
            may(f'fuel_lower_heating_value = "{random.choice(["42.8 MJ/kg", "18400 Btu/lb"])}"\n', 0.3),
            "[design]\n",
            *design,
            _rated(random, engine) if random.uniform() < 0.4 else "",
            _limits(random, system) if random.uniform() < 0.5 else "",
        ]
    )


def _elevation(site, system):
    metres = site["elevation"]
    return f"{metres:.0f} m" if system == "si" else f"{metres / 0.3048:.0f} ft"


def _rated(random, engine):
    fuel = engine["litres"] * 1e-3 * engine["speed"] * 1.2 / engine["air_fuel"]
    return (
        f'[rated]\nboost = "{engine["boost"] / 1e3:.1f} kPa"\nengine_speed = "{engine["speed"] * 60:.0f} rpm"\n'
        f'{random.choice([f"""fuel_flow = "{fuel * 3600:.1f} kg/h" """, f"""power = "{fuel * 17e3:.1f} kW" """])}\n'
    )


def _limits(random, system):
    us = {"boost": "..30 psi", "intake_restriction": "..25 inH2O", "turbine_inlet_temperature": "..1250 °F"}
    si = {"boost": "..207 kPa", "intake_restriction": "..6.2 kPa", "turbine_inlet_temperature": "..677 °C"}
    chosen = {name: text for name, text in (us if system == "us" else si).items() if random.uniform() < 0.7}
    return "[limits]\n" + "".join(f'{name} = "{text}"\n' for name, text in chosen.items())
