"""Questions on air gained and lost: the boost that makes up for heat, what heat and humidity cost, other units."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.mistakes import SHARED, boost_as_absolute, converted_the_wrong_way, degrees_ratio, mistake
from turbomath.homework.bank.question import Given, Tolerance
from turbomath.homework.bank.readings import (
    BAROMETER,
    BOOST,
    COOL,
    DENSITY,
    HALF_A_PER_CENT,
    HOT,
    OUTLET_BOOST,
    PER_CENT,
    PRESSURE,
    WARM,
    asked,
    given,
)
from turbomath.homework.bank.shop_numbers import WATER_TO_AIR
from turbomath.homework.bank.steps import MANIFOLD, OUTLET, density, step
from turbomath.homework.bank.wording import Wording
from turbomath.physics import charge, cooling, humidity
from turbomath.working import sums

OTHER_DENSITY = DENSITY[::-1]
_HOT_OVER_COOL = degrees_ratio("compressor_outlet_temperature", "manifold_temperature")
_COOL_OVER_HOT = degrees_ratio("manifold_temperature", "compressor_outlet_temperature")
_BEFORE_OVER_NOW = degrees_ratio("temperature_before", "temperature_now")


def _boost_needed(density, temperature):
    """Return the steps to the boost that gives a density at a temperature."""
    needed = r"p_\mathrm{needed}", r"p_\mathrm{boost,needed}"
    return (
        step(
            "pressure_needed",
            charge.pressure,
            density=density,
            temperature=temperature,
            quantity="pressure",
            symbol=needed[0],
        ),
        step("boost_needed", sums.gauge_pressure, pressure="pressure_needed", quantity="boost", symbol=needed[1]),
    )


def _mass_only(s):
    """Return the density of which pounds and kilograms were converted, and feet and metres were not."""
    mass = s.written(s.number("density"), ("kg", "lb"), "fuel_mass")
    return s.written(s.shown(mass, ("lb", "kg"), "fuel_mass"), DENSITY, "density")


words = Wording(__file__, "air_gained_and_lost.toml", SHARED)
QUESTIONS = (
    words.question(
        "uncooled_boost_for_same_density",
        number=27,
        difficulty=3,
        givens=(BOOST, COOL, BAROMETER, HOT),
        steps=(
            MANIFOLD,
            density("manifold_density", "manifold_pressure", "manifold_temperature"),
            *_boost_needed("manifold_density", "compressor_outlet_temperature"),
        ),
        asked=(asked("boost_needed", PRESSURE, of="boost"),),
        mistakes=(
            mistake("boost_kept", "M4", boost_needed="boost"),
            mistake("barometer_not_taken_off", "M1", boost_needed="pressure_needed"),
            mistake(
                "gauge_scaled",
                "M1",
                boost_needed=lambda s: s.boost * s.compressor_outlet_temperature / s.manifold_temperature,
            ),
            mistake(
                "degrees_in_a_ratio",
                "M3",
                pressure_needed=lambda s: s.manifold_pressure * _HOT_OVER_COOL(s),
            ),
        ),
        ranges=WARM,
    ),
    words.question(
        "cooled_boost_for_same_density",
        number=28,
        difficulty=3,
        givens=(BOOST, HOT, COOL, BAROMETER),
        steps=(
            MANIFOLD,
            density("density_before", "manifold_pressure", "compressor_outlet_temperature", r"\rho_\mathrm{before}"),
            *_boost_needed("density_before", "manifold_temperature"),
        ),
        asked=(asked("boost_needed", PRESSURE, of="boost"),),
        mistakes=(
            mistake("boost_kept", "M4", boost_needed="boost"),
            mistake("barometer_not_taken_off", "M1", boost_needed="pressure_needed"),
            mistake(
                "gauge_scaled",
                "M1",
                boost_needed=lambda s: s.boost * s.manifold_temperature / s.compressor_outlet_temperature,
            ),
            mistake(
                "degrees_in_a_ratio",
                "M3",
                pressure_needed=lambda s: s.manifold_pressure * _COOL_OVER_HOT(s),
            ),
        ),
        ranges={"boost": (16, 36, "psi")} | WARM,
        where=lambda s: s.boost_needed > 14_000.0,
    ),
    words.question(
        "break_even_pressure_loss",
        number=29,
        difficulty=3,
        givens=(OUTLET_BOOST, HOT, COOL, BAROMETER),
        steps=(
            OUTLET,
            step(
                "break_even_pressure_loss",
                cooling.break_even_pressure_loss,
                inlet_pressure="compressor_outlet_pressure",
                inlet_temperature="compressor_outlet_temperature",
                outlet_temperature="manifold_temperature",
            ),
        ),
        asked=(asked("break_even_pressure_loss", PRESSURE, tolerance=Tolerance(0.01)),),
        mistakes=(
            mistake(
                "degrees_in_a_ratio",
                "M3",
                break_even_pressure_loss=lambda s: s.compressor_outlet_pressure * (1 - _COOL_OVER_HOT(s)),
            ),
            boost_as_absolute("compressor_outlet_pressure", "compressor_outlet_boost"),
            mistake(
                "upside_down",
                "M14",
                break_even_pressure_loss=lambda s: (
                    s.compressor_outlet_pressure * (s.compressor_outlet_temperature / s.manifold_temperature - 1)
                ),
            ),
        ),
        ranges=WARM,
    ),
    words.question(
        "air_lost_in_a_hotter_manifold",
        number=30,
        difficulty=2,
        givens=(
            given("temperature_before", "temperature", of="temperature", source="cool", symbol=r"T_\mathrm{before}"),
            given("temperature_now", "temperature", of="temperature", source="hot", symbol=r"T_\mathrm{now}"),
        ),
        steps=(
            step(
                "change_of_air",
                arithmetic.gain_at_equal_pressure,
                inlet_temperature="temperature_before",
                outlet_temperature="temperature_now",
            ),
        ),
        asked=(asked("change_of_air", PER_CENT, of="density_gain", tolerance=HALF_A_PER_CENT),),
        mistakes=(
            mistake("upside_down", "M14", change_of_air=lambda s: 1 - s.temperature_now / s.temperature_before),
            mistake("wrong_sign", "M14", change_of_air=lambda s: 1 - s.temperature_before / s.temperature_now),
            mistake(
                "degrees_in_a_ratio",
                "M3",
                change_of_air=lambda s: _BEFORE_OVER_NOW(s) - 1,
            ),
        ),
        ranges={"cool": (90, 160, "°F"), "warmer_by": (55, 110, "F°")},
        also=lambda v, system: {"hot": v["cool"] + v["warmer_by"]},
    ),
    words.question(
        "dry_air_lost_to_humidity",
        number=31,
        difficulty=2,
        givens=(
            given("temperature", "temperature", source="humid_temperature"),
            given("relative_humidity", "per cent"),
            BAROMETER,
            Given("saturation_pressure", ("inHg", 0.001), ("kPa", 0.01)),
        ),
        steps=(
            step("vapour_pressure", arithmetic.vapour_pressure),
            step("dry_air_lost", arithmetic.dry_air_lost, pressure="barometer"),
        ),
        asked=(asked("dry_air_lost", PER_CENT, of="density_gain", tolerance=Tolerance(us=0.001, si=0.001)),),
        mistakes=(
            mistake("relative_humidity_itself", "M16", dry_air_lost="relative_humidity"),
            mistake(
                "mass_of_water",
                "M16",
                dry_air_lost=lambda s: WATER_TO_AIR * s.vapour_pressure / (s.barometer - s.vapour_pressure),
            ),
            mistake("air_as_saturated", "M16", vapour_pressure="saturation_pressure"),
        ),
        ranges={"humid_temperature": (80, 105, "°F"), "relative_humidity": (40, 90, "%")},
        also=lambda v, system: {"saturation_pressure": humidity.saturation_pressure(v["humid_temperature"])},
    ),
    words.question(
        "density_in_another_unit",
        number=32,
        difficulty=1,
        givens=(Given("density", ("kg/m³", 0.001), ("lb/ft³", 0.0001), source="manifold_density"),),
        steps=(),
        asked=(asked("density", DENSITY),),
        mistakes=(
            mistake("divided", "M9", density=converted_the_wrong_way("density", OTHER_DENSITY, DENSITY)),
            mistake("mass_only", "M9", density=_mass_only),
        ),
    ),
)
words.finished()
