"""Lesson 06 as its tests handle it: its panels opened once, their sliders set by lot."""

import json

from tests.panels.opening import opened, places_of
from tests.widgets.told import tell

SWALLOW, FILLING, SMOKE, PAYS = "air_fuel_and_power", "filling", "smoke_limit", "who_pays"
MADE = {(of, system): opened(of, system) for of in (SWALLOW, SMOKE, PAYS) for system in ("us", "si")}


def set_by_lot(data, of, system, names):
    """Set sliders to places drawn by lot; return the numbers by name, and the frame."""
    panel, found = MADE[of, system], {}
    for name in names:
        text = data.draw(places_of(panel, name))
        found[name], frame = float(text), tell(panel, "slide", name=name, text=text)
    json.dumps(frame, allow_nan=False)
    return found, frame
