"""An assignment's sheet as data: sheet-CODE.json read whole or refused in one sentence. Nothing in it is ever run."""

import json
import os
import re
from dataclasses import dataclass
from itertools import chain, islice
from pathlib import Path

from turbomath.disk import plain_files
from turbomath.disk.files import work_folder
from turbomath.disk.plain_files import Place
from turbomath.homework.course import seats
from turbomath.homework.course.student_sheet import SCHEMA
from turbomath.homework.marking import tables
from turbomath.table.errors import TurbomathError

MOST_BYTES, MOST_QUESTIONS, MOST_IN_A_LIST = 1_000_000, 100, 60
MOST_FOUND, DEEPEST = 50, 4
ASK = "Ask your instructor for the sheet again."
_CODE = re.compile(r"[0-9a-z]{4}-[0-9a-z]{4}", re.ASCII)
_SORTS = {str: "text in quotes", list: "a list", dict: "a group of names", int: "a whole number"}


@dataclass(frozen=True)
class SheetQuestion:
    """One question of a sheet: `parts` are (name, units that will do), `options` (letter, words)."""

    number: int
    name: str
    wording: str
    parts: tuple[tuple[str, tuple[str, ...]], ...]
    options: tuple[tuple[str, str], ...]
    hints: tuple[str, ...]


@dataclass(frozen=True)
class SheetFile:
    """The sheet of one seat, and where it lies."""

    path: Path
    title: str
    seat: str
    code: str
    kit: str
    units: str
    due: str
    questions: tuple[SheetQuestion, ...]


def found_sheets() -> list[Path]:
    """Return the sheets in the work folder and in the folders in it, a few levels down."""
    work = work_folder().absolute()
    every = chain.from_iterable(sorted(work.glob("*/" * depth + "sheet-*.json")) for depth in range(DEEPEST))
    return list(islice(every, MOST_FOUND))


def path_of(typed: str) -> Path:
    """Return the file that a typed path means: itself, or the one sheet in the folder of that name.

    Raises
    ------
    TurbomathError
        If nothing was typed, or the folder has no sheet in it or several.
    """
    name = typed.strip().strip("\"'")
    if not name or not name.isprintable():
        raise TurbomathError("type the path of your sheet first, such as students/A07/sheet-ab12-cd34.json.")
    path = work_folder().absolute() / os.path.expanduser(name)
    if not path.is_dir():
        return path
    inside = sorted(path.glob("sheet-*.json"))
    if len(inside) != 1:
        found = f"{len(inside)} files" if inside else "no file"
        raise TurbomathError(f"{path}: found {found} named sheet-CODE.json, expected one. Type the path of the file.")
    return inside[0]


def read_sheet(path: Path | str) -> SheetFile:
    """Return the `SheetFile` at a path.

    Raises
    ------
    RefusedFileError
        With where, what was found, what was expected and what to do.
    """
    path = Path(path)
    place = Place(str(path))
    whole = _json(path, place)
    if whole.get("schema") != SCHEMA:
        raise place.at(column="schema").refusal(whole.get("schema", "nothing"), SCHEMA, "Open a sheet-CODE.json.")
    questions = tuple(
        _question(one, place.at(row=row)) for row, one in enumerate(_list(whole, "questions", place, MOST_QUESTIONS), 1)
    )
    names = [one.name for one in questions]
    if not names or len(set(names)) < len(names):
        raise place.at(column="questions").refusal(", ".join(names) or "none", "each question once", ASK)
    due = "" if whole.get("due") is None else _words(whole, "due", place)
    return SheetFile(
        path,
        _words(whole, "title", place),
        _seat(whole, place),
        _code(whole, place),
        _words(whole, "kit", place),
        _units(whole, place),
        due,
        questions,
    )


def _json(path, place):
    """Return the names and values of a JSON file: none of them twice, no number that is none, not too deep."""
    content = plain_files.text(path, most_bytes=MOST_BYTES)

    def once(pairs):
        if len(dict(pairs)) < len(pairs):
            raise place.refusal("a name twice", "each name once", ASK)
        return dict(pairs)

    def refuse(token):
        raise place.refusal(token, "numbers", ASK)

    try:
        found = json.loads(content, object_pairs_hook=once, parse_constant=refuse)
    except json.JSONDecodeError as trouble:
        what = content[trouble.pos : trouble.pos + 20] or "its end"
        raise place.at(row=trouble.lineno).refusal(what, "JSON", ASK) from None
    except RecursionError:
        raise place.refusal("brackets too deep inside each other", "a sheet", ASK) from None
    except ValueError as trouble:
        if isinstance(trouble, TurbomathError):
            raise
        raise place.refusal("a number of thousands of figures", "a sheet", ASK) from None
    return _is(dict, found, place)


def _question(found, place):
    found = _is(dict, found, place)
    parts = tuple(_part(one, place) for one in _list(found, "parts", place))
    options = tuple(
        (_words(_is(dict, one, place), "letter", place), _words(one, "words", place))
        for one in _list(found, "options", place)
    )
    names = [name for name, _ in parts] or [letter for letter, _ in options]
    if bool(parts) == bool(options) or len(set(names)) < len(names):
        raise place.refusal(", ".join(names) or "no parts", "boxes or options, each name once", ASK)
    hints = tuple(
        _text(one, place.at(column="hints")) for one in (_list(found, "hints", place) if "hints" in found else ())
    )
    return SheetQuestion(
        _is(int, found.get("number"), place.at(column="number")),
        _words(found, "question", place),
        _words(found, "wording", place),
        parts,
        options,
        hints,
    )


def _part(found, place):
    found = _is(dict, found, place)
    units = tuple(_text(one, place.at(column="units")) for one in _list(found, "units", place))
    if not units:
        raise place.at(column="units").refusal("an empty list", "units", ASK)
    return _words(found, "part", place), units


def _seat(whole, place):
    seat = _words(whole, "seat", place)
    try:
        return seats.seat(seat)
    except TurbomathError:
        raise place.at(column="seat").refusal(seat, seats.EXPECTED, ASK) from None


def _code(whole, place):
    code = _words(whole, "sheet", place)
    if not _CODE.fullmatch(code):
        raise place.at(column="sheet").refusal(code, "a sheet code such as ab12-cd34", ASK)
    return code


def _units(whole, place):
    units = _words(whole, "units", place)
    if units not in ("us", "si"):
        raise place.at(column="units").refusal(units, "us or si", ASK)
    return units


def _words(found, key, place):
    place = place.at(column=key)
    words = _text(found.get(key), place)
    if not words:
        raise place.refusal("nothing", "text in quotes", ASK)
    return words


def _text(value, place):
    return tables.checked(_is(str, value, place), place, place.column)


def _list(found, key, place, most=MOST_IN_A_LIST):
    place = place.at(column=key)
    if len(_is(list, found.get(key), place)) > most:
        raise place.refusal(f"{len(found[key])} entries", f"at most {most}", ASK)
    return found[key]


def _is(sort, value, place):
    if not isinstance(value, sort) or isinstance(value, bool):
        shown = "nothing" if value is None else value if isinstance(value, str) else type(value).__name__
        raise place.refusal(shown, _SORTS[sort], ASK)
    return value
