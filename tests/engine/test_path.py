"""The air path against the reference worked case, its limits, and the laws of thermodynamics."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import OutOfRangeError, RangeWarning, air, units
from turbomath.engine import path

# NIST SP 811, Appendix B.8
INHG, INH2O, PSI, LB = 3386.389, 249.0889, 6894.757, 0.45359237


def fahrenheit(degrees):
    return (degrees + 459.67) / 1.8


# Reference worked case: 12.0 L, 1800 rpm, volumetric efficiency 0.92, 29.10 inHg, 77 °F, 80 °F at the compressor,
# 12 inH2O, 24 psi boost, efficiency 0.74. Worked by hand with R 287.05 J/(kg K) and exponent 2/7; figures rounded.
REFERENCE = dict(
    ambient_pressure=29.10 * INHG,
    ambient_temperature=fahrenheit(77),
    compressor_inlet_temperature=fahrenheit(80),
    intake_restriction=12 * INH2O,
    manifold_pressure=29.10 * INHG + 24 * PSI,
    isentropic_efficiency=0.74,
)
BY_HAND = dict(**REFERENCE, air=air.choose("perfect"))
NONE = {}
JACKET_WATER = dict(effectiveness=0.75, medium_temperature=fahrenheit(185), cooler_pressure_loss=0.8 * PSI)
AIR_TO_AIR = dict(effectiveness=0.80, cooler_pressure_loss=1.5 * PSI)
ENGINE = dict(displacement=0.012, engine_speed=30.0, volumetric_efficiency=0.92)


def test_reference_case_gives_the_hand_worked_figures():
    cases = [
        (NONE, 2.76, 326, 326, 2.11, 2.11, 1.00, 46.2),
        (JACKET_WATER, 2.82, 331, 222, 2.14, 2.43, 1.14, 53.2),
        (AIR_TO_AIR, 2.87, 336, 129, 2.16, 2.81, 1.30, 61.6),
    ]
    for arrangement, ratio, outlet_f, manifold_f, outlet_density, manifold_density, gain, lb_per_min in cases:
        result = path.charge_path(**BY_HAND, **arrangement)
        flow = path.charge_flow(result, **ENGINE)
        assert result.pressure_ratio == pytest.approx(ratio, abs=0.005)
        assert result.compressor_outlet_temperature == pytest.approx(fahrenheit(outlet_f), abs=0.3)
        assert result.manifold_temperature == pytest.approx(fahrenheit(manifold_f), abs=0.3)
        assert result.compressor_outlet_density == pytest.approx(outlet_density, abs=0.005)
        assert result.manifold_density == pytest.approx(manifold_density, abs=0.005)
        assert 1 + result.aftercooling_density_gain == pytest.approx(gain, abs=0.005)
        assert flow.mass_flow * 60 / LB == pytest.approx(lb_per_min, abs=0.05)


def test_reference_case_gives_one_third_more_air():
    assert path.charge_path(**BY_HAND, **AIR_TO_AIR).mass_flow_gain == pytest.approx(0.334, abs=0.0005)
    assert path.charge_path(**REFERENCE, **AIR_TO_AIR).mass_flow_gain == pytest.approx(0.334, abs=0.005)


def test_a_worn_compressor_makes_the_aftercooling_gain_look_better():
    good = path.charge_path(**BY_HAND, **AIR_TO_AIR)
    worn = path.charge_path(**{**BY_HAND, "isentropic_efficiency": 0.60}, **AIR_TO_AIR)
    assert good.aftercooling_density_gain == pytest.approx(0.302, abs=0.0005)
    assert worn.aftercooling_density_gain == pytest.approx(0.372, abs=0.0005)
    assert good.density_ratio == pytest.approx(2.443, abs=0.0005)
    assert worn.density_ratio == pytest.approx(2.394, abs=0.0005)


def test_the_path_can_start_from_the_compressor_outlet():
    from_manifold = path.charge_path(**REFERENCE, **AIR_TO_AIR)
    rest = {name: value for name, value in REFERENCE.items() if name != "manifold_pressure"}
    from_outlet = path.charge_path(
        **rest, **AIR_TO_AIR, compressor_outlet_pressure=from_manifold.compressor_outlet_pressure
    )
    np.testing.assert_allclose(list(vars(from_outlet).values()), list(vars(from_manifold).values()), rtol=1e-14)


conditions = dict(
    ambient_pressure=st.floats(65e3, 105e3),
    ambient_temperature=st.floats(243.0, 320.0),
    ratio=st.floats(1.05, 4.5),
    isentropic_efficiency=st.floats(0.45, 1.0),
    intake_restriction=st.floats(0.0, 7e3),
    effectiveness=st.floats(0.0, 1.0),
    medium_temperature=st.floats(243.0, 375.0),
    cooler_pressure_loss=st.floats(0.0, 25e3),
)


def solved(ratio, ambient_pressure, **rest):
    return path.charge_path(ambient_pressure=ambient_pressure, manifold_pressure=ratio * ambient_pressure, **rest)


@given(**conditions)
def test_entropy_never_falls_before_the_aftercooler_and_heat_makes_up_for_it_there(**state):
    gas = air.choose("perfect")
    result = solved(**state, air=gas)
    ambient, inlet, outlet, manifold = (
        gas.entropy(getattr(result, f"{station}_pressure"), getattr(result, f"{station}_temperature"))
        for station in ("ambient", "compressor_inlet", "compressor_outlet", "manifold")
    )
    assert inlet >= ambient - 1e-9
    assert outlet >= inlet - 1e-9
    assert manifold - outlet + result.specific_heat_rejected / state["medium_temperature"] >= -1e-9


@given(**conditions)
def test_energy_closes(**state):
    gas = air.choose("perfect")
    result = solved(**state, air=gas)
    enthalpy_rise = gas.enthalpy(result.manifold_pressure, result.manifold_temperature) - gas.enthalpy(
        result.compressor_inlet_pressure, result.compressor_inlet_temperature
    )
    balance = result.specific_compressor_work - result.specific_heat_rejected - enthalpy_rise
    assert abs(balance) <= 1e-9 * 3e5


@given(**conditions, humidity=st.floats(0.0, 1.0))
def test_water_and_dry_air_are_conserved(humidity, **state):
    result = solved(**state, relative_humidity=humidity)
    flow = path.charge_flow(result, **ENGINE)
    drawn_in = flow.volume_flow_at_ambient * result.ambient_density
    assert flow.mass_flow + flow.condensate_flow == pytest.approx(drawn_in, rel=1e-12)
    vapour_left = flow.dry_air_mass_flow * (result.humidity_ratio - result.condensate)
    assert flow.mass_flow == pytest.approx(flow.dry_air_mass_flow + vapour_left, rel=1e-12)


def test_no_compression_no_loss_no_cooling_gains_nothing():
    result = path.charge_path(
        ambient_pressure=98e3, ambient_temperature=300.0, manifold_pressure=98e3, isentropic_efficiency=0.7
    )
    assert result.pressure_ratio == 1.0
    for gain in ("charge_gain", "aftercooling_density_gain", "mass_flow_gain", "greatest_possible_gain"):
        assert abs(getattr(result, gain)) < 1e-11


def test_a_perfect_aftercooler_reaches_the_greatest_possible_gain():
    for medium in (REFERENCE["ambient_temperature"], fahrenheit(185)):
        perfect = dict(effectiveness=1.0, cooler_pressure_loss=0.0, medium_temperature=medium)
        result = path.charge_path(**REFERENCE, **perfect)
        assert result.mass_flow_gain == pytest.approx(result.greatest_possible_gain, rel=1e-14)
        assert result.manifold_temperature == pytest.approx(medium, rel=1e-14)
        worn = path.charge_path(**REFERENCE, **perfect | {"effectiveness": 0.5})
        assert worn.greatest_possible_gain == pytest.approx(result.mass_flow_gain, rel=1e-14)


def test_charge_gain_moves_the_way_it_must():
    cases = [
        ("effectiveness", [0.1, 0.4, 0.7, 0.95], True),
        ("isentropic_efficiency", [0.5, 0.6, 0.74, 0.9], True),
        ("manifold_pressure", [150e3, 200e3, 260e3, 330e3], True),
        ("cooler_pressure_loss", [0.0, 5e3, 12e3, 20e3], False),
        ("intake_restriction", [0.0, 2e3, 4e3, 7e3], False),
        ("medium_temperature", [270.0, 298.0, 330.0, 370.0], False),
    ]
    for argument, values, rises in cases:
        result = path.charge_path(**{**REFERENCE, **AIR_TO_AIR, argument: values})
        steps = np.diff(result.charge_gain)
        assert np.all(steps > 0) if rises else np.all(steps < 0)


def test_humid_air_holds_less_and_lets_water_fall_in_a_cold_manifold():
    dry = path.charge_path(**REFERENCE, **AIR_TO_AIR)
    humid = path.charge_path(
        **{**REFERENCE, "ambient_temperature": fahrenheit(95)},
        effectiveness=0.95,
        medium_temperature=fahrenheit(70),
        relative_humidity=[0.0, 0.5, 0.95],
    )
    assert np.all(humid.manifold_dry_air_density[1:] < humid.manifold_dry_air_density[0])
    assert np.isnan(humid.dew_point[0])
    assert humid.condensate[0] == 0
    assert humid.condensate[2] > 0
    assert humid.manifold_temperature[2] < humid.dew_point[2]
    assert np.isnan(dry.dew_point)


def test_dew_point_at_boost_pressure_agrees_with_the_steam_tables():
    # IAPWS-IF97: 30 °C and 80 % at 100 kPa, squeezed to 300 kPa, has its dew point at 46.2 °C
    # (partial pressure three times 3.397 kPa; saturation temperature of 10.19 kPa)
    result = path.charge_path(
        ambient_pressure=100e3,
        ambient_temperature=303.15,
        manifold_pressure=300e3,
        isentropic_efficiency=0.74,
        relative_humidity=0.80,
        air=air.choose("perfect"),
    )
    assert result.dew_point == pytest.approx(273.15 + 46.2, abs=0.05)


def test_without_a_model_the_air_is_real_and_moist_where_it_is_humid():
    for humidity, best in ((None, "real"), (0.8, "moist")):
        state = dict(**REFERENCE, **AIR_TO_AIR, relative_humidity=humidity)
        assert vars(path.charge_path(**state)) == pytest.approx(
            vars(path.charge_path(**state, air=air.choose(best))), rel=1e-14, nan_ok=True
        )
        assert path.charge_path(**state).charge_gain != path.charge_path(**state, air=air.choose("perfect")).charge_gain


def test_every_field_has_the_broadcast_shape_and_scalars_stay_floats():
    result = path.charge_path(
        **{**REFERENCE, "isentropic_efficiency": np.array([[0.7], [0.75], [0.8]])}, effectiveness=[0.7, 0.8]
    )
    assert {np.shape(value) for value in vars(result).values()} == {(3, 2)}
    assert {type(value) for value in vars(path.charge_path(**REFERENCE)).values()} == {float}


def test_without_a_barometer_nothing_is_known_of_the_air_outside():
    pressures = [REFERENCE["ambient_pressure"], np.nan]
    result = path.charge_path(**REFERENCE | {"ambient_pressure": pressures})
    for name in ("humidity_ratio", "ambient_density", "pressure_ratio", "manifold_density", "charge_gain"):
        assert np.isnan(getattr(result, name)).tolist() == [False, True], name


def test_a_missing_reading_leaves_the_rest_standing():
    result = path.charge_path(**{**REFERENCE, "isentropic_efficiency": np.nan})
    assert np.isnan(result.manifold_density)
    assert result.ambient_density == pytest.approx(1.1515, abs=5e-4)


def test_impossible_input_is_refused_by_name():
    cases = [
        (dict(isentropic_efficiency=1.2), "isentropic_efficiency must be a fraction above 0"),
        (dict(effectiveness=-0.1), "effectiveness must be a fraction from 0 to 1"),
        (dict(ambient_pressure=0.0), "ambient_pressure must be an absolute pressure above 0"),
        (dict(ambient_temperature=np.inf), "ambient_temperature must be an absolute temperature"),
        (dict(relative_humidity=1.01), "relative_humidity must be a fraction"),
        (dict(manifold_pressure="24 psi"), "not a number"),
        (dict(compressor_outlet_pressure=2e5), "exactly one of"),
        (dict(intake_restriction=2e5), "compressor_inlet_pressure must be"),
        (dict(effectiveness=[0.1, 0.2], isentropic_efficiency=[0.7, 0.7, 0.7]), "shapes"),
    ]
    for change, words in cases:
        with pytest.raises(OutOfRangeError, match=words):
            path.charge_path(**{**REFERENCE, **change})


@given(
    boost=st.floats(5.0, 40.0), degrees=st.floats(-20.0, 110.0), inhg=st.floats(22.0, 31.0), loss=st.floats(0.0, 4.0)
)
def test_the_same_case_in_us_and_si_units_gives_the_same_gain(boost, degrees, inhg, loss):
    def solved_in(pressure_unit, temperature_unit, barometer_unit):
        def there_and_back(value, unit, shown, quantity):
            return units.to_si(units.from_si(units.to_si(value, unit, quantity), shown, quantity), shown, quantity)

        barometer = there_and_back(inhg, "inHg", barometer_unit, "barometer")
        return path.charge_path(
            ambient_pressure=barometer,
            ambient_temperature=there_and_back(degrees, "°F", temperature_unit, "ambient_temperature"),
            manifold_pressure=barometer + there_and_back(boost, "psi", pressure_unit, "boost"),
            isentropic_efficiency=0.72,
            effectiveness=0.8,
            cooler_pressure_loss=there_and_back(loss, "psi", pressure_unit, "cooler_pressure_loss"),
        )

    us, si = solved_in("psi", "°F", "inHg"), solved_in("kPa", "°C", "hPa")
    for name in ("density_ratio", "pressure_ratio", "manifold_density", "compressor_outlet_temperature"):
        assert getattr(us, name) == pytest.approx(getattr(si, name), rel=1e-12)


@pytest.mark.filterwarnings("ignore:a state of the air is outside")
def test_a_pressure_far_below_the_inlet_leaves_a_gap_not_a_refusal():
    with pytest.warns(RangeWarning, match="below the inlet"):
        result = path.charge_path(**{**REFERENCE, "manifold_pressure": 30e3, "isentropic_efficiency": 0.1})
    assert np.isnan(result.compressor_outlet_temperature)
    assert np.isnan(result.charge_gain)


@pytest.mark.parametrize("air", ["perfect", "real"])
def test_a_loss_that_leaves_no_pressure_at_the_outlet_is_refused(air):
    with pytest.raises(OutOfRangeError, match="compressor_outlet_pressure must be an absolute pressure above 0"):
        path.charge_path(
            ambient_pressure=98_500.0,
            ambient_temperature=298.0,
            manifold_pressure=250_000.0,
            cooler_pressure_loss=-300_000.0,
            isentropic_efficiency=0.74,
            effectiveness=0.8,
            air=air,
        )


@pytest.mark.parametrize("model", [None, "perfect", "ideal", "real"])
@pytest.mark.parametrize("humidity", [None, 0.6])
def test_the_gains_alone_are_those_of_the_whole_path_to_the_last_bit(model, humidity):
    given = dict(
        ambient_pressure=np.array([98_544.0, 70_000.0]),
        ambient_temperature=298.15,
        manifold_pressure=np.array([264_018.0, np.nan]),
        isentropic_efficiency=0.74,
        effectiveness=0.80,
        cooler_pressure_loss=10_342.0,
        relative_humidity=humidity,
        air=model,
    )
    gains, whole = path.charge_gains(**given), path.charge_path(**given)
    for name in gains._fields:
        assert np.array_equal(getattr(gains, name), getattr(whole, name), equal_nan=True)


def test_the_gains_alone_refuse_what_the_whole_path_refuses():
    with pytest.raises(OutOfRangeError, match="exactly one of manifold_pressure"):
        path.charge_gains(ambient_pressure=98_544.0, ambient_temperature=298.15, isentropic_efficiency=0.74)
