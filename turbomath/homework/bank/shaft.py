"""Questions on the shaft of a turbocharger: how far the exhaust expands, what it gives, whether the two ends agree."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.mistakes import SEA_LEVEL, SHARED, mistake, offset_32
from turbomath.homework.bank.question import Tolerance
from turbomath.homework.bank.readings import BAROMETER, HOT, INLET_TEMPERATURE, NUMBER, POWER, asked, given
from turbomath.homework.bank.steps import step
from turbomath.homework.bank.wording import Wording
from turbomath.physics import compression, exhaust_readings, shaft
from turbomath.table.constants import AIR_SPECIFIC_HEAT, ZERO_CELSIUS
from turbomath.working import sums
from turbomath.working.coherent import EXHAUST_SPECIFIC_HEAT

BEFORE, AFTER = "turbine_inlet_temperature", "turbine_outlet_temperature"
FLOWS = (given("mass_flow"), given("fuel_flow", "fuel"))
EXHAUST_TEMPERATURES = (given(BEFORE, "temperature"), given(AFTER, "temperature"))
TURBINE = (
    step("exhaust_mass_flow", sums.exhaust_mass_flow),
    step("specific_turbine_work", arithmetic.exhaust_work),
    step("turbine_power", arithmetic.flow_of_exhaust_work),
)
FULL_LOAD = {
    "air_fuel_ratio": (19, 24, "-"),  # so that fuel forgotten still shows
    BEFORE: (850, 1150, "°F"),
    "shaft_power_ratio": (0.90, 0.99, "-"),
    "boost": (16, 32, "psi"),
}


def _exhaust(drawn, system):
    """Return fuel, and the temperature after a turbine that drives the compressor."""
    fuel = drawn["mass_flow"] / drawn["air_fuel_ratio"]
    rise = drawn["compressor_outlet_temperature"] - drawn["compressor_inlet_temperature"]
    taken = drawn["mass_flow"] * AIR_SPECIFIC_HEAT * rise
    drop = taken / (drawn["shaft_power_ratio"] * (drawn["mass_flow"] + fuel) * EXHAUST_SPECIFIC_HEAT)
    return {"fuel_flow": fuel, AFTER: drawn[BEFORE] - drop}


def _pressures(drawn, system):
    """Return what the gauge before the turbine shows."""
    after = drawn["barometer"] + drawn["exhaust_back_pressure"]
    return {"turbine_inlet_boost": drawn["expansion_ratio"] * after - drawn["barometer"]}


def _drop(s):
    return s[BEFORE] - s[AFTER]


def _as_air(s):
    return AIR_SPECIFIC_HEAT * _drop(s)


def _as_level(offset):
    return lambda s: EXHAUST_SPECIFIC_HEAT * (_drop(s) + offset)


AS_EXHAUST = (
    mistake("air_for_exhaust", "M16", specific_turbine_work=_as_air),
    mistake("fuel_forgotten", "M16", exhaust_mass_flow="mass_flow"),
)

words = Wording(__file__, "shaft.toml", SHARED)
QUESTIONS = (
    words.question(
        "expansion_ratio",
        number=0,
        difficulty=1,
        givens=(
            BAROMETER,
            given("turbine_inlet_boost", "boost", of="boost", symbol=r"p_{4,\mathrm{gauge}}"),
            given("exhaust_back_pressure", "back pressure"),
        ),
        steps=(
            step("turbine_inlet_pressure", sums.absolute_pressure, boost="turbine_inlet_boost"),
            step("turbine_outlet_pressure", sums.turbine_outlet_pressure),
            step("expansion_ratio", exhaust_readings.expansion_ratio),
        ),
        asked=(asked("expansion_ratio", NUMBER, tolerance=Tolerance(0.007)),),
        mistakes=(
            mistake(
                "gauge_over_gauge",
                "M1",
                turbine_inlet_pressure="turbine_inlet_boost",
                turbine_outlet_pressure="exhaust_back_pressure",
            ),
            mistake("inlet_as_absolute", "M1", turbine_inlet_pressure="turbine_inlet_boost"),
            mistake("back_pressure_forgotten", "M6", turbine_outlet_pressure="barometer"),
            SEA_LEVEL,
            mistake(
                "upside_down", "M14", expansion_ratio=lambda s: s.turbine_outlet_pressure / s.turbine_inlet_pressure
            ),
        ),
        ranges={
            "expansion_ratio": (1.6, 2.8, "-"),
            "exhaust_back_pressure": (1.2, 3.0, "inHg"),
            "elevation": (2500, 5500, "ft"),
        },
        also=_pressures,
    ),
    words.question(
        "turbine_power",
        number=0,
        difficulty=2,
        givens=(*FLOWS, *EXHAUST_TEMPERATURES),
        steps=TURBINE,
        asked=(asked("turbine_power", POWER),),
        mistakes=(
            *AS_EXHAUST,
            mistake("offset_32", "M10", only="us", specific_turbine_work=lambda s: _as_level(-offset_32())(s)),
            mistake("offset_273", "M3", only="si", specific_turbine_work=_as_level(ZERO_CELSIUS)),
            mistake("hour_and_minute", "M9", exhaust_mass_flow=lambda s: s.mass_flow + 60 * s.fuel_flow),
        ),
        ranges=FULL_LOAD,
        also=_exhaust,
    ),
    words.question(
        "closing_the_shaft",
        number=0,
        difficulty=3,
        givens=(*FLOWS, INLET_TEMPERATURE, HOT, *EXHAUST_TEMPERATURES),
        steps=(
            step(
                "specific_compressor_work",
                compression.specific_work,
                inlet_temperature="compressor_inlet_temperature",
                outlet_temperature="compressor_outlet_temperature",
            ),
            step("compressor_power", sums.flow_of_work),
            *TURBINE,
            step("shaft_power_ratio", shaft.power_ratio),
        ),
        asked=(asked("shaft_power_ratio", NUMBER, tolerance=Tolerance(0.012)),),
        mistakes=(
            *AS_EXHAUST,
            mistake("offset_32", "M10", only="us", specific_turbine_work=lambda s: _as_level(-offset_32())(s)),
            mistake("offset_273", "M3", only="si", specific_turbine_work=_as_level(ZERO_CELSIUS)),
            mistake("upside_down", "M14", shaft_power_ratio=lambda s: s.turbine_power / s.compressor_power),
        ),
        ranges=FULL_LOAD,
        also=_exhaust,
    ),
)
words.finished()
