"""Measured charge gain beside the theoretical one, and their difference, against boost."""

from numpy.typing import ArrayLike

from turbomath.pictures.picture import Picture
from turbomath.pictures.scales import WithWidth, axis, series, shown


def picture_charge_gain(boost: ArrayLike, measured: WithWidth, theoretical: WithWidth, system: str) -> Picture:
    """Return the picture of measured dots with bars beside the dashed theory.

    Parameters
    ----------
    boost : array [Pa]
        As the gauge shows it, one element a reading; gaps are `nan`.
    measured, theoretical : (array, array) [-]
        Charge gain and its ±, as fractions. The ± of theory is told, not drawn: it shares the gauges with the
        measured one, so overlapping bars would prove nothing.
    system : "us" or "si"
        The units shown.
    """
    x = shown("boost", boost, system)
    y, width = (shown("measured_charge_gain", values, system) for values in measured)
    theory, its_width = (shown("theoretical_charge_gain", values, system) for values in theoretical)
    return Picture(
        "Charge gain against boost",
        axis("boost", system, x),
        axis("measured_charge_gain", system, y + width, y - width, theory, label="charge gain"),
        (
            series("line", "theory", "theoretical", x, theory, its_width),
            series("points", "measured", "measured", x, y, width),
        ),
    )


def picture_difference(boost: ArrayLike, difference: ArrayLike, plus_or_minus: ArrayLike, system: str) -> Picture:
    """Return the picture of measured less theoretical charge gain; a bar that reaches zero is an agreement.

    Parameters
    ----------
    boost : array [Pa]
        As the gauge shows it.
    difference, plus_or_minus : array [-]
        The difference and its own ±, as fractions.
    system : "us" or "si"
        The units shown.
    """
    x = shown("boost", boost, system)
    y, width = (shown("charge_gain_difference", values, system) for values in (difference, plus_or_minus))
    return Picture(
        "Measured less theoretical charge gain: a bar that reaches zero agrees",
        axis("boost", system, x),
        axis("charge_gain_difference", system, y + width, y - width),
        (series("line", "theory", "no difference", x, 0 * y), series("points", "measured", "difference", x, y, width)),
    )
