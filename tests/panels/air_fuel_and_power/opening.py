"""Lesson 06 as its tests handle it: the sliders of its panels set by lot."""

import json

from tests.panels.opening import places_of, shared, slid

SWALLOW, FILLING, SMOKE, PAYS = "air_fuel_and_power", "filling", "smoke_limit", "who_pays"


def set_by_lot(data, of, system, names):
    """Set sliders to places drawn by lot; return the numbers by name, and the frame."""
    panel = shared(of, system)
    texts = {name: data.draw(places_of(panel, name)) for name in names}
    frame = slid(panel, texts)
    json.dumps(frame, allow_nan=False)
    return {name: float(text) for name, text in texts.items()}, frame
