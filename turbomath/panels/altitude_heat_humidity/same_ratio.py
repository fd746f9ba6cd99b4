"""Lesson 07, second panel: the compressor at its limit. The pressure ratio stays; gauge and air fall."""

import functools

from turbomath.panels.altitude_heat_humidity.same_pressure import CASES, RATIO, answer, controls_from, gauge, places
from turbomath.units.rounding import fixed
from turbomath.units.shown import words
from turbomath.widgets.asking import Option, Question
from turbomath.widgets.controls import at_start
from turbomath.widgets.desk import Sheet
from turbomath.widgets.panel import Panel


def panel_same_pressure_ratio():
    """Return the live panel of the same pressure ratio in thinner air."""
    return Panel(
        Sheet(
            "The compressor may do no more than at sea level. What is left?",
            PREDICTION,
            controls_from(RATIO),
            answer,
            CASES,
        )
    )


@functools.cache
def _outcome(system):
    sea, site = places(at_start(controls_from(RATIO)), system)
    share = fixed(100 * (1 - site.manifold_dry_air_density / sea.manifold_dry_air_density), 1)
    return (
        f"{words('boost', gauge(site), system)}: the same ratio of a smaller barometer is a smaller gauge reading. "
        f"The manifold holds {share} % less air, as much less as the air outside."
    )


PREDICTION = Question(
    "The maker allows this compressor the pressure ratio that it has at sea level with 25 psi (172 kPa), and no more. "
    "What does the gauge show with it at 5,280 ft (1,609 m), barometer 12.1 psi (83.4 kPa)?",
    (
        Option(
            "27.6 psi (190 kPa)",
            "That is for the same pressure. A ratio is a multiple of what is there, and there is less.",
            "M16",
        ),
        Option(
            "25.0 psi (172 kPa): same ratio, same boost",
            "The same gauge reading is a higher ratio up there. Take the barometer along.",
            "M1",
        ),
        Option(
            "20.6 psi (142 kPa)",
            "Now see what is left in the manifold, and what you would tell the driver.",
            right=True,
        ),
        Option(
            "32.7 psi (225 kPa)",
            "That is 2.70 times the barometer, so it counts from vacuum. A gauge counts from "
            "the barometer: take that off.",
            "M1",
        ),
        Option("something else", "Good that you said so. Compare the two columns, then tell the class."),
    ),
    outcome=_outcome,
)
