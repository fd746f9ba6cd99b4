"""Pictures on paper: any `Picture` as SVG text, the same bytes each time, fit for a photocopier."""

import math
import textwrap
from collections.abc import Sequence
from html import escape

from turbomath.pictures.picture import Axis, Picture
from turbomath.pictures.roles import FAINT, INK, QUIET, ROLES
from turbomath.units.rounding import fixed

WIDTH, HEIGHT = 640, 300  # px, of which 96 make an inch: the width of a page of text
LEFT, RIGHT, TOP, BOTTOM = 70, 150, 10, 40  # px around the frame, for the words beside it
LETTER, LINE = 12, 14  # px: height of the letters, and from one line to the next
LABEL_WIDTH = 20  # characters of a label before it is broken
LETTERS_WIDE = 7  # px that a letter takes along an axis
MOST_ACROSS, ROOM_FOR_MARK = 8, 30  # marks of an axis: at most so many across, and px between two upwards

_DASHES = {"solid": "", "dashed": ' stroke-dasharray="7.5 3.8"', "dotted": ' stroke-dasharray="1.5 2.7"'}
_MARKERS = {
    "square": "m-3-3h6v6h-6z",
    "triangle": "m0-4 4 7h-8z",
    "circle": "m-3 0a3 3 0 1 0 6 0a3 3 0 1 0-6 0z",
    "diamond": "m0-4 4 4-4 4-4-4z",
    "": "m-1.5 0a1.5 1.5 0 1 0 3 0a1.5 1.5 0 1 0-3 0z",
}
_FONT = f'font-family="system-ui, \'DejaVu Sans\', Arial, sans-serif" font-size="{LETTER}"'
_ODD = dict.fromkeys([*range(32), *range(0x7F, 0xA0)], " ")
_ODD |= dict.fromkeys([*range(0xD800, 0xE000), 0xFFFE, 0xFFFF], "\ufffd")


class Frame:
    """Where the numbers of a picture lie on the paper; one without axes is `bare` and takes all of it."""

    def __init__(self, picture: Picture, height: float):
        self.x, self.y, self.height, self.bare = picture.x, picture.y, height, not picture.x.words
        self.left, self.top = (1, 1) if self.bare else (LEFT, TOP)
        self.right, self.foot = (WIDTH - 1, height - 1) if self.bare else (WIDTH - RIGHT, height - BOTTOM)

    def across(self, x: float) -> float:
        """Return how far from the left a value of x lies [px]."""
        return self.left + (x - self.x.low) / (self.x.high - self.x.low) * (self.right - self.left)

    def down(self, y: float) -> float:
        """Return how far from the top a value of y lies [px]."""
        return self.foot - (y - self.y.low) / (self.y.high - self.y.low) * (self.foot - self.top)

    def path(self, x: Sequence[float], y: Sequence[float]) -> str:
        """Return the line through points, as the data of a path."""
        points = (f"{self.across(a):.1f} {self.down(b):.1f}" for a, b in zip(x, y, strict=True))
        return "M" + "L".join(points)


def svg(picture: Picture, height: float = HEIGHT) -> str:
    """Return a `Picture` as the text of a self-contained SVG, so many px high. One without axes has its own words."""
    frame = Frame(picture, height)
    drawn = [
        *(() if frame.bare else _axes(frame)),
        *(part for series in picture.series if series.x for part in _FORMS[series.kind](frame, series)),
        *(_text(frame.across(one.x), frame.down(one.y), one.words) for one in picture.texts),
        *(() if frame.bare else _end_labels(frame, picture)),
    ]
    size = f'viewBox="0 0 {WIDTH} {height:g}" width="{WIDTH}" height="{height:g}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} {_FONT} fill="none">'
    return "\n".join([head, *drawn, "</svg>\n"])


def _axes(frame):
    across, upwards = marks(frame.x, MOST_ACROSS), marks(frame.y, max(2, int((frame.foot - TOP) / ROOM_FOR_MARK)))
    for at, words in across:
        yield _line(f"M{frame.across(at):.1f} {TOP}V{frame.foot + 4:g}", FAINT)
        yield _text(frame.across(at), frame.foot + LINE + 2, words, anchor="middle")
    for at, words in upwards:
        yield _line(f"M{LEFT - 4} {frame.down(at):.1f}H{frame.right:g}", FAINT)
        yield _text(LEFT - 7, frame.down(at) + LETTER / 3, words, anchor="end")
    if frame.y.low < 0 < frame.y.high:
        yield _line(f"M{LEFT} {frame.down(0):.1f}H{frame.right:g}", QUIET)
    yield _line(f"M{LEFT} {TOP}V{frame.foot:g}H{frame.right:g}", QUIET)
    yield _text((LEFT + frame.right) / 2, frame.height - 6, frame.x.words, anchor="middle")
    yield from _upwards(frame)


def _upwards(frame):
    """Write the words of the upward axis from foot to top, on two lines where one is too long."""
    middle = (TOP + frame.foot) / 2
    lines = textwrap.wrap(_plain(frame.y.words), int((frame.height - 2 * TOP) / LETTERS_WIDE))[:2]
    for turn, line in enumerate(lines):
        yield _text(LINE * turn + LETTER - 2, middle, line, anchor="middle", turned=True)


def marks(axis: Axis, most: int) -> list[tuple[float, str]]:
    """Return (value, words) of the round numbers along an axis, at most so many of them.

    Examples
    --------
    >>> marks(Axis("boost", "psi", 0, 30), 4)
    [(0.0, '0'), (10.0, '10'), (20.0, '20'), (30.0, '30')]
    """
    span = axis.high - axis.low
    power = 10.0 ** math.floor(math.log10(span))
    step = next(power * part for part in (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0) if span / (power * part) < most)
    places = max(0, -math.floor(math.log10(step) + 1e-9))
    first, last = math.ceil(axis.low / step - 1e-9), math.floor(axis.high / step + 1e-9)
    return [(step * turn, fixed(step * turn, places)) for turn in range(first, last + 1)]


def _lines(frame, series):
    role = ROLES[series.role]
    yield _line(frame.path(series.x, series.y), role.colour, 2, _DASHES[role.dash])


def _band(frame, series):
    edge = frame.path((*series.x, *reversed(series.x)), (*series.low, *reversed(series.high)))
    yield f'<path d="{edge}z" fill="{ROLES[series.role].colour}" fill-opacity="0.15"/>'


def _points(frame, series):
    role = ROLES[series.role]
    for x, low, high in zip(series.x if series.low else (), series.low, series.high, strict=True):
        at, foot, top = frame.across(x), frame.down(low), frame.down(high)
        yield _line(f"M{at:.1f} {foot:.1f}V{top:.1f}m-3.5 0h7M{at - 3.5:.1f} {foot:.1f}h7", role.colour, 1.5)
    for y, left, right in zip(series.y if series.left else (), series.left, series.right, strict=True):
        at, first, last = frame.down(y), frame.across(left), frame.across(right)
        yield _line(f"M{first:.1f} {at:.1f}H{last:.1f}m0-3.5v7M{first:.1f} {at - 3.5:.1f}v7", role.colour, 1.5)
    dots = "".join(
        f"M{frame.across(x):.1f} {frame.down(y):.1f}{_MARKERS['' if frame.bare else role.marker]}"
        for x, y in zip(series.x, series.y, strict=True)
    )
    yield f'<path d="{dots}" fill="{role.colour}"/>'


_FORMS = {"line": _lines, "band": _band, "points": _points}


def _end_labels(frame, picture):
    """Write each series' label once, right of its last point; a dotted leader is never taken for data; none overlap."""
    ends = {one.label: (one.y[-1], one.x[-1], ROLES[one.role]) for one in picture.series if one.x}
    labels = {label: textwrap.wrap(_plain(label), LABEL_WIDTH)[:3] for label in ends}
    order, tall = sorted(ends, key=lambda label: ends[label][0]), frame.foot - TOP
    heights = [LINE * max(1, len(labels[label])) / tall for label in order]
    places = spread([(frame.foot - frame.down(ends[label][0])) / tall for label in order], heights)
    for label, place in zip(order, places, strict=True):
        y, x, role = ends[label]
        end, height = (frame.across(x), frame.down(y)), frame.foot - place * tall
        yield from _end_label(frame, end, height, labels[label], role.colour)


def _end_label(frame, end, height, lines, colour):
    left = frame.right + 22
    yield _line(f"M{end[0] + 5:.1f} {end[1]:.1f}L{left - 4:g} {height:.1f}", QUIET, 0.8, _DASHES["dotted"])
    for turn, line in enumerate(lines):
        yield _text(left, height + LINE * (turn - len(lines) / 2) + LETTER - 1, line, colour)


def spread(wanted: Sequence[float], heights: Sequence[float]) -> list[float]:
    """Return places for labels of these *heights* in rising order, near where *wanted* and never on each other.

    Examples
    --------
    >>> [round(place, 2) for place in spread([0.50, 0.52, 0.90], [0.1, 0.1, 0.1])]
    [0.5, 0.6, 0.9]
    """
    places: list[float] = []
    for index, (want, height) in enumerate(zip(wanted, heights, strict=True)):
        least = places[-1] + (heights[index - 1] + height) / 2 if places else want
        places.append(max(want, least))
    over = max(0.0, places[-1] - 1.0) if places else 0.0
    for index in reversed(range(len(places))):
        places[index] -= over
        if index:
            over = max(0.0, places[index - 1] - (places[index] - (heights[index - 1] + heights[index]) / 2))
    return places


def _line(data, colour, width=1.0, dash=""):
    return f'<path d="{data}" stroke="{colour}" stroke-width="{width:g}"{dash}/>'


def _text(x, y, words, colour=INK, anchor="start", turned=False):
    place = f'transform="translate({x:.1f} {y:.1f}) rotate(-90)"' if turned else f'x="{x:.1f}" y="{y:.1f}"'
    return f'<text {place} fill="{colour}" text-anchor="{anchor}">{escape(_plain(words), quote=False)}</text>'


def _plain(text):
    return str(text).translate(_ODD)
