"""Questions on charge density: what it is, and what pressure and temperature do to it."""

from turbomath.homework.bank.mistakes import (
    SEA_LEVEL,
    SHARED,
    boost_as_absolute,
    degrees_ratio,
    density_from_degrees,
    mistake,
)
from turbomath.homework.bank.question import Tolerance
from turbomath.homework.bank.readings import (
    BAROMETER,
    BOOST,
    COOL,
    DENSITY,
    HIGH_GROUND,
    HOT,
    OUTLET_BOOST,
    PER_CENT,
    WARM,
    asked,
    given,
)
from turbomath.homework.bank.steps import MANIFOLD, OUTLET, density, step
from turbomath.homework.bank.wording import Either, Wording
from turbomath.physics import charge
from turbomath.working import sums
from turbomath.working.coherent import to_si

_HOT_OVER_COOL = degrees_ratio("compressor_outlet_temperature", "manifold_temperature")
_A_OVER_B = degrees_ratio("temperature_a", "temperature_b")


def _a_and_b(drawn, system):
    """Return the charge before an aftercooler as A, and a cooler one at less boost as B."""
    return {
        "boost_a": drawn["boost"],
        "temperature_a": drawn["compressor_outlet_temperature"],
        "boost_b": drawn["boost"] * (1 - drawn["lower_by"]),
        "temperature_b": drawn["manifold_temperature"],
    }


words = Wording(__file__, "density.toml", SHARED)
QUESTIONS = (
    words.question(
        "ambient_density",
        number=22,
        difficulty=1,
        givens=(BAROMETER, given("ambient_temperature")),
        steps=(density("ambient_density", "barometer", "ambient_temperature"),),
        asked=(asked("ambient_density", DENSITY),),
        mistakes=(
            SEA_LEVEL,
            mistake(
                "degrees_in_a_ratio", "M3", ambient_density=density_from_degrees("barometer", "ambient_temperature")
            ),
            mistake(
                "inches_as_psi", "M9", only="us", barometer=lambda s: to_si(s.number("barometer"), "psi", "barometer")
            ),
        ),
        ranges=HIGH_GROUND | WARM,
    ),
    words.question(
        "compressor_outlet_density",
        number=23,
        difficulty=2,
        givens=(OUTLET_BOOST, HOT, BAROMETER),
        steps=(
            OUTLET,
            density("compressor_outlet_density", "compressor_outlet_pressure", "compressor_outlet_temperature"),
        ),
        asked=(asked("compressor_outlet_density", DENSITY),),
        mistakes=(
            boost_as_absolute("compressor_outlet_pressure", "compressor_outlet_boost"),
            mistake(
                "degrees_in_a_ratio",
                "M3",
                compressor_outlet_density=density_from_degrees(
                    "compressor_outlet_pressure", "compressor_outlet_temperature"
                ),
            ),
            SEA_LEVEL,
        ),
        ranges={"elevation": (4000, 5500, "ft"), "boost": (8, 28, "psi")},
    ),
    words.question(
        "manifold_density",
        number=24,
        difficulty=2,
        givens=(BOOST, COOL, BAROMETER, given("cooler_pressure_loss")),
        steps=(MANIFOLD, density("manifold_density", "manifold_pressure", "manifold_temperature")),
        asked=(asked("manifold_density", DENSITY),),
        mistakes=(
            boost_as_absolute(),
            mistake(
                "degrees_in_a_ratio",
                "M3",
                manifold_density=density_from_degrees("manifold_pressure", "manifold_temperature"),
            ),
            mistake("loss_added", "M8", manifold_pressure=lambda s: s.barometer + s.boost + s.cooler_pressure_loss),
        ),
        ranges={"cooler_pressure_loss": (1.8, 4, "psi")} | WARM,
    ),
    words.question(
        "aftercooling_density_gain",
        number=25,
        difficulty=3,
        givens=(OUTLET_BOOST, HOT, BOOST, COOL, BAROMETER),
        steps=(
            OUTLET,
            MANIFOLD,
            step(
                "aftercooling_density_gain",
                charge.density_gain,
                inlet_pressure="compressor_outlet_pressure",
                inlet_temperature="compressor_outlet_temperature",
                outlet_pressure="manifold_pressure",
                outlet_temperature="manifold_temperature",
            ),
        ),
        asked=(asked("aftercooling_density_gain", PER_CENT, tolerance=Tolerance(us=0.005, si=0.005)),),
        mistakes=(
            mistake("loss_left_out", "M8", manifold_pressure="compressor_outlet_pressure"),
            mistake(
                "degrees_in_a_ratio",
                "M3",
                aftercooling_density_gain=lambda s: (
                    s.manifold_pressure / s.compressor_outlet_pressure * _HOT_OVER_COOL(s) - 1
                ),
            ),
            mistake(
                "upside_down",
                "M14",
                aftercooling_density_gain=lambda s: (
                    s.compressor_outlet_pressure
                    / s.manifold_pressure
                    * s.manifold_temperature
                    / s.compressor_outlet_temperature
                    - 1
                ),
            ),
            mistake(
                "ratio_of_gauges",
                "M1",
                aftercooling_density_gain=lambda s: (
                    s.boost / s.compressor_outlet_boost * s.compressor_outlet_temperature / s.manifold_temperature - 1
                ),
            ),
        ),
        ranges={"cooler_pressure_loss": (1.5, 4, "psi")} | WARM,
    ),
    words.question(
        "which_manifold_holds_more",
        number=26,
        difficulty=2,
        givens=(
            given("boost_a", "boost", of="boost", symbol=r"p_\mathrm{boost,A}"),
            given("temperature_a", "temperature", of="temperature", symbol=r"T_\mathrm{A}"),
            given("boost_b", "boost", of="boost", symbol=r"p_\mathrm{boost,B}"),
            given("temperature_b", "temperature", of="temperature", symbol=r"T_\mathrm{B}"),
            BAROMETER,
        ),
        steps=(
            step("pressure_a", sums.absolute_pressure, boost="boost_a", quantity="pressure", symbol=r"p_\mathrm{A}"),
            step("pressure_b", sums.absolute_pressure, boost="boost_b", quantity="pressure", symbol=r"p_\mathrm{B}"),
            density("density_a", "pressure_a", "temperature_a", r"\rho_\mathrm{A}"),
            density("density_b", "pressure_b", "temperature_b", r"\rho_\mathrm{B}"),
            step("more_air_in_b", sums.gain_between),
        ),
        asked=(asked("more_air_in_b", PER_CENT, of="density_gain", tolerance=Tolerance(us=0.01, si=0.01)),),
        mistakes=(
            mistake("boost_compared", "M4", more_air_in_b=lambda s: s.boost_b / s.boost_a - 1),
            mistake(
                "degrees_in_a_ratio",
                "M3",
                more_air_in_b=lambda s: s.pressure_b / s.pressure_a * _A_OVER_B(s) - 1,
            ),
            mistake("gauges_as_absolute", "M1", pressure_a="boost_a", pressure_b="boost_b"),
            mistake("upside_down", "M14", more_air_in_b=lambda s: s.density_a / s.density_b - 1),
        ),
        ranges={"lower_by": (0.15, 0.45, "-")} | WARM,
        also=_a_and_b,
        verdict=Either(lambda s: s.more_air_in_b > 0, "more_in_b", "less_in_b"),
    ),
)
words.finished()
