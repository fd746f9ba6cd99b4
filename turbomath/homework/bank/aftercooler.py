"""Questions on aftercoolers: heat, pressure loss, leaks and fouling."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.mistakes import SHARED, degrees_ratio, mistake, offset_32, taken_as
from turbomath.homework.bank.question import Given, Tolerance
from turbomath.homework.bank.readings import (
    AIR_AT_CORE,
    COOL,
    HALF_A_PER_CENT,
    HOT,
    INLET_TEMPERATURE,
    PER_CENT,
    PRESSURE,
    RISE,
    WARM,
    asked,
    given,
)
from turbomath.homework.bank.shop_numbers import HEAT_OF_PLAIN_WATER
from turbomath.homework.bank.steps import cooled, step
from turbomath.homework.bank.wording import Either, Wording
from turbomath.physics import cooling
from turbomath.table.constants import AIR_SPECIFIC_HEAT, ZERO_CELSIUS
from turbomath.working import sums

_CLEAN_OVER_FOULED = degrees_ratio("clean_temperature", "fouled_temperature")


def _heat_of_drop(s, less):
    return AIR_SPECIFIC_HEAT * (s.compressor_outlet_temperature - s.manifold_temperature - less)


words = Wording(__file__, "aftercooler.toml", SHARED)
QUESTIONS = (
    words.question(
        "rise_over_core_air",
        number=38,
        difficulty=1,
        givens=(
            COOL,
            AIR_AT_CORE,
            INLET_TEMPERATURE,
            given("limit", "rise", of="temperature_rise"),
        ),
        steps=(
            step(
                "rise_over_core_air",
                arithmetic.rise,
                inlet_temperature="cooling_medium_temperature",
                outlet_temperature="manifold_temperature",
            ),
        ),
        asked=(asked("rise_over_core_air", RISE, of="temperature_rise"),),
        mistakes=(
            mistake(
                "air_at_compressor_inlet",
                "M12",
                rise_over_core_air=lambda s: s.manifold_temperature - s.compressor_inlet_temperature,
            ),
            mistake(
                "offset_32",
                "M10",
                only="us",
                rise_over_core_air=lambda s: s.manifold_temperature - s.cooling_medium_temperature - offset_32(),
            ),
            mistake(
                "offset_32",
                "M10",
                only="si",
                rise_over_core_air=lambda s: s.manifold_temperature - s.cooling_medium_temperature + offset_32(),
            ),
        ),
        ranges={"inlet_warming": (14, 20, "F°"), "core_warming": (0, 2, "F°"), "limit": (50, 60, "F°")},
        verdict=Either(lambda s: s.rise_over_core_air > s.limit, "over_the_limit", "within_the_limit"),
    ),
    words.question(
        "heat_rejected",
        number=39,
        difficulty=2,
        givens=(given("mass_flow"), HOT, COOL),
        steps=(
            step(
                "specific_heat_rejected",
                cooling.specific_heat_rejected,
                inlet_temperature="compressor_outlet_temperature",
                outlet_temperature="manifold_temperature",
            ),
            step("heat_rejected", sums.flow_of_heat),
        ),
        asked=(asked("heat_rejected", ("Btu/min", "kW")),),
        mistakes=(
            mistake("offset_32", "M10", only="us", specific_heat_rejected=lambda s: _heat_of_drop(s, offset_32())),
            mistake("offset_273", "M3", only="si", specific_heat_rejected=lambda s: _heat_of_drop(s, -ZERO_CELSIUS)),
            mistake("out_by_60", "M9", heat_rejected=lambda s: s.mass_flow * s.specific_heat_rejected * 60),
        ),
    ),
    words.question(
        "coolant_temperature_rise",
        number=40,
        difficulty=2,
        givens=(
            Given("heat_rejected", ("Btu/min", 10), ("kW", 0.1), source="heat"),
            Given("cooling_medium_flow", ("US gal/min", 1), ("L/min", 5), source="coolant_flow"),
        ),
        steps=(step("coolant_rise", arithmetic.coolant_rise),),
        asked=(asked("coolant_rise", RISE, of="temperature_rise", tolerance=Tolerance(0.02)),),
        mistakes=(
            mistake(
                "plain_water",
                "M9",
                coolant_rise=lambda s: s.heat_rejected / (s.cooling_medium_flow * HEAT_OF_PLAIN_WATER),
            ),
            mistake(
                "gallons_as_cubic_feet",
                "M9",
                only="us",
                cooling_medium_flow=taken_as("cooling_medium_flow", ("cfm", "cfm")),
            ),
            mistake(
                "offset_32",
                "M10",
                coolant_rise=lambda s: arithmetic.coolant_rise(s.heat_rejected, s.cooling_medium_flow) + offset_32(),
            ),
        ),
        ranges={"heat": (1000, 2600, "Btu/min"), "coolant_flow": (40, 90, "US gal/min")},
    ),
    words.question(
        "pressure_loss_at_another_flow",
        number=41,
        difficulty=2,
        givens=(
            given("cooler_pressure_loss"),
            given("flow_a", "flow", of="mass_flow", source="mass_flow", symbol=r"\dot m_\mathrm{A}"),
            given("flow_b", "flow", of="mass_flow", symbol=r"\dot m_\mathrm{B}"),
        ),
        steps=(step("loss_at_other_flow", arithmetic.loss_at_flow),),
        asked=(asked("loss_at_other_flow", PRESSURE, of="cooler_pressure_loss"),),
        mistakes=(
            mistake(
                "scaled_with_flow", "M15", loss_at_other_flow=lambda s: s.cooler_pressure_loss * s.flow_b / s.flow_a
            ),
            mistake(
                "upside_down", "M14", loss_at_other_flow=lambda s: s.cooler_pressure_loss * (s.flow_a / s.flow_b) ** 2
            ),
        ),
        ranges={"share": (0.5, 0.85, "-"), "cooler_pressure_loss": (1, 4, "psi")},
        also=lambda v, system: {"flow_b": v["mass_flow"] * v["share"]},
    ),
    words.question(
        "leak_down",
        number=42,
        difficulty=1,
        givens=(
            given("start", "boost", of="boost", symbol=r"p_\mathrm{start}"),
            Given("time", ("s", 1), ("s", 1), "fuel_time"),
            given("end", "boost", of="boost", symbol=r"p_\mathrm{end}"),
            given("limit", "boost", of="boost"),
        ),
        steps=(step("pressure_drop", arithmetic.pressure_drop, symbol=r"\Delta p"),),
        asked=(
            asked("pressure_drop", PRESSURE, of="cooler_pressure_loss", tolerance=Tolerance(0.005, us=690.0, si=500.0)),
        ),
        mistakes=(
            mistake("what_is_left", "M16", pressure_drop="end"),
            mistake(
                "drop_in_per_cent",
                "M14",
                pressure_drop=lambda s: s.answered(100 * (1 - s.end / s.start), "pressure_drop"),
            ),
        ),
        ranges={"start": (30, 30, "psi"), "time": (15, 15, "s"), "fallen": (2, 10, "psi"), "limit": (5, 5, "psi")},
        also=lambda v, system: {"end": v["start"] - v["fallen"]},
        verdict=Either(lambda s: s.pressure_drop > s.limit, "over_the_limit", "within_the_limit"),
    ),
    words.question(
        "air_lost_to_fouling",
        number=44,
        difficulty=3,
        givens=(
            HOT,
            AIR_AT_CORE,
            given(
                "clean_effectiveness", "share", of="effectiveness", source="clean", symbol=r"\varepsilon_\mathrm{clean}"
            ),
            given(
                "fouled_effectiveness",
                "share",
                of="effectiveness",
                source="fouled",
                symbol=r"\varepsilon_\mathrm{fouled}",
            ),
        ),
        steps=(
            cooled(effectiveness="clean_effectiveness", result="clean_temperature", symbol=r"T_\mathrm{clean}"),
            cooled(effectiveness="fouled_effectiveness", result="fouled_temperature", symbol=r"T_\mathrm{fouled}"),
            step(
                "change_of_air",
                arithmetic.gain_at_equal_pressure,
                inlet_temperature="clean_temperature",
                outlet_temperature="fouled_temperature",
            ),
        ),
        asked=(asked("change_of_air", PER_CENT, of="density_gain", tolerance=HALF_A_PER_CENT),),
        mistakes=(
            mistake("upside_down", "M14", change_of_air=lambda s: 1 - s.fouled_temperature / s.clean_temperature),
            mistake("wrong_sign", "M14", change_of_air=lambda s: 1 - s.clean_temperature / s.fouled_temperature),
            mistake(
                "degrees_in_a_ratio",
                "M3",
                change_of_air=lambda s: _CLEAN_OVER_FOULED(s) - 1,
            ),
            mistake(
                "effectiveness_compared",
                "M14",
                change_of_air=lambda s: s.fouled_effectiveness / s.clean_effectiveness - 1,
            ),
        ),
        ranges={"clean": (0.78, 0.9, "-"), "fouled": (0.45, 0.58, "-")} | WARM,
    ),
)
words.finished()
