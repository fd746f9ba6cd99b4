"""CO2 in a room, for the safety part: against published numbers, a general library, and the limits that must hold."""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from turbomath import OutOfRangeError
from turbomath.physics.room_gas import carbon_dioxide_share, oxygen_share

LB = 0.45359237  # kg, NIST SP 811
IDLH, CEILING, WHOLE_DAY = 0.040, 0.030, 0.005  # NIOSH IDLH documentation (1994), NIOSH ceiling, 29 CFR 1910.1000 Z-1
ROOM = dict(pressure=101_325.0, temperature=293.15)


@pytest.mark.parametrize(("pounds", "cubic_metres"), [(10, 50), (20, 100)])
def test_one_extinguisher_in_a_test_cell_passes_what_is_immediately_dangerous(pounds, cubic_metres):
    """About 4.7 % fully mixed, worked by hand with 1.84 kg/m³ of CO2 at 20 °C (common practice)."""
    share = carbon_dioxide_share(pounds * LB, cubic_metres, **ROOM)
    by_hand = (pounds * LB / 1.84) / (pounds * LB / 1.84 + cubic_metres)
    assert share == pytest.approx(by_hand, rel=0.01)
    assert round(100 * share, 1) == 4.7
    assert share > IDLH > CEILING > WHOLE_DAY


def test_the_gas_is_as_thick_as_a_real_one_to_a_per_cent():
    """CoolProp (Span and Wagner 1996) knows its forces; the ideal gas here does not."""
    volume = 4.536 / PropsSI("D", "T", 293.15, "P", 101_325.0, "CO2")
    assert carbon_dioxide_share(4.536, 50.0, **ROOM) == pytest.approx(volume / (volume + 50.0), rel=0.01)


def test_an_oxygen_meter_warns_too_late():
    """19.5 % oxygen is where 29 CFR 1910.146 begins to call air deficient; the CO2 is past the IDLH long before."""
    for carbon_dioxide, oxygen in [(0.04, 0.201), (0.069, 0.195), (0.308, 0.145)]:
        assert oxygen_share(carbon_dioxide) == pytest.approx(oxygen, abs=5e-4)


@given(st.floats(0.0, 50.0), st.floats(1.0, 5000.0), st.floats(60e3, 105e3), st.floats(250.0, 320.0))
def test_more_gas_a_smaller_room_and_a_high_place_make_it_worse(mass, volume, pressure, temperature):
    share = carbon_dioxide_share(mass, volume, pressure, temperature)
    assert 0 <= share < 1
    assert carbon_dioxide_share(mass + 1, volume, pressure, temperature) > share
    assert carbon_dioxide_share(mass + 1, 2 * volume, pressure, temperature) < carbon_dioxide_share(
        mass + 1, volume, pressure, temperature
    )
    assert carbon_dioxide_share(mass, volume, 0.9 * pressure, temperature) >= share
    assert oxygen_share(share) <= 0.2095


def test_impossible_input_is_refused_by_name():
    for change, name in [((-1.0, 50.0), "gas_mass"), ((1.0, 0.0), "room_volume"), ((1.0, np.inf), "room_volume")]:
        with pytest.raises(OutOfRangeError, match=name):
            carbon_dioxide_share(*change, **ROOM)
        with pytest.raises(OutOfRangeError, match="carbon_dioxide_share"):
            oxygen_share(1.5)
