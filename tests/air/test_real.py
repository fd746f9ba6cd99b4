"""Real and ideal air against the solved equation of Lemmon et al. (2000), printed tables, and thermodynamics itself."""

import itertools
import subprocess
import sys

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from tests.air import solved
from turbomath import air
from turbomath.air import equation, make_tables
from turbomath.air.equation import HIGHEST, HIGHEST_PRESSURE, LOWEST
from turbomath.table.constants import AIR_SPECIFIC_HEAT

# the ends of the equation lie far outside any engine
pytestmark = pytest.mark.filterwarnings("ignore:.* is far below what is usual")

BAR, FLASH_BAR = 1e-9, 5e-9  # against the equation solved to rounding; CoolProp's own flash stops at 1e-9
REAL, IDEAL, COOLPROP = (air.choose(name) for name in ("real", "ideal", "coolprop"))


def engine(count, seed):
    """Random compressors of engines: inlet pressure and temperature, outlet pressure, efficiency."""
    draw = np.random.default_rng(seed)
    inlet = draw.uniform(60e3, 105e3, count)
    ratio, efficiency = draw.uniform(1, 5, count), draw.uniform(0.5, 0.9, count)
    return inlet, draw.uniform(233, 323, count), inlet * ratio, efficiency


def whole_range(count, seed):
    """Random compressors whose inlet and outlet are anywhere in the fitted range, cold and dense corners included."""
    draw = np.random.default_rng(seed)
    inlet = HIGHEST_PRESSURE * draw.uniform(1e-4, 1, count) ** 2
    outlet = inlet * np.minimum(HIGHEST_PRESSURE / inlet, 40.0) ** draw.uniform(0, 1, count)
    highest = HIGHEST * (inlet / outlet) ** (2 / 7)
    return inlet, LOWEST + (highest - LOWEST) * draw.uniform(0, 1, count), outlet, draw.uniform(0.4, 1, count)


def states(count, seed):
    """Random pressures and temperatures anywhere in the fitted range, with its corners."""
    draw = np.random.default_rng(seed)
    corners = np.array(list(itertools.product([1.0, 450e3, HIGHEST_PRESSURE], [LOWEST, 300.0, HIGHEST])))
    inside = np.column_stack([draw.uniform(1, HIGHEST_PRESSURE, count), draw.uniform(LOWEST, HIGHEST, count)])
    return np.vstack([corners, inside]).T


@pytest.mark.parametrize("count", [1_000, pytest.param(50_000, marks=pytest.mark.long)])
@pytest.mark.parametrize("draw", [engine, whole_range])
def test_outlet_temperature_is_that_of_the_solved_equation(draw, count):
    compressors = draw(count, 41)
    exact = np.array([solved.outlet_temperature(*one) for one in zip(*compressors, strict=True)])
    inside = exact <= HIGHEST
    assert inside.mean() > 0.8
    found = REAL.outlet_temperature(*(one[inside] for one in compressors))
    np.testing.assert_allclose(found, exact[inside], rtol=BAR / 10)


@pytest.mark.parametrize("count", [1_000, pytest.param(50_000, marks=pytest.mark.long)])
def test_density_heat_and_entropy_are_those_of_the_solved_equation(count):
    pressure, temperature = states(count, 42)
    exact = np.array([solved.at(*one) for one in zip(pressure, temperature, strict=True)]).T
    for name, wanted, bar in zip(
        ("density", "enthalpy", "entropy", "specific_heat"), exact, (BAR / 10, BAR / 10, BAR / 10, BAR), strict=True
    ):
        np.testing.assert_allclose(getattr(REAL, name)(pressure, temperature), wanted, rtol=bar, err_msg=name)


def test_the_corners_of_the_range_are_as_good_as_its_middle():
    corners = itertools.product([1e3, 1e5, 9e5], [210.0, 211.0, 305.0, 719.9], [1e4, 5e5, 9e5], [0.5, 1.0])
    compressors = np.array([one for one in corners if one[0] <= one[2]])
    exact = np.array([solved.outlet_temperature(*one) for one in compressors])
    inside = (exact >= LOWEST) & (exact <= HIGHEST)
    assert inside.sum() >= 20
    np.testing.assert_allclose(REAL.outlet_temperature(*compressors[inside].T), exact[inside], rtol=BAR / 10)


def test_the_chain_agrees_with_a_plain_use_of_coolprop():
    p1, t1, p2, efficiency = engine(1_000, 43)
    inlet, entropy = (PropsSI(name, "P", p1, "T", t1, "Air") for name in "HS")
    outlet = inlet + (PropsSI("H", "P", p2, "S", entropy, "Air") - inlet) / efficiency
    t2 = PropsSI("T", "P", p2, "H", outlet, "Air")
    np.testing.assert_allclose(REAL.outlet_temperature(p1, t1, p2, efficiency), t2, rtol=FLASH_BAR)
    np.testing.assert_allclose(REAL.density(p2, t2), PropsSI("D", "P", p2, "T", t2, "Air"), rtol=FLASH_BAR)


# Cengel and Boles 2002, table A-17, ideal gas: K, kJ/kg, relative pressure, s0 in kJ/(kg K). 550 K is misprinted.
CENGEL_A17 = [
    (260, 260.09, 0.8405, 1.55848),
    (300, 300.19, 1.3860, 1.70203),
    (320, 320.29, 1.7375, 1.76690),
    (350, 350.49, 2.379, 1.85708),
    (380, 380.77, 3.176, 1.94001),
    (400, 400.98, 3.806, 1.99194),
    (440, 441.61, 5.332, 2.08870),
    (480, 482.49, 7.268, 2.17760),
    (500, 503.02, 8.411, 2.21952),
    (540, 544.35, 11.10, 2.29906),
    (580, 586.04, 14.38, 2.37348),
    (600, 607.02, 16.28, 2.40902),
]


def test_ideal_air_is_that_of_the_printed_table():
    for temperature, enthalpy, relative_pressure, entropy in CENGEL_A17:
        # The table is of 1948 (Keenan and Kaye) and up to 0.03 % away from today's heat capacities
        p = 1e5
        rise = IDEAL.enthalpy(p, temperature) - IDEAL.enthalpy(p, 300.0)
        more = IDEAL.entropy(p, temperature) - IDEAL.entropy(p, 300.0)
        assert rise == pytest.approx(1e3 * (enthalpy - 300.19), abs=150)
        assert more == pytest.approx(1e3 * (entropy - 1.70203), abs=0.35)
        ratio = relative_pressure / 1.3860
        low, high = sorted((p, p * ratio))
        start, end = sorted((300.0, temperature))
        assert IDEAL.outlet_temperature(low, start, high, 1.0) == pytest.approx(end, rel=3e-4)


def test_real_air_is_that_of_the_printed_row_in_range():
    # Lemmon et al. 2000, table A2: 500 K, 0.2 MPa; printed digits. M = 28.96546 g/mol
    assert REAL.density(200e3, 500.0) == pytest.approx(0.048077 * 28.96546, rel=1.1e-5)
    assert REAL.specific_heat(200e3, 500.0) == pytest.approx(29.84 / 0.02896546, rel=2e-4)


temperatures, pressures = st.floats(212.0, 718.0), st.floats(2e3, 898e3)
inlets = st.tuples(st.floats(50e3, 110e3), st.floats(230.0, 330.0))
ratios, efficiencies = st.floats(1.01, 5.0), st.floats(0.55, 1.0)
each_model = pytest.mark.parametrize("model", [REAL, IDEAL], ids=["real", "ideal"])


@each_model
@given(pressure=pressures, temperature=temperatures)
def test_heat_entropy_and_volume_belong_to_one_equation(model, pressure, temperature):
    # cp = dh/dT and T ds = dh at constant pressure; dh - T ds = v dp at constant temperature
    T, p, dT, dp = temperature, pressure, 0.5, 500.0
    rise, more = (getattr(model, one)(p, T + dT) - getattr(model, one)(p, T - dT) for one in ("enthalpy", "entropy"))
    curvature = 3e-6  # of heat and entropy over the two steps
    assert rise / (2 * dT) == pytest.approx(model.specific_heat(p, T), rel=curvature)
    assert T * more == pytest.approx(rise, rel=curvature)
    rise, more = (getattr(model, one)(p + dp, T) - getattr(model, one)(p - dp, T) for one in ("enthalpy", "entropy"))
    assert rise - T * more == pytest.approx(2 * dp / model.density(p, T), rel=0.1 * (dp / p) ** 2 * 4 + 3e-6)


@each_model
@given(inlet=inlets, ratio=ratios, efficiency=efficiencies)
def test_losses_make_entropy_and_none_makes_none(model, inlet, ratio, efficiency):
    pressure, temperature = inlet
    outlet = model.outlet_temperature(pressure, temperature, ratio * pressure, efficiency)
    made = model.entropy(ratio * pressure, outlet) - model.entropy(pressure, temperature)
    assert made >= -1e-6
    ideal = model.outlet_temperature(pressure, temperature, ratio * pressure, 1.0)
    kept = model.entropy(ratio * pressure, ideal) - model.entropy(pressure, temperature)
    assert kept == pytest.approx(0, abs=1e-6)


@each_model
@given(inlet=inlets, ratio=ratios, efficiency=efficiencies)
def test_more_pressure_heats_more_and_better_compressors_heat_less(model, inlet, ratio, efficiency):
    pressure, temperature = inlet
    here = model.outlet_temperature(pressure, temperature, ratio * pressure, efficiency)
    assert model.outlet_temperature(pressure, temperature, 1.001 * ratio * pressure, efficiency) > here > temperature
    assert model.outlet_temperature(pressure, temperature, ratio * pressure, 0.999 * efficiency) > here
    assert model.density(1.001 * pressure, temperature) > model.density(pressure, temperature)


@each_model
@given(inlet=inlets, ratio=ratios, efficiency=efficiencies)
def test_work_over_ideal_work_is_the_efficiency(model, inlet, ratio, efficiency):
    pressure, temperature = inlet
    real, ideal = (model.outlet_temperature(pressure, temperature, ratio * pressure, one) for one in (efficiency, 1.0))
    start = model.enthalpy(pressure, temperature)
    shares = [model.enthalpy(ratio * pressure, one) - start for one in (ideal, real)]
    assert shares[0] / shares[1] == pytest.approx(efficiency, rel=1e-4 if ratio < 1.02 else 1e-6)


def test_without_pressure_real_air_is_ideal():
    temperature = np.linspace(LOWEST, HIGHEST, 40)
    for pressure, apart in ((1e-4, 1e-11), (1e3, 5e-5)):
        for name in ("density", "enthalpy", "entropy", "specific_heat"):
            real, ideal = (getattr(model, name)(pressure, temperature) for model in (REAL, IDEAL))
            np.testing.assert_allclose(real, ideal, rtol=apart)
    assert np.any(REAL.density(1e5, temperature) != IDEAL.density(1e5, temperature))


def test_cold_ideal_air_is_nearly_perfect_and_hot_air_takes_more_heat():
    heat = IDEAL.specific_heat(1e5, np.array([250.0, 300.0, 400.0, 500.0, 600.0]))
    # PYroMat 2.2.6, ig.air, in J/(kg K): another fit of the same molecules, up to 0.085 % away
    np.testing.assert_allclose(heat, [1002.94, 1004.83, 1014.19, 1029.91, 1050.48], rtol=1e-3)
    assert np.all(np.diff(heat) > 0)
    assert heat[1] == pytest.approx(AIR_SPECIFIC_HEAT, rel=2e-4)
    perfect = air.choose("perfect")
    assert IDEAL.outlet_temperature(1e5, 270.0, 1.1e5, 1.0) == pytest.approx(
        perfect.outlet_temperature(1e5, 270.0, 1.1e5, 1.0), abs=0.02
    )


NAMES = make_tables.NAMES


def test_the_tables_hold_the_factors_that_their_script_makes_at_other_states():
    made, draw = make_tables.Air(), np.random.default_rng(7)
    for forces, highest in ((True, HIGHEST_PRESSURE), (False, 0.0)):
        here = equation.Equation(forces)
        for temperature in draw.uniform(LOWEST, HIGHEST, 30):
            pressure = float(highest * draw.uniform())
            numbers = made.numbers(temperature, pressure)
            for name in NAMES:
                x = numbers[make_tables.COORDINATE.get(name, "temperature")]
                found = here._factor(name, equation._places(x), pressure / make_tables.PRESSURE_UNIT)
                assert found == pytest.approx(numbers[name], rel=1e-9 if name == "specific_heat" else 1e-10), name


def test_the_table_file_is_that_of_the_script():
    made, file = make_tables.Air(), equation.TABLES
    assert file["gas_constant"] == made.gas_constant
    assert file["enthalpy_at_zero"] == pytest.approx(made.enthalpy_at_zero, rel=1e-12)
    assert file["entropy_at_equal"] == pytest.approx(made.entropy_at_equal, rel=1e-12)
    assert file["range_K"] == [make_tables.LOWEST, make_tables.HIGHEST]
    degrees = [make_tables.IDEAL_DEGREE, *make_tables.FORCES_DEGREES]
    assert set(file["factors"]) == set(NAMES)
    for name, table in file["factors"].items():
        assert [len(row) - 1 for row in table][1:] == degrees[1:]
        assert len(table[0]) - 1 == (1 if name == "compressibility" else degrees[0])


def test_no_state_beyond_the_range_is_taken_for_one_inside():
    # A heat or isentropic temperature at the limits, and beyond each end, never reads as a temperature in range
    here, q = equation.Equation(), np.linspace(0.0, 0.9, 10)
    for end, table in itertools.product((LOWEST, HIGHEST), ("heat", "entropy")):
        assert np.all(end * here._factor(table, equation._places(end), q) > equation.BELOW)
        assert np.all(end * here._factor(table, equation._places(end), q) < equation.ABOVE)
    beyond = ((equation.BELOW, 0, LOWEST), (equation.ABOVE, HIGHEST, 1e3))
    for (heat, low, high), one in itertools.product(beyond, q):
        assert low < heat * here._factor("temperature_from_heat", equation._places(heat), one) < high


@pytest.mark.process
def test_the_first_answer_needs_no_coolprop():
    code = (
        "import sys; from turbomath import air; m = air.choose('real'); m.outlet_temperature(95e3, 300.0, 271e3, 0.74);"
        "m.density([95e3, 271e3], 300.0); print('CoolProp' in sys.modules)"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert told.strip() == "False"
