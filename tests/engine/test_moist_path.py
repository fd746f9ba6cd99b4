"""The air path with every model of the gas: nothing is lost, and water under boost behaves as it is printed."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import OutOfRangeError, RangeWarning, air
from turbomath.air import moist, moist_terms
from turbomath.engine import path
from turbomath.engine.charge_air import mixture
from turbomath.physics import compression, real_humidity

ENGINE = dict(displacement=0.0127, engine_speed=28.0, volumetric_efficiency=0.91)
EVERY_MODEL = ("perfect", "coolprop", "ideal", "real", "moist")

conditions = dict(
    ambient_pressure=st.floats(65e3, 105e3),
    ambient_temperature=st.floats(275.0, 318.0),
    ratio=st.floats(1.2, 4.0),
    isentropic_efficiency=st.floats(0.6, 0.85),
    intake_restriction=st.floats(0.0, 6e3),
    effectiveness=st.floats(0.0, 1.0),
    medium_temperature=st.floats(276.0, 365.0),
    cooler_pressure_loss=st.floats(0.0, 20e3),
    relative_humidity=st.floats(0.0, 1.0),
)


def solved(ratio, ambient_pressure, **rest):
    return path.charge_path(ambient_pressure=ambient_pressure, manifold_pressure=ratio * ambient_pressure, **rest)


def brought(name, result, station, water=0.0):
    """Enthalpy at a station for a kilogram drawn in, by a model made for that station's vapour alone."""
    at = getattr(result, f"{station}_pressure"), getattr(result, f"{station}_temperature")
    if name not in ("real", "moist"):
        return air.choose(name).enthalpy(*at)
    vapour = result.humidity_ratio - water
    gas = (1 + vapour) * moist.enthalpy(*at, vapour)
    return (gas + water * moist_terms.condensed_enthalpy(at[1])) / (1 + result.humidity_ratio)


@pytest.mark.parametrize("name", EVERY_MODEL)
@given(state=st.fixed_dictionaries(conditions))
def test_mass_and_energy_are_conserved(name, state):
    result = solved(**state, air=air.choose(name))
    flow = path.charge_flow(result, **ENGINE)
    drawn_in = flow.volume_flow_at_ambient * result.ambient_density
    assert flow.mass_flow + flow.condensate_flow == pytest.approx(drawn_in, rel=1e-9)
    vapour_left = flow.dry_air_mass_flow * (result.humidity_ratio - result.condensate)
    assert flow.mass_flow == pytest.approx(flow.dry_air_mass_flow + vapour_left, rel=1e-9)
    rise = brought(name, result, "manifold", result.condensate) - brought(name, result, "compressor_inlet")
    assert flow.compressor_power - flow.heat_rejected == pytest.approx(drawn_in * rise, abs=1e-9 * 3e5 * drawn_in)


@given(state=st.fixed_dictionaries(conditions))
def test_dry_air_in_the_manifold_is_that_of_the_moist_model_with_what_vapour_is_left(state):
    result = solved(**state, air=air.choose("moist"))
    left = result.humidity_ratio - result.condensate
    model = air.choose("moist", humidity_ratio=left * (1 - 1e-12))
    at = result.manifold_pressure, result.manifold_temperature
    assert result.manifold_dry_air_density == pytest.approx(model.dry_air_density(*at), rel=1e-9)
    assert result.manifold_density == pytest.approx(model.density(*at), rel=1e-9)


# CoolProp 8.0.0 humid air (the model of Herrmann et al. 2009): a charge brought to boost pressure, dew point in °C
DEW_POINTS = [(100e3, 303.15, 0.8, 300e3, 46.1), (100e3, 308.15, 0.6, 250e3, 42.4)]


def test_each_density_before_the_aftercooler_is_that_of_the_moist_model_dry_air_and_vapour_together():
    result = path.charge_path(
        ambient_pressure=98e3,
        ambient_temperature=308.0,
        compressor_inlet_temperature=311.0,
        intake_restriction=3e3,
        manifold_pressure=260e3,
        cooler_pressure_loss=9e3,
        isentropic_efficiency=0.74,
        relative_humidity=0.8,
    )
    model = air.choose("moist", humidity_ratio=result.humidity_ratio)
    for station in ("ambient", "compressor_inlet", "compressor_outlet"):
        at = getattr(result, f"{station}_pressure"), getattr(result, f"{station}_temperature")
        assert getattr(result, f"{station}_density") == pytest.approx(model.density(*at), rel=1e-12), station
    assert result.density_ratio == pytest.approx(result.manifold_density / result.ambient_density, rel=1e-14)


def test_the_dew_point_at_boost_pressure_has_the_enhancement_factor():
    for ambient, temperature, humidity, boosted, celsius in DEW_POINTS:
        state = dict(
            ambient_pressure=ambient,
            ambient_temperature=temperature,
            manifold_pressure=boosted,
            isentropic_efficiency=0.74,
            relative_humidity=humidity,
        )
        real = path.charge_path(**state, air=air.choose("moist")).dew_point
        assert real == pytest.approx(celsius + 273.15, abs=0.06)
        ideal = path.charge_path(**state, air=air.choose("perfect")).dew_point
        assert 0.05 < ideal - real < 0.25  # boost raises the factor, so real air holds its water a little longer


def test_a_wet_day_and_a_cold_core_make_a_cup_of_water_a_minute():
    # ASHRAE 2017 ch. 1 table 2 gives saturated air at 25 °C 20.173 g/kg; by real humidity, at 290 kPa and 298 K
    # it can carry 20.173 * 101.325 / (290 - ...) = 6.9 g/kg
    result = path.charge_path(
        ambient_pressure=101_325.0,
        ambient_temperature=298.15,
        manifold_pressure=290e3,
        isentropic_efficiency=0.74,
        effectiveness=1.0,
        relative_humidity=1.0,
        air=air.choose("moist"),
    )
    assert result.humidity_ratio == pytest.approx(0.020173, rel=3e-4)
    carried = 0.621945 * 3169.7 * 1.00983 / (290e3 - 3169.7 * 1.00983)
    assert result.humidity_ratio - result.condensate == pytest.approx(carried, rel=1e-3)
    flow = path.charge_flow(result, **ENGINE)
    assert flow.condensate_flow * 60e3 == pytest.approx(flow.dry_air_mass_flow * 60e3 * (0.020173 - carried), rel=2e-3)
    assert 300 < flow.condensate_flow * 60e3 < 500  # grams a minute


def test_condensing_water_gives_its_heat_to_the_aftercooler():
    # ASHRAE 2017 ch. 1 table 2: h of vapour less h of liquid at 25 °C is 2442 kJ/kg
    wet = dict(
        ambient_pressure=100e3,
        ambient_temperature=298.15,
        manifold_pressure=290e3,
        isentropic_efficiency=0.74,
        effectiveness=1.0,
        air=air.choose("moist"),
    )
    humid, dry = (path.charge_path(**wet, relative_humidity=humidity) for humidity in (1.0, 0.0))
    sensible = 1.0 * dry.specific_heat_rejected
    latent = (1 + humid.humidity_ratio) * humid.specific_heat_rejected - sensible
    vapour = humid.humidity_ratio * 1900 * (humid.compressor_outlet_temperature - 298.15)
    assert latent - vapour == pytest.approx(humid.condensate * 2442e3, rel=0.03)


@pytest.mark.parametrize("name", ["perfect", "moist"])
def test_the_dew_point_of_very_dry_air_is_known_down_to_where_the_equation_ends(name):
    """Over water at -35 and -45 °C: 31.4 and 11.1 Pa (Sonntag's equation; rounded, from memory)."""
    pressure, model = 1e5, mixture(air.choose(name, **({"humidity_ratio": 0.0} if name == "moist" else {})))
    found = [model.dew_point(pressure, 0.62198 * vapour / (pressure - vapour)) for vapour in (31.4, 11.1, 0.0)]
    assert found[0] == pytest.approx(238.15, abs=0.3)
    assert np.isnan(found[1:]).all()


def test_humidity_costs_dry_air_as_the_handbook_says():
    # saturated at 40 °C and 101.325 kPa: ASHRAE 2017 ch. 1 prints W = 0.0491 (from memory): 1/(1 + 1.608 W) = 0.927
    state = dict(
        ambient_pressure=101_325.0,
        ambient_temperature=313.15,
        manifold_pressure=290e3,
        isentropic_efficiency=0.74,
        air=air.choose("moist"),
    )
    wet, dry = (path.charge_path(**state, relative_humidity=share) for share in (1.0, 0.0))
    share = wet.manifold_dry_air_density / dry.manifold_dry_air_density
    hotter = dry.manifold_temperature / wet.manifold_temperature
    assert share == pytest.approx(0.927 * hotter, abs=0.003)


def test_a_moist_model_brings_its_own_humidity():
    state = dict(
        ambient_pressure=99e3,
        ambient_temperature=301.0,
        manifold_pressure=271e3,
        isentropic_efficiency=0.71,
        effectiveness=0.8,
    )
    ratio = real_humidity.humidity_ratio(99e3, 301.0, 0.63)
    said = path.charge_path(**state, relative_humidity=0.63, air=air.choose("moist"))
    carried = path.charge_path(**state, air=air.choose("moist", humidity_ratio=ratio))
    np.testing.assert_allclose(list(vars(carried).values()), list(vars(said).values()), rtol=1e-13)
    with pytest.raises(OutOfRangeError, match="both say how humid"):
        path.charge_path(**state, relative_humidity=0.63, air=air.choose("moist", humidity_ratio=ratio))


def test_a_state_outside_the_fitted_range_leaves_a_gap():
    with pytest.warns(RangeWarning, match="210 to 720 K"):
        result = path.charge_path(
            ambient_pressure=99e3,
            ambient_temperature=310.0,
            manifold_pressure=[250e3, 800e3],
            isentropic_efficiency=0.3,
            air=air.choose("real"),
        )
    np.testing.assert_array_equal(np.isnan(result.manifold_temperature), [False, True])
    assert np.isfinite(result.ambient_density).all()


def test_a_perfect_gas_reads_high_and_the_difference_is_as_published_models_say():
    # at a pressure ratio of 3 and 298.15 K the constant heat capacity reads 0.9 K high
    # (Lemmon et al. 2000 through CoolProp 8.0.0: 443.85 K against 444.74 K)
    state = dict(
        ambient_pressure=100e3, ambient_temperature=298.15, manifold_pressure=300e3, isentropic_efficiency=0.75
    )
    perfect, real = (path.charge_path(**state, air=air.choose(name)) for name in ("perfect", "real"))
    assert perfect.compressor_outlet_temperature == pytest.approx(444.736, abs=0.01)
    assert real.compressor_outlet_temperature == pytest.approx(443.850, abs=0.001)


def test_a_reading_that_no_compressor_makes_is_still_judged():
    """Beyond 720 K no real air is worked out; the perfect gas still says how far off the reading is."""
    readings = 98e3, 300.0, 250e3, np.array([410.0, 800.0])
    with pytest.warns(RangeWarning, match="is outside 210 to 720 K"):
        believable, absurd = mixture(None).isentropic_efficiency(*readings, 0.01)
    assert believable == pytest.approx(compression.isentropic_efficiency(*readings)[0], abs=0.02)
    assert absurd == compression.isentropic_efficiency(*readings)[1]
    assert absurd < 0.2


def test_on_both_sides_of_each_edge_the_charge_is_the_reference_or_a_gap_that_is_said():
    """The reference is CoolProp's equation of Lemmon et al. (2000)."""
    cases_pressure = [
        (1e5, 719.9, True),
        (1e5, 720.1, False),
        (1e5, 210.1, True),
        (1e5, 209.9, False),
        (899e3, 400.0, True),
        (901e3, 400.0, False),
    ]
    for pressure, temperature, fits in cases_pressure:
        for shape in [(), (3,), (2, 2)]:
            state = np.full(shape, pressure)[()], np.full(shape, temperature)[()]
            if fits:
                found = mixture(None).density(*state, 0.0)
                assert found == pytest.approx(air.choose("coolprop").density(pressure, temperature), rel=1e-8)
            else:
                with pytest.warns(RangeWarning, match="is outside 210 to 720 K"):
                    found = mixture(None).density(*state, 0.0)
                assert np.all(np.isnan(found))
            assert np.shape(found) == shape
