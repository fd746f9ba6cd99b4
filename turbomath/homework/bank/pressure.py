"""Questions on pressure: gauge, absolute, station, restriction, and how good a gauge is."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.common import (
    ABSOLUTE,
    INCHES_AS_PSI,
    INLET,
    LOSS_IGNORED,
    LOSS_SUBTRACTED,
    MANIFOLD,
    NO_RESTRICTION,
    OUTLET,
    OUTLET_GAUGE,
    PER_CENT,
    PRESSURE,
    RATIO,
    RESTRICTION_ADDED,
    SEA_LEVEL,
    a_span,
    asked,
    boost_as_absolute,
    given,
)
from turbomath.homework.bank.question import Given, Mistake, Question, Tolerance
from turbomath.working import Step, sums
from turbomath.working.coherent import to_si

HIGH_GROUND = {"elevation": (2500, 5500, "ft")}
HIGH_GROUND_REASON = "Below 2,500 ft a sea-level barometer is too near to the station's to tell the two apart."
REAL_LOSS = {"cooler_pressure_loss": (1.2, 4, "psi")}
REAL_RESTRICTION = {"intake_restriction": (15, 25, "inH2O")}


def _taken_as(name, unit_us, unit_si):
    """Return the SI value of the number on the sheet if it were of another unit."""
    units = {"us": unit_us, "si": unit_si}
    return lambda s: to_si(s.number(name), units[s.system], name)


def _divided(name):
    """Return what comes of dividing by the factor between given and asked unit instead of multiplying."""

    def wrong(s):
        unit_us, unit_si = _ASKED_UNIT[name]
        asked_size = to_si(1.0, unit_us if s.system == "us" else unit_si, name)
        return s.number(name) ** 2 * asked_size**2 / s[name]

    return wrong


_ASKED_UNIT = {"boost": ("psi", "kPa"), "intake_restriction": ("psi", "kPa"), "exhaust_back_pressure": ("inH2O", "kPa")}
_WRONG_FACTOR = "You used the factor of another unit. Look up the one for the unit on the gauge: "
_DIVIDED = "You divided by the factor where it multiplies. Ask which unit is the bigger one, then which number must be."

QUESTIONS = (
    Question(
        "manifold_pressure_from_boost",
        1,
        "gauge to absolute with a station barometer",
        1,
        "The station barometer reads {barometer}. The boost gauge on the manifold reads {boost}. What is the absolute "
        "pressure in the manifold?",
        (given("barometer"), given("boost")),
        (MANIFOLD,),
        (asked("manifold_pressure", ABSOLUTE),),
        (boost_as_absolute(), SEA_LEVEL, INCHES_AS_PSI),
        ("What does the gauge read when the engine is off?", "Bring both numbers to one unit, then add them."),
        HIGH_GROUND,
        HIGH_GROUND_REASON,
    ),
    Question(
        "boost_in_another_unit",
        2,
        "convert pressures",
        1,
        "An old gauge shows boost as {boost}. What is that in the unit of a newer one?",
        (Given("boost", ("inHg", 0.5), ("mmHg", 5), source="old_gauge"),),
        (),
        (asked("boost", PRESSURE),),
        (
            Mistake(
                "M9",
                {"boost": _taken_as("boost", "inH2O", "mmH2O")},
                _WRONG_FACTOR + "this one is mercury, and you used water's.",
            ),
            Mistake("M14", {"boost": _divided("boost")}, _DIVIDED),
        ),
        ("Is an inch of mercury more or less than a psi?", "1 inHg = 0.491 psi; 1 mmHg = 0.1333 kPa."),
        {"old_gauge": (10, 75, "inHg")},
    ),
    Question(
        "restriction_in_another_unit",
        3,
        "convert pressures",
        1,
        "A water manometer shows {intake_restriction} of intake restriction. What is that in the unit asked for?",
        (Given("intake_restriction", ("inH2O", 0.5), ("mmH2O", 5)),),
        (),
        (asked("intake_restriction", PRESSURE),),
        (
            Mistake(
                "M9",
                {"intake_restriction": _taken_as("intake_restriction", "inHg", "mmHg")},
                _WRONG_FACTOR + "this one is water, and you used mercury's, which is 13.6 times as heavy.",
            ),
            Mistake("M14", {"intake_restriction": _divided("intake_restriction")}, _DIVIDED),
        ),
        ("How many inches of water make one psi?", "27.7 inH2O = 1 psi; 102 mmH2O = 1 kPa."),
        {"intake_restriction": (5, 30, "inH2O")},
    ),
    Question(
        "compressor_inlet_pressure",
        4,
        "absolute pressure behind the filter",
        1,
        "The station barometer reads {barometer}, the intake restriction is {intake_restriction}. What is the absolute "
        "pressure at the compressor inlet?",
        (given("barometer"), given("intake_restriction")),
        (INLET,),
        (asked("compressor_inlet_pressure", ABSOLUTE),),
        (
            RESTRICTION_ADDED,
            NO_RESTRICTION,
            Mistake(
                "M9",
                {
                    "compressor_inlet_pressure": lambda s: to_si(
                        s.number("barometer") - s.number("intake_restriction"), "inHg", "barometer"
                    )
                },
                "You took inches of water from inches of mercury. 13.6 inches of water make one of mercury.",
                only="us",
            ),
        ),
        ("Is the pressure behind a filter higher or lower?", "Bring both to one unit, then subtract."),
        REAL_RESTRICTION,
        "With less than 15 inH2O, leaving the restriction out would pass as rounding.",
    ),
    Question(
        "compressor_outlet_pressure",
        5,
        "pressures before and after an aftercooler",
        1,
        "Manifold boost is {boost}, the aftercooler loses {cooler_pressure_loss}, the station barometer reads "
        "{barometer}. What would a gauge read at the compressor outlet, and what is the absolute pressure there?",
        (given("boost"), given("cooler_pressure_loss"), given("barometer")),
        (OUTLET_GAUGE, OUTLET),
        (asked("compressor_outlet_boost", PRESSURE, of="boost"), asked("compressor_outlet_pressure", ABSOLUTE)),
        (LOSS_IGNORED, LOSS_SUBTRACTED, boost_as_absolute("compressor_outlet_pressure", "compressor_outlet_boost")),
        ("Where is the pressure higher, before the aftercooler or after it?", "Gauge first, then add the barometer."),
        REAL_LOSS,
        "A loss below 1.2 psi would pass as rounding.",
    ),
    Question(
        "pressure_ratio",
        6,
        "pressure ratio with restriction and pressure loss",
        2,
        "Station barometer {barometer}, intake restriction {intake_restriction}, manifold boost {boost}, aftercooler "
        "pressure loss {cooler_pressure_loss}. What is the pressure ratio of the compressor?",
        (given("barometer"), given("intake_restriction"), given("boost"), given("cooler_pressure_loss")),
        (INLET, OUTLET_GAUGE, OUTLET, RATIO),
        (asked("pressure_ratio", ("-", "-")),),
        (
            Mistake(
                "M1",
                {"pressure_ratio": lambda s: s.boost / s.barometer},
                "You divided boost by barometer. A pressure ratio takes absolute pressures: add the barometer to the "
                "gauge reading first.",
            ),
            NO_RESTRICTION,
            SEA_LEVEL,
            LOSS_IGNORED,
        ),
        (
            "Which two stations does the compressor sit between?",
            "p1 = barometer − restriction; p2 = barometer + boost + loss; then p2 ÷ p1.",
        ),
        HIGH_GROUND | REAL_RESTRICTION | REAL_LOSS,
        HIGH_GROUND_REASON + " Smaller restrictions and losses would pass as rounding.",
    ),
    Question(
        "station_pressure",
        7,
        "station pressure from a corrected barometer",
        2,
        "The weather report gives {sea_level_pressure}, corrected to sea level. Your shop is at {elevation}; the table "
        "of the standard atmosphere gives the ratio {standard_ratio} there. What does an open barometer on your bench "
        "read?",
        (
            given("sea_level_pressure"),
            given("elevation"),
            given("standard_ratio", "table ratio", of="pressure_ratio", symbol=r"\pi"),
        ),
        (
            Step(
                "station_pressure",
                arithmetic.from_sea_level,
                {"sea_level_pressure": "sea_level_pressure", "pressure_ratio": "standard_ratio"},
            ),
        ),
        (asked("station_pressure", ("inHg", "kPa")),),
        (
            Mistake(
                "M2",
                {"station_pressure": "sea_level_pressure"},
                "You took the report as it is. Weather reports are corrected to sea level; up at your shop the air "
                "presses less. Multiply by the ratio.",
            ),
            Mistake(
                "M14",
                {"station_pressure": lambda s: s.sea_level_pressure / s.standard_ratio},
                "You divided by the ratio. Up high the barometer reads less, not more: multiply.",
            ),
        ),
        ("Is there more or less air above you up there?", "Station pressure = corrected pressure × ratio."),
        HIGH_GROUND,
        HIGH_GROUND_REASON + " The rule of 1 inHg for 1,000 ft is right within the tolerance up to "
        "5,500 ft, so it is no mistake here.",
    ),
    Question(
        "gauge_error",
        8,
        "how sure a gauge is",
        2,
        "A grade B gauge (3 % of span in the lowest and the highest quarter, 2 % in the middle half) with a span of 0 "
        "to {span} reads {boost}. How far off may it be, and how many per cent of the reading is that?",
        (given("span", "boost", of="boost", symbol=r"p_\mathrm{span}"), given("boost", source="gauge_reading")),
        (
            Step("band", arithmetic.grade_b_band, {"boost": "boost", "span": "span"}, symbol=r"s_\mathrm{band}"),
            Step("half_width", arithmetic.band_of_span, {"band": "band", "span": "span"}, symbol="a"),
            Step("share_of_reading", arithmetic.share_of_reading, {"half_width": "half_width", "boost": "boost"}),
        ),
        (
            asked("half_width", PRESSURE, of="cooler_pressure_loss", tolerance=Tolerance(0.02)),
            asked("share_of_reading", PER_CENT, of="density_gain", tolerance=Tolerance(0.02)),
        ),
        (
            Mistake(
                "M13",
                {"half_width": lambda s: s.band * s.boost},
                "You took the per cent of the reading. A grade is a per cent of the span, whatever the reading.",
            ),
            Mistake(
                "M13",
                {"band": lambda s: 0.05 - arithmetic.grade_b_band(s.boost, s.span)},
                "You used the band of another part of the scale. See in which quarter of the span the reading sits.",
            ),
        ),
        ("Which quarter of the scale is the pointer in?", "Half-width = band × span; then divide by the reading."),
        {"gauge": (0, 1, "-"), "place": (0.08, 0.7, "-")},
        also=lambda v, system: _gauge_and_reading(v, system),
        where=lambda s: abs(s.boost / s.span - 0.25) > 0.01,
        verdict="at the low end of a scale the band is a larger part of the reading: pick a gauge that is read in "
        "its middle.",
    ),
    Question(
        "boost_for_same_pressure_ratio",
        9,
        "altitude: the same pressure ratio",
        3,
        "At sea level, barometer {sea_level_pressure}, an engine makes {boost} of boost. Up at {elevation} the station "
        "barometer reads {barometer}. Leave restriction and pressure loss out. What does the boost gauge show there if "
        "the pressure ratio is the same?",
        (given("sea_level_pressure"), given("boost"), given("elevation"), given("barometer")),
        (
            Step(
                "sea_level_manifold_pressure",
                sums.absolute_pressure,
                {"barometer": "sea_level_pressure", "boost": "boost"},
                "pressure",
                r"p_\mathrm{3,sea}",
            ),
            Step(
                "pressure_ratio",
                RATIO.formula,
                {"inlet_pressure": "sea_level_pressure", "outlet_pressure": "sea_level_manifold_pressure"},
            ),
            Step(
                "manifold_pressure",
                arithmetic.raised_pressure,
                {"inlet_pressure": "barometer", "pressure_ratio": "pressure_ratio"},
            ),
            Step(
                "boost_up_there",
                sums.gauge_pressure,
                {"pressure": "manifold_pressure", "barometer": "barometer"},
                "boost",
                r"p_\mathrm{boost,up}",
            ),
        ),
        (asked("boost_up_there", PRESSURE, of="boost"),),
        (
            Mistake(
                "M1",
                {"boost_up_there": "boost"},
                "You kept the gauge reading. The same ratio of a smaller barometer is a smaller gauge reading.",
            ),
            Mistake(
                "M16",
                {"boost_up_there": lambda s: s.boost * arithmetic.standard_density_ratio(s.elevation)},
                "You scaled by the density of the air. A pressure ratio knows pressures only: scale by the barometers.",
            ),
            Mistake(
                "M1",
                {"boost_up_there": "manifold_pressure"},
                "That is the absolute pressure. A gauge counts from the barometer: take the barometer off.",
            ),
        ),
        ("Write the ratio down at sea level first.", "Ratio × barometer up there − barometer up there."),
        {"elevation": (3500, 5500, "ft")},
        "Lower down, scaling by density comes too near to the right answer.",
        verdict="the gauge reads less than at sea level: the same ratio of a smaller barometer.",
    ),
    Question(
        "boost_for_same_manifold_pressure",
        10,
        "altitude: the same manifold pressure",
        2,
        "At sea level, barometer {sea_level_pressure}, an engine makes {boost} of boost. Up at {elevation} the station "
        "barometer reads {barometer}. What must the boost gauge show there for the same absolute manifold pressure?",
        (given("sea_level_pressure"), given("boost"), given("elevation"), given("barometer")),
        (
            Step("manifold_pressure", sums.absolute_pressure, {"barometer": "sea_level_pressure", "boost": "boost"}),
            Step(
                "boost_up_there",
                sums.gauge_pressure,
                {"pressure": "manifold_pressure", "barometer": "barometer"},
                "boost",
                r"p_\mathrm{boost,up}",
            ),
        ),
        (asked("boost_up_there", PRESSURE, of="boost"),),
        (
            Mistake(
                "M4",
                {"boost_up_there": "boost"},
                "You kept the boost. Boost stands on the barometer: with less barometer below, it must be more.",
            ),
            Mistake(
                "M14",
                {"boost_up_there": lambda s: s.boost - (s.sea_level_pressure - s.barometer)},
                "You went the wrong way. What the barometer lost, the boost has to make up.",
            ),
            Mistake(
                "M1",
                {"boost_up_there": "manifold_pressure"},
                "That is the absolute pressure. A gauge counts from the barometer: take the barometer off.",
            ),
        ),
        ("What stays the same: the gauge reading or the pressure?", "Boost + barometer is the same in both places."),
        HIGH_GROUND,
        HIGH_GROUND_REASON,
        verdict="the gauge reads more than at sea level, by what the barometer has lost.",
    ),
    Question(
        "full_load_restriction",
        11,
        "restriction at full load from a no-load reading",
        1,
        "At no-load high idle the intake restriction is {no_load}. This engine's maker multiplies that by {factor} to "
        "stand for full load; the limit is {limit}. What is the restriction at full load?",
        (
            given("no_load", "restriction", of="intake_restriction", symbol=r"\Delta p_\mathrm{idle}"),
            Given("factor", ("-", 0.1), ("-", 0.1), "pressure_ratio", symbol="k"),
            given("limit", "restriction", of="intake_restriction"),
        ),
        (Step("full_load_restriction", arithmetic.full_load_restriction, {"no_load": "no_load", "factor": "factor"}),),
        (asked("full_load_restriction", ("inH2O", "kPa"), of="intake_restriction"),),
        (
            Mistake(
                "M16",
                {"full_load_restriction": "no_load"},
                "You took the no-load reading for full load. At full load the engine draws more air through the same "
                "filter: multiply by the factor.",
            ),
            Mistake(
                "M14",
                {"full_load_restriction": lambda s: s.no_load / s.factor},
                "You divided by the factor. At full load the restriction is higher: multiply.",
            ),
        ),
        ("Does more air through a filter lose more or less pressure?", "Reading × factor, then compare."),
        {"no_load": (5, 14, "inH2O"), "factor": (1.8, 1.8, "-"), "limit": (20, 25, "inH2O")},
        verdict=lambda s: (
            "it is over the limit: the filter is due."
            if s.full_load_restriction > s.limit
            else "it is within the limit: the filter stays."
        ),
    ),
    Question(
        "back_pressure_in_another_unit",
        12,
        "convert pressures",
        1,
        "The exhaust back pressure is {exhaust_back_pressure}. What is that in the unit asked for?",
        (Given("exhaust_back_pressure", ("inHg", 0.1), ("mmHg", 1), source="back_pressure"),),
        (),
        (asked("exhaust_back_pressure", ("inH2O", "kPa")),),
        (
            Mistake(
                "M9",
                {"exhaust_back_pressure": _taken_as("exhaust_back_pressure", "psi", "mmH2O")},
                _WRONG_FACTOR + "this one is mercury.",
            ),
            Mistake("M14", {"exhaust_back_pressure": _divided("exhaust_back_pressure")}, _DIVIDED),
        ),
        ("Mercury is 13.6 times as heavy as water.", "1 inHg = 13.6 inH2O; 1 mmHg = 0.1333 kPa."),
        {"back_pressure": (0.5, 6, "inHg")},
    ),
    Question(
        "boost_from_scan_tool",
        0,
        "absolute to gauge with a station barometer",
        1,
        "A scan tool shows a manifold pressure of {manifold_pressure}. The station barometer reads {barometer}. What "
        "does "
        "the boost gauge on the dash show?",
        (given("manifold_pressure", "absolute"), given("barometer")),
        (Step("boost", sums.gauge_pressure, {"pressure": "manifold_pressure", "barometer": "barometer"}),),
        (asked("boost", PRESSURE),),
        (
            Mistake(
                "M1",
                {"boost": "manifold_pressure"},
                "You took the scan tool's number as boost. A scan tool counts from vacuum, the dash gauge from the "
                "barometer: take the barometer off.",
            ),
            SEA_LEVEL,
            Mistake(
                "M14",
                {"boost": lambda s: s.manifold_pressure + s.barometer},
                "You added the barometer. It is already in the scan tool's number: take it off.",
            ),
        ),
        ("What does the scan tool show when the engine is off?", "Bring both numbers to one unit, then subtract."),
        HIGH_GROUND,
        HIGH_GROUND_REASON,
    ),
)


def _gauge_and_reading(values, system):
    """Return a gauge that shops have, and a reading on it."""
    span = a_span(values["gauge"], system)
    return {"span": span, "gauge_reading": values["place"] * span}
