"""Moist air against printed tables, the weighing-room formula, CoolProp's humid air, and the laws of thermodynamics."""

import json
import math
import warnings

import numpy as np
import pytest
from CoolProp.CoolProp import HAPropsSI
from hypothesis import given
from hypothesis import strategies as st

from tests.air import moist_reference
from turbomath import OutOfRangeError, RangeWarning, air
from turbomath.air import make_moist_tables, moist_terms
from turbomath.physics import real_humidity, water

# the ends of the equation lie far outside any engine
pytestmark = pytest.mark.filterwarnings("ignore:.* is far below what is usual")

# ASHRAE RP-1485 (Herrmann et al. 2009), hot-air tables, 200 °C: kg/kg, Pa, m^3 to a kilogram of dry air
HOT_AIR = [(0.0, 101_325.0, 1.341), (0.5, 101_325.0, 2.416), (1.0, 101_325.0, 3.489)]


def test_hot_moist_air_fills_the_printed_volume():
    for ratio, pressure, volume in HOT_AIR:
        model = air.choose("moist", humidity_ratio=ratio)
        half_a_digit = 5e-4
        assert 1 / model.dry_air_density(pressure, 473.15) == pytest.approx(volume, abs=half_a_digit)


def test_enthalpy_rises_as_the_handbook_prints_it():
    # ASHRAE Fundamentals 2017, ch. 1 table 2: dry air 25 °C 25148 J/kg; RP-1485: dry air 200 °C 202520 J/kg
    model = air.choose("moist")
    rise = model.enthalpy(101_325.0, 473.15) - model.enthalpy(101_325.0, 298.15)
    assert rise == pytest.approx(202_520 - 25_148, abs=6)


# ASHRAE Fundamentals 2017, ch. 1 table 2: saturated air, J to a kilogram of dry air: °C, kg/kg, h
SATURATED = [(5, 0.005425, 18_639), (25, 0.020173, 76_504), (50, 0.086863, 275_353)]


def test_saturated_air_holds_the_printed_heat_of_its_vapour():
    for celsius, ratio, enthalpy in SATURATED:
        # The table counts from dry air and liquid water at 0 °C, and so does this sum
        warm, freezing = celsius + 273.15, 273.15
        model, dry = air.choose("moist", humidity_ratio=0.999 * ratio), air.choose("moist")
        heat = (1 + 0.999 * ratio) * model.enthalpy(101_325.0, warm) - dry.enthalpy(101_325.0, freezing)
        heat -= 0.999 * ratio * moist_terms.condensed_enthalpy(273.16)
        printed = enthalpy - 0.001 * ratio * 2.5e6  # just short of saturation, so that it is all vapour
        assert heat == pytest.approx(printed, rel=4e-4)


# CIPM-2007 (Picard et al. 2008), worked out here from its equations: °C, Pa, relative humidity, kg/m^3
WEIGHING_ROOM = [
    (20, 101_325.0, 0.5, 1.199314),
    (20, 101_325.0, 0.0, 1.204557),
    (20, 100_000.0, 0.5, 1.183557),
    (25, 101_325.0, 0.5, 1.177315),
    (15, 95_000.0, 0.3, 1.146656),
    (27, 110_000.0, 0.6, 1.267770),
    (20, 75_000.0, 0.5, 0.8862766),
]


def test_density_is_that_of_the_weighing_room():
    for celsius, pressure, humidity, density in WEIGHING_ROOM:
        ratio = real_humidity.humidity_ratio(pressure, celsius + 273.15, humidity)
        model = air.choose("moist", humidity_ratio=ratio)
        uncertainty_of_the_formula = 22e-6
        assert model.density(pressure, celsius + 273.15) == pytest.approx(density, rel=uncertainty_of_the_formula)


def test_intake_air_of_the_engine_test_rules():
    # 40 CFR 1065.645, example: 50.77 % at 20 °C and 99.980 kPa gives 0.011868 mol/mol of vapour, by Goff's equation
    # (0.09 % below IAPWS) and without the enhancement factor (0.4 %)
    ratio = real_humidity.humidity_ratio(99_980.0, 293.15, 0.5077)
    share = ratio / (ratio + 0.6220)  # K = 0.6220, 40 CFR 86.344-79
    assert share == pytest.approx(0.011868, rel=6e-3)
    assert share == pytest.approx(0.011868 * 1.0009 * real_humidity.enhancement_factor(99_980.0, 293.15), rel=3e-4)


# Pa, K, Pa, efficiency, kg/kg: the corners and the middle of what an engine breathes
INLETS = [
    (101_325.0, 298.15, 250e3, 0.74, 0.0098),
    (60e3, 313.0, 300e3, 1.0, 0.04),
    (98e3, 318.0, 420e3, 0.68, 0.06),
    (85e3, 263.0, 380e3, 0.8, 0.0013),
    (105e3, 243.0, 520e3, 0.9, 0.0002),
    (95e3, 323.0, 475e3, 0.75, 0.08),
    (100e3, 303.0, 150e3, 0.6, 0.021),
]


def test_outlet_temperature_follows_the_reference_volume_and_enthalpy():
    for p1, t1, p2, efficiency, ratio in INLETS:
        here = air.choose("moist", humidity_ratio=ratio).outlet_temperature(p1, t1, p2, efficiency)
        bar = 5e-6  # the gas constant of the reference's volume is 4.6e-6 below that of its dry air
        assert here == pytest.approx(moist_reference.outlet(p1, t1, p2, efficiency, ratio), rel=bar)
        assert here == pytest.approx(moist_reference.by_its_entropy(p1, t1, p2, efficiency, ratio), rel=1e-4)


def test_density_and_heat_are_those_of_the_reference():
    for p1, t1, p2, efficiency, ratio in INLETS:
        model, t2 = air.choose("moist", humidity_ratio=ratio), t1 + 0.3 * t1 / efficiency
        molar_mass_and_gas_constant = 28.966 / 28.96546 * 8.31451 / 8.314472 - 1  # CoolProp's rounding: 2.3e-5
        for pressure, temperature in ((p1, t1), (p2, t2)):
            volume = HAPropsSI("Vda", "T", temperature, "P", pressure, "W", ratio)
            assert 1 / model.dry_air_density(pressure, temperature) == pytest.approx(
                volume * (1 + molar_mass_and_gas_constant), rel=1e-5
            )
            rise = [HAPropsSI("Hda", "T", temperature + d, "P", pressure, "W", ratio) for d in (-0.5, 0.5)]
            heat = (rise[1] - rise[0]) / (1 + ratio)
            assert model.specific_heat(pressure, temperature) == pytest.approx(heat, rel=4e-5)


def test_without_vapour_it_is_the_real_gas_to_rounding():
    for pressure in [7e4, 1.01e5, 3e5, 8.9e5]:
        dry, real = air.choose("moist", humidity_ratio=0.0), air.choose("real")
        temperature = np.array([231.0, 288.0, 333.3, 461.0, 655.0])
        for name in ("density", "enthalpy", "entropy", "specific_heat"):
            wanted = getattr(real, name)(pressure, temperature)
            np.testing.assert_allclose(getattr(dry, name)(pressure, temperature), wanted, rtol=1e-13)
        inlet = temperature[:3]
        np.testing.assert_allclose(
            dry.outlet_temperature(pressure, inlet, 1.01 * pressure, 0.7),
            real.outlet_temperature(pressure, inlet, 1.01 * pressure, 0.7),
            rtol=1e-13,
        )


states = dict(
    pressure=st.floats(60e3, 850e3),
    temperature=st.floats(275.0, 690.0),
    share=st.floats(0.02, 0.98),
)


def humid(pressure, temperature, share):
    """The model with a share of what the air can carry, at most 60 g/kg."""
    greatest = real_humidity.humidity_ratio(pressure, min(temperature, 330.0), 1.0)
    return air.choose("moist", humidity_ratio=share * min(greatest, 0.06))


@given(**states)
def test_heat_entropy_and_volume_belong_to_one_equation(pressure, temperature, share):
    # dh = cp dT = T ds at constant pressure, dh - T ds = v dp at constant temperature
    model, dT, dp = humid(pressure, temperature, share), 0.02, 30.0
    rise = {
        name: getattr(model, name)(pressure, temperature + dT) - getattr(model, name)(pressure, temperature - dT)
        for name in ("enthalpy", "entropy")
    }
    heat = model.specific_heat(pressure, temperature)
    assert rise["enthalpy"] / (2 * dT) == pytest.approx(heat, rel=1e-6)
    assert temperature * rise["entropy"] / (2 * dT) == pytest.approx(heat, rel=1e-6)
    push = {
        name: getattr(model, name)(pressure + dp, temperature) - getattr(model, name)(pressure - dp, temperature)
        for name in ("enthalpy", "entropy")
    }
    volume = (push["enthalpy"] - temperature * push["entropy"]) / (2 * dp)
    assert volume == pytest.approx(1 / model.density(pressure, temperature), rel=2e-6)


@given(
    st.floats(60e3, 105e3), st.floats(250.0, 322.0), st.floats(0.05, 1.0), st.floats(1.05, 4.5), st.floats(0.55, 1.0)
)
def test_efficiency_undoes_outlet_temperature_and_two_ideal_stages_make_one(p1, t1, share, ratio, efficiency):
    model = air.choose("moist", humidity_ratio=real_humidity.humidity_ratio(p1, t1, share))
    outlet = model.outlet_temperature(p1, t1, ratio * p1, efficiency)
    assert model.isentropic_efficiency(p1, t1, ratio * p1, outlet) == pytest.approx(efficiency, rel=1e-9)
    middle = model.outlet_temperature(p1, t1, math.sqrt(ratio) * p1, 1.0)
    assert model.outlet_temperature(math.sqrt(ratio) * p1, middle, ratio * p1, 1.0) == pytest.approx(
        model.outlet_temperature(p1, t1, ratio * p1, 1.0), rel=1e-12
    )


@given(st.floats(280.0, 318.0), st.floats(0.1, 1.0))
def test_moist_air_is_lighter_and_warms_less(temperature, share):
    wet = air.choose("moist", humidity_ratio=real_humidity.humidity_ratio(98e3, temperature, share))
    dry = air.choose("moist")
    assert wet.density(98e3, temperature) < dry.density(98e3, temperature)
    assert wet.specific_heat(98e3, temperature) > dry.specific_heat(98e3, temperature)
    assert wet.outlet_temperature(98e3, temperature, 290e3, 0.7) < dry.outlet_temperature(98e3, temperature, 290e3, 0.7)


def test_dry_air_and_vapour_are_kept_apart_and_make_up_the_whole():
    model = air.choose("moist", humidity_ratio=0.0173)
    parts = model.dry_air_density(271e3, 351.0), model.vapour_density(271e3, 351.0)
    assert sum(parts) == pytest.approx(model.density(271e3, 351.0), rel=1e-15)
    assert parts[1] / parts[0] == pytest.approx(0.0173, rel=1e-14)


def test_air_over_saturation_is_refused_with_the_reason_for_numbers_and_arrays_alike():
    for as_given in [float, lambda value: np.array([value]), lambda value: [value, value]]:
        model = air.choose("moist", humidity_ratio=0.0232)  # dew point 300.2 K at 100 kPa
        warm, cool = as_given(301.0), as_given(300.0)
        assert np.all(np.asarray(model.density(100e3, warm)) > 1)
        for call in (model.density, model.enthalpy, model.entropy, model.specific_heat):
            with pytest.raises(OutOfRangeError, match=r"cannot carry this much water.* 1\.013 at 100000 Pa, 300 K"):
                call(100e3, cool)
        with pytest.raises(OutOfRangeError, match="relative humidity must be at most 1"):
            model.outlet_temperature(100e3, cool, 250e3, 0.7)
        with pytest.raises(OutOfRangeError, match="relative humidity must be at most 1"):
            model.isentropic_efficiency(100e3, cool, 250e3, 430.0)
        with pytest.raises(OutOfRangeError, match="cannot carry"):
            model.density(300e3, as_given(315.0))  # after a cold aftercooler


def test_one_wet_state_among_many_is_counted_and_shown():
    ratios = np.array([0.004, 0.031, 0.009])
    with pytest.raises(OutOfRangeError, match=r"1 of 3 states are, the first 1\.3.* humidity ratio of 0.031"):
        air.choose("moist", humidity_ratio=ratios).density(100e3, 300.0)


def test_just_saturated_air_is_not_refused():
    temperature = np.linspace(235.0, 365.0, 300)
    for pressure in (60e3, 101_325.0, 400e3, 900e3):
        hot = temperature[real_humidity.humidity_ratio(pressure, temperature, 1.0) < 0.3]
        ratio = real_humidity.humidity_ratio(pressure, hot, 1.0)
        assert np.all(air.choose("moist", humidity_ratio=ratio).density(pressure, hot) > 0)


def test_below_the_coldest_water_the_limit_is_over_ice():
    cold = 228.0
    ice = real_humidity.humidity_ratio(98e3, cold, 1.0, over="ice")
    air.choose("moist", humidity_ratio=0.999 * ice).density(98e3, cold)
    with pytest.raises(OutOfRangeError, match="cannot carry"):
        air.choose("moist", humidity_ratio=1.01 * ice).density(98e3, cold)


def test_outside_the_fitted_range_it_is_refused():
    for pressure, temperature in [(1e5, 209.0), (1e5, 721.0), (901e3, 400.0)]:
        model = air.choose("moist", humidity_ratio=1e-6)
        for call in (model.density, model.enthalpy):
            with pytest.raises(OutOfRangeError, match="210 to 720 K"):
                call(pressure, temperature)
            with pytest.raises(OutOfRangeError, match="1 of 2 states"):
                call([pressure, 1e5], [temperature, 300.0])
        with pytest.raises(OutOfRangeError, match="210 to 720 K"):
            model.outlet_temperature(1e5, 300.0, 8e5, 0.35)


def test_impossible_humidity_is_refused_by_name():
    for bad in [-0.001, math.inf, "wet", None]:
        with pytest.raises(OutOfRangeError, match="humidity_ratio must be 0 or more"):
            air.choose("moist", humidity_ratio=[bad] if bad is None else bad)


def test_shapes_broadcast_and_missing_values_pass():
    model = air.choose("moist", humidity_ratio=np.array([[0.001], [0.004]]))
    density = model.density(101e3, np.array([290.0, np.nan, 310.0]))
    assert density.shape == (2, 3)
    assert np.isnan(density[:, 1]).all()
    assert np.isfinite(density[:, [0, 2]]).all()
    assert type(air.choose("moist", humidity_ratio=0.004).density(101e3, 300.0)) is float
    assert math.isnan(air.choose("moist", humidity_ratio=math.nan).density(101e3, 300.0))
    masked = np.ma.array([101e3, 101e3], mask=[False, True])
    np.testing.assert_array_equal(np.isnan(air.choose("moist", humidity_ratio=0.004).density(masked, 300.0)), [0, 1])
    assert math.isnan(model.outlet_temperature(95e3, 300.0, [2e5, math.nan], 0.7)[0, 1])
    with pytest.raises(OutOfRangeError, match="shapes"):
        model.density([1e5, 1e5, 1e5], [300.0, 310.0])


def test_an_array_gives_what_its_elements_give():
    pressure, temperature = np.array([70e3, 1e5, 2.9e5]), np.array([288.0, 301.0, 377.0])
    ratio = np.array([0.002, 0.0, 0.019])
    many = air.choose("moist", humidity_ratio=ratio)
    for name in ("density", "enthalpy", "entropy", "specific_heat"):
        one_by_one = [
            getattr(air.choose("moist", humidity_ratio=w), name)(p, t)
            for w, p, t in zip(ratio, pressure, temperature, strict=True)
        ]
        np.testing.assert_allclose(getattr(many, name)(pressure, temperature), one_by_one, rtol=1e-13)


def test_many_states_give_what_few_give():
    temperature = np.linspace(300.0, 600.0, 40_001)
    model = air.choose("moist", humidity_ratio=0.009)
    np.testing.assert_allclose(
        model.density(2e5, temperature)[::5000], model.density(2e5, temperature[::5000]), rtol=1e-15
    )


def test_readings_that_cannot_be_warn_at_the_callers_line():
    model = air.choose("moist", humidity_ratio=0.006)
    with pytest.warns(RangeWarning, match="outside 0 to 1") as caught:
        assert model.isentropic_efficiency(95e3, 300.0, 271e3, 390.0) > 1
    assert caught[0].filename == __file__
    with pytest.warns(RangeWarning, match="below the inlet"):
        model.outlet_temperature(95e3, 300.0, 90e3, 0.7)
    assert np.isnan(model.isentropic_efficiency(95e3, 300.0, 95e3, 300.0))
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert model.isentropic_efficiency(95e3, 300.0, 95e3, 310.0) == 0.0, "heated and not squeezed"


def test_the_tables_are_those_of_the_script():
    # the coefficients once more at temperatures between the script's own, and the file as it was written
    written = json.loads(make_moist_tables.FILE.read_text(encoding="utf-8"))
    for temperature in (283.7, 341.0, 455.5, 612.3):
        rows, heat = make_moist_tables.rows_at(temperature)
        u = (written["scale_K"] / temperature - written["middle"]) / written["half"]
        fitted = [np.polynomial.polynomial.polyval(u, row) for row in written["pairs"] + written["triplets"]]
        vapour = 0.05  # the part that a row has in the volume, at 50 g/kg and 0.9 MPa, relative to the whole
        for place, (one, other, power) in enumerate(zip(fitted, rows, (1, 2, 1, 2, 3, 4), strict=True)):
            share = abs(one - other) * (1 if place < 2 else 2 * 9e5) * vapour**power
            assert share * 9e5 / (287.0 * temperature) < 1e-7  # fifty times inside the bar
        assert np.polynomial.polynomial.polyval(temperature / 300.0, written["vapour_heat"]) == pytest.approx(
            heat, rel=2e-6
        )
    assert moist_terms.condensed_enthalpy(300.0) - moist_terms.condensed_enthalpy(299.0) == pytest.approx(4181, abs=10)


@given(st.floats(275.0, 325.0))
def test_condensing_water_gives_up_the_heat_of_the_steam_tables(temperature):
    # Clausius and Clapeyron on the saturation line of IAPWS-IF97, ideal vapour, h = R T^2 dln p/dT
    def log_pressure(t):
        return math.log(water.saturation_pressure(t))

    heat = 461.52 * temperature**2 * (log_pressure(temperature + 0.05) - log_pressure(temperature - 0.05)) / 0.1
    vapour = moist_terms.Vapour(1.0).heat_terms(1.0, temperature)[0]
    given_up = vapour - moist_terms.condensed_enthalpy(temperature)
    assert given_up == pytest.approx(heat, rel=3e-3)  # the volume of real vapour is up to 0.3 % smaller


def test_the_triplets_are_right_where_they_matter_in_very_wet_air_under_pressure():
    for ratio, temperature in [(0.2, 440.0), (0.5, 473.15), (1.0, 473.15)]:
        model, pressure, dp = air.choose("moist", humidity_ratio=ratio), 890e3, 300.0
        volume = 1 / model.dry_air_density(pressure, temperature)
        rounded_masses_and_next_power_of_pressure = 6e-5
        reference = HAPropsSI("Vda", "T", temperature, "P", pressure, "W", ratio)
        assert volume == pytest.approx(reference, rel=rounded_masses_and_next_power_of_pressure)
        push = {
            name: getattr(model, name)(pressure + dp, temperature) - getattr(model, name)(pressure - dp, temperature)
            for name in ("enthalpy", "entropy")
        }
        from_heat = (push["enthalpy"] - temperature * push["entropy"]) / (2 * dp)
        assert (1 + ratio) * from_heat == pytest.approx(volume, rel=1e-6)
