"""Ten questions on the misconceptions of the lessons, to be asked before the course and again after it.

Each seat has numbers of its own, and other ones the second time; the options stand for the same slips both times.
"""

import functools
from collections.abc import Callable, Mapping
from typing import Any

from turbomath.homework.bank.question import Case, Option
from turbomath.homework.bank.readings import HIGH_GROUND, SHOWN
from turbomath.homework.bank.wording import Wording
from turbomath.physics import compression
from turbomath.table.constants import STANDARD_PRESSURE
from turbomath.table.prose import Prose
from turbomath.working.coherent import from_si, to_si
from turbomath.working.writing import fixed, with_unit

GRADE = 0.02  # of the span
SPANS = {"us": ("psi", (60, 100)), "si": ("kPa", (400, 600))}
Values = Callable[["Sheet"], Mapping[str, str]]


class Sheet:
    """What one engine draws, as the gauges of a system of units show it."""

    def __init__(self, drawn: Mapping[str, float], system: str) -> None:
        self.drawn, self.si = drawn, system == "si"

    def __getitem__(self, name: str) -> float:
        return self.drawn[name]

    def read(self, value: float, sort: str, quantity: str) -> float:
        """Return an SI value [SI] as the nearest mark of a sort of gauge shows it."""
        unit, mark = SHOWN[sort][self.si]
        return to_si(round(from_si(value, unit, quantity) / mark) * mark, unit, quantity)

    def text(self, value: float, sort: str, quantity: str) -> str:
        """Return an SI value as a sort of gauge shows it, with its unit."""
        unit, mark = SHOWN[sort][self.si]
        decimals = len(f"{mark:g}".partition(".")[2])
        return with_unit(fixed(from_si(self.read(value, sort, quantity), unit, quantity), decimals), unit)

    def barometer(self) -> float:
        """Return the station barometer [Pa] to the mark of its gauge."""
        return self.read(self["barometer"], "barometer", "barometer")


class WithNumbers:
    """Makes the one case of a seat: the words of the question with the seat's numbers put in."""

    def __init__(self, values: Values, words: Prose) -> None:
        self.values, self.text = values, words.raw("text")
        self.options = [
            (one.raw("words"), one.text("reply"), one.raw("mistake", "")) for one in words.tables("options")
        ]

    def __call__(self, drawn: Mapping[str, float], system: str) -> tuple[Case, ...]:
        """Return the case, the right option first."""
        put = self.values(Sheet(drawn, system))
        options = tuple(Option(words.format(**put), reply, code) for words, reply, code in self.options)
        return (Case(self.text.format(**put), options),)


def _gauge_at_rest(sheet):
    shown = functools.partial(sheet.text, sort="barometer", quantity="barometer")
    return {"barometer": shown(sheet.barometer()), "none": shown(0.0), "standard": shown(STANDARD_PRESSURE)}


def _same_boost_up_high(sheet):
    sea = sheet.read(sheet["sea_level_pressure"], "barometer", "barometer")
    return {
        "boost": sheet.text(sheet["boost"], "boost", "boost"),
        "sea": sheet.text(sea, "barometer", "barometer"),
        "barometer": sheet.text(sheet.barometer(), "barometer", "barometer"),
        "difference": sheet.text(sea - sheet.barometer(), "barometer", "barometer"),
    }


def _behind_the_filter(sheet):
    restriction = sheet.read(sheet["intake_restriction"], "restriction", "intake_restriction")
    shown = functools.partial(sheet.text, sort="absolute", quantity="pressure")
    return {
        "barometer": sheet.text(sheet.barometer(), "barometer", "barometer"),
        "restriction": sheet.text(restriction, "restriction", "intake_restriction"),
        "less": shown(sheet.barometer() - restriction),
        "more": shown(sheet.barometer() + restriction),
        "same": shown(sheet.barometer()),
    }


def _losses_are_heat(sheet):
    shown = functools.partial(sheet.text, sort="rise", quantity="temperature_rise")
    inlet, efficiency = sheet["compressor_inlet_temperature"], round(sheet["compressor_efficiency"], 2)
    ideal = compression.ideal_outlet_temperature(1e5, inlet, 1e5 * sheet["pressure_ratio"]) - inlet
    ideal = sheet.read(ideal, "rise", "temperature_rise")
    return {
        "ideal": shown(ideal),
        "efficiency": fixed(efficiency, 2),
        "divided": shown(ideal / efficiency),
        "multiplied": shown(ideal * efficiency),
    }


def _twice_the_reading(sheet):
    unit, _ = SHOWN["temperature"][sheet.si]
    degrees = round(from_si(sheet["ambient_temperature"], unit, "temperature"))
    cold, hot = (to_si(one, unit, "temperature") for one in (degrees, 2 * degrees))
    shown = functools.partial(sheet.text, sort="temperature", quantity="temperature")
    return {"cold": shown(cold), "hot": shown(hot), "less": f"{100 * (1 - cold / hot):.0f}"}


def _more_boost_or_cooler(sheet):
    more, less = sheet["boost"], sheet["boost"] - sheet["step_down"]
    boost = functools.partial(sheet.text, sort="boost", quantity="boost")
    temperature = functools.partial(sheet.text, sort="temperature", quantity="temperature")
    return {
        "barometer": sheet.text(sheet.barometer(), "barometer", "barometer"),
        "more": boost(more),
        "less": boost(less),
        "hot": temperature(sheet["hot_charge"]),
        "cool": temperature(sheet["cool_charge"]),
    }


def _share_of_the_drop(sheet):
    hot, cold = (sheet.read(sheet[name], "temperature", "temperature") for name in ("hot_charge", "cool_air"))
    share = round(sheet["effectiveness"], 2)
    unit, _ = SHOWN["temperature"][sheet.si]
    shown = functools.partial(sheet.text, sort="temperature", quantity="temperature")
    of_reading = to_si(share * from_si(hot, unit, "temperature"), unit, "temperature")
    return {
        "hot": shown(hot),
        "cold": shown(cold),
        "effectiveness": fixed(share, 2),
        "right": shown(hot - share * (hot - cold)),
        "left": shown(cold + share * (hot - cold)),
        "of_reading": shown(of_reading),
    }


def _up_and_down(sheet):
    up = round(100 * sheet["share"])
    return {"up": str(up), "down": f"{100 * up / (100 + up):.0f}", "rest": str(100 - up)}


def _fuel_makes_power(sheet):
    return {"more": f"{100 * sheet['share']:.0f}"}


def _share_of_the_span(sheet):
    unit, spans = SPANS["si" if sheet.si else "us"]
    span = spans[int(sheet["gauge"] * 1.999)]
    reading = round(span * sheet["place"])
    small = functools.partial(fixed, places=1)
    return {
        "span": with_unit(str(span), unit),
        "reading": with_unit(str(reading), unit),
        "of_span": with_unit(small(GRADE * span), unit),
        "of_reading": with_unit(small(GRADE * reading), unit),
        "of_rest": with_unit(small(GRADE * (span - reading)), unit),
    }


PERCENT = {"share": (0.20, 0.36, "-")}
# question -> (its numbers, the ranges that keep its options apart); in the order of the lessons
ASKED: dict[str, tuple[Values, dict[str, tuple[Any, ...]]]] = {
    "share_of_the_span": (_share_of_the_span, {"gauge": (0, 1, "-"), "place": (0.25, 0.42, "-")}),
    "gauge_at_rest": (_gauge_at_rest, HIGH_GROUND),
    "behind_the_filter": (_behind_the_filter, HIGH_GROUND | {"intake_restriction": (14, 25, "inH2O")}),
    "losses_are_heat": (
        _losses_are_heat,
        {"boost": (24, 32, "psi"), "compressor_efficiency": (0.66, 0.78, "-"), "ambient_temperature": (60, 95, "°F")},
    ),
    "twice_the_reading": (_twice_the_reading, {"ambient_temperature": (72, 105, "°F")}),
    "more_boost_or_cooler": (
        _more_boost_or_cooler,
        {
            "boost": (20, 32, "psi"),
            "step_down": (1.5, 3, "psi"),
            "hot_charge": (250, 300, "°F"),
            "cool_charge": (110, 140, "°F"),
        },
    ),
    "share_of_the_drop": (
        _share_of_the_drop,
        {"hot_charge": (260, 340, "°F"), "cool_air": (76, 95, "°F"), "effectiveness": (0.70, 0.80, "-")},
    ),
    "up_and_down": (_up_and_down, PERCENT),
    "fuel_makes_power": (_fuel_makes_power, PERCENT),
    "same_boost_up_high": (_same_boost_up_high, HIGH_GROUND),
}
words = Wording(__file__, "before_and_after.toml")
QUESTIONS = tuple(
    words.choice(name, number=0, difficulty=1, cases=functools.partial(WithNumbers, values), ranges=ranges)
    for name, (values, ranges) in ASKED.items()
)
words.finished()
