"""What is left of the gain of cooling, against the pressure that the aftercooler takes for it."""

import numpy as np
from numpy.typing import NDArray

from turbomath.pictures.picture import Picture, Series
from turbomath.pictures.scales import axis, series, shown


def picture_cooler_trade(
    losses: NDArray, gains: NDArray, here: tuple[float, float], even: float, system: str, most: tuple[float, float]
) -> Picture:
    """Return the picture of the gain that is left, the reader's point on it, and where nothing is left.

    Parameters
    ----------
    losses, gains : array [Pa, -]
        The line.
    here : (float, float) [Pa, -]
        The reader's pressure loss, and the gain it leaves.
    even : float [Pa]
        The break-even pressure loss.
    system : "us" or "si"
        The units shown.
    most : (float, float) [Pa, -]
        Loss and gain that the axes reach at least, so that they stand still.
    """
    x, mine, nothing, end = (shown("cooler_pressure_loss", value, system) for value in (losses, here[0], even, most[0]))
    y, gain, top = (shown("density_gain", value, system) for value in (gains, here[1], most[1]))
    across = axis("cooler_pressure_loss", system, x, mine, nothing, end)
    up = axis("density_gain", system, y, gain, top, -top / 2, label="gain left")
    zero = Series("line", "ambient", "no gain", (across.low, across.high), (0.0, 0.0))
    return Picture(
        "What the pressure loss leaves of the gain",
        across,
        up,
        (
            series("line", "cooled", "gain left", x, y),
            zero,
            series("points", "hot", "break-even", nothing, np.zeros_like(nothing)),
            series("points", "measured", "yours", mine, gain),
        ),
    )
