"""Burnt gas against cantera, against its limits, and against hostile input.

The kit's mixture is made from the composition of air and the fuel's formula; cantera is given a real fuel of the same
hydrogen-carbon ratio, burns it to equilibrium, and its own heat capacities answer (GRI-Mech 3.0, another edition of
the NASA coefficients, or those of NASA TM-4513 themselves). Such rows are worked out, not printed.
"""

import cantera
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import OutOfRangeError, RangeWarning, air
from turbomath.air import exhaust

AIR = {"N2": 0.78084, "O2": 0.209476, "AR": 0.00934, "CO2": 0.000314}  # USSA 1976
STATES = [
    (1.0, 1.2e5, 350.0, 1.15),
    (1.0, 2.6e5, 905.0, 1.47),
    (1.0, 3.1e5, 1210.0, 1.05),
    (1.8, 1.5e5, 298.15, 1.6),
    (1.8, 2.3e5, 611.0, 2.0),
    (1.8, 2.9e5, 811.0, 1.93),
    (1.8, 1.05e5, 702.0, 1.93),
    (1.8, 4.1e5, 997.0, 1.4),
    (1.8, 1.9e5, 455.0, 8.2),
    (2.25, 2.2e5, 777.0, 2.7),
    (2.25, 3.3e5, 1085.0, 1.23),
    (8 / 3, 1.1e5, 523.0, 4.4),
    (4.0, 2.0e5, 1300.0, 2.2),
]
FUELS = {
    1.0: {"C2H2": 1},
    1.8: {"C3H8": 1, "C2H2": 13 / 8},
    2.25: {"C3H8": 2, "C2H2": 1},
    8 / 3: {"C3H8": 1},
    4.0: {"CH4": 1},
}


@pytest.fixture(scope="module")
def gri():
    species = cantera.Species.list_from_file("gri30.yaml")
    wanted = {"N2", "O2", "AR", "CO2", "H2O", "CH4", "C2H2", "C3H8"}
    return cantera.Solution(thermo="ideal-gas", species=[one for one in species if one.name in wanted])


@pytest.fixture(scope="module")
def nasa():
    species = {one.name: one for one in cantera.Species.list_from_file("nasa_gas.yaml")}
    return cantera.Solution(thermo="ideal-gas", species=[species[name] for name in exhaust.SPECIES])


def burnt(gas, y, excess):
    """Set *gas* to what is left of the fuel when it has burnt."""
    gas.set_equivalence_ratio(1 / excess, FUELS[y], AIR)
    gas.TP = 500.0, 1e5
    gas.equilibrate("TP")
    return gas


def test_the_fuels_have_the_ratio_they_stand_for():
    atoms = {"C2H2": (2, 2), "C3H8": (3, 8), "CH4": (1, 4)}
    for y, fuel in FUELS.items():
        carbon, hydrogen = (sum(n * atoms[name][place] for name, n in fuel.items()) for place in (0, 1))
        assert hydrogen / carbon == pytest.approx(y, rel=1e-9)


def test_a_burnt_fuel_is_what_cantera_burns(gri):
    for y, pressure, temperature, excess in STATES:
        ours, theirs = exhaust.choose(y, excess), burnt(gri, y, excess)
        for name, share in zip(exhaust.SPECIES, ours.mole_fractions, strict=True):
            assert theirs[name.upper()].X[0] == pytest.approx(share, abs=1e-9)
        theirs.TP = temperature, pressure
        assert ours.density(pressure, temperature) == pytest.approx(theirs.density, rel=5e-5)
        # two editions of nitrogen
        assert ours.specific_heat(pressure, temperature) == pytest.approx(theirs.cp, rel=2.2e-3)
        heat, entropy = theirs.h, theirs.s
        theirs.TP = 320.0, 1e5
        assert ours.enthalpy(pressure, temperature) - ours.enthalpy(1e5, 320.0) == pytest.approx(
            heat - theirs.h, rel=1e-3, abs=25.0
        )
        assert ours.entropy(pressure, temperature) - ours.entropy(1e5, 320.0) == pytest.approx(
            entropy - theirs.s, rel=1e-3, abs=0.5
        )


def test_the_same_coefficients_give_the_same_numbers(nasa):
    for y, pressure, temperature, excess in STATES:
        ours = exhaust.choose(y, excess)
        nasa.TPX = temperature, pressure, dict(zip(exhaust.SPECIES, ours.mole_fractions, strict=True))
        # cantera's molar masses are of another year
        assert ours.density(pressure, temperature) == pytest.approx(nasa.density, rel=2e-5)
        assert ours.specific_heat(pressure, temperature) == pytest.approx(nasa.cp, rel=2e-5)


def test_expansion_is_that_of_cantera(request):
    for y, pressure, temperature, excess in STATES:
        for edition, close in [("nasa", 0.01), ("gri", 0.7)]:
            ours, theirs = exhaust.choose(y, excess), request.getfixturevalue(edition)
            names = [name.upper() if edition == "gri" else name for name in exhaust.SPECIES]
            theirs.TPX = temperature, pressure, dict(zip(names, ours.mole_fractions, strict=True))
            inlet = theirs.h
            theirs.SP = theirs.s, 0.95e5
            ideal = theirs.T
            theirs.HP = inlet - 0.72 * (inlet - theirs.h), 0.95e5
            assert ours.turbine_outlet_temperature(pressure, temperature, 0.95e5, 1.0) == pytest.approx(
                ideal, abs=close
            )
            assert ours.turbine_outlet_temperature(pressure, temperature, 0.95e5, 0.72) == pytest.approx(
                theirs.T, abs=close
            )


def test_with_endless_excess_air_it_is_dry_air():
    thin, ideal = exhaust.choose(1.8, 1e9), air.choose("ideal")
    temperatures = np.array([220.0, 300.0, 417.0, 560.0, 700.0])
    assert thin.gas_constant == pytest.approx(287.05287, rel=3e-5)  # ISO 2533
    np.testing.assert_allclose(thin.specific_heat(1e5, temperatures), ideal.specific_heat(1e5, temperatures), rtol=1e-3)
    np.testing.assert_allclose(thin.density(3e5, temperatures), ideal.density(3e5, temperatures), rtol=5e-5)
    assert thin.mole_fractions[exhaust.SPECIES.index("H2O")] < 1e-9


def test_air_as_printed_in_the_gas_table():
    # Cengel and Boles, table A-17: h(800 K) = 821.95, h(600 K) = 607.02 kJ/kg (from memory)
    thin = exhaust.choose(1.8, 1e9)
    assert thin.enthalpy(1e5, 800.0) - thin.enthalpy(1e5, 600.0) == pytest.approx(214_930.0, rel=1e-3)


@given(st.floats(1.0, 2.6), st.floats(1.0, 40.0), st.floats(500.0, 1300.0), st.floats(1.01, 5.0), st.floats(0.3, 1.0))
def test_efficiency_undoes_the_expansion_and_work_is_what_enthalpy_lost(y, excess, temperature, ratio, efficiency):
    gas = exhaust.choose(y, excess)
    outlet = gas.turbine_outlet_temperature(ratio * 1e5, temperature, 1e5, efficiency)
    assert gas.turbine_efficiency(ratio * 1e5, temperature, 1e5, outlet) == pytest.approx(efficiency, rel=1e-6)
    ideal = gas.turbine_outlet_temperature(ratio * 1e5, temperature, 1e5, 1.0)
    assert ideal <= outlet < temperature
    assert gas.entropy(1e5, ideal) == pytest.approx(gas.entropy(ratio * 1e5, temperature), abs=1e-6)


@given(st.floats(1.0, 20.0), st.floats(300.0, 1500.0))
def test_less_excess_air_and_more_heat_raise_the_specific_heat(excess, temperature):
    gas, thinner = exhaust.choose(1.8, excess), exhaust.choose(1.8, excess * 1.2)
    assert gas.specific_heat(1e5, temperature) > thinner.specific_heat(1e5, temperature)
    assert gas.specific_heat(1e5, temperature * 1.05) > gas.specific_heat(1e5, temperature)


def test_the_two_ranges_meet():
    gas = exhaust.choose(1.8, 1.5)
    for property_ in (gas.specific_heat, gas.enthalpy, gas.entropy):
        assert property_(1e5, 999.9999) == pytest.approx(property_(1e5, 1000.0001), rel=1e-4)


def test_arrays_of_mixtures_and_states_give_what_their_elements_give():
    excess, temperatures = np.array([1.2, 2.0, 30.0]), np.array([[400.0], [1100.0]])
    whole = exhaust.choose(1.8, excess)
    answers = whole.turbine_outlet_temperature(2e5, temperatures, 1e5, 0.7)
    assert answers.shape == (2, 3)
    for column, one in enumerate(excess):
        single = exhaust.choose(1.8, float(one))
        for row, temperature in enumerate(temperatures[:, 0]):
            found = single.turbine_outlet_temperature(2e5, float(temperature), 1e5, 0.7)
            assert type(found) is float
            assert answers[row, column] == pytest.approx(found, rel=1e-13)


def test_what_cannot_burn_is_refused():
    cases = [
        (1.8, 0.99, "excess_air_ratio must be 1 or more"),
        (0.0, 2.0, "hydrogen_carbon_ratio must be above 0"),
        (1.8, np.inf, "excess_air_ratio must be above 0"),
        ("CH2", 2.0, "not a number"),
        ([1.8, 2.0], [1, 2, 3], "shapes"),
    ]
    for y, excess, text in cases:
        with pytest.raises(OutOfRangeError, match=text):
            exhaust.choose(y, excess)


def test_states_outside_the_range_are_refused():
    for temperature in [199.0, 2001.0, [500.0, 2500.0]]:
        with pytest.raises(OutOfRangeError, match="200 to 2000 K"):
            exhaust.choose(1.8, 2.0).enthalpy(1e5, temperature)


def test_odd_readings_are_warned_of_and_missing_ones_stay_missing():
    gas = exhaust.choose(1.8, 2.0)
    assert np.isnan(gas.density(np.nan, 500.0))
    assert np.isnan(gas.turbine_efficiency(1e5, 500.0, 1e5, 490.0))
    with pytest.warns(RangeWarning, match="expansion ratio is below 1"):
        gas.turbine_outlet_temperature(0.9e5, 700.0, 1e5, 0.7)
    with pytest.warns(RangeWarning, match="outside 0 to 1"):
        gas.turbine_efficiency(2e5, 700.0, 1e5, 500.0)
