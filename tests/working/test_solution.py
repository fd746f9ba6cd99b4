"""A worked solution can be followed with a pocket calculator: its own printed numbers give its printed results."""

import ast
import importlib
import inspect
import math
import operator
import pkgutil
import re

import pytest

from tests.variants_made import NUMERIC, SYSTEMS, solutions, whole_class
from turbomath import physics, working
from turbomath.homework.asking import variants
from turbomath.paper.equations import mathml
from turbomath.physics import charge, compression, cooling
from turbomath.table.errors import OutOfRangeError
from turbomath.table.quantities import QUANTITIES
from turbomath.units.spellings import UNITS
from turbomath.working.coherent import HOURLY, from_si, to_si
from turbomath.working.coherent import UNITS as COHERENT
from turbomath.working.writing import letter

LABELS = {name for units in (*COHERENT.values(), *HOURLY.values()) for name in units} | {
    name for rows in UNITS.values() for name, *_ in rows
}
LABELS |= {f"{name} abs" for name in LABELS}
UNIT = re.compile(
    r"(?<=\d) (?:" + "|".join(map(re.escape, sorted(LABELS - {"-"}, key=len, reverse=True))) + r")(?![\w/³·°])"
)

_WORK = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
    ast.USub: operator.neg,
}
_CALLS = {"max": max, "min": min, "sqrt": math.sqrt}


def calculated(text):
    """What a pocket calculator makes of a printed expression, units left out; None if it is not all numbers."""
    bare = (
        UNIT.sub("", text).replace("×", "*").replace("−", "-").replace("^", "**").replace("√", "sqrt").replace(" %", "")
    )
    try:
        return _value(ast.parse(bare.strip(), mode="eval").body)
    except (SyntaxError, KeyError, AttributeError):
        return None


def _value(node):
    if isinstance(node, ast.Constant):
        return node.value
    if isinstance(node, ast.UnaryOp):
        return _WORK[type(node.op)](_value(node.operand))
    if isinstance(node, ast.Call):
        return _CALLS[node.func.id](*map(_value, node.args))
    return _WORK[type(node.op)](_value(node.left), _value(node.right))


def half_last_digit(text):
    decimals = len(UNIT.sub("", text).strip().partition(".")[2])
    number = abs(calculated(text))
    if not decimals and number >= 1e5:  # five figures of a large number
        return 0.5 * 10.0 ** (math.floor(math.log10(number)) - 4)
    return 0.5 * 10.0**-decimals


def check_every_line(text):
    """Work every printed line again from its own numbers; return how many were worked."""
    worked = 0
    for line in text.splitlines():
        parts = line.strip().split(" = ")
        if len(parts) < 3 or calculated(parts[-2]) is None:
            continue
        assert calculated(parts[-1]) is not None, line
        assert abs(calculated(parts[-2]) - calculated(parts[-1])) <= half_last_digit(parts[-1]) * 1.000001, line
        worked += 1
    return worked


def numbers_follow(text):
    """Every number that a step puts in was printed before it."""
    seen = set()
    for line in text.splitlines():
        if line.startswith("    ") and line.count(" = ") == 2 and calculated(line.split(" = ")[1]) is not None:
            for number in re.findall(r"(?<![\w.])\d+\.\d{2,}", line.split(" = ")[1]):
                assert number in seen or number in line, line
        seen |= set(re.findall(r"\d+\.\d+", line))


def answers(text):
    """The answers of a printed solution: what stands behind each name."""
    lines = text.partition("\nAnswer\n")[2].splitlines()
    return [line.partition(": ")[2] for line in lines if re.match(r"  \S", line)]


@pytest.mark.parametrize("sheet", SYSTEMS)
@pytest.mark.parametrize("shown", SYSTEMS)
@pytest.mark.parametrize("name", NUMERIC)
def test_every_worked_solution_follows_from_its_own_printed_numbers(name, sheet, shown):
    for variant, text in solutions(name, sheet, shown):
        worked = check_every_line(text)
        assert worked >= 1 or all(one.name in variant.givens for one in variant.asked) or sheet == shown
        numbers_follow(text)


@pytest.mark.parametrize("sheet", SYSTEMS)
@pytest.mark.parametrize("shown", SYSTEMS)
@pytest.mark.parametrize("name", NUMERIC)
def test_the_printed_answer_is_the_key(name, sheet, shown):
    for variant, text in solutions(name, sheet, shown):
        for words, asked in zip(answers(text), variant.asked, strict=True):
            key = float(variant.key[asked.name])
            width = float(asked.allowed.width(key, sheet))
            zero = to_si(0.0, asked.unit(shown), asked.row)
            digit = to_si(half_last_digit(words), asked.unit(shown), asked.row) - zero
            assert abs(to_si(calculated(words), asked.unit(shown), asked.row) - key) <= digit + width / 10


@pytest.mark.parametrize("name", NUMERIC)
def test_a_solution_has_equation_numbers_result_and_sense_check(name):
    variant, text = solutions(name, "us", "us")[0]
    heads = [text.index("Given"), text.index("Answer"), text.index("Sense check: ")]
    assert heads == sorted(heads)
    assert text.rstrip().endswith(".")
    for step in variant.question.steps:
        assert step.result.replace("_", " ") in text


@pytest.mark.parametrize("name", NUMERIC)
@pytest.mark.parametrize("units", SYSTEMS)
def test_every_equation_is_latex_that_turns_into_mathml(name, units):
    (variant,) = whole_class(name, units, 1)
    for line in working.lines(variant.chain, units):
        assert len(line.text) == len(line.latex) or line.sort == "step"
        for latex in line.latex:
            assert latex.count("{") == latex.count("}")
            assert latex.count(r"\left") == latex.count(r"\right")
            assert str(mathml(latex, "block")).startswith("<math")


def formulas():
    found = {}
    for info in pkgutil.iter_modules(physics.__path__, "turbomath.physics."):
        module = importlib.import_module(info.name)
        for name, member in vars(module).items():
            if hasattr(member, "formula") and member.__module__ == module.__name__:
                found[f"{info.name.rsplit('.', 1)[1]}.{name}"] = member
    return found


FORMULAS = formulas()
VALUES = {  # one asymmetric sample of each quantity, SI
    "pressure": 213_000.0,
    "temperature": 327.0,
    "density": 2.31,
    "inlet_pressure": 93_700.0,
    "outlet_pressure": 251_000.0,
    "inlet_temperature": 301.3,
    "outlet_temperature": 437.7,
    "medium_temperature": 296.4,
    "isentropic_efficiency": 0.713,
    "effectiveness": 0.78,
    "elevation": 1234.0,
    "sea_level_pressure": 101_900.0,
    "relative_humidity": 0.63,
    "humidity_ratio": 0.0187,
    "wet_bulb_temperature": 299.0,
    "vapour_pressure": 3210.0,
    "displacement": 0.0127,
    "engine_speed": 28.5,
    "volumetric_efficiency": 0.913,
    "mass_flow": 0.447,
    "hydrogen_carbon_ratio": 1.83,
    "fuel_flow": 0.0187,
    "air_fuel_ratio": 25.3,
    "stoichiometric_air_fuel_ratio": 14.47,
    "power": 287_000.0,
    "specific_fuel_consumption": 5.93e-8,
    "torque": 1873.0,
    "fuel_mass": 2.31,
    "fuel_time": 123.4,
    "fuel_lower_heating_value": 42.3e6,
    "ntu": 1.87,
    "capacity_ratio": 0.43,
    "charge_capacity_rate": 447.0,
    "medium_capacity_rate": 1130.0,
    "charge_effectiveness": 0.61,
    "conductance": 873.0,
    "specific_heat": 1013.0,
    "cooling_medium_outlet_temperature": 331.0,
    "charge_flow_ratio": 0.71,
    "medium_flow_ratio": 1.23,
    "charge_density_ratio": 0.87,
    "charge_side_share": 0.57,
    "fouling_ratio": 0.19,
    "cooler_pressure_loss": 9_700.0,
    "pressure_ratio": 2.63,
    "polytropic_efficiency": 0.77,
    "dry_pressure": 94_300.0,
    "fuel_delivery": 0.137,
    "reference_pressure": 99_500.0,
    "reference_temperature": 297.0,
    "reference_power": 287_000.0,
    "site_pressure": 87_300.0,
    "site_temperature": 309.0,
    "site_vapour_pressure": 2_700.0,
    "mechanical_efficiency": 0.83,
    "reference_vapour_pressure": 970.0,
    "reference_medium_temperature": 299.0,
    "gas_mass": 4.7,
    "room_volume": 53.0,
    "carbon_dioxide_share": 0.043,
    "turbine_inlet_temperature": 811.0,
    "turbine_outlet_temperature": 701.0,
    "expansion_ratio": 1.73,
    "fitted_expansion_ratio": 2.31,
    "turbine_efficiency": 0.71,
    "shaft_efficiency": 0.957,
    "heat_capacity_ratio": 1.343,
    "specific_turbine_work": 121_300.0,
    "turbine_power": 51_700.0,
    "exhaust_mass_flow": 0.463,
    "turbine_inlet_pressure": 231_000.0,
    "turbine_outlet_pressure": 104_300.0,
    "compressor_power": 48_900.0,
    "compressor_efficiency": 0.731,
    "shaft_power_ratio": 0.946,
    "specific_compressor_work": 139e3,
    "work_coefficient": 0.75,
    "tip_speed": 430.0,
    "wheel_diameter": 0.103,
    "shaft_speed": 1330.0,
    "rotor_inertia": 4.3e-4,
    "air_meter_pressure_drop": 913.0,
    "pipe_diameter": 0.152,
    "bore_diameter": 0.0913,
    "diameter_ratio": 0.601,
    "reynolds_number": 187_000.0,
    "dynamic_viscosity": 1.837e-5,
    "laminar_flow_constant": 2.4e-4,
}
OPTIONS = {"arrangement": "crossflow, both unmixed", "aspiration": "turbocharged", "engine": "turbocharged"}
SPECIAL = {
    "turbine.efficiency": {"expansion_ratio": 2.63},
    "atmosphere.elevation": {"pressure": 87_300.0},
    "humidity.condensate": {"pressure": 290_000.0, "temperature": 301.0},
    "humidity.relative_humidity": {"temperature": 335.0},
    "humidity.relative_humidity_from_wet_bulb": {"pressure": 99_000.0, "temperature": 306.0},
    "humidity.humidity_ratio": {"pressure": 99_000.0, "temperature": 306.0},
    "cooling.effectiveness": {"inlet_temperature": 437.7, "outlet_temperature": 323.0},
    "cooling.outlet_temperature": {"inlet_temperature": 437.7},
    "cooling.break_even_pressure_loss": {"inlet_temperature": 437.7, "outlet_temperature": 323.0},
    "exchanger.conductance": {"inlet_temperature": 437.7, "outlet_temperature": 341.0},
    "exchanger.medium_capacity_rate": {"inlet_temperature": 437.7, "outlet_temperature": 341.0},
    "correction.iso1585_factor": {"temperature": 303.0},
    "correction.j1349_factor": {"temperature": 303.0},
    "cooling.specific_heat_rejected": {"inlet_temperature": 437.7, "outlet_temperature": 323.0},
}


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("name", FORMULAS)
def test_any_formula_can_be_worked_and_its_equation_gives_what_its_code_gives(name, units):
    formula = FORMULAS[name]
    wanted = [one for one in inspect.signature(formula).parameters if one in VALUES]
    arguments = {one: SPECIAL.get(name, {}).get(one, VALUES.get(one)) for one in wanted}
    arguments |= {one: OPTIONS[one] for one in inspect.signature(formula).parameters if one in OPTIONS}
    chain = working.call(formula, **arguments)
    text = working.solution(chain, units=units)
    check_every_line(text)
    (answer,) = [line.words for line in working.lines(chain, units) if line.sort == "answer"]
    quantity = formula.formula.result
    words = answer.partition(": ")[2]
    label = UNIT.search(words)
    unit = label[0].strip() if label else "-"
    expected = from_si(formula(**arguments), unit, quantity)
    zero = abs(to_si(0.0, unit, quantity)) / abs(to_si(1.0, unit, quantity) - to_si(0.0, unit, quantity))
    assert calculated(words) == pytest.approx(expected, abs=3e-4 * (abs(expected) + zero) + half_last_digit(words))


def test_an_equation_too_long_for_numbers_still_says_what_went_in():
    text = working.solution(working.call(FORMULAS["water.saturation_pressure"], temperature=300.0), units="si")
    assert "at temperature 300 K" in text
    assert "3.5366 kPa" in text  # IAPWS R7-97, table 35: 0.353658941e-2 MPa at 300 K


def test_a_specimen_worked_by_hand():
    # Heywood, section 6.8, in US units: 85 F and 325 F at a ratio of 2.6: 0.712
    work = working.call(
        compression.isentropic_efficiency,
        inlet_pressure=100e3,
        inlet_temperature=544.67 / 1.8,
        outlet_pressure=260e3,
        outlet_temperature=784.67 / 1.8,
    )
    text = working.solution(work, units="us")
    assert "η = T_in × ((p_out / p_in)^((γ−1)/γ) − 1) / (T_out − T_in)" in text
    assert "T_in = 85 °F + 459.67 = 544.67 °R" in text
    assert "isentropic efficiency: 0.712" in text
    assert "is usually 0.5 to 0.85; this one is." in text


def test_a_value_outside_the_usual_is_said_to_be():
    work = working.call(
        cooling.effectiveness, inlet_temperature=430.0, outlet_temperature=420.0, medium_temperature=300.0
    )
    assert "this one is." in working.solution(work, units="si")
    work = working.call(charge.density, pressure=4_000_000.0, temperature=300.0)
    assert "this one is not, so look at the readings again." in working.solution(work, units="si")


def test_what_is_undefined_is_shown_as_a_dash_and_does_not_stop_the_rest():
    work = working.call(
        cooling.effectiveness, inlet_temperature=300.0, outlet_temperature=290.0, medium_temperature=300.0
    )
    assert "effectiveness: –" in working.solution(work, units="si")


def test_a_call_may_be_a_pair_and_what_cannot_be_is_refused():
    pair = (charge.density, {"pressure": 1e5, "temperature": 300.0})
    assert working.solution(pair, units="si") == working.solution(working.call(charge.density, **pair[1]), units="si")
    with pytest.raises(OutOfRangeError, match="temperature"):
        working.call(charge.density, pressure=1e5, temperature=-3.0)
    with pytest.raises(OutOfRangeError, match="units must be one of 'us', 'si'"):
        working.solution(pair, units="metric")
    with pytest.raises(OutOfRangeError, match="form"):
        working.solution(pair, units="si", form="pdf")


def test_markdown_holds_the_same_numbers_as_the_text():
    variant = variants.make("pressure_ratio", secret="s", assignment="worked", seat="1")
    text, markdown = (working.solution(variant, units="us", form=form) for form in ("text", "markdown"))
    assert set(re.findall(r"\d+\.\d+", text)) == set(re.findall(r"\d+\.\d+", markdown))
    assert markdown.count("$$") % 2 == 0
    assert r"\pi = \frac{p_2}{p_1}" in markdown


def test_every_symbol_of_the_table_can_be_written_on_a_terminal():
    for row in QUANTITIES.values():
        assert not set(letter(row.symbol)) & set("\\{}")
