"""A fitted engine as a file beside bench.toml: every number of it in SI, what it was fitted to, and its own ±.

The file is written by `turbomath fit` and read whole or refused: a key too many, one too few, or a number that is none.
"""

import json
from collections.abc import Collection
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any

import numpy as np

from turbomath.disk.plain_files import Place, toml
from turbomath.engine.fitted import FAR, Fit, Freed
from turbomath.engine.free_numbers import ALL
from turbomath.engine.sheet import DRIVES, TOLD
from turbomath.engine.turbocharged_engine import Aftercooler, TurbochargedEngine, Wastegate
from turbomath.lab.run.amounts import closed
from turbomath.lab.run.cells import plain_text
from turbomath.table.errors import short

MOST_BYTES = 1_000_000
MADE_BY_FIT = "Make the file again: turbomath fit RUN --out FILE"
_PARTS = {"aftercooler": Aftercooler, "wastegate": Wastegate}
_OF_A_FAULT = ("least_opening",)  # no sound engine has it
_HEAD = {"run": str, "date": str, "invented": bool, "driven_by": str, "liquid_read": bool, "scale": float}
_TABLES = ("sheet", "engine", *_PARTS, "usual", "freed", "points", "directions", "leftover")


@dataclass(frozen=True)
class FittedEngine:
    """A `Fit` as a file holds it, with the run that it was fitted to."""

    fit: Fit
    run: str
    date: str
    invented: bool


def as_toml(fitted: FittedEngine) -> str:
    """Return the text of the file."""
    fit = fitted.fit
    head = {"run": short(fitted.run, 80), "date": fitted.date, "invented": fitted.invented}
    tables: dict[str, dict[str, Any]] = {
        "sheet": head | {"driven_by": fit.driven_by, "liquid_read": fit.liquid_read, "scale": fit.scale},
        "engine": {name: getattr(fit.engine, name) for name in _numbers(TurbochargedEngine)},
        **{part: _of_part(fit.engine, part) for part in _PARTS},
        "usual": {"names": list(fit.usual)},
        **{f"freed.{name}": vars(one) for name, one in fit.freed.items()},
        **{name: getattr(fit, name) for name in ("points", "directions", "leftover")},
    }
    mark = "INVENTED. " if fitted.invented else ""
    lines = [f"# {mark}An engine fitted to its own sheet by turbomath: SI units, absolute pressures. Not to be edited."]
    for name, table in tables.items():
        lines += ["", f"[{name}]", *(f"{key} = {_written(value)}" for key, value in table.items())]
    return "\n".join(lines) + "\n"


def read_engine(path: Path | str) -> FittedEngine:
    """Return the fitted engine of a file.

    Raises
    ------
    RefusedFileError
        If the file is not there, or is not whole, with the key that is wrong.
    """
    place = Place(str(path))
    content = toml(plain_text(path, MOST_BYTES), place, "turbine_area = 0.0012")
    _exactly(content, _TABLES, place)
    head = _typed(content, "sheet", _HEAD, place)
    if head["driven_by"] not in DRIVES:
        raise place.at(column="[sheet] driven_by").refusal(head["driven_by"], " or ".join(DRIVES), MADE_BY_FIT)
    parts = {part: record(**_typed(content, part, _numbers(record), place)) for part, record in _PARTS.items()}
    engine = TurbochargedEngine(**_typed(content, "engine", _numbers(TurbochargedEngine), place), **parts)
    known = place.at(column="[freed]")
    closed(content["freed"], tuple(ALL), known)
    freed = {name: Freed(**_typed(content["freed"], name, _numbers(Freed), known)) for name in content["freed"]}
    usual = _names(content["usual"], place.at(column="[usual]"))
    points = _arrays(content["points"], (*FAR, "boost"), place.at(column="[points]"), gaps=("boost",))
    numbers = tuple(name for name in ALL if name in freed or name in usual)
    fit = Fit(
        engine,
        freed,
        _arrays(content["leftover"], [name for name in TOLD if name in content["leftover"]], place, gaps=TOLD),
        usual,
        head["driven_by"],
        head["liquid_read"],
        points,
        _arrays(content["directions"], numbers, place.at(column="[directions]")),
        head["scale"],
    )
    return FittedEngine(fit, head["run"], head["date"], head["invented"])


def _numbers(record):
    """Return the plain fields of a record and the kind of each."""
    left_out = (*_PARTS, *_OF_A_FAULT)
    return {one.name: str if one.type is str else float for one in fields(record) if one.name not in left_out}


def _of_part(engine, part):
    return {name: getattr(getattr(engine, part), name) for name in _numbers(_PARTS[part])}


def _written(value):
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, list):
        return json.dumps(value)
    return f"[{', '.join(map(_number, value))}]" if np.ndim(value) else _number(value)


def _number(value):
    return repr(float(value))


def _exactly(table, keys: Collection[str], place):
    """Refuse a table with a key too many or too few."""
    closed(table, tuple(keys), place)
    wanting = [key for key in keys if key not in table]
    if wanting:
        raise place.refusal(f"no {wanting[0]}", "all of what a fit has written", MADE_BY_FIT)


def _typed(content, name, kinds, place):
    """Return one table, every key of which is of its kind."""
    place = place.at(column=f"[{name}]")
    _exactly(content[name], kinds, place)
    return {key: _of_kind(content[name][key], kind, place.at(column=f"[{name}] {key}")) for key, kind in kinds.items()}


def _of_kind(value, kind, place):
    if kind is not float:
        if not isinstance(value, kind):
            raise place.refusal(value, "text" if kind is str else "true or false", MADE_BY_FIT)
        return value
    plain = isinstance(value, int | float) and not isinstance(value, bool)
    if not plain or not np.isfinite(value):
        raise place.refusal(value, "a number", MADE_BY_FIT)
    return float(value)


def _names(table, place):
    _exactly(table, ("names",), place)
    names = table["names"]
    if not isinstance(names, list) or any(name not in ALL for name in names):
        raise place.refusal(names, f"names among {', '.join(ALL)}", MADE_BY_FIT)
    return tuple(names)


def _arrays(table, keys, place, *, gaps=()):
    """Return one table of lists of numbers, all of one length; `nan` may stand in those of *gaps*."""
    _exactly(table, tuple(keys), place)
    for key, value in table.items():
        sound = isinstance(value, list) and all(type(one) in (int, float) for one in value) and value
        if not sound or not (key in gaps or np.isfinite(value).all()):
            raise place.refusal(f"{key} = {value}", "a list of numbers", MADE_BY_FIT)
    if len({len(value) for value in table.values()}) > 1:
        raise place.refusal("lists of different lengths", "as many numbers in each", MADE_BY_FIT)
    return {key: np.array(value, dtype=float) for key, value in table.items()}
