"""Lesson 06 as its tests handle it: its panels opened, their numbers read, their sliders set by lot."""

import json

from hypothesis import strategies as st

from tests.widgets.told import line, tell
from turbomath.panels.air_fuel_and_power import filling, same_swallow, smoke_limit, who_pays

SWALLOW = (same_swallow.panel_air_fuel_and_power, same_swallow.PREDICTION)
FILLING = (filling.panel_filling, filling.PREDICTION)
SMOKE = (smoke_limit.panel_smoke_limit, smoke_limit.PREDICTION)
PAYS = (who_pays.panel_who_pays, who_pays.PREDICTION)
PANELS = {"swallow": SWALLOW, "filling": FILLING, "smoke": SMOKE, "pays": PAYS}
CODES = {f"M{turn}" for turn in range(1, 19)}


def opened(of, system="us"):
    """Return a panel with a prediction made."""
    panel, question = of
    made = panel()
    tell(made, "answer", text=question.options[0].words)
    tell(made, "system", system=system)
    return made


def readouts(frame):
    """Return label -> text of the numbers below the sentence."""
    return {one["label"]: one["text"] for one in frame["shown"]["readouts"]}


def same(text, value):
    """Whether a text is *value* to its last printed digit."""
    places = len(text.partition(".")[2])
    return abs(float(text.replace("−", "-").replace(",", "")) - value) <= 0.5 * 10.0**-places + 1e-7


def outcome(panel):
    """Return what the air does, as it stands beside the prediction."""
    return panel.frame["asked"][0]["outcome"]


def typed(panel, **texts):
    """Type a number into each of these controls and return the frame."""
    for name, text in texts.items():
        frame = tell(panel, "type", name=name, text=text)
        assert "cannot be" not in line(frame, name)["fault"]
    return panel.frame


def places_of(panel, name):
    """Return a strategy for the places of a slider, as text."""
    control = line(panel.frame, name)
    steps = round((control["high"] - control["low"]) / control["step"])
    return st.integers(0, steps).map(lambda turn: f"{control['low'] + turn * control['step']:.10g}")


MADE = {(of, system): opened(PANELS[of], system) for of in PANELS for system in ("us", "si")}


def set_by_lot(data, of, system, names):
    """Set sliders to places drawn by lot; return the numbers by name, and the frame."""
    panel, found = MADE[of, system], {}
    for name in names:
        text = data.draw(places_of(panel, name))
        found[name], frame = float(text), tell(panel, "slide", name=name, text=text)
    json.dumps(frame, allow_nan=False)
    return found, frame
