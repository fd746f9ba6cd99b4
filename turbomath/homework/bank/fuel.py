"""Questions on fuel, air and power, and on flow brought to the day of a compressor map."""

import numpy as np

from turbomath.homework.bank.common import UPSIDE_DOWN, asked, given
from turbomath.homework.bank.question import Mistake, Question, Tolerance
from turbomath.physics import correction, fuel
from turbomath.working import Step
from turbomath.working.coherent import to_si

FUEL, POWER, CONSUMPTION = ("lb/h", "kg/h"), ("hp", "kW"), ("lb/hp·h", "g/kW·h")
RATED = {"power": (250, 550, "hp"), "specific_fuel_consumption": (0.32, 0.40, "lb/hp·h")}
NO_SIXTY = "You are out by 60. The air is for a minute and the fuel for an hour: multiply the air by 60 first."
PETROL = (
    "You used 14.7, which is for petrol with a spark. A diesel has no such target: it runs with air to spare, "
    "and smokes well before it comes to 14.7."
)
_MAP_DAYS = {  # reference states printed on maps: temperature and pressure in the units of the sheet
    "us": (("°F", (59, 77, 85)), ("inHg", (29.92, 29.53, 28.40))),
    "si": (("°C", (15, 25, 30)), ("kPa", (101.3, 100.0, 96.2))),
}


def _burnt(drawn, system):
    return {"fuel_flow": drawn["mass_flow"] / drawn["air_fuel_ratio"]}


def _weighed(drawn, system):
    return {"fuel_time": drawn["fuel_mass"] / (drawn["power"] * drawn["specific_fuel_consumption"])}


def _torque(drawn, system):
    return {"torque": drawn["power"] / (2 * np.pi * drawn["engine_speed"])}


def _map_day(drawn, system):
    """One of three reference states, by a number from 0 to 1."""
    names, place = ("reference_temperature", "reference_pressure"), (drawn["map_share"] * 2.999).astype(int)
    return {
        name: np.array([to_si(number, unit, name) for number in numbers])[place]
        for name, (unit, numbers) in zip(names, _MAP_DAYS[system], strict=True)
    }


QUESTIONS = (
    Question(
        "air_fuel_ratio",
        48,
        "air-fuel ratio from air and fuel",
        1,
        "An engine draws in {mass_flow} of air and burns {fuel_flow} of fuel. What is its air-fuel ratio?",
        (given("mass_flow"), given("fuel_flow", "fuel")),
        (Step("air_fuel_ratio", fuel.air_fuel_ratio, {"mass_flow": "mass_flow", "fuel_flow": "fuel_flow"}),),
        (asked("air_fuel_ratio", ("-", "-"), tolerance=Tolerance(0.015)),),
        (
            Mistake("M9", {"air_fuel_ratio": lambda s: s.mass_flow / s.fuel_flow / 60}, NO_SIXTY),
            Mistake("M17", {"air_fuel_ratio": 14.7}, PETROL),
        ),
        ("Are both flows for the same time?", "Air × 60 ÷ fuel."),
        {"air_fuel_ratio": (20, 34, "-")},
        also=_burnt,
        verdict="a diesel at full load has 22 to 32, and begins to smoke under 18 to 20 (common practice).",
    ),
    Question(
        "fuel_rate",
        49,
        "fuel flow from power and specific consumption",
        1,
        "An engine gives {power} with a specific fuel consumption of {specific_fuel_consumption}. How much fuel does "
        "it burn in an hour?",
        (given("power", "power"), given("specific_fuel_consumption", "consumption")),
        (
            Step(
                "fuel_flow",
                fuel.fuel_flow,
                {"power": "power", "specific_fuel_consumption": "specific_fuel_consumption"},
            ),
        ),
        (asked("fuel_flow", FUEL),),
        (
            Mistake(
                "M14",
                {
                    "fuel_flow": lambda s: s.answered(
                        s.number("power") / s.number("specific_fuel_consumption"), "fuel_flow"
                    )
                },
                "You divided. The consumption is fuel for each unit of power and hour: multiply by the power.",
            ),
            Mistake(
                "M9",
                {"fuel_flow": lambda s: 0.7457 * s.power * s.specific_fuel_consumption},
                "You turned hp into kW. The consumption is for each hp, so leave the power in hp.",
                only="us",
            ),
            Mistake(
                "M9",
                {"fuel_flow": lambda s: 1000 * s.power * s.specific_fuel_consumption},
                "You left it in grams. Divide by 1,000: the flow is asked in kg.",
                only="si",
            ),
        ),
        ("What does one unit of power burn in an hour?", "Power × specific fuel consumption."),
        RATED,
    ),
    Question(
        "consumption_from_weighed_fuel",
        50,
        "specific fuel consumption from a scale and a stopwatch",
        2,
        "At a steady {power} an engine burns {fuel_mass} of fuel in {fuel_time}. What is its specific fuel "
        "consumption?",
        (given("power", "power"), given("fuel_mass", "fuel mass"), given("fuel_time", "seconds")),
        (
            Step("fuel_flow", fuel.weighed_fuel_flow, {"fuel_mass": "fuel_mass", "fuel_time": "fuel_time"}),
            Step("specific_fuel_consumption", fuel.specific_consumption, {"fuel_flow": "fuel_flow", "power": "power"}),
        ),
        (asked("specific_fuel_consumption", CONSUMPTION),),
        (
            Mistake(
                "M9",
                {"fuel_flow": lambda s: s.fuel_mass / s.fuel_time / 60},
                "You multiplied by 60. That is the fuel for a minute; an hour has 3,600 seconds.",
            ),
            Mistake(
                "M9",
                {"fuel_flow": lambda s: s.fuel_mass / s.fuel_time / 0.6},
                "You wrote the seconds as hundredths of a minute. Divide by 60: 126 s are 2.10 minutes, not 1.26.",
            ),
            Mistake(
                "M14",
                {"specific_fuel_consumption": lambda s: s.answered(_power_over_fuel(s), "specific_fuel_consumption")},
                UPSIDE_DOWN,
                only="us",
            ),
        ),
        ("How much fuel would an hour take?", "Fuel ÷ seconds × 3,600 ÷ power."),
        {**RATED, "fuel_mass": (4, 12, "lb")},
        also=_weighed,
    ),
    Question(
        "power_at_the_smoke_limit",
        51,
        "the power that the air allows before smoke",
        2,
        "An engine draws in {mass_flow} of air. It must not run richer than an air-fuel ratio of {air_fuel_ratio}, and "
        "its specific fuel consumption is {specific_fuel_consumption}. What power does the air allow?",
        (
            given("mass_flow"),
            given("air_fuel_ratio", "air-fuel ratio"),
            given("specific_fuel_consumption", "consumption"),
        ),
        (
            Step(
                "power_potential",
                fuel.power_potential,
                {
                    "mass_flow": "mass_flow",
                    "air_fuel_ratio": "air_fuel_ratio",
                    "specific_fuel_consumption": "specific_fuel_consumption",
                },
            ),
        ),
        (asked("power_potential", POWER),),
        (
            Mistake("M17", {"air_fuel_ratio": 14.7}, PETROL),
            Mistake("M9", {"power_potential": lambda s: _allowed(s) / 60}, NO_SIXTY),
            Mistake(
                "M9",
                {"power_potential": lambda s: 1000 * _allowed(s)},
                "You mixed grams and kilograms. Turn the consumption into kg for each kW and hour first: divide by "
                "1,000.",
                only="si",
            ),
        ),
        ("How much fuel may it burn in an hour?", "Air × 60 ÷ air-fuel ratio ÷ specific fuel consumption."),
        {"air_fuel_ratio": (20, 28, "-"), "specific_fuel_consumption": RATED["specific_fuel_consumption"]},
        verdict="this is what the air allows. The maker's rating, peak pressure and heat decide what the engine gets.",
    ),
    Question(
        "power_from_torque",
        52,
        "power from torque and speed",
        1,
        "A brake holds {torque} at {engine_speed}. What power is that?",
        (given("torque", "torque"), given("engine_speed")),
        (Step("power", fuel.power, {"torque": "torque", "engine_speed": "engine_speed"}),),
        (asked("power", POWER),),
        (
            Mistake(
                "M9",
                {"power": lambda s: s.answered(s.number("torque") * s.number("engine_speed") / 9549, "power")},
                "You divided by 9,549. That is for N·m and kW; for lbf·ft and hp divide by 5,252.",
                only="us",
            ),
            Mistake(
                "M9",
                {"power": lambda s: s.answered(s.number("torque") * s.number("engine_speed") / 5252, "power")},
                "You divided by 5,252. That is for lbf·ft and hp; for N·m and kW divide by 9,549.",
                only="si",
            ),
            Mistake(
                "M9",
                {"power": lambda s: s.torque * s.engine_speed},
                "You left 2π out. One turn is 2π times the arm: it is in 5,252 and in 9,549.",
            ),
        ),
        ("Power is torque × turning.", "lbf·ft × rpm ÷ 5,252 is hp; N·m × rpm ÷ 9,549 is kW."),
        {"power": RATED["power"]},
        also=_torque,
    ),
    Question(
        "flow_on_the_map",
        58,
        "air flow brought to the day of a compressor map",
        3,
        "A compressor takes {mass_flow} in at {compressor_inlet_temperature} and {inlet_pressure} absolute. Its map is "
        "drawn for {reference_temperature} and {reference_pressure} absolute. At which flow of the map does it stand?",
        (
            given("mass_flow"),
            given("compressor_inlet_temperature"),
            given(
                "inlet_pressure", "barometer", of="ambient_pressure", source="compressor_inlet_pressure", symbol="p_1"
            ),
            given("reference_temperature", "temperature"),
            given("reference_pressure", "barometer"),
        ),
        (
            Step(
                "corrected_mass_flow",
                correction.corrected_mass_flow,
                {
                    "mass_flow": "mass_flow",
                    "pressure": "inlet_pressure",
                    "temperature": "compressor_inlet_temperature",
                    "reference_pressure": "reference_pressure",
                    "reference_temperature": "reference_temperature",
                },
            ),
        ),
        (asked("corrected_mass_flow", ("lb/min", "kg/min")),),
        (
            Mistake(
                "M3",
                {
                    "corrected_mass_flow": lambda s: (
                        s.mass_flow
                        * s.reference_pressure
                        / s.inlet_pressure
                        * np.sqrt(s.degrees(s.compressor_inlet_temperature) / s.degrees(s.reference_temperature))
                    )
                },
                "You put °F or °C under the root. Neither counts from absolute zero: use °R (°F + 460) or K "
                "(°C + 273).",
            ),
            Mistake("M14", {"corrected_mass_flow": lambda s: s.mass_flow**2 / _corrected(s)}, UPSIDE_DOWN),
            Mistake(
                "M14",
                {"corrected_mass_flow": lambda s: _corrected(s) * (s.inlet_pressure / s.reference_pressure) ** 2},
                "You turned the pressures round. The same wheel moves more pounds of thick air: on the map's thicker "
                "air the flow is larger.",
            ),
        ),
        ("Would the same wheel move more air or less on the map's day?", "Flow × √(T ÷ T map) ÷ (p ÷ p map)."),
        {"map_share": (0, 1, "-"), "elevation": (2500, 5500, "ft"), "ambient_temperature": (30, 105, "°F")},
        "Near the map's own day a correction upside down would not show.",
        also=_map_day,
        verdict="a flow means nothing on a map without the state that the map is drawn for.",
    ),
)


def _power_over_fuel(sheet):
    power, fuel_mass = sheet.number("power"), sheet.number("fuel_mass")
    return power / (fuel_mass / sheet.number("fuel_time") * 3600)


def _allowed(sheet):
    return sheet.mass_flow / sheet.air_fuel_ratio / sheet.specific_fuel_consumption


def _corrected(sheet):
    return (
        sheet.mass_flow
        * np.sqrt(sheet.compressor_inlet_temperature / sheet.reference_temperature)
        * sheet.reference_pressure
        / sheet.inlet_pressure
    )
