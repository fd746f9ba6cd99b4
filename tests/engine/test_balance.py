"""The settled engine: its balances close, every formula of the kit agrees with it, and other solvers find the same."""

import re
from dataclasses import fields, replace
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize

from turbomath import OutOfRangeError, air
from turbomath.air import exhaust
from turbomath.engine import balance, gas_path, settling, turbocharged_engine
from turbomath.engine.ready_engines import AIR_TO_AIR, JACKET_WATER, NOT_AFTERCOOLED, READY, WITH_WASTEGATE
from turbomath.engine.turbocharged_engine import Aftercooler
from turbomath.physics import airflow, atmosphere, charge, compression, cooling, exchanger, fuel, turbine
from turbomath.table.quantities import QUANTITIES
from turbomath.working.coherent import EXHAUST_SPECIFIC_HEAT

SITE = dict(ambient_pressure=98_543.9, ambient_temperature=298.15, engine_speed=30.0)  # 29.10 inHg, 77 F, 1800 rpm
engines = st.sampled_from(sorted(READY))
elevations, temperatures, loads = st.floats(0.0, 3000.0), st.floats(253.15, 318.15), st.floats(0.08, 1.1)
each_engine = pytest.mark.parametrize("engine", READY.values(), ids=READY)


def settled(name, elevation, temperature, load, **given):
    given = given or {"fuel_flow": load * READY[name].rated_fuel_flow}
    return balance.solve(
        READY[name],
        ambient_pressure=atmosphere.pressure(elevation),
        ambient_temperature=temperature,
        engine_speed=30.0,
        **given,
    )


@given(engines, elevations, temperatures, loads)
def test_every_balance_closes_over_the_whole_domain(name, elevation, temperature, load):
    b, engine = settled(name, elevation, temperature, load), READY[name]
    assert b.converged
    assert b.state == "solved"
    assert b.residual < 1e-9
    spent = b.power + b.coolant_heat + b.heat_rejected + b.exhaust_heat + b.leak_heat + b.unburnt_heat
    assert spent == pytest.approx(b.fuel_heat, rel=1e-9)
    assert b.compressor_power == pytest.approx(b.turbine_power * engine.shaft_efficiency, rel=1e-9)
    drawn = airflow.mass_flow(
        charge.density(b.manifold_pressure, b.manifold_temperature),
        engine.displacement,
        30.0,
        engine.volumetric_efficiency,
    )
    assert b.mass_flow == pytest.approx(drawn, rel=1e-9)
    assert b.compressor_mass_flow == pytest.approx(b.mass_flow + b.leak_mass_flow, rel=1e-12)
    assert b.exhaust_mass_flow + b.wastegate_mass_flow == pytest.approx(b.mass_flow + b.fuel_flow, rel=1e-12)


@given(engines, elevations, temperatures, loads)
def test_the_load_and_the_fuel_it_takes_belong_together(name, elevation, temperature, load):
    loaded = settled(name, elevation, temperature, load, power=load * READY[name].rated_power)
    assert loaded.state == "solved"
    assert loaded.power == pytest.approx(load * READY[name].rated_power, rel=1e-8)
    again = settled(name, elevation, temperature, load, fuel_flow=loaded.fuel_flow)
    assert again.boost == pytest.approx(loaded.boost, rel=1e-7)
    assert again.power == pytest.approx(loaded.power, rel=1e-7)


@given(engines, elevations, temperatures, loads)
def test_the_checked_formulas_of_the_kit_give_the_same_stations(name, elevation, temperature, load):
    b, engine = settled(name, elevation, temperature, load), READY[name]
    outlet = compression.outlet_temperature(
        b.compressor_inlet_pressure,
        b.compressor_inlet_temperature,
        b.compressor_outlet_pressure,
        b.compressor_efficiency,
    )
    assert b.compressor_outlet_temperature == pytest.approx(outlet, rel=1e-12)
    cooled = cooling.outlet_temperature(b.compressor_outlet_temperature, b.medium_temperature, b.effectiveness)
    assert b.manifold_temperature == pytest.approx(cooled, rel=1e-12)
    assert b.boost == pytest.approx(b.manifold_pressure - b.ambient_pressure, rel=1e-12)
    assert b.pressure_ratio == compression.pressure_ratio(b.compressor_inlet_pressure, b.compressor_outlet_pressure)
    assert b.air_fuel_ratio == fuel.air_fuel_ratio(b.mass_flow, b.fuel_flow)
    stoichiometric = fuel.stoichiometric_air_fuel_ratio(engine.hydrogen_carbon_ratio)
    assert b.excess_air_ratio == pytest.approx(fuel.excess_air_ratio(b.air_fuel_ratio, stoichiometric), rel=1e-12)
    assert b.power == pytest.approx(fuel.power(b.torque, 30.0), rel=1e-12)


def test_the_turbine_is_that_of_the_burnt_gas():
    for engine in READY.values():
        for load in [0.25, 0.6, 1.0]:
            b = balance.solve(engine, **SITE, fuel_flow=load * engine.rated_fuel_flow)
            gas = exhaust.choose(engine.hydrogen_carbon_ratio, b.excess_air_ratio)
            ideal = gas.turbine_outlet_temperature(
                b.turbine_inlet_pressure, b.turbine_inlet_temperature, b.turbine_outlet_pressure, 1.0
            )
            before = gas.enthalpy(1e5, b.turbine_inlet_temperature)
            work = engine.turbine_efficiency * (before - gas.enthalpy(1e5, ideal))
            # specific heat of the inlet, 1.1 %
            assert b.turbine_power == pytest.approx(b.exhaust_mass_flow * work, rel=0.03)
            gamma = gas.heat_capacity_ratio(1e5, b.turbine_inlet_temperature)
            real = turbine.outlet_temperature(
                b.turbine_inlet_temperature, b.expansion_ratio, engine.turbine_efficiency, gamma
            )
            if not engine.wastegate.area:
                assert b.turbine_outlet_temperature == pytest.approx(real, abs=4.0)
            flow = b.exhaust_mass_flow * np.sqrt(gas.gas_constant * b.turbine_inlet_temperature)
            parameter = turbine.ellipse_flow_parameter(b.expansion_ratio, 2.3, 1.34)
            assert flow / (engine.turbine_area * b.turbine_inlet_pressure) == pytest.approx(parameter, rel=2e-3)


def test_the_specific_heat_of_the_exhaust_is_that_of_the_model_to_the_stated_error():
    temperatures, shares = np.linspace(300.0, 1100.0, 81), np.linspace(0.02, 0.8, 40)[:, None]
    reference = exhaust.choose(1.8, 1 / shares).specific_heat(1e5, temperatures)
    np.testing.assert_allclose(gas_path._specific_heat(shares, temperatures), reference, rtol=0.0112)


@each_engine
def test_bearings_take_power_with_the_square_of_the_speed_whatever_flows(engine):
    """Watson and Janota (1982), chapter 6, from memory: so at part load they take a larger share."""
    for load in (0.4, 1.0):
        b = balance.solve(replace(engine, bearing_fall=1.0), **SITE, fuel_flow=load * engine.rated_fuel_flow)
        share = (1 / engine.shaft_efficiency - 1) * engine.best_compressor_flow / b.corrected_mass_flow
        assert b.turbine_power == pytest.approx(b.compressor_power * (1 + share), rel=1e-9)


def test_a_turbine_that_is_matched_off_its_best_speed_has_its_stated_efficiency_at_that_match():
    engine = SimpleNamespace(
        turbine_fall=0.0,
        best_pressure_ratio=2.5,
        blade_speed_fall=1.0,
        turbine_efficiency=0.7,
        shaft_efficiency=0.95,
        matched_speed_ratio=0.8,
    )
    matched = SimpleNamespace(pressure_ratio=2.0, compressor_power=0.7 * 0.95 * 6e4, compressor_flow=1.0)
    assert gas_path._turbine_efficiency(engine, matched, 6e4) == pytest.approx(0.7, rel=1e-12)
    best = SimpleNamespace(pressure_ratio=2.0, compressor_power=0.7 * 0.95 * 6e4 / 0.8**2, compressor_flow=1.0)
    assert gas_path._turbine_efficiency(engine, best, 6e4) == pytest.approx(0.7 / (1 - 0.2**2), rel=1e-12)


def test_the_aftercooler_is_the_usual_closed_form():
    for load in [0.2, 0.7, 1.1]:
        b = balance.solve(AIR_TO_AIR, **SITE, fuel_flow=load * AIR_TO_AIR.rated_fuel_flow)
        cooler = AIR_TO_AIR.aftercooler
        air_flow = cooler.cooling_air_flow * charge.density(b.ambient_pressure, b.ambient_temperature)
        conductance = cooler.conductance * (b.mass_flow / cooler.reference_mass_flow) ** cooler.flow_exponent
        ntu, ratio = conductance / (b.mass_flow * 1004.685), b.mass_flow / air_flow
        assert b.effectiveness == pytest.approx(exchanger.approximate_effectiveness(ntu, ratio), rel=1e-6)
        exact = exchanger.effectiveness(ntu, ratio, "crossflow, both unmixed")
        assert b.effectiveness == pytest.approx(exact, abs=0.011)


@pytest.mark.parametrize("name", READY)
def test_scipy_finds_the_same_balance(name):
    # an independent solver on the two sums that need not come out; it starts far from the answer
    engine = READY[name]
    for elevation, temperature, load in [(0.0, 298.15, 1.0), (1700.0, 261.0, 0.35), (2900.0, 316.0, 1.07)]:
        b = settled(name, elevation, temperature, load)
        points = settling.Points(settling.numbers_of(engine), dict(p0=b.ambient_pressure, T0=temperature, N=30.0))

        def sums(logs, points=points, flow=b.fuel_flow):
            return np.array(gas_path.imbalances(points.state(*np.exp(logs), flow)))

        found = optimize.root(sums, np.log([0.3, 1.8 * b.ambient_pressure]), tol=1e-12)
        flow, pressure = np.exp(found.x)
        assert pressure == pytest.approx(b.compressor_outlet_pressure, rel=1e-7)
        assert flow == pytest.approx(b.compressor_mass_flow, rel=1e-7)


def test_every_field_is_a_quantity_of_the_table_and_within_its_sensible_range_at_rated_power():
    for engine in READY.values():
        b = balance.solve(engine, **SITE, power=engine.rated_power)
        for field in fields(balance.Balance)[:-4]:
            low, high = QUANTITIES[field.name].sensible
            assert low <= getattr(b, field.name) <= high, field.name


def test_arrays_of_sites_and_of_engines_give_what_their_elements_give():
    area = AIR_TO_AIR.turbine_area * np.array([[0.9], [1.0], [1.2]])
    engine = replace(AIR_TO_AIR, turbine_area=area)
    fuels = AIR_TO_AIR.rated_fuel_flow * np.array([0.3, 1.0])
    whole = balance.solve(engine, **SITE, fuel_flow=fuels)
    assert whole.boost.shape == whole.state.shape == (3, 2)
    for row in range(3):
        for column in range(2):
            one = balance.solve(
                replace(AIR_TO_AIR, turbine_area=float(area[row, 0])), **SITE, fuel_flow=float(fuels[column])
            )
            assert type(one.boost) is float
            assert whole.boost[row, column] == pytest.approx(one.boost, rel=1e-9)


def test_more_points_than_one_piece_holds_are_solved_as_alone():
    loads = np.linspace(0.1, 1.1, settling.BLOCK + 3)
    many = balance.solve(JACKET_WATER, **SITE, power=loads * JACKET_WATER.rated_power)
    assert many.converged.all()
    last = balance.solve(JACKET_WATER, **SITE, power=1.1 * JACKET_WATER.rated_power)
    assert many.boost[-1] == pytest.approx(last.boost, rel=1e-9)
    assert balance.solve(JACKET_WATER, **SITE, power=np.zeros(0)).boost.shape == (0,)


def test_a_load_too_great_is_an_answer():
    b = balance.solve(AIR_TO_AIR, **SITE, power=[200e3, 900e3])
    assert b.state.tolist() == ["solved", "cannot carry this load"]
    assert b.carried.tolist() == [True, False]
    assert b.converged.all()
    assert b.fuel_flow[1] == pytest.approx(AIR_TO_AIR.greatest_fuel_flow, rel=1e-9)
    at_the_stop = balance.solve(AIR_TO_AIR, **SITE, fuel_flow=AIR_TO_AIR.greatest_fuel_flow)
    assert b.power[1] == pytest.approx(at_the_stop.power, rel=1e-9)


def test_an_idling_engine_settles_too():
    b = balance.solve(
        AIR_TO_AIR,
        ambient_pressure=98_543.9,
        ambient_temperature=298.15,
        engine_speed=np.array([700.0, 1950.0]) / 60,
        power=0.0,
    )
    assert b.state.tolist() == ["solved", "solved"]
    assert np.all(b.boost < 20e3)
    assert np.isnan(b.specific_fuel_consumption).all()


def test_missing_readings_leave_a_gap_and_spoil_nothing_else():
    b = balance.solve(
        AIR_TO_AIR,
        ambient_pressure=[98_543.9, np.nan],
        ambient_temperature=298.15,
        engine_speed=30.0,
        power=[250e3, 250e3],
    )
    assert np.isnan([b.boost[1], b.power[1], b.residual[1]]).all()
    assert b.state.tolist() == ["solved", "not solved"]
    assert b.boost[0] == pytest.approx(balance.solve(AIR_TO_AIR, **SITE, power=250e3).boost, rel=1e-9)
    assert np.isnan(balance.solve(AIR_TO_AIR, **SITE, fuel_flow=np.nan).mass_flow)


def test_what_cannot_be_is_refused():
    cases = [
        ({}, "exactly one of fuel_flow and power"),
        ({"fuel_flow": 0.01, "power": 1e5}, "exactly one of fuel_flow and power"),
        ({"power": -1.0}, "power must be 0 or more"),
        ({"power": 1e5, "engine_speed": 0.0}, "engine_speed must be above 0"),
        ({"power": 1e5, "ambient_pressure": 0.0}, "ambient_pressure must be an absolute pressure above 0"),
        ({"power": "full"}, "power must be .*not a number"),
        ({"fuel_flow": [0.01, -0.01]}, "fuel_flow must be 0 or more"),
        ({"power": np.inf}, "power must be"),
        ({"power": [1e5, 2e5], "engine_speed": [20.0, 25.0, 30.0]}, "shapes of the arguments must fit together"),
    ]
    for change, text in cases:
        with pytest.raises(OutOfRangeError, match=text):
            balance.solve(AIR_TO_AIR, **SITE | change)


def test_odd_fuel_flows_end_with_a_named_state():
    for engine in READY.values():
        for fuel_share in [0.0, 1e-4, 3.0, 20.0]:
            b = balance.solve(engine, **SITE, fuel_flow=fuel_share * engine.rated_fuel_flow)
            assert b.state in ("solved", "not solved", "more fuel than the stop")
            assert (b.state == "solved") == b.converged
            assert b.converged or np.isnan(b.boost)


def test_the_perfect_gas_is_near_enough_to_real_air():
    b = balance.solve(AIR_TO_AIR, **SITE, power=AIR_TO_AIR.rated_power)
    real = air.choose("real").outlet_temperature(
        b.compressor_inlet_pressure,
        b.compressor_inlet_temperature,
        b.compressor_outlet_pressure,
        b.compressor_efficiency,
    )
    assert b.compressor_outlet_temperature == pytest.approx(real, abs=1.5)


HEALTHY = {  # common practice for heavy-duty engines at rated load; psi, F, kg/kg, g/(kW h)
    "none": (NOT_AFTERCOOLED, (8, 18), (200, 320), (200, 320), (22, 28), (1100, 1350), (225, 255)),
    "jacket-water": (JACKET_WATER, (12, 28), (250, 380), (190, 240), (23, 30), (1000, 1250), (210, 235)),
    "air-to-air": (AIR_TO_AIR, (18, 35), (280, 430), (95, 160), (24, 32), (900, 1200), (190, 220)),
    "air-to-air with wastegate": (WITH_WASTEGATE, (18, 35), (280, 430), (95, 160), (24, 32), (900, 1200), (190, 220)),
}


def test_a_healthy_engine_reads_what_a_shop_would_call_usual():
    for name in HEALTHY:
        engine, *ranges = HEALTHY[name]
        b = balance.solve(engine, **SITE, power=engine.rated_power)
        fahrenheit = [
            one * 1.8 - 459.67
            for one in (b.compressor_outlet_temperature, b.manifold_temperature, b.turbine_inlet_temperature)
        ]
        shown = [
            b.boost / 6894.757,
            fahrenheit[0],
            fahrenheit[1],
            b.air_fuel_ratio,
            fahrenheit[2],
            b.specific_fuel_consumption * 3.6e9,
        ]
        for value, (low, high) in zip(shown, ranges, strict=True):
            assert low <= value <= high, (name, value, low, high)


def test_the_ready_engines_stand_where_they_were_fitted():
    fitted = {
        "none": (14.0, 7.0, 1.6, 1160.0),
        "jacket-water": (24.0, 9.0, 1.9, 1143.0),
        "air-to-air": (24.0, 12.0, 2.3, 1000.0),
    }
    for name, (boost, restriction, back_pressure, temperature) in fitted.items():
        b = balance.solve(READY[name], **SITE, power=READY[name].rated_power)
        assert b.boost / 6894.757 == pytest.approx(boost, abs=0.01)
        assert b.intake_restriction / 249.0889 == pytest.approx(restriction, abs=0.01)
        assert b.exhaust_back_pressure / 3386.389 == pytest.approx(back_pressure, abs=0.005)
        assert b.turbine_inlet_temperature * 1.8 - 459.67 == pytest.approx(temperature, abs=0.2)


def test_the_notes_of_lesson_10_say_what_an_aftercooler_does_at_equal_fuel():
    page = (Path(__file__).parents[2] / "lessons/teaching_notes/10_compare_three_engines.md").read_text(
        encoding="utf-8"
    )
    engine = READY["air-to-air"]
    for cooler in (Aftercooler(), READY["jacket-water"].aftercooler, engine.aftercooler):
        b = balance.solve(replace(engine, aftercooler=cooler), **SITE, fuel_flow=engine.rated_fuel_flow)
        row = (
            f"| {cooler.arrangement} | {b.boost / 6894.757:.1f} psi | {b.mass_flow / 0.45359237 * 60:.1f} lb/min "
            f"| {b.turbine_inlet_temperature * 1.8 - 459.67:.0f} °F |"
        )
        assert row in page


def test_what_leaks_after_the_aftercooler_leaks_at_the_pressure_there():
    area = 1e-4
    b = balance.solve(replace(AIR_TO_AIR, leak_area_after_aftercooler=area), **SITE, fuel_flow=0.0165)
    pressures = b.manifold_pressure**2 - b.ambient_pressure**2
    wanted = area * np.sqrt(pressures / (287.05287 * b.manifold_temperature))
    assert b.leak_mass_flow == pytest.approx(wanted, rel=0.002)  # the law is smoothed near equal pressures


def test_what_leaks_before_the_turbine_does_not_press_on_the_tail_pipe():
    engine = replace(AIR_TO_AIR, exhaust_leak_area=1e-4)
    b = balance.solve(engine, **SITE, fuel_flow=0.0165)
    passed = b.exhaust_mass_flow + b.wastegate_mass_flow
    assert passed < 0.95 * (b.mass_flow + b.fuel_flow)
    wanted = engine.exhaust_coefficient * passed**2 * 287.05287 * b.turbine_outlet_temperature / b.ambient_pressure
    assert b.exhaust_back_pressure == pytest.approx(wanted, rel=1e-9)


def test_the_usual_numbers_of_the_turbine_formulas_are_those_of_the_burnt_gas():
    """What `physics.turbine` and the worked pages call usual, against the model of burnt gas in a loaded turbine."""
    said = re.search(r"at load about ([\d,]+) J/\(kg K\) and ([\d.]+)\)", turbine.__doc__)
    specific_heat, gamma = float(said.group(1).replace(",", "")), float(said.group(2))
    assert specific_heat == EXHAUST_SPECIFIC_HEAT
    for engine in (JACKET_WATER, AIR_TO_AIR):
        for load in (0.75, 1.0):
            b = balance.solve(engine, **SITE, fuel_flow=load * engine.rated_fuel_flow)
            gas = exhaust.choose(engine.hydrogen_carbon_ratio, b.excess_air_ratio)
            within = (b.turbine_inlet_temperature + b.turbine_outlet_temperature) / 2
            assert specific_heat == pytest.approx(gas.specific_heat(1e5, within), rel=0.03)
            assert gamma == pytest.approx(gas.heat_capacity_ratio(1e5, within), rel=0.015)
    for usual in (turbocharged_engine.EXHAUST_GAMMA, turbocharged_engine.EXHAUST_SPECIFIC_HEAT / 1000):
        assert usual == pytest.approx(gamma if usual > 1.2 else specific_heat / 1000, rel=0.01)
