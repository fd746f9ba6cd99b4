"""INVENTED classes at one INVENTED engine, each group with gauges of its own: no equation here is the kit's.

The filling of the cylinders is not what bench.toml assumes, the same for all groups; each gauge of each group is off
by one amount within its tolerance, is read to its step, and the engine is never quite steady (common practice).
"""

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.run.readings import read_run

R, EXPONENT = 287.05, 0.2857  # dry air, perfect
PSI, IN_H2O, IN_HG = 6894.757, 249.0889, 3386.389  # Pa: NIST SP 811, app. B
STATE = 298.15, 1e5  # K, Pa: the state of the line
BENCH = """\
[run]
title = "a class"
invented = true
[engine]
displacement = "{litres:.4f} L"
cylinders = 6
strokes = 4
aftercooler = "{aftercooler}"
volumetric_efficiency = "{filling} ± {unsure}"
[instruments.barometer]
accuracy = "0.03 inHg"
resolution = "0.01 inHg"
[instruments.boost]
span = "0..60 psi"
grade = "{grade}"
resolution = "0.5 psi"
[instruments.cooler_pressure_loss]
accuracy = "0.1 psi"
resolution = "0.1 psi"
[instruments.intake_restriction]
accuracy = "0.2 inH2O"
resolution = "0.5 inH2O"
[instruments.engine_speed]
accuracy = "5 rpm"
resolution = "5 rpm"
"""
THERMOMETERS = ("ambient", "compressor inlet", "compressor outlet", "manifold", "cooling medium")
THERMOMETER = """\
[instruments.{name}_temperature]
kind = "thermocouple"
type = "{kind}"
class = "standard"
resolution = "1 °F"
"""
SPAN_PART = {"1A": 0.01, "B": 0.02}  # ASME B40.100, the middle half of the span; outside of it B has 0.03


@dataclass(frozen=True)
class ClassWorld:
    """One class: what bench.toml says, each group's readings.csv, and the line that is true."""

    bench: str
    sheets: tuple[str, ...]
    flow: np.ndarray  # kg/s, brought to 298.15 K and 100 kPa
    pressure_ratio: np.ndarray

    def truth(self, flow):
        """Return the pressure ratio at a corrected flow [kg/s]."""
        return np.interp(flow, self.flow, self.pressure_ratio)


def a_class(chance, groups=None, *, unsure=None, odd=0.0):
    """Return a `ClassWorld`; *odd* is how many psi the last group reads too much boost at its highest load alone."""
    cooled = chance.random() < 0.7
    unsure = chance.choice([0.02, 0.04]) if unsure is None else unsure
    litres, speed, assumed = chance.uniform(6, 15), chance.uniform(1500, 2100), 0.92
    filling = assumed + unsure * chance.uniform(-1, 1)
    barometer, air = chance.uniform(27.5, 30.2) * IN_HG, chance.uniform(285, 308)
    engine = (litres, speed, filling, barometer, air, cooled, chance.uniform(0.68, 0.78), chance.uniform(0.7, 0.85))
    loads, most = np.linspace(0.0, 1.0, 201), chance.uniform(18, 30)
    flow, ratio = _corrected(engine, _states(engine, most, loads))
    grade = str(chance.choice(["1A", "B"]))
    sheets = []
    for number in range(groups or chance.integers(3, 7)):
        at = np.sort(chance.choice(np.arange(0.1, 1.01, 0.1), chance.integers(5, 8), replace=False))
        states = _states(engine, most, at)
        if number == (groups or 0) - 1:
            states["boost"] = states["boost"] + np.where(at == at.max(), odd * PSI, 0.0)
        sheets.append(_sheet(chance, at, states, grade, cooled))
    kinds = (THERMOMETER.format(name=one.replace(" ", "_"), kind="KT"[one in THERMOMETERS[:2]]) for one in THERMOMETERS)
    aftercooler = "air-to-air" if cooled else "none"
    bench = BENCH.format(litres=litres, aftercooler=aftercooler, filling=assumed, unsure=unsure, grade=grade)
    return ClassWorld(bench + "".join(kinds), tuple(sheets), flow, ratio)


def read(world, folder):
    """Return each group's run of a class, reduced, from the files that the group would hand in."""
    reduced = []
    for number, sheet in enumerate(world.sheets, 1):
        run = Path(folder) / f"group {number}"
        run.mkdir(exist_ok=True)
        (run / "bench.toml").write_text(world.bench, encoding="utf-8")
        (run / "readings.csv").write_text(sheet, encoding="utf-8")
        reduced.append(reduce_run(read_run(run)))
    return reduced


def _states(engine, most, loads):
    """Return what is true where the boost at a load is given: boost rises with load, a little faster above."""
    litres, speed, filling, barometer, air, cooled, efficiency, effectiveness = engine
    boost = most * PSI * (0.03 + 0.72 * loads + 0.25 * loads**2)
    flow = np.full_like(boost, 0.2)
    for _ in range(200):  # flow, restriction and loss lean on each other
        before = barometer - 2500 * (flow / 0.4) ** 2
        loss = 9000 * (flow / 0.4) ** 2 * cooled
        outlet = barometer + boost + loss
        rise = air * ((outlet / before) ** EXPONENT - 1) / (efficiency - 0.05 * (1 - loads) ** 2)
        charge = air + rise * (1 - effectiveness * cooled)
        flow = filling * (barometer + boost) / (R * charge) * litres / 1000 * speed / 60 / 2
    return {
        "load": loads,
        "engine speed": np.full_like(boost, speed),
        "barometer": np.full_like(boost, barometer),
        "ambient": np.full_like(boost, air),
        "compressor inlet": np.full_like(boost, air),
        "compressor outlet": air + rise,
        "manifold": charge,
        "cooling medium": np.full_like(boost, air),
        "intake restriction": barometer - before,
        "boost": boost,
        "cooler pressure loss": loss,
        "flow": flow,
        "ratio": outlet / before,
    }


def _corrected(engine, states):
    temperature, pressure = STATE
    inlet = states["barometer"] - states["intake restriction"]
    return states["flow"] * np.sqrt(engine[4] / temperature) / (inlet / pressure), states["ratio"]


def _sheet(chance, loads, states, grade, cooled):
    """Return readings.csv of one group: true, plus one error a gauge, plus the unsteadiness of each point, in steps."""
    one = lambda width: width * chance.uniform(-1, 1)  # noqa: E731
    each = lambda width: width * chance.uniform(-1, 1, len(loads))  # noqa: E731
    columns = {"load [%]": 100 * loads}
    speed = states["engine speed"] + one(5 / 60) * 60
    columns["engine speed [rpm]"] = np.round(speed / 5) * 5
    columns["barometer [inHg]"] = np.round(states["barometer"] / IN_HG + one(0.03), 2)
    share, psi = one(1.0), states["boost"] / PSI
    wide = np.where((psi <= 15) | (psi >= 45), 1.5, 1.0) if grade == "B" else np.ones_like(psi)
    columns["boost [psi]"] = np.round(2 * (psi * (1 + each(0.005)) + share * SPAN_PART[grade] * 60 * wide)) / 2
    columns["intake restriction [inH2O]"] = np.round(2 * (states["intake restriction"] / IN_H2O + one(0.2))) / 2
    for name in THERMOMETERS if cooled else THERMOMETERS[:3]:
        celsius, cool = states[name] - 273.15, name in THERMOMETERS[:2]
        wide = np.maximum(1.0 if cool else 2.2, 0.0075 * np.abs(celsius))
        unsteady = 0.0 if name in ("ambient", "cooling medium") else 1.0
        shown = celsius + one(1.0) * wide + each(unsteady)
        columns[f"{name} temperature [°F]"] = np.round(shown * 1.8 + 32)
    if cooled:
        columns["cooler pressure loss [psi]"] = np.round(states["cooler pressure loss"] / PSI + one(0.1), 1)
    rows = zip(*columns.values(), strict=True)
    lines = (",".join(["load", *(f"{cell:.2f}" for cell in row)]) for row in rows)
    return "\n".join([",".join(["condition", *columns]), *lines]) + "\n"
