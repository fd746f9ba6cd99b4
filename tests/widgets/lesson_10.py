"""Lesson 10 as its tests handle it: its panels, and the balances of its three engines."""

from turbomath.widgets import compare_three_engines, compare_three_engines_guesses, compare_three_engines_height
from turbomath.widgets.compare_three_engines_held import three

FITTED = (compare_three_engines.panel_compare_three_engines, compare_three_engines.PREDICTION)
GUESSES = (compare_three_engines_guesses.panel_closing_in, compare_three_engines_guesses.PREDICTION)
HEIGHT = (compare_three_engines_height.panel_up_high, compare_three_engines_height.PREDICTION)
MODULES = (compare_three_engines, compare_three_engines_guesses, compare_three_engines_height)
PSI, POUND, HERE = 6894.757, 0.45359237, 228.6  # Pa, kg, and m: 750 ft


def balances(held, load=1.0, elevation=HERE, temperature=298.15):
    """Return the balances of no aftercooler, jacket-water and air-to-air with one thing held equal."""
    return [one for _, one in three(held, load, elevation, temperature).values()]
