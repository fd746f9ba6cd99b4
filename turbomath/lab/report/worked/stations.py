"""The steps from what the gauges show to the pressure and temperature of each station."""

from turbomath.lab.report.worked.steps import ReadingSteps
from turbomath.physics import humidity
from turbomath.working import sums

TEMPERATURES = ("compressor_inlet_temperature", "compressor_outlet_temperature", "manifold_temperature")


def add_stations(to: ReadingSteps) -> None:
    """Add what is given at each station, and the steps to its absolute pressure."""
    _add_ambient(to)
    to.take("intake_restriction", column="intake_restriction")
    to.step("compressor_inlet_pressure", sums.inlet_pressure, barometer="ambient_pressure")
    if to.source("manifold_pressure") == "boost and barometer":
        to.take_reading("boost")
        to.step("manifold_pressure", sums.absolute_pressure, barometer="ambient_pressure")
    else:
        to.take("manifold_pressure")
    if to.source("compressor_outlet_pressure") == "manifold pressure and cooler pressure loss":
        to.take_reading("cooler_pressure_loss")
        to.step("compressor_outlet_pressure", sums.outlet_pressure)
    else:
        to.take("compressor_outlet_pressure")
    for name in TEMPERATURES:
        to.take(name, column=name if to.source(name) == name.replace("_", " ") else None)
    if to.cooled:
        to.take("medium_temperature", column="cooling_medium_temperature")


def _add_ambient(to):
    plain = to.run.bench.site.barometer != "sea-level"
    to.take("ambient_pressure", column="barometer" if plain else None)
    to.take("ambient_temperature", column="ambient_temperature")
    if to.wet:
        to.take("relative_humidity", column="relative_humidity")
        to.step(
            "humidity_ratio", humidity.humidity_ratio, pressure="ambient_pressure", temperature="ambient_temperature"
        )
    to.density("ambient_density", "ambient_pressure", "ambient_temperature")
