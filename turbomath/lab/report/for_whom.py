"""What a report has besides its results: a student's boxes to write in, and an instructor's rubric and records."""

from dataclasses import dataclass

import numpy as np

from turbomath import units, working
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.shares import row_of_most_gain
from turbomath.lab.report.breathing import breathing_words
from turbomath.lab.report.worked.reading import chain
from turbomath.paper.parts import Head, Table
from turbomath.physics.room_gas import carbon_dioxide_share, oxygen_share
from turbomath.table import prose
from turbomath.table.errors import TurbomathError, short
from turbomath.table.formulas import choice
from turbomath.working.lines import Line

READERS = ("", "student", "instructor")
_WORDS = prose.read(__file__, "for_whom.toml")
STANDARDS, PROPOSAL, ROOM_WORDS = (_WORDS.text(name) for name in ("standards", "proposal", "room"))
BOXES = tuple((one.text("head"), one.text("question")) for one in _WORDS.tables("boxes"))
RUBRIC = tuple((one.text("part"), one.value("points", int)) for one in _WORDS.tables("rubric"))
TASKS = tuple((one.text("task"), one.text("where")) for one in _WORDS.tables("tasks"))
EXPOSURE = tuple((one.text("share"), one.text("what"), one.text("source")) for one in _WORDS.tables("exposure"))
_WORDS.finished()
ROOMS = ((10, 50.0), (20, 100.0), (10, 100.0))  # pounds of CO2 in the bottle, cubic metres of the room


@dataclass(frozen=True)
class ForWhom:
    """What the template puts around the results; empty for a plain report."""

    reader: str = ""
    boxes: tuple[tuple[str, str], ...] = ()
    worked_point: str = ""
    worked_lines: tuple[Line, ...] = ()
    tables: tuple[Table, ...] = ()
    words: tuple[str, ...] = ()


def for_whom(reduced: Reduced, reader: str, system: str) -> ForWhom:
    """Return what a report has for its reader: "student", "instructor", or "" for results only.

    Raises
    ------
    OutOfRangeError
        For another reader.
    """
    choice("reader", reader, dict.fromkeys(READERS))
    if not reader:
        return ForWhom()
    point, lines = _worked(reduced, system)
    if reader == "student":
        return ForWhom(reader, BOXES, point, lines)
    tables = (_rubric(), _sign_off(), _room(system), _exposure())
    return ForWhom(
        reader, (), point, lines, tables, (PROPOSAL, STANDARDS, ROOM_WORDS, *breathing_words(reduced, system))
    )


def _worked(reduced, system):
    """The point with the most gain, worked step by step; nothing where no point allows it."""
    row = row_of_most_gain(reduced)
    if row is None:
        return "", ()
    try:
        lines = working.lines(chain(reduced.run, row), system)
    except TurbomathError:
        return "", ()
    return short(reduced.run.points[row]), tuple(lines)


def _rubric():
    rows = [(words, str(points), "") for words, points in RUBRIC]
    rows.append(("total", str(sum(points for _, points in RUBRIC)), ""))
    return Table("Rubric for the lab report", (Head("part"), Head("points"), Head("given")), tuple(rows), style="words")


def _sign_off():
    heads = (
        Head("task"),
        Head("where the standards have it"),
        Head("performed"),
        Head("observed"),
        Head("simulated"),
        Head("date, seat code, initials"),
    )
    return Table(
        "Sign-off: seat codes, no names", heads, tuple((*task, "", "", "", "") for task in TASKS), style="words"
    )


def _room(system):
    rows = []
    for pounds, volume in ROOMS:
        mass = units.to_si(float(pounds), "lb", "gas_mass")
        share = carbon_dioxide_share(mass, volume, 101_325.0, 293.15)
        bottle = {"us": f"{pounds} lb", "si": f"{mass:.1f} kg"}[system]
        cubic_feet = units.from_si(volume, "in³", "displacement") / 12**3
        room = {"us": f"{np.round(cubic_feet, -1):,.0f} ft³", "si": f"{volume:g} m³"}[system]
        rows.append((f"{bottle} in {room}", f"{100 * share:.1f} %", f"{100 * oxygen_share(share):.1f} %"))
    heads = (Head("an extinguisher emptied in a room"), Head("CO2, fully mixed"), Head("what an oxygen meter shows"))
    return Table("CO2 and the room, at 20 °C and sea level, no ventilation", heads, tuple(rows), style="words")


def _exposure():
    return Table(
        "Limits of CO2 in air", (Head("share by volume"), Head("what it is"), Head("source")), EXPOSURE, style="words"
    )
