"""Lesson 00: how sure is one reading? The grade of a gauge speaks of its whole span, not of what it reads."""

from typing import Any

import numpy as np

from turbomath import units
from turbomath.panels.start_here import LESSON
from turbomath.panels.start_here.picture_gauge_reading import (
    PARTS,
    picture_gauge_scale,
    picture_share_of_reading,
    pressures_shown,
)
from turbomath.table.errors import OutOfRangeError
from turbomath.uncertainty import GRADES, Instrument, accuracy, tolerance
from turbomath.units.rounding import NO_VALUE, rounded
from turbomath.units.shop import psi
from turbomath.units.shown import words
from turbomath.widgets.answers import Answer, Readout, Table
from turbomath.widgets.controls import Choice, Control
from turbomath.widgets.panel import Panel


def _spans(*ends):
    return tuple(
        (end, {"us": f"0 to {end} psi", "si": f"0 to {rounded(psi(float(end)) / 1e3)} kPa (0 to {end} psi)"})
        for end in ends
    )


def _divisions(*steps):
    return tuple(
        (step, {"us": f"{step} psi", "si": f"{rounded(psi(float(step)) / 1e3)} kPa ({step} psi)"}) for step in steps
    )


def _grade_words(grade):
    ends, middle, _ = GRADES[grade]
    return f"{grade}: {middle:g} % of span" + ("" if ends == middle else f", {ends:g} % at the ends")


CONTROLS = (
    Control("boost", psi(22.0), 0.0, psi(60.0)),
    Choice("grade", "grade", tuple((grade, _grade_words(grade)) for grade in GRADES), "B"),
    Choice("span", "scale", _spans("15", "30", "60", "100"), "60"),
    Choice("division", "smallest division", _divisions("0.2", "0.5", "1", "2", "5"), "1"),
)
CASES = {
    "at_load": {"boost": psi(22.0), "grade": "B", "span": "60", "division": "1"},
    "no_load": {"boost": psi(3.0), "grade": "B", "span": "60", "division": "1"},
}


def panel() -> Panel:
    """Return the live panel: one gauge, one reading, and how sure it is."""
    return Panel(LESSON.words["start_here"].sheet(CONTROLS, answer, _outcome, CASES))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the scale with its band, the share of the reading, and both in numbers."""
    reading, end, division = controls.boost, psi(float(controls.span)), psi(float(controls.division))
    gauge = Instrument("bourdon", (0.0, end), controls.grade, resolution=((np.inf, division / 2),))
    _refuse_off_the_scale(reading, end, system)
    half, whole = float(accuracy(gauge, reading)), tolerance(gauge, reading)
    along = pressures_shown(end)
    pictures = (
        picture_gauge_scale(end, GRADES[controls.grade], reading, half, division, system),
        picture_share_of_reading(controls.grade, along, accuracy(gauge, along), reading, half, system),
    )
    readouts = (
        Readout("grade allows ±", *amount(half, system)),
        Readout("of reading ±", share(half, reading), "%" if reading else ""),
        Readout("half a division ±", *amount(division / 4, system)),
        Readout("both together ±", *amount(whole, system)),
    )
    return Answer(
        pictures, _sentence(reading, half, end, system), readouts, (_table(gauge, controls, system),), own=("yours",)
    )


def amount(half_width: float, system: str) -> tuple[str, str]:
    """Return half of a band as (text, unit): two figures say all that it knows."""
    unit = units.display("boost", system)
    return two_figures(units.from_si(half_width, unit, "boost")), unit


def share(half_width: float, reading: float) -> str:
    """Return half of a band in per cent of the reading as text; a reading of 0 has none."""
    return two_figures(100 * half_width / reading) if reading else NO_VALUE


def two_figures(number: float) -> str:
    """Return a number as text with two figures that count.

    Examples
    --------
    >>> two_figures(5.4545), two_figures(60.0), two_figures(899.9)
    ('5.5', '60', '900')
    """
    return rounded(float(f"{number:.2g}"))


def place(reading: float, end: float) -> int:
    """Return in which part of its scale a gauge reads: 0, 1 or 2. The outer parts take their own edge."""
    return 0 if reading <= 0.25 * end * (1 + 1e-9) else 2 if reading >= 0.75 * end * (1 - 1e-9) else 1


def _refuse_off_the_scale(reading, end, system):
    if reading < 0:
        raise OutOfRangeError("this scale starts at 0. A pointer below it is off zero: zero or swap the gauge first.")
    if reading > end * (1 + 1e-9):
        said, last = words("boost", reading, system), words("boost", end, system)
        raise OutOfRangeError(
            f"{said} is beyond the scale, which ends at {last}. A pointer at its stop says only "
            "'at least'. Take a wider gauge, or write it as >."
        )


def _sentence(reading, half, end, system):
    said, (size, unit) = words("boost", reading, system), amount(half, system)
    begin = (
        f"It reads {said}, in the {PARTS[place(reading, end)]} of the scale: the true pressure is within {size} {unit}"
    )
    return f"{begin}, which is {share(half, reading)} % of the reading." if reading else f"{begin}."


def _table(gauge, controls, system):
    unit = units.display("boost", system)
    rows = []
    for part in (0.05, 0.1, 0.25, 0.5, 0.75, 1.0, None):
        reading = controls.boost if part is None else part * gauge.span[1]
        half = float(accuracy(gauge, reading))
        shown = words("boost", reading, system).removesuffix(f" {unit}")
        rows.append(
            (
                f"{shown} (yours)" if part is None else shown,
                PARTS[place(reading, gauge.span[1])],
                amount(half, system)[0],
                share(half, reading),
            )
        )
    heads = (f"reading [{unit}]", "part of the scale", f"± [{unit}]", "± [% of the reading]")
    return Table(f"Grade {controls.grade}, along the scale", heads, tuple(rows))


def _outcome(system):
    half = float(accuracy(Instrument(span=(0.0, psi(60.0)), grade="B"), psi(22.0)))
    low, high = (words("boost", psi(22.0) + sign * half, system) for sign in (-1, 1))
    return {
        "half": " ".join(amount(half, system)),
        "span": words("boost", psi(60.0), system),
        "low": low,
        "high": high,
        "share": share(half, psi(22.0)),
    }
