"""The way of the air through an engine, drawn: a crowd of dots in each pipe, each dot the same mass of air.

Dense air is crowded air. Hot dots are of another colour and draw tails, so that a photocopier keeps the difference.
One record is drawn by a panel's script and by the printer; its words and its table say the same without eyes.
"""

import functools
import math
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any

from turbomath.pictures import air_path_layout as layout
from turbomath.table.formulas import choice
from turbomath.units.rounding import NO_VALUE
from turbomath.units.shown import head, shown, words

KIND = "air path"
STATIONS = {
    "ambient": "air outside",
    "compressor_inlet": "compressor inlet",
    "compressor_outlet": "compressor outlet",
    "manifold": "manifold",
    "turbine_inlet": "turbine inlet",
    "turbine_outlet": "turbine outlet",
}
MEDIA = {
    "air-to-air": "outside air",
    "jacket-water": "engine coolant",
    "separate-circuit": "coolant of its own",
    "two-part": "two coolants",
}
COOLERS = ("none", *MEDIA)
SKETCHED = {"ambient": (1.15, 295.0), "turbine_inlet": (0.75, 850.0), "turbine_outlet": (0.45, 720.0)}  # kg/m³ and K
EXHAUST = {"turbine_inlet", "turbine_outlet"}
NOT_WORKED_OUT = "sketched only"
SHAFT = "power through the shaft"
KEY = "each dot: the same mass of air · tails: hot"


_HEADS = ("on the gauge", "absolute", "temperature", "density")
_ABSOLUTE = ("manifold_pressure", "ambient_temperature", "ambient_density")


@dataclass(frozen=True)
class State:
    """Air or exhaust at one station: absolute pressure [Pa], temperature [K], density [kg/m³]; `nan` is not known.

    `read` holds what gauges say there, as text with its ±; "" for nothing read. A `silent` one is drawn without words.
    """

    pressure: float
    temperature: float
    density: float
    read: str = ""
    silent: bool = False


@dataclass(frozen=True)
class AirPath:
    """What is drawn of one engine: its stations by the names of `STATIONS`, in the units of *system*.

    `aftercooler` is one of `COOLERS`, `medium_temperature` [K] that of what cools it. `speaks` names the machines that
    the lesson speaks of (those of `air_path_layout.MACHINES`); the others are drawn quiet. None is all of them.
    `shaft_power` [W] is what goes through the shaft, where it is known.
    """

    title: str
    stations: Mapping[str, State]
    aftercooler: str
    system: str
    medium_temperature: float | None = None
    speaks: Collection[str] | None = None
    shaft_power: float | None = None

    @property
    def alt(self) -> str:
        """The engine in words, station by station."""
        told = " ".join(
            f"{STATIONS[name].capitalize()}: {', '.join(sum(self._lines[name], ()))}." for name, _ in self._told
        )
        cooled = "No aftercooler." if self.aftercooler == "none" else f"Cooled by {MEDIA[self.aftercooler]}."
        shaft = f" Through the shaft: {self._shaft}." if self._shaft else ""
        return f"{self.title}. Drawing of the air path; more dots are denser air. {told} {cooled}{shaft}"

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the table twin."""
        units_of = {name: head(name, self.system).rpartition("[")[2] for name in ("boost", *_ABSOLUTE)}
        named = (f"{word} [{unit}" for word, unit in zip(_HEADS, units_of.values(), strict=True))
        return ("station", *named, "read")

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the table twin: a station each."""
        rows = []
        for name, one in self._told:
            values = (one.pressure - self._outside, one.pressure, one.temperature, one.density)
            texts = (self._figure(*pair) for pair in zip(("boost", *_ABSOLUTE), values, strict=True))
            rows.append((STATIONS[name], *texts, one.read or "–"))
        return (*rows, (SHAFT, *[NO_VALUE] * len(_HEADS), self._shaft)) if self._shaft else tuple(rows)

    def to_dict(self, *, strip: bool = False, wall: bool = False) -> dict[str, Any]:
        """Return what is drawn, ready for JSON, for a wide place and for a narrow one; a *strip* leaves exhaust out.

        For a *wall* it is drawn once, with letters that can be read from the back of a shop.
        """
        laid_out = layout.LAYOUTS if not strip else layout.STRIPS
        if wall:
            laid_out = dict.fromkeys(laid_out, layout.WALL_STRIP if strip else layout.WALL)
        drawings = {name: self.drawing(one) for name, one in laid_out.items()}
        return {
            "kind": KIND,
            "title": self.title,
            "alt": self.alt,
            "heads": list(self.heads),
            "rows": [list(row) for row in self.rows],
            **drawings,
        }

    def drawing(self, place: layout.Layout) -> dict[str, Any]:
        """Return the size, the lines, the crowds of dots and the words of one layout."""
        lines, pipes = _standing(place, self.aftercooler, None if self.speaks is None else tuple(self.speaks))
        return {
            "size": [place.width, place.height],
            "lines": lines,
            "crowds": [self._crowd(place, one) for one in pipes],
            "words": [*place.names(self.aftercooler, self.speaks), *self._words(place)],
            "dot": place.dot,
        }

    @property
    def _told(self):
        return [(name, one) for name, one in self.stations.items() if not one.silent]

    @property
    def _shaft(self):
        return "" if self.shaft_power is None else words("compressor_power", self.shaft_power, self.system)

    @property
    def _outside(self):
        return self.stations["ambient"].pressure

    def _crowd(self, place, pipe):
        """The dots of one stretch of pipe, some way from one station to the next."""
        stretch = pipe.stretch
        way = stretch.before, stretch.behind, stretch.share
        if way not in self._air:
            pairs = zip(self._states[stretch.before], self._states[stretch.behind], strict=True)
            self._air[way] = tuple(before + stretch.share * (behind - before) for before, behind in pairs)
        return {
            "corners": pipe.corners,
            **place.crowd(pipe, *self._air[way]),
            "quiet": self.speaks is not None and stretch.machine not in self.speaks,
        }

    @functools.cached_property
    def _air(self):
        """Density and temperature on the way from one station to the next; many stretches of pipe are alike."""
        return {}

    @functools.cached_property
    def _states(self):
        return {name: self._state(name) for name in STATIONS}

    def _state(self, name):
        """Return (density, temperature) to draw: of exhaust that nobody knows, those of a usual one."""
        one, usual = self.stations.get(name), SKETCHED.get(name, SKETCHED["ambient"])
        found = (one.density, one.temperature) if one else usual
        return tuple(value if math.isfinite(value) else other for value, other in zip(found, usual, strict=True))

    def _figure(self, quantity, value):
        return shown(quantity, value, self.system)[0] if math.isfinite(value) else NO_VALUE

    def _words_of(self, quantity, value):
        return words(quantity, value, self.system) if math.isfinite(value) else ""

    @functools.cached_property
    def _lines(self):
        return {name: self._lines_at(name, one) for name, one in self.stations.items()}

    def _lines_at(self, name, one):
        """What stands at a station: what tells most, the rest, what was read."""
        gauge = self._words_of("boost", one.pressure - self._outside)
        temperature, density = (
            self._words_of(quantity, value)
            for quantity, value in zip(_ABSOLUTE[1:], (one.temperature, one.density), strict=True)
        )
        if name == "ambient":
            lines = (self._words_of("manifold_pressure", one.pressure),), (temperature, density)
        elif name in EXHAUST:
            return (one.read or temperature,), ((f"{gauge} gauge",) if gauge else ()), ()
        else:
            absolute = f"{self._figure('manifold_pressure', one.pressure)} abs" if gauge else ""
            lines = (f"{gauge} gauge" if gauge else "", absolute), (temperature, density)
        return *(tuple(word for word in part if word) for part in lines), (f"read: {one.read}",) if one.read else ()

    def _words(self, place):
        for name, one in self.stations.items():
            if name in place.columns and not one.silent:
                yield from place.station(name, STATIONS[name], *self._lines[name])
        if not EXHAUST & self.stations.keys() and "turbine_inlet" in place.columns:
            yield from place.station("turbine_inlet", "exhaust", (), (NOT_WORKED_OUT,), ())
        if self.medium_temperature is not None and self.aftercooler != "none":
            medium = words("ambient_temperature", self.medium_temperature, self.system)
            yield from place.medium(f"{MEDIA[self.aftercooler]}, {medium}")
        if self._shaft and place.whole:
            yield place.shaft(self._shaft, self.speaks)
        yield place.key(KEY)


@functools.cache
def _standing(place, aftercooler, speaks):
    """The lines and the pipes of a layout: no slider moves them."""
    return place.lines(aftercooler, speaks), place.pipes(aftercooler)


def picture_air_path(
    title: str,
    found: Any,
    aftercooler: str,
    system: str,
    *,
    medium_temperature: float | None = None,
    speaks: Collection[str] | None = None,
    read: Mapping[str, str] | None = None,
    exhaust: Mapping[str, State] | None = None,
    shaft_power: float | None = None,
    row: int | None = None,
) -> AirPath:
    """Return the drawing of one solved air path.

    Parameters
    ----------
    title : str
        One line.
    found : ChargePath, or another record with its pressures [Pa], temperatures [K] and densities [kg/m^3]
        One point; of "ambient", "compressor_inlet", "compressor_outlet" and "manifold".
    aftercooler : str
        One of `COOLERS`.
    system : "us" or "si"
        The units shown.
    medium_temperature : float [K], optional
        Of what cools the aftercooler.
    speaks : names of machines, optional
        The others are drawn quiet.
    read : dict, optional
        Station -> what gauges show there, as text with its ±.
    exhaust : dict, optional
        "turbine_inlet" and "turbine_outlet" -> `State`; a usual exhaust is sketched without.
    shaft_power : float [W], optional
        What goes through the shaft.
    row : int, optional
        Which point, where *found* holds several.
    """
    choice("aftercooler", aftercooler, dict.fromkeys(COOLERS))
    told = read or {}
    stations = {name: _state(found, name, row, told.get(name, "")) for name in _OF_AIR}
    return AirPath(title, {**stations, **(exhaust or {})}, aftercooler, system, medium_temperature, speaks, shaft_power)


_OF_AIR = ("ambient", "compressor_inlet", "compressor_outlet", "manifold")


def _state(found, name, row, read):
    pressure, temperature, density = (
        _one(getattr(found, f"{name}_{of}"), row) for of in ("pressure", "temperature", "density")
    )
    return State(pressure, temperature, density, read)


def _one(values, row):
    return float(values if row is None or not hasattr(values, "__len__") else values[row])
