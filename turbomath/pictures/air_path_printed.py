"""The air path on paper: the record of a panel as SVG text, with the dots where the panel's script has them."""

import math
from html import escape
from typing import Any

from turbomath.pictures.air_path import AirPath
from turbomath.pictures.air_path_layout import LAYOUTS
from turbomath.pictures.printed import WIDTH
from turbomath.pictures.roles import INK, QUIET, ROLES

_COLOURS = (ROLES["cooled"].colour, ROLES["hot"].colour, "#7a0f0f")
_WEIGHTS = {"wall": 2.0, "machine": 3.0, "fine": 1.2}
_BOLD = ("name", "value", "machine")
_STILL = 0.35
_SPREAD = 0.7548776662466927, 0.5698402909980532, 0.618033988749895  # those of the panel's script


def svg(path: AirPath, high: float = 285.0) -> str:
    """Return an `AirPath` as the text of a self-contained SVG, as wide as any other picture and so many px high."""
    drawn = path.drawing(LAYOUTS["wide"])
    width, height = drawn["size"]
    room = max(width, height * WIDTH / high)  # it stands at the left of it
    size = f'width="{WIDTH:g}" height="{high:g}" viewBox="0 0 {room:g} {height:g}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img">'
    parts = [f"<title>{escape(path.alt, quote=False)}</title>"]
    parts += [_crowd(one, drawn["dot"]) for one in drawn["crowds"] if one["count"]]
    parts += [_line(one) for one in drawn["lines"]]
    parts += [_words(one) for one in drawn["words"]]
    return "\n".join([head, *parts, "</svg>\n"])


def _crowd(one: dict[str, Any], dot: float) -> str:
    numbers = range(one["first"], one["first"] + one["count"])
    path = "".join(_dot(one, number, 0.5 * dot) for number in numbers)
    look = f'stroke="{_colour(one["colour"])}" stroke-width="{dot}" stroke-linecap="round"'
    return f'<path d="{path}" fill="none" {look}{_still(one)}/>'


def _dot(one, number, loose):
    along, down, turn = ((0.5 * (place < 2) + number * step) % 1 for place, step in enumerate(_SPREAD))
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = one["corners"]
    x = (1 - along) * ((1 - down) * ax + down * bx) + along * ((1 - down) * dx + down * cx)
    y = (1 - along) * ((1 - down) * ay + down * by) + along * ((1 - down) * dy + down * cy)
    angle, tail = 2 * math.pi * turn, one["tail"]
    start = f"M{x + loose * math.sin(5 * angle):.1f} {y + loose * math.sin(7 * angle):.1f}"
    return f"{start}l{tail * math.cos(angle):.1f} {tail * math.sin(angle):.1f}"


def _line(one):
    colour = QUIET if one["weight"] == "fine" else INK
    look = f'fill="none" stroke="{colour}" stroke-width="{_WEIGHTS[one["weight"]]}" stroke-linejoin="round"'
    return f'<path d="{one["d"]}" {look}{_still(one)}/>'


def _words(one):
    colour = QUIET if one["sort"] in ("name", "key") else INK
    look = ' font-weight="650"' if one["sort"] in _BOLD else ' font-style="italic"' if one["sort"] == "read" else ""
    place = f'x="{one["x"]:g}" y="{one["y"]:g}" font-size="{one["size"]:g}" text-anchor="{one["anchor"]}"'
    family = 'font-family="system-ui, DejaVu Sans, sans-serif"'
    return f'<text {place} fill="{colour}" {family}{look}{_still(one)}>{escape(one["text"], quote=False)}</text>'


def _still(one):
    return f' opacity="{_STILL}"' if one["quiet"] else ""


def _colour(place):
    """Return the colour between cold, hot and flame, mixed in parts of red, green and blue."""
    first = min(int(place), 1)
    share = place - first
    pair = (_parts(_COLOURS[first]), _parts(_COLOURS[first + 1]))
    mixed = (round(a + share * (b - a)) for a, b in zip(*pair, strict=True))
    return "#" + "".join(f"{part:02x}" for part in mixed)


def _parts(colour):
    return [int(colour[place : place + 2], 16) for place in (1, 3, 5)]
