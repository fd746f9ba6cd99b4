"""Orifice and laminar element: published coefficients and flows, the limits of the standard, and what must hold."""

import warnings

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from turbomath import OutOfRangeError, RangeWarning
from turbomath.physics import flow_meters, orifice
from turbomath.table.errors import unwarned

# A plate of 22.2 mm in a pipe of 73.91 mm, 0.124431876 kg/s of viscosity 1.85861753095e-5 Pa s
SMALL = dict(diameter_ratio=22.2 / 73.91, pipe_diameter=0.07391)
SMALL_REYNOLDS = 4 * 0.124431876 / (np.pi * 0.07391 * 1.85861753095e-5)
AIR = dict(pressure=98_000.0, density=1.14, dynamic_viscosity=1.837e-5, pipe_diameter=0.15)


@pytest.mark.parametrize(("tappings", "printed"), [("corner", 0.600009), ("D and D/2", 0.598822), ("flange", 0.599004)])
def test_the_coefficient_is_the_published_one(tappings, printed):
    """ChEDL, its test suite for the equation of ISO 5167-2."""
    found = orifice.discharge_coefficient(reynolds_number=SMALL_REYNOLDS, tappings=tappings, **SMALL)
    assert found == pytest.approx(printed, abs=6e-7)


def test_the_coefficient_is_that_of_the_table_of_the_standard():
    """ISO 5167-2:2003, annex A, corner tappings, bore over pipe 0.1; from memory."""
    found = orifice.discharge_coefficient(0.1, [5e3, 1e4, 1e5, 1e6], 0.125 + 1e-9)
    assert found == pytest.approx([0.6006, 0.5990, 0.5969, 0.5965], abs=5e-5)


def test_the_expansibility_is_the_published_one():
    """ChEDL, its test suite: 1 kPa of 100 kPa, 22.2 mm in 73.9 mm, 0.99747."""
    assert orifice.expansibility_factor(1_000.0, 100e3, 22.2 / 73.9) == pytest.approx(0.9974739, abs=5e-8)


def test_the_flow_is_the_published_one():
    """ChEDL, its test suite: 200 to 183 kPa, D and D/2 tappings, 7.702338 kg/s."""
    found = flow_meters.orifice_mass_flow(17e3, 200e3, 999.1, 0.0011, 0.07366, 0.05, "D and D/2", 1.33)
    assert found == pytest.approx(7.702338036, rel=1e-9)


def test_a_small_pipe_has_a_term_of_its_own_that_begins_at_nothing():
    sizes = np.array([0.0711199, 0.0711201, 0.0508])
    found = orifice.discharge_coefficient(0.5, 1e5, sizes)
    assert found[0] == pytest.approx(found[1], abs=1e-7)
    assert found[2] - found[1] == pytest.approx(0.011 * 0.25 * 0.8, rel=1e-3)  # 5.3.2.1: 0.011 (0.75 - 0.5) (2.8 - 2)


# (bore over pipe, Reynolds number, pipe [m]) -> the per cent that ISO 5167-2, 5.3.3.1, gives; by hand
UNSURE = {
    (0.15, 1e5, 0.1): 0.55,
    (0.2, 1e5, 0.1): 0.5,
    (0.6, 1e5, 0.1): 0.5,
    (0.7, 1e5, 0.1): 0.6669,
    (0.55, 9e3, 0.1): 1.0,
    (0.5, 9e3, 0.1): 0.5,
    (0.5, 1e5, 0.0508): 0.68,
}


def test_how_sure_the_coefficient_is():
    for (ratio, reynolds, pipe), per_cent in UNSURE.items():
        found = orifice.Plate(ratio, pipe, "corner").uncertainty(reynolds)
        assert 100 * found == pytest.approx(per_cent, abs=1e-9), (ratio, reynolds, pipe)


# (bore over pipe, Reynolds number, pipe [m], tappings): just inside and just outside, ISO 5167-2, 5.3.1
INSIDE = ((0.1, 5e3, 0.126, "corner"), (0.75, 9e3, 0.05, "corner"), (0.6, 5_760, 1.0, "D and D/2"))
OUTSIDE = (
    (0.099, 1e5, 0.2, "corner"),
    (0.751, 1e5, 0.2, "corner"),
    (0.5, 1e5, 0.0499, "corner"),
    (0.5, 1e5, 1.001, "corner"),
    (0.2, 1e5, 0.0624, "corner"),
    (0.5, 4_999, 0.2, "corner"),
    (0.6, 5_759, 1.0, "D and D/2"),
    (0.57, 16e3 * 0.57**2 - 1, 1.0, "corner"),
    (0.6, 170 * 0.36 * 200 - 1, 0.2, "flange"),
)


def test_outside_the_limits_of_the_standard_there_is_a_warning():
    for ratio, reynolds, pipe, tappings in OUTSIDE:
        with pytest.warns(RangeWarning, match="outside ISO 5167-2"):
            orifice.discharge_coefficient(ratio, reynolds, pipe, tappings)
    warnings.simplefilter("error")
    for ratio, reynolds, pipe, tappings in INSIDE:
        assert orifice.discharge_coefficient(ratio, reynolds, pipe, tappings) == pytest.approx(0.62, abs=0.05)
    with pytest.warns(RangeWarning, match="more than a quarter"):
        orifice.expansibility_factor(26e3, 100e3, 0.5)
    assert orifice.expansibility_factor(25e3, 100e3, 0.5) < 1


def test_a_trickle_warns_and_stays_a_trickle():
    with pytest.warns(RangeWarning, match="outside ISO 5167-2"):
        trickle = flow_meters.orifice_mass_flow(0.01, bore_diameter=0.09, **AIR)
    assert 0 < 4 * trickle / (np.pi * 0.15 * 1.837e-5) < 1_000
    with unwarned():
        ever_less = flow_meters.orifice_mass_flow(np.logspace(0, -9, 40), bore_diameter=0.1, **AIR)
    assert (np.diff(np.log10(ever_less)) < -0.1).all()  # as the root of the drop, never to and fro
    assert np.isnan(flow_meters.orifice_mass_flow([0.0, -5.0], bore_diameter=0.09, **AIR)).all()
    assert np.isnan(flow_meters.orifice_mass_flow(900.0, bore_diameter=0.15, **AIR))


@given(st.floats(100.0, 20e3), st.floats(0.2, 0.74), st.sampled_from(orifice.TAPPINGS))
def test_more_drop_or_a_larger_bore_is_more_flow_but_less_than_its_square_root(drop, ratio, tappings):
    with unwarned():
        flow = [
            flow_meters.orifice_mass_flow(drop * more, bore_diameter=0.15 * ratio * wider, tappings=tappings, **AIR)
            for more, wider in ((1, 1), (1.21, 1), (1, 1.01))
        ]
    assert flow[0] < flow[1] < 1.1 * flow[0]  # it expands, and the coefficient falls
    assert flow[2] > 1.02 * flow[0]


def test_viscosity_is_the_published_one_and_that_of_a_finer_equation():
    """U.S. Standard Atmosphere 1976, table at 0 and 11 km; CoolProp (Lemmon and Jacobsen 2004)."""
    assert flow_meters.air_viscosity([288.15, 216.65]) == pytest.approx([1.7894e-5, 1.4216e-5], abs=5e-10)
    for temperature in (250.0, 300.0, 350.0):
        assert flow_meters.air_viscosity(temperature) == pytest.approx(
            PropsSI("V", "T", temperature, "P", 1e5, "Air"),
            rel=0.007,  # the law of Sutherland is that good
        )


def test_a_laminar_element_follows_its_constant_and_the_viscosity():
    """By hand: 0.24 L/(s Pa) x 1500 Pa x (18.22 / 18.93), viscosities of USSA1976, eq. 51, in 1e-6 Pa s."""
    found = flow_meters.laminar_volume_flow(1_500.0, 310.0, 2.4e-4, 294.26)
    assert found == pytest.approx(0.36 * 18.19 / 18.93, rel=1e-3)
    assert flow_meters.laminar_volume_flow(3_000.0, 310.0, 2.4e-4, 294.26) == pytest.approx(2 * found)
    assert flow_meters.laminar_volume_flow(1_500.0, 294.26, 2.4e-4, 294.26) == pytest.approx(0.36)
    assert np.isnan(flow_meters.laminar_volume_flow(-1.0, 310.0, 2.4e-4, 294.26))


def test_unknown_tappings_are_refused_by_name():
    with pytest.raises(OutOfRangeError, match="tappings must be one of 'corner', 'D and D/2', 'flange'; found 'pipe'"):
        orifice.discharge_coefficient(0.6, 1e5, 0.15, "pipe")
