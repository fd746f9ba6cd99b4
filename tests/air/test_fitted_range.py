"""Both sides of each edge of the fitted range: CoolProp's answer inside, the documented answer outside.

The reference is CoolProp called directly (the equation of Lemmon et al., 2000), never through the kit.
"""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from turbomath import OutOfRangeError, RangeWarning, air
from turbomath.air import moist
from turbomath.air.equation import HIGHEST, HIGHEST_PRESSURE, LOWEST

# the ends of the equation lie far outside any engine
pytestmark = pytest.mark.filterwarnings("ignore:.* is far below what is usual")

REAL, IDEAL, MOIST = (air.choose(name) for name in ("real", "ideal", "moist"))
SIGNS = {"density": "D", "enthalpy": "H", "entropy": "S", "specific_heat": "C"}
STEP = 1e-6  # K, and of a pressure: the two sides of an edge
FLASH = 5e-9  # CoolProp's own flash stops at 1e-9
INSIDE = [
    (101_325.0, LOWEST),
    (101_325.0, HIGHEST),
    (HIGHEST_PRESSURE, 300.0),
    (HIGHEST_PRESSURE, LOWEST),
    (HIGHEST_PRESSURE, HIGHEST),
    (10.0, LOWEST),
    (10.0, HIGHEST),
]
TOO_COLD, TOO_HOT = (101_325.0, LOWEST - STEP), (101_325.0, HIGHEST + STEP)
TOO_DENSE = (HIGHEST_PRESSURE * (1 + STEP), 300.0)
OUTSIDE = (TOO_COLD, TOO_HOT, TOO_DENSE)
each_property = pytest.mark.parametrize("name", SIGNS)


def reference(name, state):
    return PropsSI(SIGNS[name], "P", state[0], "T", state[1], "Air")


def both_ways(call, states):
    """Return the answers one by one, after a check that an array of them gives the same."""
    single = [call(*state) for state in states]
    assert all(type(one) is float for one in single)
    np.testing.assert_allclose(call(*np.array(states).T), single, rtol=4e-15)
    return single


def test_at_each_edge_the_fitted_answer_is_the_references():
    for model in [REAL, MOIST]:
        for name in SIGNS:
            found = both_ways(getattr(model, name), INSIDE)
            assert found == pytest.approx([reference(name, state) for state in INSIDE], rel=FLASH)


def test_beyond_each_edge_real_air_is_the_references_and_no_step_is_seen():
    for name in SIGNS:
        found = both_ways(getattr(REAL, name), OUTSIDE)
        assert found == pytest.approx([reference(name, state) for state in OUTSIDE], rel=FLASH)
        edges = [(101_325.0, LOWEST), (101_325.0, HIGHEST), (HIGHEST_PRESSURE, 300.0)]
        assert found == pytest.approx([getattr(REAL, name)(*edge) for edge in edges], rel=1e-5)


def test_one_state_beyond_leaves_the_others_of_its_array_as_they_were():
    for name in SIGNS:
        call = getattr(REAL, name)
        states = np.array([INSIDE[2], TOO_COLD, INSIDE[3], TOO_DENSE, (250e3, 420.0)])
        np.testing.assert_array_equal(call(*states[[0, 2, 4]].T), call(*states.T)[[0, 2, 4]])


def test_beyond_the_temperatures_ideal_air_is_refused_alone_and_in_an_array():
    for state in [TOO_COLD, TOO_HOT]:
        for name in SIGNS:
            call = getattr(IDEAL, name)
            assert np.all(np.isfinite([call(101_325.0, LOWEST), call(101_325.0, HIGHEST)]))
            with pytest.raises(OutOfRangeError, match="1 of 1 states are"):
                call(*state)
            with pytest.raises(OutOfRangeError, match="1 of 3 states are"):
                call(state[0], np.array([300.0, state[1], 310.0]))


def test_ideal_air_has_no_edge_of_pressure():
    for pressure in (HIGHEST_PRESSURE * (1 + STEP), 50 * HIGHEST_PRESSURE):
        assert IDEAL.density(pressure, 300.0) * 300.0 / pressure == pytest.approx(IDEAL.density(1e5, 300.0) * 3e-3)
        assert IDEAL.enthalpy(pressure, 300.0) == IDEAL.enthalpy(1e5, 300.0)


def test_beyond_each_edge_moist_air_is_refused_and_its_function_leaves_a_gap():
    for state in OUTSIDE:
        for name in SIGNS:
            with pytest.raises(OutOfRangeError, match="1 of 1 states are outside"):
                getattr(MOIST, name)(*state)
            row = np.array([(101_325.0, 300.0), state, (200e3, 400.0)]).T
            with pytest.raises(OutOfRangeError, match="1 of 3 states are outside"):
                getattr(MOIST, name)(*row)
            with pytest.warns(RangeWarning, match="left empty"):
                assert np.isnan(getattr(moist, name)(*state, 0.0))
            with pytest.warns(RangeWarning, match="left empty"):
                assert np.isnan(getattr(moist, name)(*row, 0.0)).tolist() == [False, True, False]


def compressed(inlet_pressure, inlet_temperature, outlet_pressure, efficiency):
    """Outlet temperature [K] by CoolProp alone."""
    start, entropy = (PropsSI(sign, "P", inlet_pressure, "T", inlet_temperature, "Air") for sign in "HS")
    work = (PropsSI("H", "P", outlet_pressure, "S", entropy, "Air") - start) / efficiency
    return PropsSI("T", "P", outlet_pressure, "H", start + work, "Air")


def last_efficiency(outlet):
    """The efficiency that brings air of 320 K, squeezed from 1 to 5 bar, to just this outlet temperature."""
    start, entropy = (PropsSI(sign, "P", 1e5, "T", 320.0, "Air") for sign in "HS")
    ideal = PropsSI("H", "P", 5e5, "S", entropy, "Air")
    return (ideal - start) / (PropsSI("H", "P", 5e5, "T", outlet, "Air") - start)


# inlet just inside and just outside, cold; outlet pressure; outlet temperature
COMPRESSORS_INSIDE = [
    (1e5, LOWEST, 3e5, 0.74),
    (3e5, 290.0, HIGHEST_PRESSURE, 0.74),
    (1e5, 320.0, 5e5, last_efficiency(HIGHEST - 1e-3)),
]
COMPRESSORS_OUTSIDE = [
    (1e5, LOWEST - STEP, 3e5, 0.74),
    (3e5, 290.0, HIGHEST_PRESSURE * (1 + STEP), 0.74),
    (1e5, 320.0, 5e5, last_efficiency(HIGHEST + 1e-3)),
]
names = ["cold inlet", "dense outlet", "hot outlet"]


def test_inside_each_edge_a_compressor_is_the_references():
    found = both_ways(REAL.outlet_temperature, COMPRESSORS_INSIDE)
    assert found == pytest.approx([compressed(*one) for one in COMPRESSORS_INSIDE], rel=FLASH)
    assert both_ways(MOIST.outlet_temperature, COMPRESSORS_INSIDE) == pytest.approx(found, rel=FLASH)


def test_beyond_each_edge_the_compressor_of_real_air_is_the_references():
    found = both_ways(REAL.outlet_temperature, COMPRESSORS_OUTSIDE)
    assert found == pytest.approx([compressed(*one) for one in COMPRESSORS_OUTSIDE], rel=FLASH)
    assert found[2] > HIGHEST > both_ways(REAL.outlet_temperature, COMPRESSORS_INSIDE)[2]
    read = [(*one[:3], outlet) for one, outlet in zip(COMPRESSORS_OUTSIDE, found, strict=True)]
    assert both_ways(REAL.isentropic_efficiency, read) == pytest.approx(
        [one[3] for one in COMPRESSORS_OUTSIDE], rel=1e-6
    )


def test_beyond_each_edge_the_compressor_of_moist_air_is_refused():
    for compressor in COMPRESSORS_OUTSIDE:
        with pytest.raises(OutOfRangeError, match="1 of 1 states are outside"):
            MOIST.outlet_temperature(*compressor)
        pair = np.array([COMPRESSORS_INSIDE[0], compressor]).T
        with pytest.raises(OutOfRangeError, match="1 of 2 states are outside"):
            MOIST.outlet_temperature(*pair)
        with pytest.warns(RangeWarning, match="left empty"):
            assert np.isnan(moist.outlet_temperature(*pair, 0.0)).tolist() == [False, True]


@pytest.mark.parametrize("turn", [0, 2], ids=["cold inlet", "hot outlet"])
def test_beyond_the_temperatures_the_compressor_of_ideal_air_is_refused(turn):
    # The ideal outlet lies 0.1 K away from the real one: go past the edge by more than that
    compressor = list(COMPRESSORS_OUTSIDE[turn])
    compressor[3] *= 1.0 if turn == 0 else 0.998
    with pytest.raises(OutOfRangeError, match="1 of 1 states are"):
        IDEAL.outlet_temperature(*compressor)
    with pytest.raises(OutOfRangeError, match="1 of 2 states are"):
        IDEAL.outlet_temperature(*np.array([COMPRESSORS_INSIDE[0], compressor]).T)


def test_beyond_the_reference_itself_real_air_is_refused():
    for temperature in [59.9, 2000.1]:
        for name in SIGNS:
            with pytest.raises(OutOfRangeError, match="holds from 60 to 2000 K"):
                getattr(REAL, name)(101_325.0, temperature)
            with pytest.raises(OutOfRangeError, match="1 of 2 states are outside"):
                getattr(REAL, name)(101_325.0, np.array([300.0, temperature]))
