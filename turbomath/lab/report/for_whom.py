"""What a report has besides its results: a student's boxes to write in, and an instructor's rubric and records."""

from dataclasses import dataclass

import numpy as np

from turbomath import units, working
from turbomath.lab.reduction.shares import row_of_most_gain
from turbomath.lab.report.worked.reading import chain
from turbomath.paper.parts import Head, Table
from turbomath.physics.room_gas import carbon_dioxide_share, oxygen_share
from turbomath.table.errors import TurbomathError, short
from turbomath.table.formulas import choice

READERS = ("", "student", "instructor")
BOXES = (
    ("Before the run", "What did you expect the engine to gain, and why?"),
    ("What we found", "One sentence: the finding, and the numbers with their ± that prove it."),
    ("What was held equal", "Load, speed, barometer, air temperature: which of them moved, and does it matter?"),
    ("What we doubt", "Which reading do you trust least? What speaks against it?"),
    ("The next test", "One sentence: which test would you make next, and what would each outcome tell?"),
)
RUBRIC = (
    ("Readings: zeros, units, two passes, remarks, nothing rubbed out", 20),
    ("Reduction: absolute pressures and temperatures, steps shown, results with units", 35),
    ("Plausibility and ±: doubtful readings named, no false figures", 15),
    ("Conclusion: the finding, its evidence, the next test", 20),
    ("Safety and presentation", 10),
)
TASKS = (
    ("Safe start, normal stop and second stop; signals; exhaust led outside", "all standards: safety comes first"),
    ("Air intake: restriction measured, leaks looked for", "intake and exhaust systems"),
    ("Boost measured and set beside the maker's value", "intake and exhaust systems"),
    ("Exhaust back pressure measured", "intake and exhaust systems"),
    ("Turbocharger, wastegate and pipes looked at, engine stopped", "intake and exhaust systems"),
    ("Aftercooler looked at and tested", "intake and exhaust systems"),
    ("Findings set beside the maker's data and written down", "record findings"),
)
STANDARDS = (
    "Tasks in the kit's own words, after Major Work Activity B of the Red Seal Occupational Standard, Truck and "
    "Transport Mechanic, and the area air induction and exhaust of the ASE Education Foundation's medium and heavy "
    "truck tasks (areas from memory). Write the numbers of your own standard beside them."
)
PROPOSAL = "A proposal (common practice): change the points to what your course asks."
CUBIC_FEET = 35.3147  # in a cubic metre; NIST SP 811
ROOMS = ((10, 50.0), (20, 100.0), (10, 100.0))  # pounds of CO2 in the bottle, cubic metres of the room
EXPOSURE = (
    ("5,000 ppm (0.5 %)", "the most over a working day", "29 CFR 1910.1000 Table Z-1; NIOSH"),
    ("30,000 ppm (3 %)", "the most for 15 minutes", "NIOSH; ACGIH"),
    ("40,000 ppm (4 %)", "immediately dangerous to life or health", "NIOSH IDLH documentation (1994)"),
    ("90,000 ppm (9 %)", "has killed in 5 minutes", "NIOSH IDLH documentation (1994)"),
)
ROOM_WORDS = (
    "This is arithmetic for the safety talk and no procedure. It takes the gas as fully mixed, the kindest case: CO2 "
    "is heavier than air, and thicker near the floor and near the horn. An oxygen meter does not warn of it. Use CO2 "
    "only as your local codes and your training say, from outside the doorway with the exits open; then go out, "
    "ventilate, and let nobody back in before the air is checked."
)


@dataclass(frozen=True)
class ForWhom:
    """What the template puts around the results; empty for a plain report."""

    reader: str = ""
    boxes: tuple = ()
    worked_point: str = ""
    worked_lines: tuple = ()
    tables: tuple = ()
    words: tuple = ()


def for_whom(reduced, reader, system):
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
    return ForWhom(reader, (), point, lines, tables, (PROPOSAL, STANDARDS, ROOM_WORDS))


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
        room = {"us": f"{np.round(volume * CUBIC_FEET, -1):,.0f} ft³", "si": f"{volume:g} m³"}[system]
        rows.append((f"{bottle} in {room}", f"{100 * share:.1f} %", f"{100 * oxygen_share(share):.1f} %"))
    heads = (Head("an extinguisher emptied in a room"), Head("CO2, fully mixed"), Head("what an oxygen meter shows"))
    return Table("CO2 and the room, at 20 °C and sea level, no ventilation", heads, tuple(rows), style="words")


def _exposure():
    return Table(
        "Limits of CO2 in air", (Head("share by volume"), Head("what it is"), Head("source")), EXPOSURE, style="words"
    )
