"""Effectiveness on the charge side against the flow of the cooling medium, and what the medium could carry at most."""

from numpy.typing import NDArray

from turbomath.pictures.picture import Axis, Picture, Series
from turbomath.pictures.scales import axis, series, shown


def picture_fan_off(
    flows: NDArray, exact: NDArray, rule: NDArray, most: NDArray, here: tuple[float, float], system: str
) -> Picture:
    """Return the picture of the exact line, the textbooks' rule, the limit of the medium, and the reader's point.

    Parameters
    ----------
    flows, exact, rule, most : array [-]
        Flow ratio of the medium, charge effectiveness by the series and by the rule, and the limit.
    here : (float, float) [-]
        Flow ratio and charge effectiveness of the point.
    system : "us" or "si"
        The units shown.
    """
    x, end = shown("medium_flow_ratio", flows, system), float(max(flows.max(), here[0]))
    across = axis("medium_flow_ratio", system, x, shown("medium_flow_ratio", end, system), label="flow of the medium")
    lines = (
        series("line", "ambient", "limit", x, most),
        series("line", "theory", "usual rule", x, rule),
        series("line", "cooled", "exact", x, exact),
    )
    mine = Series("points", "measured", "yours", (float(here[0]),), (float(here[1]),))
    up = Axis("effectiveness, charge side", "", 0.0, 1.0)
    return Picture("Effectiveness against the flow of the medium; 1 is the fan on", across, up, (*lines, mine))
