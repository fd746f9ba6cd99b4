"""Lesson 10 as its tests handle it: its panels, and the balances of its three engines."""

from turbomath.panels.compare_three_engines import fitted_cooler, guesses, up_high
from turbomath.panels.compare_three_engines.held import three

FITTED = (fitted_cooler.panel_compare_three_engines, fitted_cooler.PREDICTION)
GUESSES = (guesses.panel_closing_in, guesses.PREDICTION)
HEIGHT = (up_high.panel_up_high, up_high.PREDICTION)
MODULES = (fitted_cooler, guesses, up_high)
PSI, POUND, HERE = 6894.757, 0.45359237, 228.6  # Pa, kg, and m: 750 ft


def balances(held, load=1.0, elevation=HERE, temperature=298.15):
    """Return the balances of no aftercooler, jacket-water and air-to-air with one thing held equal."""
    return [one for _, one in three(held, load, elevation, temperature).values()]
