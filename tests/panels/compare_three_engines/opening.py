"""Lesson 10 as its tests handle it: its panels, and the balances of its three engines."""

from turbomath.panels.compare_three_engines.held import three

FITTED, GUESSES, HEIGHT = "compare_three_engines", "closing_in", "up_high"
PSI, POUND, HERE = 6894.757, 0.45359237, 228.6  # Pa, kg, and m: 750 ft


def balances(held, load=1.0, elevation=HERE, temperature=298.15):
    """Return the balances of no aftercooler, jacket-water and air-to-air with one thing held equal."""
    return [one for _, one in three(held, load, elevation, temperature).values()]
