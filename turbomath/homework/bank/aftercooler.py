"""Questions on aftercoolers: effectiveness, what comes out, what it costs, whether it leaks."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.common import (
    AIR_AT_CORE,
    COOLANT_IN,
    COOLANT_OUT,
    DEGREES,
    HALF_A_PER_CENT,
    IDEAL_AS_REAL,
    MULTIPLIED,
    NUMBER,
    OFFSET_32,
    PER_CENT,
    PRESSURE,
    TEMPERATURE,
    UPSIDE_DOWN,
    asked,
    cooled,
    degrees_ratio,
    given,
    ideal,
    ideal_from_degrees,
    real,
    rise_multiplied,
)
from turbomath.homework.bank.question import Given, Mistake, Question, Tolerance
from turbomath.physics import cooling
from turbomath.table.constants import AIR_SPECIFIC_HEAT
from turbomath.working import Step, sums

_HOT, _COOL, _MEDIUM = "compressor_outlet_temperature", "manifold_temperature", "cooling_medium_temperature"
HOT, COOL = given(_HOT), given(_COOL)
EFFECTIVENESS = Step(
    "effectiveness",
    cooling.effectiveness,
    {"inlet_temperature": _HOT, "outlet_temperature": _COOL, "medium_temperature": _MEDIUM},
)
HEAT = Step(
    "specific_heat_rejected", cooling.specific_heat_rejected, {"inlet_temperature": _HOT, "outlet_temperature": _COOL}
)
RISE = ("F°", "C°")
POSSIBLE_DROP = (
    "Effectiveness is the drop over the greatest possible drop, hot air less cooling medium. You divided by "
)


def _effectiveness_to(medium):
    return lambda s: (s[_HOT] - s[_COOL]) / (s[_HOT] - s[medium])


def _cooled_less(s):
    """Return the two outlet temperatures' change of density, upside down."""
    return 1 - s.fouled_temperature / s.clean_temperature


def _heat_with_drop_less(amount):
    """Return the heat [J/kg] of a drop from which so many K were wrongly taken."""
    return lambda s: AIR_SPECIFIC_HEAT * (s[_HOT] - s[_COOL] - amount)


def _coolant_rise(s, heat_of_a_cubic_metre):
    return s.heat_rejected / (s.cooling_medium_flow * heat_of_a_cubic_metre)


QUESTIONS = (
    Question(
        "effectiveness_air_to_air",
        33,
        "effectiveness of an air-to-air aftercooler",
        2,
        "Charge enters an air-to-air aftercooler at {compressor_outlet_temperature} and leaves at "
        "{manifold_temperature}. The air at the core face is at {cooling_medium_temperature}, at the compressor "
        "inlet it "
        "is at {compressor_inlet_temperature}. What is the effectiveness?",
        (HOT, COOL, AIR_AT_CORE, given("compressor_inlet_temperature")),
        (EFFECTIVENESS,),
        (asked("effectiveness", NUMBER),),
        (
            Mistake(
                "M5",
                {"effectiveness": lambda s: (s.degrees(s[_HOT]) - s.degrees(s[_COOL])) / s.degrees(s[_HOT])},
                POSSIBLE_DROP + "the hot temperature alone.",
            ),
            Mistake(
                "M5",
                {"effectiveness": degrees_ratio(_COOL, _HOT)},
                "You divided the two temperatures. Effectiveness compares drops: what the air lost and what it could "
                "have lost.",
            ),
            Mistake(
                "M12",
                {"effectiveness": _effectiveness_to("compressor_inlet_temperature")},
                "You used the air at the compressor inlet. What cools an air-to-air core is the air at its face.",
            ),
            Mistake(
                "M5",
                {"effectiveness": lambda s: (s[_COOL] - s[_MEDIUM]) / (s[_HOT] - s[_MEDIUM])},
                "You took what is left, not what was lost: that is 1 − effectiveness.",
            ),
        ),
        ("How cold could the charge get at best?", "(T2 − T3) ÷ (T2 − air at the core)."),
        {
            "inlet_warming": (14, 20, "F°"),
            "core_warming": (0, 2, "F°"),
            "effectiveness": (0.62, 0.90, "-"),
            "ambient_temperature": (40, 95, "°F"),
        },
        "With inlet and core air equally warm, or half the drop reached, mistakes would give the key.",
    ),
    Question(
        "effectiveness_jacket_water",
        34,
        "effectiveness of a jacket-water aftercooler",
        2,
        "Charge enters a jacket-water aftercooler at {compressor_outlet_temperature} and leaves at "
        "{manifold_temperature}. Coolant enters it at {cooling_medium_temperature} and leaves at "
        "{cooling_medium_outlet_temperature}; the air outside is at {ambient_temperature}. What is the effectiveness?",
        (
            HOT,
            given(_COOL, source="jacket_manifold_temperature"),
            COOLANT_IN,
            COOLANT_OUT,
            given("ambient_temperature"),
        ),
        (EFFECTIVENESS,),
        (asked("effectiveness", NUMBER),),
        (
            Mistake(
                "M12",
                {"effectiveness": _effectiveness_to("ambient_temperature")},
                "You used the air outside. Jacket water cools this one: the charge cannot get below the coolant that "
                "enters.",
            ),
            Mistake(
                "M12",
                {"effectiveness": _effectiveness_to("cooling_medium_outlet_temperature")},
                "You used the coolant that leaves. What counts is the coolant that enters.",
            ),
        ),
        ("What is the coldest thing this charge meets?", "(T2 − T3) ÷ (T2 − coolant in)."),
        {"coolant_warming": (9, 15, "F°"), "boost": (18, 36, "psi")},
        "With a small coolant rise the two coolant temperatures give the same effectiveness.",
        where=lambda s: s[_HOT] - s[_MEDIUM] > 45.0,
    ),
    Question(
        "manifold_temperature",
        35,
        "what an aftercooler gives",
        2,
        "Charge enters an aftercooler of effectiveness {effectiveness} at {compressor_outlet_temperature}; the air "
        "at the "
        "core face is at {cooling_medium_temperature}. At what temperature does it leave?",
        (given("effectiveness"), HOT, AIR_AT_CORE),
        (cooled(),),
        (asked(_COOL, TEMPERATURE),),
        (
            Mistake(
                "M5",
                {_COOL: lambda s: s.from_degrees(s.effectiveness * s.degrees(s[_HOT]))},
                "You took effectiveness times the hot temperature. It is a share of the greatest possible drop.",
            ),
            Mistake(
                "M5",
                {_COOL: lambda s: s.from_degrees((1 - s.effectiveness) * s.degrees(s[_HOT]))},
                "You took the effectiveness as a drop in per cent of the temperature. It is a share of the greatest "
                "possible drop.",
            ),
        ),
        ("What is the greatest possible drop?", "T2 − effectiveness × (T2 − air at the core)."),
    ),
    Question(
        "hot_day",
        36,
        "from inlet to manifold on a hot day",
        3,
        "Air enters the compressor at {compressor_inlet_temperature}; pressure ratio {pressure_ratio}, compressor "
        "efficiency {compressor_efficiency}, aftercooler effectiveness {effectiveness}, air at the core face "
        "{cooling_medium_temperature}. How hot is the manifold?",
        (
            given("compressor_inlet_temperature"),
            given("pressure_ratio"),
            given("compressor_efficiency"),
            given("effectiveness"),
            AIR_AT_CORE,
        ),
        (ideal(), real(), cooled()),
        (asked(_COOL, TEMPERATURE),),
        (
            Mistake("M3", {"ideal_outlet_temperature": ideal_from_degrees()}, DEGREES),
            Mistake("M6", {_HOT: rise_multiplied()}, MULTIPLIED),
            Mistake("M6", {_HOT: "ideal_outlet_temperature"}, IDEAL_AS_REAL),
            Mistake(
                "M12",
                {_COOL: lambda s: s[_HOT] - s.effectiveness * (s[_HOT] - s.compressor_inlet_temperature)},
                "You cooled with the air at the compressor inlet. What cools the core is the air at its face.",
            ),
        ),
        ("Compressor first, then aftercooler.", "Ideal, real, then T2 − effectiveness × (T2 − air at the core)."),
        {
            "ambient_temperature": (85, 105, "°F"),
            "inlet_warming": (18, 24, "F°"),
            "core_warming": (0, 2, "F°"),
            "effectiveness": (0.60, 0.72, "-"),
            "compressor_efficiency": (0.60, 0.70, "-"),
            "boost": (20, 36, "psi"),
        },
        "A good aftercooler hides what went wrong before it, and inlet and core air must differ.",
    ),
    Question(
        "jacket_water_or_air",
        37,
        "two aftercoolers at equal pressure",
        2,
        "At the same manifold pressure one engine has {jacket_temperature} behind a jacket-water aftercooler, another "
        "{air_temperature} behind an air-to-air one. How many times as dense is the second charge?",
        (
            given(
                "jacket_temperature",
                "temperature",
                of="temperature",
                source="jacket_manifold_temperature",
                symbol=r"T_\mathrm{jacket}",
            ),
            given(
                "air_temperature",
                "temperature",
                of="temperature",
                source="manifold_temperature",
                symbol=r"T_\mathrm{air}",
            ),
        ),
        (
            Step(
                "density_ratio",
                arithmetic.ratio_at_equal_pressure,
                {"inlet_temperature": "jacket_temperature", "outlet_temperature": "air_temperature"},
            ),
        ),
        (asked("density_ratio", NUMBER),),
        (
            Mistake("M3", {"density_ratio": degrees_ratio("jacket_temperature", "air_temperature")}, DEGREES),
            Mistake("M14", {"density_ratio": lambda s: s.air_temperature / s.jacket_temperature}, UPSIDE_DOWN),
        ),
        ("The cooler charge is the denser one.", "T jacket ÷ T air, both absolute."),
        {"ambient_temperature": (50, 105, "°F")},
        "Near 0 °C a ratio of °C has no sensible value.",
    ),
    Question(
        "rise_over_core_air",
        38,
        "manifold over the air that cools it",
        1,
        "The manifold is at {manifold_temperature}, the air at the core face at {cooling_medium_temperature}, at the "
        "compressor inlet at {compressor_inlet_temperature}. The shop's limit for manifold over core air is {limit}. "
        "How "
        "far is the manifold over the core air?",
        (COOL, AIR_AT_CORE, given("compressor_inlet_temperature"), given("limit", "rise", of="temperature_rise")),
        (Step("rise_over_core_air", arithmetic.rise, {"inlet_temperature": _MEDIUM, "outlet_temperature": _COOL}),),
        (asked("rise_over_core_air", RISE, of="temperature_rise"),),
        (
            Mistake(
                "M12",
                {"rise_over_core_air": lambda s: s[_COOL] - s.compressor_inlet_temperature},
                "You compared with the compressor inlet. What cools the core is the air at its face.",
            ),
            Mistake("M10", {"rise_over_core_air": lambda s: s[_COOL] - s[_MEDIUM] - 32 / 1.8}, OFFSET_32, only="us"),
            Mistake("M10", {"rise_over_core_air": lambda s: s[_COOL] - s[_MEDIUM] + 32 / 1.8}, OFFSET_32, only="si"),
        ),
        ("Which air cools the core?", "Manifold less core air: a difference, without any 32."),
        {"inlet_warming": (14, 20, "F°"), "core_warming": (0, 2, "F°"), "limit": (50, 60, "F°")},
        "With inlet and core air equally warm, the mistake would give the key.",
        verdict=lambda s: (
            "it is over the limit: look at fan, shutters and the outside of the core."
            if s.rise_over_core_air > s.limit
            else "it is within the limit."
        ),
    ),
    Question(
        "heat_rejected",
        39,
        "heat that an aftercooler carries away",
        2,
        "{mass_flow} of charge is cooled from {compressor_outlet_temperature} to {manifold_temperature}. How much heat "
        "does the aftercooler carry away?",
        (given("mass_flow"), HOT, COOL),
        (
            HEAT,
            Step(
                "heat_rejected",
                sums.flow_of_heat,
                {"mass_flow": "mass_flow", "specific_heat_rejected": "specific_heat_rejected"},
            ),
        ),
        (asked("heat_rejected", ("Btu/min", "kW")),),
        (
            Mistake("M10", {"specific_heat_rejected": _heat_with_drop_less(32 / 1.8)}, OFFSET_32, only="us"),
            Mistake(
                "M3",
                {"specific_heat_rejected": _heat_with_drop_less(-273.15)},
                "You added 273 to a difference. A difference of 50 C° is 50 K.",
                only="si",
            ),
            Mistake(
                "M9",
                {"heat_rejected": lambda s: s.mass_flow * s.specific_heat_rejected * 60},
                "You are out by 60. Look at whether the flow is for a minute, an hour or a second.",
            ),
        ),
        ("Heat = flow × specific heat × drop.", "0.240 Btu/(lb F°); 1.005 kJ/(kg K)."),
    ),
    Question(
        "coolant_temperature_rise",
        40,
        "heat into jacket water",
        2,
        "A jacket-water aftercooler gives {heat_rejected} to {cooling_medium_flow} of coolant, half water and half "
        "glycol (1050 kg/m³ or 65.5 lb/ft³; 3.6 kJ/(kg K) or 0.86 Btu/(lb F°)). How much warmer does the coolant "
        "leave?",
        (
            Given("heat_rejected", ("Btu/min", 10), ("kW", 0.1), source="heat"),
            Given("cooling_medium_flow", ("US gal/min", 1), ("L/min", 5), source="coolant_flow"),
        ),
        (
            Step(
                "coolant_rise",
                arithmetic.coolant_rise,
                {"heat_rejected": "heat_rejected", "cooling_medium_flow": "cooling_medium_flow"},
            ),
        ),
        (asked("coolant_rise", RISE, of="temperature_rise", tolerance=Tolerance(0.02)),),
        (
            Mistake(
                "M9",
                {"coolant_rise": lambda s: _coolant_rise(s, 1000.0 * 4186.0)},
                "You used the numbers of plain water. Half glycol takes about 10 % less heat.",
            ),
            Mistake(
                "M9",
                {"coolant_rise": lambda s: _coolant_rise(s, 1050.0 * 3600.0) * 7.48},
                "A US gallon is 0.1337 "
                "of a cubic foot. You put gallons where cubic feet belong, or litres where cubic metres do.",
                only="us",
            ),
            Mistake("M10", {"coolant_rise": lambda s: _coolant_rise(s, 1050.0 * 3600.0) + 32 / 1.8}, OFFSET_32),
        ),
        ("Turn the flow into mass first.", "Rise = heat ÷ (mass flow × specific heat)."),
        {"heat": (1000, 2600, "Btu/min"), "coolant_flow": (40, 90, "US gal/min")},
        verdict="a few degrees: coolant carries much heat for its flow.",
    ),
    Question(
        "pressure_loss_at_another_flow",
        41,
        "pressure loss and flow",
        2,
        "An aftercooler loses {cooler_pressure_loss} at {flow_a}. What does it lose at {flow_b}, at the same pressure "
        "and temperature?",
        (
            given("cooler_pressure_loss"),
            given("flow_a", "flow", of="mass_flow", source="mass_flow", symbol=r"\dot m_\mathrm{A}"),
            given("flow_b", "flow", of="mass_flow", symbol=r"\dot m_\mathrm{B}"),
        ),
        (
            Step(
                "loss_at_other_flow",
                arithmetic.loss_at_flow,
                {"cooler_pressure_loss": "cooler_pressure_loss", "flow_a": "flow_a", "flow_b": "flow_b"},
            ),
        ),
        (asked("loss_at_other_flow", PRESSURE, of="cooler_pressure_loss"),),
        (
            Mistake(
                "M15",
                {"loss_at_other_flow": lambda s: s.cooler_pressure_loss * s.flow_b / s.flow_a},
                "You scaled with the flow. In turbulent flow the loss goes with its square.",
            ),
            Mistake(
                "M14",
                {"loss_at_other_flow": lambda s: s.cooler_pressure_loss * (s.flow_a / s.flow_b) ** 2},
                UPSIDE_DOWN,
            ),
        ),
        ("Half the flow: a quarter of the loss.", "Loss × (flow B ÷ flow A)²."),
        {"share": (0.5, 0.85, "-"), "cooler_pressure_loss": (1, 4, "psi")},
        also=lambda v, system: {"flow_b": v["mass_flow"] * v["share"]},
        verdict="less flow, and much less loss.",
    ),
    Question(
        "leak_down",
        42,
        "does the core leak?",
        1,
        "An aftercooler off the engine, capped by the maker's tool, is filled to {start}. After {time} the gauge reads "
        "{end}. The limit for the drop is {limit}. How far did it drop?",
        (
            given("start", "boost", of="boost", symbol=r"p_\mathrm{start}"),
            Given("time", ("s", 1), ("s", 1), "fuel_time"),
            given("end", "boost", of="boost", symbol=r"p_\mathrm{end}"),
            given("limit", "boost", of="boost"),
        ),
        (Step("pressure_drop", arithmetic.pressure_drop, {"start": "start", "end": "end"}, symbol=r"\Delta p"),),
        (asked("pressure_drop", PRESSURE, of="cooler_pressure_loss", tolerance=Tolerance(0.005, us=690.0, si=500.0)),),
        (
            Mistake("M16", {"pressure_drop": "end"}, "That is what is left. Asked is how far it fell."),
            Mistake(
                "M14",
                {"pressure_drop": lambda s: s.answered(100 * (1 - s.end / s.start), "pressure_drop")},
                "That is the drop in per cent. The limit is a pressure, so give the drop as a pressure.",
            ),
        ),
        ("Start less end.", "Then compare with the limit."),
        {"start": (30, 30, "psi"), "time": (15, 15, "s"), "fallen": (2, 10, "psi"), "limit": (5, 5, "psi")},
        also=lambda v, system: {"end": v["start"] - v["fallen"]},
        verdict=lambda s: (
            "it is over the limit: the core fails." if s.pressure_drop > s.limit else "it is within the limit."
        ),
    ),
    Question(
        "air_lost_to_fouling",
        44,
        "what a fouled core costs",
        3,
        "Charge enters an aftercooler at {compressor_outlet_temperature}, air at the core face "
        "{cooling_medium_temperature}. "
        "Clean, it had an effectiveness of {clean_effectiveness}; fouled, {fouled_effectiveness}. At the same manifold "
        "pressure, by how many per cent does the air in the manifold change? (A loss is negative.)",
        (
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
        (
            cooled(effectiveness="clean_effectiveness", result="clean_temperature", symbol=r"T_\mathrm{clean}"),
            cooled(effectiveness="fouled_effectiveness", result="fouled_temperature", symbol=r"T_\mathrm{fouled}"),
            Step(
                "change_of_air",
                arithmetic.gain_at_equal_pressure,
                {"inlet_temperature": "clean_temperature", "outlet_temperature": "fouled_temperature"},
            ),
        ),
        (asked("change_of_air", PER_CENT, of="density_gain", tolerance=HALF_A_PER_CENT),),
        (
            Mistake("M14", {"change_of_air": _cooled_less}, UPSIDE_DOWN + " The clean core is the 100 %."),
            Mistake(
                "M14",
                {"change_of_air": lambda s: 1 - s.clean_temperature / s.fouled_temperature},
                "The size is right, the sign is not: a hotter manifold holds less.",
            ),
            Mistake(
                "M3",
                {"change_of_air": lambda s: degrees_ratio("clean_temperature", "fouled_temperature")(s) - 1},
                DEGREES,
            ),
            Mistake(
                "M14",
                {"change_of_air": lambda s: s.fouled_effectiveness / s.clean_effectiveness - 1},
                "You compared the two effectivenesses. Work both manifold temperatures out first.",
            ),
        ),
        ("Two manifold temperatures first.", "T clean ÷ T fouled − 1, both absolute."),
        {"clean": (0.78, 0.90, "-"), "fouled": (0.45, 0.58, "-"), "ambient_temperature": (50, 105, "°F")},
        "A small change would look the same with the ratio upside down.",
        verdict="a fouled core leaves the charge hotter and thinner, so the change is a loss.",
    ),
)
