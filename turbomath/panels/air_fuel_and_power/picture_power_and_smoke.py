"""Power that a flow of air allows against air-fuel ratio: the line, the reader's point, and where smoke is expected."""

from dataclasses import dataclass

import numpy as np

from turbomath.pictures.picture import Axis, Picture, Series
from turbomath.pictures.scales import axis, shown
from turbomath.units.rounding import rounded

LEAN, RICH = 36.0, 13.0  # air-fuel ratios where the scale ends at least
SAMPLES = 60
LIMIT = "smoke limit"
OWN = ("this air", "yours")  # what is told in words and numbers: the rest are marks on the scale


@dataclass(frozen=True)
class PowerAndSmoke(Picture):
    """A chart of a stated height on the screen, with two marks on its scale of air-fuel ratio."""

    height: int = 290
    limit: float = 0.0
    stoichiometric: float = 0.0

    @property
    def alt(self) -> str:
        """The line and the point in words, and the two marks."""
        marks = f"Shaded under {rounded(self.limit)}; no air is over at {rounded(self.stoichiometric)}."
        return f"{super().alt} {marks}"

    @property
    def _told(self):
        return tuple(one for one in super()._told if one.label in OWN)


def ratios_shown(limit: float, here: float) -> np.ndarray:
    """Return the air-fuel ratios along the chart: a range that stands still while limit and point are within it."""
    lean = 2 * np.ceil(max(LEAN, limit, here) / 2)
    rich = min(RICH, np.floor(limit), np.floor(here))
    return np.linspace(max(rich, 1.0), lean, SAMPLES)


def picture_power_and_smoke(
    ratios: np.ndarray,
    powers: np.ndarray,
    limit: float,
    stoichiometric: float,
    here: tuple[float, float],
    system: str,
    most: float,
) -> PowerAndSmoke:
    """Return the picture of power against air-fuel ratio for one flow of air.

    Parameters
    ----------
    ratios, powers : array [-, W]
        Air-fuel ratios along the chart, and the power that the air allows at each.
    limit, stoichiometric : float [-]
        The smoke limit, and the air-fuel ratio that leaves no air over.
    here : (float, float) [-, W]
        Air-fuel ratio and power of the point.
    system : "us" or "si"
        The units shown.
    most : float [W]
        Power that the upright axis reaches at least, so that it stands still.
    """
    power = shown("power", powers, system)
    point, end = shown("power", here[1], system), shown("power", most, system)
    up = axis("power", system, point, end)
    drawn = power <= up.high
    band = Series("band", "hot", LIMIT, (float(ratios[0]), limit), (up.high,) * 2, (0.0,) * 2, (up.high,) * 2)
    edge = Series("line", "hot", LIMIT, (limit,) * 2, (0.0, up.high))
    none_over = Series("line", "ambient", "no air over", (stoichiometric,) * 2, (0.0, up.high))
    line = Series("line", "cooled", "this air", tuple(ratios[drawn].tolist()), tuple(power[drawn].tolist()))
    mine = Series("points", "measured", "yours", (float(here[0]),), (float(point[0]),))
    x = Axis("air-fuel ratio", "", float(ratios[0]), float(ratios[-1]))
    title = "Shaded: under the smoke limit used here (common practice, not a specification)"
    return PowerAndSmoke(
        title, x, up, (band, none_over, edge, line, mine), limit=float(limit), stoichiometric=float(stoichiometric)
    )
