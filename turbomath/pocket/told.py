"""An answer of a panel in the parts that a recorded page needs: drawn alone, or beside a case that was kept."""

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.pictures.picture import Axis, Picture, trend
from turbomath.units.rounding import rounded
from turbomath.widgets.answers import Answer

SPOTS = 5_000  # the least number of places along an axis that a recorded point can have
NONE = np.zeros(0, dtype=np.int64)
ARRAYS = {"x": "x", "y": "y", "low": "y", "high": "y"}  # of a series, each with the axis along which it lies


def told(answer: Answer) -> dict[str, Any]:
    """Return what a page shows of an answer; points of a picture as whole numbers of its smallest part.

    Words in a picture stand to the same part.
    """
    return {
        "engines": [one.to_dict(strip=len(answer.engines) > 1) for one in answer.engines],
        "pictures": [_picture(one) for one in answer.pictures],
        "sentence": answer.sentence,
        "readouts": [{"label": one.label, "text": one.text, "unit": one.unit} for one in answer.readouts],
        "tables": [
            {"title": one.title, "heads": list(one.heads), "rows": [list(row) for row in one.rows]}
            for one in answer.twins()
        ],
        "own": list(answer.own),
    }


def _picture(one: Picture) -> dict[str, Any]:
    record = one.drawn()
    places = {"x": _decimals(one.x), "y": _decimals(one.y)}
    for series in record["series"]:
        for name, axis in ARRAYS.items():
            series[name] = _whole(series[name], 10.0 ** places[axis])
    for text in record["texts"]:
        text |= {axis: round(text[axis], places[axis]) for axis in places}
    usual = type(one).alt is Picture.alt
    return {
        "height": 0,  # of a picture that states none: with readings some do, and all frames have one shape
        **{name: value for name, value in record.items() if name != "counts"},
        "places": places,
        "ends": {name: [rounded(axis.low), rounded(axis.high)] for name, axis in (("x", one.x), ("y", one.y))},
        "alt": "" if usual else one.alt,
        "trends": [trend(series, one.y.unit) for series in one.series] if usual else [],
    }


def _whole(values: list[float], times: float) -> NDArray[np.int64]:
    return np.rint(np.asarray(values, float) * times).astype(np.int64) if values else NONE


def _decimals(axis: Axis) -> int:
    return max(0, math.ceil(math.log10(SPOTS / (axis.high - axis.low))))
