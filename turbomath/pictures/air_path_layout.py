"""Where the air path is drawn: one geometry, laid out for a wide place and for a narrow one.

The compressor narrows along its flow and the turbine widens, as textbooks draw them; one shaft joins the two.
"""

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from turbomath.pictures.air_path_heat import heat

MACHINES = ("filter", "compressor", "aftercooler", "manifold", "cylinder", "turbine", "shaft")
_BELOW = ("cylinder", "turbine", "shaft")  # what a strip leaves out
Corners = tuple[
    tuple[float, float], ...
]  # of a stretch of pipe: up and down where it begins, down and up where it ends

# Of the geometry, in units of a drawing 1000 wide: the pipe of the air, and the way back of the exhaust
_TOP, _BOTTOM = 172.0, 228.0
_EXHAUST_TOP, _EXHAUST_BOTTOM = 358.0, 400.0
_WALL = 4.0  # that dots keep from it
_SLICES = 5  # of a machine in which the air changes

_GOLDEN = 0.618033988749895
MASS = 100.0  # of a dot, in units of area times kg/m³


@dataclass(frozen=True)
class Stretch:
    """A stretch of pipe or machine: the stations before and behind it, the share of the way, whose it is."""

    corners: Corners
    before: str
    behind: str
    machine: str
    share: float = 0.0


class Pipe(NamedTuple):
    """A stretch as it is drawn: its corners, its area, the number of its first dot."""

    stretch: Stretch
    corners: list[list[float]]
    area: float
    first: int


@dataclass(frozen=True, eq=False)
class Layout:
    """One way to lay it out: the size, how the geometry is stretched, where the words of each station begin.

    `sizes` are those of the letters for each sort of words; `columns` has (x, y) of the first line of a station, and
    `steps` how far down each next line stands.
    """

    width: float
    height: float
    stretch: tuple[float, float]
    down: float
    sizes: dict[str, float]
    columns: dict[str, tuple[float, float]]
    steps: tuple[float, ...]
    dot: float
    together: bool  # whether temperature and density stand in one line
    whole: bool = True  # whether cylinder and exhaust are drawn as well
    medium_ends: float = 644.0  # where the words for what cools the aftercooler end

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Return where a point of the geometry is drawn."""
        return round(x * self.stretch[0], 1), round(self.down + (y - _TOP) * self.stretch[1], 1)

    def crowd(self, pipe: Pipe, density: float, temperature: float) -> dict[str, Any]:
        """Return the dots of a stretch: the first one's number, how many, their colour and the length of their tails.

        A colour goes from 0 cold over 1 hot to 2 flame.
        """
        colour, tail = heat(temperature, self.dot)
        count = int(pipe.area * density / MASS + pipe.first * _GOLDEN % 1)  # not all stretches gain a dot at once
        return {"first": pipe.first, "count": count, "colour": colour, "tail": tail}

    def lines(self, aftercooler: str, speaks: tuple[str, ...] | None) -> list[dict[str, Any]]:
        """Return the walls and machines as paths, each with its weight: "wall", "machine" or "fine"."""
        return [
            {"d": self._path(points), "weight": weight, "quiet": speaks is not None and machine not in speaks}
            for machine, weight, points in _outlines(aftercooler)
            if self.whole or machine not in _BELOW
        ]

    def names(self, aftercooler: str, speaks: Collection[str] | None) -> list[dict[str, Any]]:
        """Return the name of each machine, where it stands."""
        return [
            self._text(*self.at(x, y), name, "machine", anchor, quiet=speaks is not None and name not in speaks)
            for name, x, y, anchor in _NAMES
            if not (name == "aftercooler" and aftercooler == "none") and (self.whole or name not in _BELOW)
        ]

    def pipes(self, aftercooler: str) -> list[Pipe]:
        """Return each stretch of the way that is drawn, in the order of the flow."""
        return [self._pipe(one) for one in _stretches(aftercooler) if self.whole or one.machine not in _BELOW]

    def _pipe(self, stretch):
        drawn = [list(self.at(*one)) for one in stretch.corners]
        area = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(drawn, [*drawn[1:], drawn[0]], strict=True))) / 2
        first = round(7 * stretch.corners[0][0] + stretch.corners[0][1])  # so that no two stretches look alike
        return Pipe(stretch, drawn, area, first)

    def station(
        self, name: str, plain_name: str, values: Sequence[str], rest: Sequence[str], read: Sequence[str]
    ) -> Iterator[dict[str, Any]]:
        """Yield the words of one station: its name, what tells most, the rest, what was read."""
        x, y = self.columns[name]
        if self.together:
            values, rest = ([" · ".join(part)] if part else [] for part in (values, rest))
        else:
            read = [one for part in read for one in part.split(", ")]
        texts = [(plain_name, "name"), *((one, "value") for one in values), *((one, "small") for one in rest)]
        texts += [(one, "read") for one in read]
        for (text, sort), step in zip(texts, self.steps, strict=False):
            yield self._text(x, y + step, text, sort, "start")

    def key(self, text: str) -> dict[str, Any]:
        """Return what the dots mean, at the foot."""
        return self._text(self.width - 2, self.height - 0.25 * self.sizes["key"], text, "key", "end", quiet=False)

    def shaft(self, text: str, speaks: Collection[str] | None) -> dict[str, Any]:
        """Return what goes through the shaft, beside it."""
        return self._text(*self.at(260, 304), text, "small", "end", quiet=speaks is not None and "shaft" not in speaks)

    def medium(self, text: str) -> Iterator[dict[str, Any]]:
        """Yield what cools the aftercooler, below it."""
        yield self._text(*self.at(self.medium_ends, 306), text, "small", "end")

    def _text(self, x, y, text, sort, anchor, *, quiet=False):
        return {"x": x, "y": y, "text": text, "sort": sort, "size": self.sizes[sort], "anchor": anchor, "quiet": quiet}

    def _path(self, points):
        drawn = [f"{x:g} {y:g}" for x, y in (self.at(*one) for one in points)]
        return f"M{'L'.join(drawn)}" + ("Z" if points[0] == points[-1] else "")


_WIDE = Layout(
    width=1000.0,
    height=446.0,
    stretch=(1.0, 1.0),
    down=170.0,
    sizes={"name": 19, "value": 20, "small": 20, "read": 18, "machine": 19, "key": 17},
    columns={
        "ambient": (2, 20),
        "compressor_outlet": (306, 20),
        "manifold": (652, 20),
        "turbine_outlet": (2, 278),
        "turbine_inlet": (660, 278),
    },
    steps=(0.0, 26.0, 52.0, 78.0),
    dot=4.4,
    together=True,
)
_NARROW = Layout(
    width=390.0,
    height=406.0,
    stretch=(0.388, 0.78),
    down=172.0,
    sizes={"name": 13, "value": 14, "small": 14, "read": 12, "machine": 13, "key": 12},
    columns={"ambient": (1, 14), "compressor_outlet": (112, 14), "manifold": (250, 14)},
    steps=(0.0, 19.0, 37.0, 55.0, 73.0, 91.0, 108.0),
    dot=3.2,
    together=False,
    medium_ends=836.0,
)
LAYOUTS = {"wide": _WIDE, "narrow": _NARROW}
_ABOVE = ("ambient", "compressor_outlet", "manifold")
STRIPS = {  # for two engines above each other: the way of the air alone
    "wide": replace(_WIDE, height=328.0, columns={name: _WIDE.columns[name] for name in _ABOVE}, whole=False),
    "narrow": replace(_NARROW, height=302.0, whole=False),
}

_WALL_LETTERS = dict.fromkeys(_WIDE.sizes, 26.5) | {"value": 28}  # 24 px where 1366 px are as wide as the drawing
_WALL_COLUMNS = {name: (x * 1.4, y + 6) for name, (x, y) in _WIDE.columns.items()}
WALL = replace(
    _WIDE,
    width=1400.0,
    height=500.0,
    stretch=(1.4, 1.0),
    down=196.0,
    sizes=_WALL_LETTERS,
    columns=_WALL_COLUMNS | {"manifold": (888, 26), "turbine_outlet": (2, 286), "turbine_inlet": (930, 286)},
    steps=(0.0, 34.0, 66.0, 98.0),
    dot=4.8,
)
WALL_STRIP = replace(
    WALL,
    height=246.0,
    stretch=(1.64, 0.6),
    down=143.0,
    columns={name: (_WALL_COLUMNS[name][0], 24) for name in _ABOVE},
    steps=(0.0, 34.0, 66.0),  # what was read stands in the table twin
    whole=False,
    medium_ends=440.0,
)

_NAMES = (
    ("filter", 119.0, 148.0, "middle"),
    ("compressor", 271.0, 130.0, "middle"),
    ("aftercooler", 560.0, 136.0, "middle"),
    ("cylinder", 908.0, 160.0, "middle"),
    ("turbine", 332.0, 430.0, "start"),
)


def _stretches(aftercooler):
    top, bottom = _TOP + _WALL, _BOTTOM - _WALL
    back, low = _EXHAUST_TOP + _WALL, _EXHAUST_BOTTOM - _WALL
    cooler = "manifold" if aftercooler == "none" else "aftercooler"
    ambient, inlet, outlet, manifold = "ambient", "compressor_inlet", "compressor_outlet", "manifold"
    before, after = "turbine_inlet", "turbine_outlet"
    yield from _tiled(Stretch(_box(2, 106, top, bottom), ambient, ambient, "filter"))
    yield from _tiled(Stretch(_box(132, 236, top, bottom), inlet, inlet, "compressor"))
    yield from _through(_wheel(240, 304, 150, 250, top, bottom), inlet, outlet, "compressor")
    yield from _tiled(Stretch(_box(308, 498, top, bottom), outlet, outlet, "compressor"))
    yield from _through(_box(498, 622, top, bottom), outlet, manifold, cooler)
    yield from _tiled(Stretch(_box(622, 848, top, bottom), manifold, manifold, "manifold"))
    yield Stretch(_box(854, 958, top, 296), manifold, manifold, "cylinder")
    yield from _tiled(Stretch(((994, top + 10), (966, top + 10), (966, low), (994, low)), before, before, "turbine"))
    yield from _tiled(Stretch(_box(964, 326, back, low), before, before, "turbine"))
    yield from _through(_wheel(322, 240, back, low, 338, 420), before, after, "turbine")
    yield from _tiled(Stretch(_box(236, 2, back, low), after, after, "turbine"))


def _box(left, right, top, bottom):
    return (left, top), (left, bottom), (right, bottom), (right, top)


def _wheel(start, end, top, bottom, end_top, end_bottom):
    return (start, top), (start, bottom), (end, end_bottom), (end, end_top)


def _tiled(whole):
    """Cut a pipe into pieces about as long as it is wide: in each the dots are spread evenly."""
    start, other, _, end = whole.corners
    pieces = max(1, round(math.dist(start, end) / math.dist(start, other)))
    for corners, _ in _cut(whole.corners, pieces):
        yield replace(whole, corners=corners)


def _through(corners, before, behind, machine):
    """Cut a machine into slices along the flow; the air changes from one to the next."""
    for cut, share in _cut(corners, _SLICES):
        yield Stretch(cut, before, behind, machine, share)


def _cut(corners, pieces):
    """Yield (corners, share of the way) of each piece along the flow."""
    for turn in range(pieces):
        first, last = turn / pieces, (turn + 1) / pieces
        cut = (_on(corners, 0, 3, first), _on(corners, 1, 2, first), _on(corners, 1, 2, last), _on(corners, 0, 3, last))
        yield cut, (first + last) / 2


def _on(corners, start, end, share):
    (x, y), (to_x, to_y) = corners[start], corners[end]
    return x + share * (to_x - x), y + share * (to_y - y)


def _outlines(aftercooler):
    """Yield (machine, weight, points) of every wall and machine."""
    yield "filter", "wall", ((0, _TOP), (108, _TOP))
    yield "filter", "wall", ((0, _BOTTOM), (108, _BOTTOM))
    yield "filter", "machine", ((108, 156), (130, 156), (130, 244), (108, 244), (108, 156))
    for y in range(166, 244, 16):
        yield "filter", "fine", ((108, y), (130, y + 8))
    for y in (_TOP, _BOTTOM):
        yield "compressor", "wall", ((130, y), (238, y))
        yield "compressor", "wall", ((306, y), (500, y))
        yield "manifold", "wall", ((620, y), (850, y))
    yield "compressor", "machine", ((238, 140), (306, _TOP), (306, _BOTTOM), (238, 260), (238, 140))
    if aftercooler == "none":
        for y in (_TOP, _BOTTOM):
            yield "manifold", "wall", ((500, y), (620, y))
    else:
        yield "aftercooler", "machine", ((500, 146), (620, 146), (620, 254), (500, 254), (500, 146))
        for x in range(512, 616, 16):
            yield "aftercooler", "fine", ((x, 146), (x, _TOP))
            yield "aftercooler", "fine", ((x, _BOTTOM), (x, 254))
        for x in (530, 560, 590):
            yield "aftercooler", "fine", ((x, 286), (x, 262), (x - 6, 271), (x, 262), (x + 6, 271))
    yield "cylinder", "machine", ((850, _TOP), (962, _TOP), (962, 180))
    yield "cylinder", "machine", ((850, _BOTTOM), (850, 342))
    yield "cylinder", "machine", ((962, 214), (962, 342))
    yield "cylinder", "machine", ((853, 302), (959, 302), (959, 326), (853, 326), (853, 302))
    yield "cylinder", "machine", ((906, 326), (916, 346))
    yield "turbine", "wall", ((962, 180), (998, 180), (998, _EXHAUST_BOTTOM), (324, _EXHAUST_BOTTOM))
    yield "turbine", "wall", ((962, 214), (962, _EXHAUST_TOP), (324, _EXHAUST_TOP))
    yield "turbine", "machine", ((324, 354), (324, 404), (238, 428), (238, 330), (324, 354))
    for y in (_EXHAUST_TOP, _EXHAUST_BOTTOM):
        yield "turbine", "wall", ((238, y), (0, y))
    yield "shaft", "machine", ((268, 247), (276, 247), (276, 340), (268, 340), (268, 247))
