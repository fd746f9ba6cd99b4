"""The closed list of units: how a shop writes each one, and what Pint is asked for.

Upper and lower case, spaces, dots, hyphens, raised figures and the words of `_SYNONYMS` make no
difference ("in. Hg", "lb-ft", "KG/M^3"): no two units of the list differ by case alone (MJ/kg is the only
meaning of mj/kg; mPa and MPa are not taken). Letters that only look like the plain ones are refused.

Columns of mercury (0 °C) and water (4 °C) are the conventional ones of NIST SP 811, the Btu is the
International Table one, hp is 550 ft·lbf/s, a gallon is the US gallon.
"""

import functools
import re
from typing import NamedTuple

LONGEST = 40  # characters; a longer text is refused before any work is done on it

# family: (spelling to show, what Pint is asked for, other spellings)
UNITS = {
    "pressure": (
        ("psi", "psi", "lb/in2, lbf/in2, lb/sq in, lbf/sq in"),
        ("kPa", "kPa", ""),
        ("Pa", "Pa", ""),
        ("bar", "bar", ""),
        ("mbar", "mbar", ""),
        ("hPa", "hPa", ""),
        ("kgf/cm²", "kilogram_force/cm**2", "kg/cm2, kp/cm2"),
        ("inHg", "inHg", '"Hg'),
        ("mmHg", "mmHg", ""),
        ("inH2O", "inH2O", 'inWC, "H2O, "WC'),
        ("mmH2O", "kilogram_force/m**2", "mmWC"),
    ),
    "temperature": (
        ("°F", "delta_degF", "F"),
        ("°C", "delta_degC", "C"),
        ("K", "kelvin", "°K"),
        ("°R", "degR", "R"),
    ),
    # an interval may carry the name of the scale (NIST SP 811, 8.5), so °F is taken and never offset here
    "temperature difference": (
        ("F°", "delta_degF", "°F, F, delta F, delta °F"),
        ("K", "kelvin", "°K, delta K"),
        ("C°", "delta_degC", "°C, C, delta C, delta °C"),
        ("R°", "degR", "°R, R"),
    ),
    "rotational speed": (
        ("rpm", "1/min", "rev/min, r/min, 1/min, min-1"),
        ("rev/s", "1/s", "rps, r/s, 1/s, s-1"),
    ),
    "mass flow": (
        ("lb/min", "lb/min", "#/min"),
        ("lb/h", "lb/h", "pph, #/h"),
        ("kg/s", "kg/s", ""),
        ("kg/min", "kg/min", ""),
        ("kg/h", "kg/h", ""),
        ("g/s", "g/s", ""),
        ("g/min", "g/min", ""),
    ),
    "volume flow": (
        ("cfm", "ft**3/min", "ft3/min, cu ft/min"),
        ("m³/h", "m**3/h", "cu m/h"),
        ("m³/min", "m**3/min", "cu m/min"),
        ("m³/s", "m**3/s", "cu m/s"),
        ("L/s", "L/s", ""),
        ("L/min", "L/min", "lpm"),
        ("L/h", "L/h", "lph"),
        ("US gal/min", "gallon/min", "gal/min, gpm, US gpm"),
        ("US gal/h", "gallon/h", "gal/h, gph, US gph"),
    ),
    "flow for each drop": (
        ("cfm per inH2O", "ft**3/min/inH2O", "ft3/min/inH2O"),
        ("m³/h per kPa", "m**3/h/kPa", ""),
        ("L/s per kPa", "L/s/kPa", ""),
        ("L/min per Pa", "L/min/Pa", ""),
        ("m³/s per Pa", "m**3/s/Pa", ""),
    ),
    "viscosity": (("cP", "centipoise", ""), ("Pa s", "Pa*s", "")),
    "torque": (
        ("lbf·ft", "lbf*ft", "lb ft, ft lbf, ft lb, ftlbs, lbsft"),
        ("N·m", "N*m", ""),
    ),
    "power": (
        ("hp", "hp", "bhp, horsepower, brake horsepower"),
        ("kW", "kW", "kilowatt, kilowatts"),
        ("W", "W", "watt, watts"),
        ("Btu/min", "Btu_it/min", "btus/min"),
    ),
    "specific fuel consumption": (
        ("lb/hp·h", "lb/(hp*h)", "lb/hphr, lb/bhp h, lb/bhphr"),
        ("g/kW·h", "g/(kW*h)", "g/kWhr"),
        ("kg/kW·h", "kg/(kW*h)", "kg/kWhr"),
        ("kg/J", "kg/J", ""),
    ),
    "volume": (
        ("L", "L", ""),
        ("in³", "inch**3", "cu in, cuin"),
        ("cm³", "cm**3", "cc, cu cm"),
        ("m³", "m**3", "cu m"),
    ),
    "density": (
        ("lb/ft³", "lb/ft**3", "lb/cu ft, pcf"),
        ("kg/m³", "kg/m**3", "kg/cu m"),
        ("kg/L", "kg/L", ""),
    ),
    "fraction": (
        ("-", "", "ratio"),
        ("fraction", "", ""),
        ("%", "percent", "percent, per cent, pct"),
    ),
    "humidity ratio": (
        ("g/kg", "g/kg", ""),
        ("kg/kg", "kg/kg", ""),
        ("gr/lb", "grain/lb", "grains/lb, grain/lb"),
        ("lb/lb", "lb/lb", ""),
    ),
    "length": (("ft", "ft", ""), ("m", "m", ""), ("in", "inch", ""), ("mm", "mm", ""), ("cm", "cm", "")),
    "velocity": (("ft/min", "ft/min", "fpm"), ("m/s", "m/s", ""), ("ft/s", "ft/s", "fps")),
    "energy": (("Btu", "Btu_it", ""), ("kJ", "kJ", ""), ("J", "J", "")),
    "moment of inertia": (("lb·ft²", "lb*ft**2", "lb·ft2, lb ft2"), ("kg·m²", "kg*m**2", "kg·m2, kg m2")),
    "time": (("ms", "ms", ""), ("s", "s", ""), ("min", "min", "")),
    "mass": (("lb", "lb", ""), ("kg", "kg", ""), ("g", "g", "")),
    "specific energy": (
        ("Btu/lb", "Btu_it/lb", ""),
        ("kJ/kg", "kJ/kg", ""),
        ("MJ/kg", "MJ/kg", ""),
        ("J/kg", "J/kg", ""),
    ),
    "specific heat": (
        ("J/(kg K)", "J/kg/K", "J/kg/K"),
        ("kJ/(kg K)", "kJ/kg/K", "kJ/kg/K"),
    ),
    "heat capacity rate": (
        ("Btu/(h·°F)", "Btu_it/hour/delta_degF", "Btu/h F"),
        ("W/K", "W/K", ""),
        ("kW/K", "kW/K", ""),
    ),
}

# kinds of the table of quantities that are measured in the units of another family
FAMILIES = {
    **dict.fromkeys(("absolute pressure", "gauge pressure", "pressure difference", "vapour pressure"), "pressure"),
    **dict.fromkeys(("fuel flow", "water flow"), "mass flow"),
    **dict.fromkeys(("ratio", "number", "efficiency", "effectiveness", "share", "load", "gain"), "fraction"),
    **dict.fromkeys(("gas constant", "specific entropy"), "specific heat"),
    "coolant flow": "volume flow",
    "elevation": "length",
    "heating value": "specific energy",
}

_ZEROS = {"°F": 459.67, "°C": 273.15}  # what is added to a reading to count from absolute zero; exact

# how a pressure says what it is counted from; the first spelling of each is the one to show
REFERENCES = {
    "gauge": ("gauge", "gage", "g"),
    "absolute": ("abs", "absolute", "a"),
    "differential": ("differential", "diff", "d"),
}
# units that look like listed ones and are not
LOOKALIKES = {
    "mpa": "MPa is not taken, since with a small m it is another unit: give kPa or bar.",
    "ps": "The metric horsepower is 1.4 % smaller than hp: give kW.",
    "scfm": "A standard cubic foot is an amount of air, not a volume at ambient: give a mass flow.",
}

_MARKS = str.maketrans(
    dict.fromkeys("°º˚", " deg ")
    | dict.fromkeys("Δ∆", " delta ")
    | dict.fromkeys("·⋅∙×", "*")
    | dict.fromkeys("−–\u2010\u2011⁻", "-")
    | dict.fromkeys("\u00a0\u202f\u2009", " ")
    | dict.fromkeys("″”", '"')
    | {"¹": "1", "²": "2", "³": "3", "₂": "2", "℃": " deg C", "℉": " deg F"}
)
_SYNONYMS = {
    "/": "per",
    "": "of column",
    "deg": "degree degrees",
    "f": "fahrenheit",
    "c": "celsius",
    "k": "kelvin",
    "r": "rankine",
    "in": "inch inches",
    "ft": "foot feet",
    "m": "metre metres meter meters",
    "sq": "square",
    "cu": "cubic",
    "h2o": "water",
    "hg": "mercury",
    "lb": "lbs lbm pound pounds",
    "n": "newton",
    "l": "litre litres liter liters",
    "gal": "gallon gallons",
    "h": "hr hrs hour hours",
    "min": "mins minute minutes",
    "s": "sec second seconds",
    "ms": "msec millisecond milliseconds",
}
_WORDS = {word: short for short, words in _SYNONYMS.items() for word in words.split()}


class Unit(NamedTuple):
    """One listed unit."""

    shown: str
    pint_name: str
    zero: float  # what is added to a reading to count from absolute zero
    reference: str | None = None  # a key of REFERENCES


def odd_marks(unit: str) -> list[str]:
    """Return the marks of a text that are in no unit: foreign letters, control characters."""
    return [mark for mark in unit.translate(_MARKS) if not (mark.isascii() and mark.isprintable())]


def bare(unit: str) -> str:
    """Return the bare form under which a spelling is listed; "" if the text cannot be one."""
    return _bare(unit) if isinstance(unit, str) and len(unit) <= LONGEST else ""


@functools.lru_cache(maxsize=4096)
def _bare(unit):
    if odd_marks(unit):
        return ""
    text = re.sub("[a-z]+", lambda word: _WORDS.get(word[0], word[0]), unit.translate(_MARKS).lower())
    text = re.sub(r"\(([^()]*)\)", r" \1", text)
    text = " ".join(text.split()).strip(". ")
    text = re.sub(r"(?<=[a-z0-9/\"])[ .*-]{1,3}(?=[a-z])", "", text)
    return re.sub(r"[ .]{1,2}(?=/)|\^(?=[23])", "", text)


@functools.cache
def by_spelling() -> dict[str, dict[str, Unit]]:
    """Return family -> bare spelling -> unit; pressures also with each way to say what they count from."""
    table: dict[str, dict[str, Unit]] = {}
    for name, rows in UNITS.items():
        units = table[name] = {}
        for shown, pint_name, others in rows:
            unit = Unit(shown, pint_name, _ZEROS.get(shown, 0.0))
            for spelling in [shown] + [other for other in others.split(", ") if other]:
                units[bare(spelling)] = unit
                if name == "pressure":
                    for reference, words in REFERENCES.items():
                        units |= {bare(f"{spelling} {word}"): unit._replace(reference=reference) for word in words}
    return table
