"""Questions on fuel, air and power, and on flow brought to the day of a compressor map."""

import numpy as np

from turbomath.homework.bank.mistakes import SHARED, mistake
from turbomath.homework.bank.question import Tolerance
from turbomath.homework.bank.readings import FLOW, INLET_TEMPERATURE, NUMBER, POWER, asked, given
from turbomath.homework.bank.shop_numbers import PETROL_AIR_FUEL_RATIO, POWER_DIVISOR
from turbomath.homework.bank.steps import step
from turbomath.homework.bank.wording import Wording
from turbomath.physics import correction, fuel
from turbomath.working.coherent import from_si, to_si

MASS_FLOW, RATED_POWER = given("mass_flow"), given("power", "power")
CONSUMPTION = given("specific_fuel_consumption", "consumption")
RATED = {"power": (250, 550, "hp"), "specific_fuel_consumption": (0.32, 0.40, "lb/hp·h")}
MAP_DAYS = {  # reference states printed on maps: temperature and pressure in the units of the sheet
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
    """Return one of three reference states, by a number from 0 to 1."""
    names, place = ("reference_temperature", "reference_pressure"), (drawn["map_share"] * 2.999).astype(int)
    return {
        name: np.array([to_si(number, unit, name) for number in numbers])[place]
        for name, (unit, numbers) in zip(names, MAP_DAYS[system], strict=True)
    }


def _power_over_consumption(s):
    return s.answered(s.number("power") / s.number("specific_fuel_consumption"), "fuel_flow")


def _kilowatts_by_horsepower_hours(s):
    return s.answered(from_si(s.power, "kW", "power") * s.number("specific_fuel_consumption"), "fuel_flow")


def _power_over_fuel(s):
    power, fuel_mass = s.number("power"), s.number("fuel_mass")
    return s.answered(power / (fuel_mass / s.number("fuel_time") * 3600), "specific_fuel_consumption")


def _power_by(divisor):
    return lambda s: s.answered(s.number("torque") * s.number("engine_speed") / divisor, "power")


def _allowed(s):
    return s.mass_flow / s.air_fuel_ratio / s.specific_fuel_consumption


def _corrected(s):
    warmth = np.sqrt(s.compressor_inlet_temperature / s.reference_temperature)
    return s.mass_flow * warmth * s.reference_pressure / s.inlet_pressure


def _corrected_from_degrees(s):
    warmth = np.sqrt(s.degrees(s.compressor_inlet_temperature) / s.degrees(s.reference_temperature))
    return s.mass_flow * s.reference_pressure / s.inlet_pressure * warmth


words = Wording(__file__, "fuel.toml", SHARED)
QUESTIONS = (
    words.question(
        "air_fuel_ratio",
        number=48,
        difficulty=1,
        givens=(MASS_FLOW, given("fuel_flow", "fuel")),
        steps=(step("air_fuel_ratio", fuel.air_fuel_ratio),),
        asked=(asked("air_fuel_ratio", NUMBER, tolerance=Tolerance(0.015)),),
        mistakes=(
            mistake("minute_as_hour", "M9", air_fuel_ratio=lambda s: s.mass_flow / s.fuel_flow / 60),
            mistake("petrol_ratio", "M17", air_fuel_ratio=PETROL_AIR_FUEL_RATIO),
        ),
        ranges={"air_fuel_ratio": (20, 34, "-")},
        also=_burnt,
    ),
    words.question(
        "fuel_rate",
        number=49,
        difficulty=1,
        givens=(RATED_POWER, CONSUMPTION),
        steps=(step("fuel_flow", fuel.fuel_flow),),
        asked=(asked("fuel_flow", ("lb/h", "kg/h")),),
        mistakes=(
            mistake("divided", "M14", fuel_flow=_power_over_consumption),
            mistake("hp_as_kw", "M9", only="us", fuel_flow=_kilowatts_by_horsepower_hours),
            mistake("left_in_grams", "M9", only="si", fuel_flow=lambda s: 1000 * s.power * s.specific_fuel_consumption),
        ),
        ranges=RATED,
    ),
    words.question(
        "consumption_from_weighed_fuel",
        number=50,
        difficulty=2,
        givens=(RATED_POWER, given("fuel_mass", "fuel mass"), given("fuel_time", "seconds")),
        steps=(step("fuel_flow", fuel.weighed_fuel_flow), step("specific_fuel_consumption", fuel.specific_consumption)),
        asked=(asked("specific_fuel_consumption", ("lb/hp·h", "g/kW·h")),),
        mistakes=(
            mistake("fuel_of_a_minute", "M9", fuel_flow=lambda s: s.fuel_mass / s.fuel_time / 60),
            mistake("seconds_as_hundredths", "M9", fuel_flow=lambda s: s.fuel_mass / s.fuel_time / 0.6),
            mistake("upside_down", "M14", only="us", specific_fuel_consumption=_power_over_fuel),
        ),
        ranges={**RATED, "fuel_mass": (4, 12, "lb")},
        also=_weighed,
    ),
    words.question(
        "power_at_the_smoke_limit",
        number=51,
        difficulty=2,
        givens=(
            MASS_FLOW,
            given("air_fuel_ratio", "air-fuel ratio"),
            CONSUMPTION,
        ),
        steps=(step("power_potential", fuel.power_potential),),
        asked=(asked("power_potential", POWER),),
        mistakes=(
            mistake("petrol_ratio", "M17", air_fuel_ratio=PETROL_AIR_FUEL_RATIO),
            mistake("minute_as_hour", "M9", power_potential=lambda s: _allowed(s) / 60),
            mistake("grams_as_kilograms", "M9", only="si", power_potential=lambda s: 1000 * _allowed(s)),
        ),
        ranges={"air_fuel_ratio": (20, 28, "-"), "specific_fuel_consumption": RATED["specific_fuel_consumption"]},
    ),
    words.question(
        "power_from_torque",
        number=52,
        difficulty=1,
        givens=(given("torque", "torque"), given("engine_speed")),
        steps=(step("power", fuel.power),),
        asked=(asked("power", POWER),),
        mistakes=(
            mistake("divided_by_9549", "M9", only="us", power=_power_by(POWER_DIVISOR["si"])),
            mistake("divided_by_5252", "M9", only="si", power=_power_by(POWER_DIVISOR["us"])),
            mistake("two_pi_left_out", "M9", power=lambda s: s.torque * s.engine_speed),
        ),
        ranges={"power": RATED["power"]},
        also=_torque,
    ),
    words.question(
        "flow_on_the_map",
        number=58,
        difficulty=3,
        givens=(
            MASS_FLOW,
            INLET_TEMPERATURE,
            given(
                "inlet_pressure", "barometer", of="ambient_pressure", source="compressor_inlet_pressure", symbol="p_1"
            ),
            given("reference_temperature", "temperature"),
            given("reference_pressure", "barometer"),
        ),
        steps=(
            step(
                "corrected_mass_flow",
                correction.corrected_mass_flow,
                pressure="inlet_pressure",
                temperature="compressor_inlet_temperature",
            ),
        ),
        asked=(asked("corrected_mass_flow", FLOW),),
        mistakes=(
            mistake("degrees_in_a_ratio", "M3", corrected_mass_flow=_corrected_from_degrees),
            mistake("upside_down", "M14", corrected_mass_flow=lambda s: s.mass_flow**2 / _corrected(s)),
            mistake(
                "pressures_turned_round",
                "M14",
                corrected_mass_flow=lambda s: _corrected(s) * (s.inlet_pressure / s.reference_pressure) ** 2,
            ),
        ),
        ranges={"map_share": (0, 1, "-"), "elevation": (2500, 5500, "ft"), "ambient_temperature": (30, 105, "°F")},
        also=_map_day,
    ),
)
words.finished()
