"""What a logger wrote, against time: a few quantities of one kind, and the stretches that became points."""

from collections.abc import Mapping, Sequence

from numpy.typing import ArrayLike, NDArray

from turbomath.pictures.picture import Axis, Picture, Series
from turbomath.pictures.scales import axis, series, shown
from turbomath.table.quantities import QUANTITIES

ROLES = {"compressor_outlet_temperature": "hot", "manifold_temperature": "cooled", "boost": "measured"}


def picture_run_in_time(
    minutes: NDArray, traces: Mapping[str, ArrayLike], stretches: Sequence[tuple[float, float]], system: str
) -> Picture:
    """Return the picture of quantities that share a unit against time.

    Parameters
    ----------
    minutes : array [min]
        Time of each row.
    traces : dict of array
        Names of the table of quantities, such as "boost", and their values in SI.
    stretches : sequence of (from, to) [min]
        Where the engine was steady.
    system : "us" or "si"
        The units shown.
    """
    drawn = {name: shown(name, values, system) for name, values in traces.items()}
    first, *_ = drawn
    label = QUANTITIES[first].plain_name if len(drawn) == 1 else QUANTITIES[first].kind
    up = axis(first, system, *drawn.values(), label=label, from_zero=False)
    bands = [
        Series("band", "theory", "steady", ends, (up.low,) * 2, (up.low,) * 2, (up.high,) * 2) for ends in stretches
    ]
    lines = [series("line", ROLES[name], QUANTITIES[name].plain_name, minutes, y) for name, y in drawn.items()]
    across = Axis("time", "min", float(minutes.min()), float(minutes.max()))
    return Picture(f"{label.capitalize()} over the whole file", across, up, (*bands, *lines))
