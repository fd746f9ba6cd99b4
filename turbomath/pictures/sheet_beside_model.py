"""A maker's sheet, or a run, as points beside the engine of the model that was fitted to it, with the model's own ±."""

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.pictures.picture import Picture
from turbomath.pictures.scales import WithWidth, axis, series, shown
from turbomath.table.quantities import QUANTITIES
from turbomath.units.shown import width_unit

Values = NDArray[np.float64]


def picture_sheet_beside_model(
    quantity: str, drive: str, sheet: tuple[Values, Values], model: tuple[Values, WithWidth], system: str
) -> Picture:
    """Return the picture of the sheet's points over the model's line and its ± as a band.

    Parameters
    ----------
    quantity, drive : str
        Names of the table: what is shown, and what makes the engine work, fuel flow or power.
    sheet : (array, array) [SI]
        Drive and quantity at each point that was read; gaps are `nan`.
    model : (array, (array, array)) [SI]
        Drive along the line, and the quantity there with its ±.
    system : "us" or "si"
        The units shown.
    """
    x, along = (shown(drive, one, system) for one in (sheet[0], model[0]))
    y, line = (shown(quantity, one, system) for one in (sheet[1], model[1][0]))
    name, unit = width_unit(quantity, system)
    width = np.atleast_1d(units.from_si(model[1][1], unit, name))
    return Picture(
        f"{QUANTITIES[quantity].plain_name.capitalize()} against {QUANTITIES[drive].plain_name}: sheet beside model",
        axis(drive, system, x, along),
        axis(quantity, system, y, line + width, line - width, from_zero="temperature" not in quantity),
        (
            series("band", "theory", "model ±", along, line, width),
            series("line", "theory", "model", along, line),
            series("points", "measured", "sheet", x, y),
        ),
    )
