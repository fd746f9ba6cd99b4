"""Air models against the equation of state of Lemmon et al. (2000) and the air table of Cengel and Boles."""

import numpy as np
import pytest

from turbomath import OutOfRangeError, RangeWarning, air

# the ends of the equation lie far outside any engine
pytestmark = pytest.mark.filterwarnings("ignore:.* is far below what is usual")

MODELS = ("perfect", "ideal", "real", "coolprop")
MOLAR_MASS = 0.02896546  # kg/mol, Lemmon et al. 2000

# Lemmon et al. 2000, table A2: K, Pa, mol/dm3, J/(mol K)
LEMMON_A2 = [
    (100.0, 101_325.0, 0.12449, 30.13),
    (500.0, 200_000.0, 0.048077, 29.84),
    (130.0, 1_000_000.0, 1.0295, 34.69),
    (2000.0, 10_000_000.0, 0.59094, 36.25),
    (2000.0, 500_000_000.0, 16.48, 37.27),
]


def test_coolprop_gives_the_printed_density_and_specific_heat():
    for temperature, pressure, molar_density, molar_heat in LEMMON_A2:
        model = air.choose("coolprop")
        printed_digits = 5e-5  # the table prints five figures of density
        assert model.density(pressure, temperature) == pytest.approx(
            molar_density * 1e3 * MOLAR_MASS, rel=printed_digits
        )
        assert model.specific_heat(pressure, temperature) == pytest.approx(molar_heat / MOLAR_MASS, rel=2e-4)


def test_coolprop_gives_the_printed_enthalpy_and_entropy_differences():
    # Lemmon et al. 2000, table A2, first two rows: differences, since reference states differ
    model = air.choose("coolprop")
    enthalpy = model.enthalpy(200e3, 500.0) - model.enthalpy(101_325.0, 100.0)
    entropy = model.entropy(200e3, 500.0) - model.entropy(101_325.0, 100.0)
    assert enthalpy * MOLAR_MASS == pytest.approx(14578 - 2842.1, abs=0.6)
    assert entropy * MOLAR_MASS == pytest.approx(208.20 - 166.61, abs=0.011)


def test_both_models_give_the_outlet_temperature_of_the_textbook_compressor():
    # Cengel and Boles, effect of efficiency on a compressor: 100 kPa, 285 K to 800 kPa, efficiency 0.80: 569.5 K
    answer = air.choose("coolprop").outlet_temperature(100e3, 285.0, 800e3, 0.80)
    assert answer == pytest.approx(569.5, abs=0.5)
    hand = air.choose("perfect").outlet_temperature(100e3, 285.0, 800e3, 0.80)
    assert answer < hand < answer + 5.0  # a constant heat capacity reads high


def test_efficiency_undoes_outlet_temperature():
    for name in MODELS:
        model = air.choose(name)
        efficiency = np.array([[0.61], [0.74], [0.93]])
        inlet_temperature = np.array([255.0, 299.0])
        outlet = model.outlet_temperature(95e3, inlet_temperature, 271e3, efficiency)
        assert outlet.shape == (3, 2)
        again = model.isentropic_efficiency(95e3, inlet_temperature, 271e3, outlet)
        np.testing.assert_allclose(again, np.broadcast_to(efficiency, (3, 2)), rtol=1e-7)


def test_two_ideal_stages_make_one():
    for name in MODELS:
        model = air.choose(name)
        middle = model.outlet_temperature(97e3, 291.0, 180e3, 1.0)
        assert model.outlet_temperature(180e3, middle, 310e3, 1.0) == pytest.approx(
            model.outlet_temperature(97e3, 291.0, 310e3, 1.0), rel=1e-9
        )


def test_missing_values_pass_and_bad_ones_are_refused():
    for name in MODELS:
        model = air.choose(name)
        density = model.density([101e3, np.nan, 99e3], [300.0, 300.0, np.nan])
        assert np.isfinite(density[0])
        assert np.isnan(density[1:]).all()
        assert type(model.density(101e3, 300.0)) is float
        assert np.isnan(model.outlet_temperature(95e3, np.nan, 2e5, 0.7))
        assert model.density(np.full((2, 3), 101e3), 300.0).shape == (2, 3)
        for bad in (0.0, -1.0, np.inf, "x", None):
            with pytest.raises(OutOfRangeError, match="pressure"):
                model.density(bad, 300.0)
        with pytest.raises(OutOfRangeError, match="isentropic_efficiency"):
            model.outlet_temperature(95e3, 300.0, 2e5, 1.01)
        with pytest.raises(OutOfRangeError, match="shapes"):
            model.density([1e5, 2e5], [300.0, 310.0, 320.0])


def test_readings_that_cannot_be_warn_at_the_callers_line():
    for name in MODELS:
        model = air.choose(name)
        with pytest.warns(RangeWarning, match="outside 0 to 1") as caught:
            assert model.isentropic_efficiency(95e3, 300.0, 271e3, 390.0) > 1
        assert caught[0].filename == __file__
        with pytest.warns(RangeWarning, match="below the inlet"):
            model.outlet_temperature(95e3, 300.0, 90e3, 0.7)
        assert np.isnan(model.isentropic_efficiency(95e3, 300.0, 95e3, 300.0))


def test_coolprop_refuses_states_outside_its_equation():
    model = air.choose("coolprop")
    with pytest.raises(OutOfRangeError, match="60 to 2000 K"):
        model.density(101e3, 40.0)
    with pytest.raises(OutOfRangeError, match="1 of 3 states"):
        model.enthalpy(101e3, [300.0, 2500.0, 400.0])


def test_an_unknown_model_is_refused_with_the_valid_ones():
    with pytest.raises(OutOfRangeError, match="'perfect', 'ideal', 'real', 'moist', 'coolprop'"):
        air.choose("ideal gas")
