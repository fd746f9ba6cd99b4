"""The way of the air from the open to the cylinders, with words at its four stations; dots show how dense it is."""

from collections.abc import Sequence
from dataclasses import dataclass

from turbomath.pictures.picture import Axis, Picture, Series, Text

HEIGHT = 400  # px
DOTS = 40.0  # dots in a piece of pipe one unit long that holds 1 kg/m^3
LOW, HIGH = 0.62, 0.80  # walls of the pipe


@dataclass(frozen=True)
class Station:
    """One station: its name, its number, the role of its air, what the air is like, what is read there, its pipe."""

    name: str
    number: int
    role: str
    air: str
    read: tuple[str, str]
    pipe: tuple[float, float]

    @property
    def words(self) -> str:
        """Name first, number second."""
        return f"{self.name} ({self.number})"


STATIONS = (
    Station("ambient", 0, "ambient", "as it comes", ("barometer,", "thermometer"), (0.04, 0.66)),
    Station("compressor inlet", 1, "ambient", "a bit thinner", ("restriction,", "thermometer"), (0.76, 1.40)),
    Station("compressor outlet", 2, "hot", "hot, squeezed", ("pressure,", "thermometer"), (1.76, 2.44)),
    Station("manifold", 3, "cooled", "cooled, dense", ("boost,", "thermometer"), (2.92, 3.58)),
)
# machine: where its name stands
_MACHINES = {
    "filter": (0.60, 0.50),
    "compressor": (1.60, 0.50),
    "aftercooler": (2.46, 0.50),
    "cylinders": (3.62, 0.905),
    "turbine": (1.44, 0.03),
}


@dataclass(frozen=True)
class PathOfAir(Picture):
    """A picture without axes; its words follow the air."""

    counts: tuple[int, ...] = ()
    height: int = HEIGHT

    @property
    def alt(self) -> str:
        """The way of the air in order, with what is read at each station and how many dots stand for it."""
        told = " ".join(
            f"{one.words}: {one.air}, {count} dots; read there: {' '.join(one.read)}."
            for one, count in zip(STATIONS, self.counts, strict=True)
        )
        return (
            f"{self.title}. Drawing: the air passes the filter, the compressor, the aftercooler and reaches the "
            f"cylinders. {told} The exhaust drives the turbine, the turbine drives the compressor, and the exhaust "
            "is led outdoors."
        )

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the table twin."""
        return "station", "the air", "read there", "dots"

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the table twin."""
        return tuple(
            (one.words, one.air, " ".join(one.read), str(count))
            for one, count in zip(STATIONS, self.counts, strict=True)
        )


def picture_stations(densities: Sequence[float]) -> PathOfAir:
    """Return the drawing of the stations; each dot is the same mass of air.

    Parameters
    ----------
    densities : sequence of float [kg/m^3]
        At ambient, compressor inlet, compressor outlet and manifold.
    """
    dots = [_dots(one, density) for one, density in zip(STATIONS, densities, strict=True)]
    return PathOfAir(
        "The way of the air; each dot is the same mass of air",
        Axis("", "", 0.0, 4.0),
        Axis("", "", 0.0, 1.0),
        (*_machines(), *dots),
        (*_words(),),
        counts=tuple(len(one.x) for one in dots),
    )


def _dots(station, density):
    left, right = station.pipe
    count = round(DOTS * density * (right - left))
    places = [((turn + 0.5) / count, 0.6180339887 * turn % 1) for turn in range(count)]  # even, never in rows
    x = tuple(round(left + (right - left) * across, 3) for across, _ in places)
    y = tuple(round(LOW + 0.015 + (HIGH - LOW - 0.03) * up, 4) for _, up in places)
    return Series("points", station.role, station.name, x, y)


def _machines():
    """Yield the outlines: pipes, filter, compressor, aftercooler, cylinders, shaft, turbine, exhaust."""
    walls = ((0.70, 1.42), (1.72, 2.46), (2.86, 3.62))
    yield from (_line("pipe", (left, right), (wall, wall)) for left, right in walls for wall in (LOW, HIGH))
    yield _line("filter", [0.70 + 0.03 * (-1) ** turn for turn in range(9)], [0.57 + 0.035 * turn for turn in range(9)])
    yield _line("compressor", (1.42, 1.72, 1.72, 1.42, 1.42), (0.54, LOW, HIGH, 0.88, 0.54))
    yield _line("aftercooler", (2.46, 2.86, 2.86, 2.46, 2.46), (0.56, 0.56, 0.86, 0.86, 0.56))
    yield from (_line("aftercooler", (x, x), (0.59, 0.83)) for x in (2.54, 2.62, 2.70, 2.78))
    yield _line("cylinders", (3.62, 3.96, 3.96, 3.62, 3.62), (0.54, 0.54, 0.88, 0.88, 0.54))
    yield from (_line("cylinders", (x, x), (0.54, 0.88)) for x in (3.733, 3.847))
    yield _line("shaft", (1.57, 1.57), (0.285, 0.58))
    yield _line("turbine", (1.42, 1.72, 1.72, 1.42, 1.42), (0.09, 0.13, 0.27, 0.31, 0.09))
    yield _line("exhaust", (3.90, 3.90, 1.72), (0.54, 0.15, 0.15), "hot")
    yield _line("exhaust", (3.68, 3.68, 1.72), (0.54, 0.25, 0.25), "hot")
    yield from (_line("exhaust", (0.10, 1.42), (wall, wall), "hot") for wall in (0.15, 0.25))


def _line(label, x, y, role="measured"):
    return Series("line", role, label, tuple(x), tuple(y))


def _words():
    for one in STATIONS:
        first, *second = one.name.split(" ")
        lines = [" ".join((first, *([] if second else [f"({one.number})"])))]
        lines += [f"{second[0]} ({one.number})"] if second else []
        for turn, words in enumerate(reversed([*lines, one.air])):
            yield Text(one.pipe[0], 0.845 + 0.05 * turn, words)
        for turn, words in enumerate(one.read):
            yield Text(one.pipe[0], 0.42 - 0.05 * turn, words)
    yield from (Text(x, y, name) for name, (x, y) in _MACHINES.items())
    yield Text(0.04, 0.50, "air in →")
    yield Text(0.04, 0.03, "← exhaust, outdoors")
    yield Text(1.80, 0.29, "the turbine drives the compressor")
