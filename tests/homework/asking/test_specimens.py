"""The worked specimens of the bank, in the units they are printed in: givens, answer, and half of its last digit.

They were worked out by hand for the bank with exact unit sizes (NIST SP 811); the engine's textbook equations are
those of Heywood, sections 2.8 and 6.8, and Kays and London, ch. 2.
"""

import pytest

from turbomath import units
from turbomath.homework.asking.sheet import Sheet, solved
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.bank.question import Choice

F, PSI, HG, WATER, NONE = "°F", "psi", "inHg", "inH2O", "-"
HOT, COOL, CORE = "compressor_outlet_temperature", "manifold_temperature", "cooling_medium_temperature"
INLET, OUT_BOOST = "compressor_inlet_temperature", "compressor_outlet_boost"
BAROMETER = {"barometer": (28.60, HG)}
BEFORE = {OUT_BOOST: (23.8, PSI), HOT: (330, F)}
BEHIND = {"boost": (22.0, PSI), COOL: (130, F)}
SHAFT = {
    "mass_flow": (60, "lb/min"),
    "fuel_flow": (168, "lb/h"),
    "turbine_inlet_temperature": (1080, F),
    "turbine_outlet_temperature": (828, F),
}

SPECIMENS = [
    # item, question, givens, value asked for, unit, printed, half-width
    (
        1,
        "manifold_pressure_from_boost",
        {"barometer": (27.80, HG), "boost": (22.0, PSI)},
        None,
        "psi abs",
        35.65,
        0.005,
    ),
    (
        0,
        "boost_from_scan_tool",
        {"manifold_pressure": (37.1, "psi abs"), "barometer": (26.40, HG)},
        None,
        PSI,
        24.13,
        0.005,
    ),
    (2, "boost_in_another_unit", {"boost": (45, HG)}, None, "psi", 22.1, 0.05),
    (2, "boost_in_another_unit", {"boost": (45, HG)}, None, "kPa", 152.4, 0.05),
    (3, "restriction_in_another_unit", {"intake_restriction": (18, WATER)}, None, "kPa", 4.48, 0.005),
    (3, "restriction_in_another_unit", {"intake_restriction": (18, WATER)}, None, "psi", 0.65, 0.005),
    (3, "restriction_in_another_unit", {"intake_restriction": (18, WATER)}, None, "inHg", 1.32, 0.005),
    (4, "compressor_inlet_pressure", {**BAROMETER, "intake_restriction": (18, WATER)}, None, "kPa abs", 92.37, 0.005),
    (4, "compressor_inlet_pressure", {**BAROMETER, "intake_restriction": (18, WATER)}, None, "inHg abs", 27.28, 0.005),
    (
        5,
        "compressor_outlet_pressure",
        {**BAROMETER, "boost": (22.0, PSI), "cooler_pressure_loss": (1.8, PSI)},
        "compressor_outlet_boost",
        "psi",
        23.8,
        0.05,
    ),
    (
        5,
        "compressor_outlet_pressure",
        {**BAROMETER, "boost": (22.0, PSI), "cooler_pressure_loss": (1.8, PSI)},
        None,
        "psi abs",
        37.85,
        0.005,
    ),
    (
        6,
        "pressure_ratio",
        {**BAROMETER, "intake_restriction": (18, WATER), "boost": (22.0, PSI), "cooler_pressure_loss": (1.8, PSI)},
        None,
        NONE,
        2.825,
        0.0005,
    ),
    (
        7,
        "station_pressure",
        {"sea_level_pressure": (30.05, HG), "elevation": (3550, "ft"), "standard_ratio": (0.8782, NONE)},
        None,
        HG,
        26.39,
        0.005,
    ),
    (8, "gauge_error", {"span": (60, PSI), "boost": (22, PSI)}, "half_width", PSI, 1.2, 0.05),
    (8, "gauge_error", {"span": (60, PSI), "boost": (22, PSI)}, None, "%", 5.5, 0.05),
    (
        9,
        "boost_for_same_pressure_ratio",
        {"sea_level_pressure": (29.921, HG), "boost": (25, PSI), "elevation": (5280, "ft"), "barometer": (24.635, HG)},
        None,
        PSI,
        20.6,
        0.05,
    ),
    (
        10,
        "boost_for_same_manifold_pressure",
        {"sea_level_pressure": (29.921, HG), "boost": (25, PSI), "elevation": (5280, "ft"), "barometer": (24.635, HG)},
        None,
        PSI,
        27.6,
        0.05,
    ),
    (
        11,
        "full_load_restriction",
        {"no_load": (11.5, WATER), "factor": (1.8, NONE), "limit": (25, WATER)},
        None,
        WATER,
        20.7,
        0.05,
    ),
    (12, "back_pressure_in_another_unit", {"exhaust_back_pressure": (2.4, HG)}, None, "kPa", 8.13, 0.005),
    (12, "back_pressure_in_another_unit", {"exhaust_back_pressure": (2.4, HG)}, None, WATER, 32.6, 0.05),
    (13, "absolute_temperature", {"temperature": (77, F)}, None, "°R", 536.7, 0.05),
    (13, "absolute_temperature", {"temperature": (77, F)}, None, "K", 298.2, 0.051),
    (14, "temperature_drop_on_the_other_scale", {"temperature_drop": (210, "F°")}, None, "C°", 116.7, 0.05),
    (15, "ideal_outlet_temperature", {INLET: (80, F), "pressure_ratio": (2.5, NONE)}, None, F, 241.5, 0.05),
    (
        16,
        "outlet_temperature",
        {INLET: (80, F), "pressure_ratio": (2.5, NONE), "compressor_efficiency": (0.72, NONE)},
        None,
        F,
        304,
        0.5,
    ),
    (
        17,
        "compressor_efficiency",
        {INLET: (85, F), HOT: (325, F), "pressure_ratio": (2.6, NONE)},
        None,
        NONE,
        0.712,
        0.0005,
    ),
    (
        18,
        "highest_pressure_ratio",
        {INLET: (90, F), "compressor_efficiency": (0.74, NONE), HOT: (400, F)},
        None,
        NONE,
        3.39,
        0.005,
    ),
    (
        19,
        "hotter_by_a_worn_compressor",
        {
            INLET: (77, F),
            "pressure_ratio": (2.5, NONE),
            "compressor_efficiency": (0.72, NONE),
            "worn_efficiency": (0.60, NONE),
        },
        "worn_outlet_temperature",
        F,
        345,
        0.5,
    ),
    (
        19,
        "hotter_by_a_worn_compressor",
        {
            INLET: (77, F),
            "pressure_ratio": (2.5, NONE),
            "compressor_efficiency": (0.72, NONE),
            "worn_efficiency": (0.60, NONE),
        },
        None,
        "F°",
        45,
        0.5,
    ),
    (
        20,
        "two_stages",
        {
            "compressor_efficiency": (0.74, NONE),
            INLET: (77, F),
            "first_ratio": (2.0, NONE),
            "effectiveness": (0.80, NONE),
            CORE: (77, F),
            "second_ratio": (2.0, NONE),
        },
        None,
        F,
        277,
        0.5,
    ),
    (
        21,
        "thermocouple_tolerance",
        {"temperature": (330, F), "least": (2.2, "C°"), "share": (0.75, "%")},
        None,
        "C°",
        2.2,
        0.05,
    ),
    (
        21,
        "thermocouple_tolerance",
        {"temperature": (330, F), "least": (1.0, "C°"), "share": (0.75, "%")},
        None,
        "C°",
        1.24,
        0.005,
    ),
    (22, "ambient_density", {**BAROMETER, "ambient_temperature": (85, F)}, None, "kg/m³", 1.115, 0.0005),
    (22, "ambient_density", {**BAROMETER, "ambient_temperature": (85, F)}, None, "lb/ft³", 0.0696, 0.00005),
    (23, "compressor_outlet_density", {**BAROMETER, **BEFORE}, None, "kg/m³", 2.072, 0.0005),
    (24, "manifold_density", {**BAROMETER, **BEHIND, "cooler_pressure_loss": (1.8, PSI)}, None, "kg/m³", 2.643, 0.0005),
    (25, "aftercooling_density_gain", {**BAROMETER, **BEFORE, **BEHIND}, None, "%", 27.5, 0.06),
    (
        26,
        "which_manifold_holds_more",
        {
            "barometer": (28.92, HG),
            "boost_a": (20, PSI),
            "temperature_a": (300, F),
            "boost_b": (15, PSI),
            "temperature_b": (120, F),
        },
        None,
        "%",
        11.9,
        0.05,
    ),
    (27, "uncooled_boost_for_same_density", {**BAROMETER, **BEHIND, HOT: (330, F)}, None, PSI, 34.2, 0.05),
    (
        28,
        "cooled_boost_for_same_density",
        {**BAROMETER, "boost": (22, PSI), HOT: (330, F), COOL: (130, F)},
        None,
        PSI,
        12.9,
        0.05,
    ),
    (29, "break_even_pressure_loss", {**BAROMETER, **BEFORE, COOL: (130, F)}, None, PSI, 9.6, 0.05),
    (
        30,
        "air_lost_in_a_hotter_manifold",
        {"temperature_before": (134, F), "temperature_now": (183, F)},
        None,
        "%",
        -7.6,
        0.05,
    ),
    (
        31,
        "dry_air_lost_to_humidity",
        {
            "temperature": (32, "°C"),
            "relative_humidity": (70, "%"),
            "barometer": (96.9, "kPa"),
            "saturation_pressure": (4.76, "kPa"),
        },
        None,
        "%",
        3.4,
        0.05,
    ),
    (32, "density_in_another_unit", {"density": (2.643, "kg/m³")}, None, "lb/ft³", 0.165, 0.0005),
    (
        33,
        "effectiveness_air_to_air",
        {HOT: (330, F), COOL: (130, F), CORE: (85, F), INLET: (95, F)},
        None,
        NONE,
        0.816,
        0.0005,
    ),
    (34, "effectiveness_jacket_water", {HOT: (330, F), COOL: (232, F), CORE: (190, F)}, None, NONE, 0.70, 0.0005),
    (35, "manifold_temperature", {"effectiveness": (0.80, NONE), HOT: (330, F), CORE: (85, F)}, None, F, 134, 0.05),
    (
        36,
        "hot_day",
        {
            INLET: (110, F),
            "pressure_ratio": (2.6, NONE),
            "compressor_efficiency": (0.74, NONE),
            "effectiveness": (0.78, NONE),
            CORE: (104, F),
        },
        HOT,
        F,
        352,
        0.5,
    ),
    (
        36,
        "hot_day",
        {
            INLET: (110, F),
            "pressure_ratio": (2.6, NONE),
            "compressor_efficiency": (0.74, NONE),
            "effectiveness": (0.78, NONE),
            CORE: (104, F),
        },
        None,
        F,
        158,
        0.6,
    ),
    (
        37,
        "jacket_water_or_air",
        {"jacket_temperature": (232, F), "air_temperature": (134, F)},
        None,
        NONE,
        1.165,
        0.0005,
    ),
    (
        38,
        "rise_over_core_air",
        {COOL: (130, F), CORE: (85, F), INLET: (95, F), "limit": (50, "F°")},
        None,
        "F°",
        45,
        0.05,
    ),
    (39, "heat_rejected", {"mass_flow": (60, "lb/min"), HOT: (330, F), COOL: (130, F)}, None, "kW", 50.7, 0.1),
    (39, "heat_rejected", {"mass_flow": (60, "lb/min"), HOT: (330, F), COOL: (130, F)}, None, "Btu/min", 2880, 5),
    (
        40,
        "coolant_temperature_rise",
        {"heat_rejected": (24.8, "kW"), "cooling_medium_flow": (60, "US gal/min")},
        None,
        "C°",
        1.73,
        0.005,
    ),
    (
        41,
        "pressure_loss_at_another_flow",
        {"cooler_pressure_loss": (1.8, PSI), "flow_a": (60, "lb/min"), "flow_b": (42, "lb/min")},
        None,
        PSI,
        0.88,
        0.005,
    ),
    (
        42,
        "leak_down",
        {"start": (30, PSI), "end": (23.5, PSI), "limit": (5, PSI), "time": (15, "s")},
        None,
        PSI,
        6.5,
        0.05,
    ),
    (
        43,
        "two_gauges_for_one_difference",
        {"first_span": (60, PSI), "second_span": (60, PSI), "band": (2, "%"), "difference": (1.8, PSI)},
        None,
        PSI,
        1.7,
        0.05,
    ),
    (
        44,
        "air_lost_to_fouling",
        {HOT: (330, F), CORE: (85, F), "clean_effectiveness": (0.80, NONE), "fouled_effectiveness": (0.60, NONE)},
        None,
        "%",
        -7.6,
        0.05,
    ),
    (
        45,
        "mass_flow",
        {
            "displacement": (12.7, "L"),
            "engine_speed": (1800, "rpm"),
            "manifold_density": (2.643, "kg/m³"),
            "volumetric_efficiency": (0.92, NONE),
        },
        None,
        "lb/min",
        61.3,
        0.05,
    ),
    (
        46,
        "volume_flow_at_ambient",
        {"mass_flow": (61.3, "lb/min"), "ambient_density": (1.115, "kg/m³")},
        None,
        "cfm",
        880,
        1,
    ),
    (
        47,
        "volumetric_efficiency",
        {
            "displacement": (12.7, "L"),
            "engine_speed": (1800, "rpm"),
            "mass_flow": (58, "lb/min"),
            "manifold_density": (2.643, "kg/m³"),
        },
        None,
        NONE,
        0.87,
        0.005,
    ),
    (48, "air_fuel_ratio", {"mass_flow": (61.3, "lb/min"), "fuel_flow": (148, "lb/h")}, None, NONE, 24.8, 0.06),
    (49, "fuel_rate", {"power": (430, "hp"), "specific_fuel_consumption": (0.345, "lb/hp·h")}, None, "lb/h", 148, 0.5),
    (
        49,
        "fuel_rate",
        {"power": (430, "hp"), "specific_fuel_consumption": (0.345, "lb/hp·h")},
        None,
        "kg/h",
        67.3,
        0.05,
    ),
    (
        50,
        "consumption_from_weighed_fuel",
        {"fuel_mass": (5.0, "lb"), "fuel_time": (126, "s"), "power": (412, "hp")},
        None,
        "lb/hp·h",
        0.347,
        0.0005,
    ),
    (
        50,
        "consumption_from_weighed_fuel",
        {"fuel_mass": (5.0, "lb"), "fuel_time": (126, "s"), "power": (412, "hp")},
        None,
        "g/kW·h",
        211,
        0.5,
    ),
    (
        51,
        "power_at_the_smoke_limit",
        {"mass_flow": (60, "lb/min"), "air_fuel_ratio": (24, NONE), "specific_fuel_consumption": (0.345, "lb/hp·h")},
        None,
        "hp",
        435,
        0.5,
    ),
    (52, "power_from_torque", {"torque": (1450, "lbf·ft"), "engine_speed": (1600, "rpm")}, None, "hp", 442, 0.5),
    (52, "power_from_torque", {"torque": (1450, "lbf·ft"), "engine_speed": (1600, "rpm")}, None, "kW", 329, 0.5),
    (
        53,
        "power_the_air_allows",
        {"power_before": (400, "hp"), "density_before": (1.0, "kg/m³"), "density_after": (1.30, "kg/m³")},
        None,
        "hp",
        520,
        0.5,
    ),
    (54, "compressor_power", {"mass_flow": (60, "lb/min"), INLET: (85, F), HOT: (330, F)}, None, "kW", 62, 0.5),
    (54, "compressor_power", {"mass_flow": (60, "lb/min"), INLET: (85, F), HOT: (330, F)}, None, "hp", 83, 0.5),
    (
        0,
        "expansion_ratio",
        {"barometer": (28.60, HG), "turbine_inlet_boost": (26.0, PSI), "exhaust_back_pressure": (2.2, HG)},
        None,
        NONE,
        2.647,
        0.0005,
    ),
    (0, "turbine_power", SHAFT, None, "kW", 76.4, 0.05),
    (0, "turbine_power", SHAFT, None, "hp", 102.5, 0.05),
    (0, "closing_the_shaft", SHAFT | {INLET: (85, F), HOT: (350, F)}, None, NONE, 0.878, 0.0005),
    (
        55,
        "mean_of_repeats",
        {"first_reading": (21.8, PSI), "second_reading": (22.4, PSI), "third_reading": (22.1, PSI)},
        None,
        PSI,
        22.1,
        0.05,
    ),
    (
        55,
        "mean_of_repeats",
        {"first_reading": (21.8, PSI), "second_reading": (22.4, PSI), "third_reading": (22.1, PSI)},
        "half_range",
        PSI,
        0.3,
        0.05,
    ),
    (
        56,
        "uncertainty_of_effectiveness",
        {HOT: (330, F), COOL: (130, F), CORE: (85, F), "half_width": (4.0, "F°")},
        None,
        NONE,
        0.021,
        0.0005,
    ),
    (
        58,
        "flow_on_the_map",
        {
            "mass_flow": (60, "lb/min"),
            INLET: (85, F),
            "inlet_pressure": (92.4, "kPa"),
            "reference_temperature": (545, "°R"),
            "reference_pressure": (28.4, HG),
        },
        None,
        "lb/min",
        62.4,
        0.05,
    ),
]

WRONG = [
    # item, question, givens, code, unit, the wrong answer as printed with the specimen, half-width
    (14, "temperature_drop_on_the_other_scale", {"temperature_drop": (210, "F°")}, "M10", "C°", 98.9, 0.05),
    (
        20,
        "two_stages",
        {
            "compressor_efficiency": (0.74, NONE),
            INLET: (77, F),
            "first_ratio": (2.0, NONE),
            "effectiveness": (0.80, NONE),
            CORE: (77, F),
            "second_ratio": (2.0, NONE),
        },
        "M8",
        F,
        442,
        0.5,
    ),
    (25, "aftercooling_density_gain", {**BAROMETER, **BEFORE, **BEHIND}, "M8", "%", 33.9, 0.05),
]


def in_si(question, givens):
    """The sheet of a specimen; a given that is shown and not used may be left out."""
    rows = {one.name: one.row for one in question.givens}
    return Sheet(
        question, {name: units.to_si(number, unit, rows[name]) for name, (number, unit) in givens.items()}, "us"
    )


def row_of(question, name):
    rows = {step.result: step.quantity_of() for step in question.steps} | {one.name: one.row for one in question.asked}
    return rows[name]


@pytest.mark.parametrize(("item", "name", "givens", "part", "unit", "printed", "half_width"), SPECIMENS)
def test_the_specimen_comes_out_as_printed(item, name, givens, part, unit, printed, half_width):
    question = QUESTIONS[name]
    assert question.number == item
    part = part or question.asked[-1].name
    value = solved(question, in_si(question, givens))[part]
    assert units.from_si(float(value), unit, row_of(question, part)) == pytest.approx(printed, abs=half_width)


@pytest.mark.parametrize(("item", "name", "givens", "code", "unit", "printed", "half_width"), WRONG)
def test_the_wrong_answer_of_a_specimen_comes_out_as_printed(item, name, givens, code, unit, printed, half_width):
    question = QUESTIONS[name]
    mistake = next(one for one in question.mistakes if one.code == code)
    value = solved(question, in_si(question, givens), mistake.changes)[question.asked[-1].name]
    assert units.from_si(float(value), unit, question.asked[-1].row) == pytest.approx(printed, abs=half_width)


def test_every_item_of_the_bank_is_there():
    numbers = [question.number for question in QUESTIONS.values() if question.number]
    assert sorted(numbers) == list(range(1, 59))
    assert {item for item, *_ in SPECIMENS} - {0} == set(numbers) - {57}


@pytest.mark.parametrize("name", QUESTIONS)
def test_a_question_says_all_that_it_should(name):
    question = QUESTIONS[name]
    assert question.name == name
    assert question.objective
    assert question.difficulty in (1, 2, 3)
    assert len(question.hints) == 2
    assert all(hint.endswith((".", "?")) for hint in question.hints)
    if isinstance(question, Choice):
        return
    for one in question.mistakes:
        assert one.code in {f"M{number}" for number in range(1, 19)}
        assert one.message.endswith(".")
        assert len(one.message.split(". ")) >= 2 or ":" in one.message, "say what was done, and what to do instead"
        assert one.only in ("", "us", "si")
    for one in question.givens:
        assert "{" + one.name + "}" in question.wording, f"{one.name} is given and not shown"
    if set(question.ranges) & {"elevation", "intake_restriction"}:
        assert question.narrowed or name == "restriction_in_another_unit"
