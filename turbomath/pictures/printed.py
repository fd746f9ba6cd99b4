"""Pictures on paper: any `Picture` as SVG text, the same bytes each time, fit for a photocopier.

Letters are drawn as outlines, so that the picture looks alike wherever it is printed.
"""

import io
import textwrap
import warnings
from collections.abc import Sequence
from typing import Any

import matplotlib
from matplotlib.figure import Figure

from turbomath.pictures.picture import Picture
from turbomath.pictures.roles import FAINT, INK, QUIET, ROLES

WIDTH, HEIGHT = 6.7, 3.2  # inches: the width of a page of text
LABEL_WIDTH = 20  # characters of a label before it is broken

_STYLE: Any = {
    "font.family": "DejaVu Sans",
    "font.size": 9,
    "text.parse_math": False,  # a dollar sign in a label is a dollar sign
    "axes.unicode_minus": True,
    "axes.edgecolor": QUIET,
    "svg.fonttype": "path",
    "svg.hashsalt": "turbomath",
    "path.simplify": False,
}
_DASHES = {"solid": "-", "dashed": (0, (5, 2.5)), "dotted": (0, (1, 1.8))}
_MARKERS = {"square": "s", "triangle": "^", "circle": "o", "diamond": "D"}
_ODD = dict.fromkeys([*range(32), *range(0x7F, 0xA0)], " ") | dict.fromkeys(range(0xD800, 0xE000), "\ufffd")


def svg(picture: Picture, height: float = HEIGHT) -> str:
    """Return a `Picture` as the text of a self-contained SVG, so many inches high."""
    with matplotlib.rc_context(_STYLE), warnings.catch_warnings():
        warnings.filterwarnings("ignore", message="Glyph .* missing", category=UserWarning)  # shown as a box
        figure = Figure(figsize=(WIDTH, height))
        foot = 0.16 * HEIGHT / height  # so that the words of the axis keep their room
        axes = figure.add_axes((0.1, foot, 0.67, 0.96 - foot))
        _frame(axes, picture)
        for series in picture.series:
            _FORMS[series.kind](axes, series, ROLES[series.role])
        for text in picture.texts:
            axes.text(text.x, text.y, _plain(text.words), color=INK)
        _end_labels(axes, picture)
        out = io.StringIO()
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    return out.getvalue()


def _frame(axes, picture):
    axes.set(
        xlim=(picture.x.low, picture.x.high),
        ylim=(picture.y.low, picture.y.high),
        xlabel=_plain(picture.x.words),
        ylabel=_plain(picture.y.words),
    )
    axes.grid(color=FAINT, linewidth=0.6)
    axes.set_axisbelow(True)
    axes.spines[["top", "right"]].set_visible(False)
    axes.tick_params(colors=INK, length=3)
    if picture.y.low < 0 < picture.y.high:
        axes.axhline(0, color=QUIET, linewidth=0.8)


def _line(axes, series, role):
    axes.plot(series.x, series.y, color=role.colour, linestyle=_DASHES[role.dash], linewidth=1.5, clip_on=False)


def _band(axes, series, role):
    axes.fill_between(series.x, series.low, series.high, color=role.colour, alpha=0.15, linewidth=0)


def _points(axes, series, role):
    if series.low:
        axes.vlines(series.x, series.low, series.high, color=role.colour, linewidth=1.1, clip_on=False)
        for ends in (series.low, series.high):
            axes.plot(series.x, ends, linestyle="", marker="_", markersize=5, color=role.colour, clip_on=False)
    axes.plot(
        series.x,
        series.y,
        linestyle="",
        marker=_MARKERS.get(role.marker, "."),
        markersize=4.5,
        color=role.colour,
        clip_on=False,
        zorder=3,
    )


_FORMS = {"line": _line, "band": _band, "points": _points}


def _end_labels(axes, picture):
    """Write each series' label once, right of its last point, with a thin leader; labels never overlap."""
    ends = {series.label: (series.y[-1], series.x[-1], ROLES[series.role]) for series in picture.series if series.x}
    labels = {label: "\n".join(textwrap.wrap(_plain(label), LABEL_WIDTH)[:3]) for label in ends}
    order = sorted(ends, key=lambda label: ends[label][0])
    heights = [0.06 * (labels[label].count("\n") + 1) for label in order]
    span = picture.y.high - picture.y.low
    places = spread([(ends[label][0] - picture.y.low) / span for label in order], heights)
    for label, place in zip(order, places, strict=True):
        y, x, role = ends[label]
        axes.annotate(
            labels[label],
            xy=(x, y),
            xycoords="data",
            xytext=(1.035, place),
            textcoords="axes fraction",
            va="center",
            color=role.colour,
            annotation_clip=False,
            arrowprops={
                "arrowstyle": "-",
                "color": role.colour,
                "linewidth": 0.6,
                "linestyle": _DASHES[role.dash],
                "shrinkA": 2,
                "shrinkB": 4,
            },
        )


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


def _plain(text):
    return str(text).translate(_ODD)
