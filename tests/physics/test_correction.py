"""Power of one day brought to another: the standards' own limits, and the trends of site and weather.

The factors with six digits are formula-evaluated from the printed formulas of ISO 1585 and SAE J1349 as an engine
maker's performance-test page and Mathur and Sharma, ch. 27, give them; worked examples are in tests/published.
"""

import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import OutOfRangeError, RangeWarning
from turbomath.engine import path
from turbomath.physics import compression, correction

TURBO = {"aspiration": "turbocharged", "pressure_ratio": 1.0}
ROWS = [  # dry kPa, K, mg/(L cycle) for each unit of pressure ratio, naturally aspirated, T^1.2, T^1.5, T^0.7
    (99, 298, 50, 1.00000, 1.00000, 1.00000, 1.00000),
    (95, 308, 50, 1.04338, 1.04623, 1.05309, 1.03490),
    (90, 288, 60, 1.07556, 1.02662, 1.01595, 1.04465),
    (97, 303, 45, 1.01551, 1.01658, 1.01902, 1.01253),
    (99, 313, 65, 1.04211, 1.07328, 1.09242, 1.04211),
    (92, 298, 55, 1.06354, 1.04406, 1.04406, 1.04406),
]


def test_the_factors_of_both_standards():
    for pressure, temperature, fuel, natural, none, iso, liquid in ROWS:
        day = (1000.0 * pressure, float(temperature))
        turbo = {**TURBO, "fuel_delivery": fuel / 1000}
        assert correction.iso1585_factor(*day, **turbo) == pytest.approx(iso, abs=6e-6)
        assert correction.j1349_factor(*day, **turbo) == pytest.approx(none, abs=6e-6)
        assert correction.j1349_factor(*day, **turbo, aftercooler="air-to-air") == pytest.approx(none, abs=6e-6)
        assert correction.j1349_factor(*day, **turbo, aftercooler="liquid") == pytest.approx(liquid, abs=6e-6)
        for factor in (correction.iso1585_factor, correction.j1349_factor):
            assert factor(*day, aspiration="naturally aspirated", fuel_delivery=fuel / 1000) == pytest.approx(
                natural, abs=6e-6
            )


@pytest.mark.filterwarnings("ignore:the factor is outside 0.9 to 1.1")
def test_little_fuel_stops_at_each_standard_s_own_floor():
    # 101 kPa and 283 K; engine factor 0.3 in ISO 1585 and 0.2 in SAE J1349, whatever less the fuel is
    day = (101_000.0, 283.0)
    atmosphere = (99 / 101) ** 0.7 * (283 / 298) ** 1.5
    for fuel in (0.040, 0.030, 0.001):
        assert correction.iso1585_factor(*day, **TURBO, fuel_delivery=fuel) == pytest.approx(atmosphere**0.3, rel=1e-9)
    milder = (99 / 101) ** 0.7 * (283 / 298) ** 1.2
    for fuel in (0.0372, 0.030, 0.001):
        assert correction.j1349_factor(*day, **TURBO, fuel_delivery=fuel) == pytest.approx(milder**0.2, rel=1e-3)
    full = correction.iso1585_factor(*day, **TURBO, fuel_delivery=0.065)
    assert correction.iso1585_factor(*day, **TURBO, fuel_delivery=0.09) == pytest.approx(full, rel=1e-9)


def test_boost_shares_the_fuel_out():
    day = (95_000.0, 305.0)
    one = correction.iso1585_factor(*day, aspiration="turbocharged", fuel_delivery=0.05, pressure_ratio=1.0)
    two = correction.iso1585_factor(*day, aspiration="turbocharged", fuel_delivery=0.10, pressure_ratio=2.0)
    assert one == pytest.approx(two, rel=1e-12)


@pytest.mark.filterwarnings("ignore:the factor is outside 0.9 to 1.1")
def test_outside_the_standard_there_is_a_warning():
    cases_pressure = [
        (79_999.0, 298.0, "dry pressure"),
        (110_001.0, 298.0, "dry pressure"),
        (99_000.0, 282.9, "temperature"),
        (99_000.0, 313.1, "temperature"),
        (82_000.0, 312.0, "factor"),
    ]
    for factor in [correction.iso1585_factor, correction.j1349_factor]:
        for pressure, temperature, text in cases_pressure:
            with pytest.warns(RangeWarning, match=text):
                factor(pressure, temperature, **TURBO, fuel_delivery=0.06)


def test_at_the_very_limits_there_is_none():
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        correction.iso1585_factor([110_000.0, 80_000.0], [283.0, 298.0], **TURBO, fuel_delivery=0.041)
        correction.iso1585_factor(99_000.0, np.nan, **TURBO, fuel_delivery=0.041)


def test_words_that_are_no_choice_are_refused():
    with pytest.raises(OutOfRangeError, match="aspiration must be one of 'naturally aspirated', 'turbocharged'"):
        correction.iso1585_factor(99e3, 298.0, aspiration="turbo", fuel_delivery=0.05)
    with pytest.raises(OutOfRangeError, match="aftercooler must be one of 'none', 'air-to-air', 'liquid'"):
        correction.j1349_factor(99e3, 298.0, **TURBO, fuel_delivery=0.05, aftercooler="jacket-water")
    with pytest.raises(OutOfRangeError, match="engine must be one of 'naturally aspirated, excess air'"):
        correction.iso3046_power(1e5, 99e3, 298.0, engine="diesel")


def test_on_the_reference_day_nothing_changes():
    for engine in ["naturally aspirated, heat", "turbocharged", "turbocharged and aftercooled"]:
        assert correction.iso3046_power(3e5, 1e5, 298.0, engine=engine) == pytest.approx(3e5, rel=1e-12)
        dry = correction.iso3046_power(3e5, 90e3, 298.0, engine=engine, site_vapour_pressure=0.0)
        assert correction.iso3046_power(3e5, 90e3, 298.0, engine=engine) == dry
        assert correction.iso3046_fuel_ratio(1e5, 298.0, engine=engine) == pytest.approx(1.0, rel=1e-12)


def test_where_heat_limits_an_engine_that_draws_its_own_air_power_goes_with_pressure_and_temperature():
    """ISO 3046-1, table of exponents: m = 1 and n = 1, so 0.9 of the pressure at 1.04 of the temperature : 0.865."""
    site = {"reference_power": 1e5, "site_pressure": 90e3, "site_temperature": 298 * 1.04, "mechanical_efficiency": 1.0}
    power = correction.iso3046_power(**site, engine="naturally aspirated, heat")
    assert power == pytest.approx(1e5 * 0.9 / 1.04, rel=1e-9)


@given(
    st.floats(65e3, 99e3), st.floats(299.0, 320.0), st.sampled_from(["turbocharged", "turbocharged and aftercooled"])
)
def test_higher_and_hotter_sites_take_power_and_cost_fuel(pressure, temperature, engine):
    power = correction.iso3046_power(3e5, pressure, temperature, engine=engine)
    assert power < 3e5
    assert correction.iso3046_power(3e5, pressure - 1000, temperature, engine=engine) < power
    assert correction.iso3046_power(3e5, pressure, temperature + 1, engine=engine) < power
    assert correction.iso3046_fuel_ratio(pressure, temperature, engine=engine) > 1


def test_the_medium_is_the_air_of_the_site_unless_given_and_counts_only_with_an_aftercooler():
    site = {"reference_power": 3e5, "site_pressure": 90e3, "site_temperature": 310.0}
    cooled = {**site, "engine": "turbocharged and aftercooled"}
    assert correction.iso3046_power(**cooled) == correction.iso3046_power(**cooled, medium_temperature=310.0)
    assert correction.iso3046_power(**cooled, medium_temperature=None) == correction.iso3046_power(**cooled)
    assert correction.iso3046_power(**cooled, medium_temperature=330.0) < correction.iso3046_power(**cooled)
    plain = {**site, "engine": "turbocharged"}
    assert correction.iso3046_power(**plain, medium_temperature=330.0) == correction.iso3046_power(**plain)


def test_air_that_is_all_vapour_gives_no_power():
    wet = {"engine": "naturally aspirated, excess air", "site_vapour_pressure": [99e3, 2e3]}
    np.testing.assert_array_equal(np.isnan(correction.iso3046_power(1e5, 99e3, 340.0, **wet)), [True, False])


def test_one_reading_on_five_maps():
    # 0.30 kg/s at 305 K and 95 kPa on maps of five reference states in use
    states = [(298.0, 100e3), (298.15, 100e3), (288.15, 101.325e3), (302.6, 96.2e3), (293.15, 101.325e3)]
    temperatures, pressures = map(np.array, zip(*states, strict=True))
    flows = correction.corrected_mass_flow(
        0.30, 95e3, 305.0, reference_pressure=pressures, reference_temperature=temperatures
    )
    np.testing.assert_allclose(flows, [0.31948, 0.31940, 0.32920, 0.30499, 0.32638], atol=6e-6)


@given(st.floats(0.0, 1.0), st.floats(6e4, 1.1e5), st.floats(250.0, 330.0))
def test_correcting_to_the_day_itself_changes_nothing(flow, pressure, temperature):
    day = {"reference_pressure": pressure, "reference_temperature": temperature}
    assert correction.corrected_mass_flow(flow, pressure, temperature, **day) == pytest.approx(flow, rel=1e-12)
    assert correction.corrected_speed(flow, temperature, reference_temperature=temperature) == pytest.approx(flow)


@given(st.floats(70e3, 98e3), st.floats(260e3, 400e3))
def test_altitude_asks_for_a_higher_pressure_ratio_for_the_same_charge(site, manifold):
    sea = compression.pressure_ratio(100e3, manifold)
    assert compression.pressure_ratio(site, manifold) > sea
    assert compression.outlet_temperature(site, 298.0, manifold, 0.74) > compression.outlet_temperature(
        100e3, 298.0, manifold, 0.74
    )


@given(st.floats(285.0, 330.0), st.floats(1.0, 40.0))
def test_a_hotter_medium_leaves_the_engine_less_air(medium, hotter):
    def air(temperature):
        return path.charge_path(
            ambient_pressure=97e3,
            ambient_temperature=298.0,
            manifold_pressure=260e3,
            isentropic_efficiency=0.74,
            effectiveness=0.8,
            medium_temperature=temperature,
            cooler_pressure_loss=8e3,
        ).manifold_dry_air_density

    assert air(medium + hotter) < air(medium)
