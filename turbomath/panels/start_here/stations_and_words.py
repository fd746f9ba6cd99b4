"""The stations of lesson 00: a drawing of the way of the air, and the same in numbers."""

import numpy as np

from turbomath import units
from turbomath.lab.reduction.stations import at_stations, gauge_readings
from turbomath.lab.run.readings import read_run
from turbomath.panels.start_here.picture_stations import STATIONS, picture_stations
from turbomath.physics import mixture
from turbomath.units.shown import in_unit
from turbomath.widgets.answers import Answer, Table
from turbomath.widgets.panel import Figure

RUN = "generator_air_to_air"
_COLUMNS = (("pressure", "psi abs", "kPa abs"), ("temperature", "°F", "°C"), ("density", "lb/ft³", "kg/m³"))


def figure() -> Figure:
    """Return the drawing with its table: an INVENTED engine at full load."""
    return Figure("Four places where the air is read", answer())


def answer() -> Answer:
    """Return the drawing, its sentence, and its table in US and SI units."""
    states = full_load()
    outlet, manifold = states[2], states[3]
    ratio = manifold["density"] / states[0]["density"]
    hot, cooled = (_both(state["temperature"], "temperature") for state in (outlet, manifold))
    sentence = (
        f"Squeezed air leaves the compressor at {hot}; after the aftercooler it is at {cooled}, and "
        f"{ratio:.1f} times as dense as outside."
    )
    heads = ("station", "the air", "read there", *(f"{name} [{us} ({si})]" for name, us, si in _COLUMNS))
    rows = tuple(
        (one.words, one.air, " ".join(one.read), *(_both(state[name], name, bare=True) for name, *_ in _COLUMNS))
        for one, state in zip(STATIONS, states, strict=True)
    )
    table = Table("The same in numbers: an INVENTED generator engine at full load", heads, rows)
    return Answer((picture_stations([state["density"] for state in states]),), sentence, (), (table,))


def full_load() -> list[dict[str, float]]:
    """Return pressure, temperature and density at each station of the shipped run's highest load, in SI."""
    run = read_run(RUN)
    at, row = at_stations(run, gauge_readings(run)[0]), int(np.nanargmax(run["load"]))
    states = []
    for one in STATIONS:
        pressure, temperature = (
            getattr(at, f"{one.name.replace(' ', '_')}_{name}")[row] for name in ("pressure", "temperature")
        )
        density = mixture.density(pressure, temperature, at.humidity_ratio[row])
        states.append({"pressure": pressure, "temperature": temperature, "density": density})
    return states


def _both(value, name, *, bare=False):
    """Return a value as text in its US unit, and in SI in brackets."""
    us, si = next((us, si) for found, us, si in _COLUMNS if found == name)
    first, second = (in_unit(units.from_si(value, unit, name), unit) for unit in (us, si))
    return f"{first} ({second})" if bare else f"{first} {us} ({second} {si})"
