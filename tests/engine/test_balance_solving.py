"""The ways to the balance: Newton's method for many points, the bracket behind it, and guessing by hand."""

import itertools
from dataclasses import replace

import numpy as np
import pytest
from scipy import optimize

from turbomath import OutOfRangeError
from turbomath.engine import balance, guessing, newton, settling
from turbomath.engine.ready_engines import AIR_TO_AIR, NOT_AFTERCOOLED, READY, WITH_WASTEGATE
from turbomath.physics import atmosphere

SITE = dict(ambient_pressure=98_543.9, ambient_temperature=298.15, engine_speed=30.0)


def rosenbrock(unknowns, points):
    return np.stack([10 * (unknowns[1] - unknowns[0] ** 2), 1 - unknowns[0]])


def test_newton_solves_a_published_system_from_far_away():
    # Rosenbrock (1960), Comput. J. 3, 175-184: the root is (1, 1)
    found, residual = newton.roots(rosenbrock, [[-1.2, 3.0, 0.0], [1.0, -4.0, 0.0]], steps=100)
    np.testing.assert_allclose(found, 1.0, rtol=1e-9)
    assert residual.max() < newton.CLOSE


def test_newton_solves_three_unknowns_as_scipy_does():
    def system(x, points):
        return np.stack([np.cos(x[0]) - x[1] * x[2], x[0] + x[1] ** 3 - 1.7, np.exp(x[2]) - 2 * x[0] - 0.3])

    found, residual = newton.roots(system, [[0.8], [0.9], [0.7]])
    other = optimize.root(lambda x: system(x[:, None], None)[:, 0], [0.8, 0.9, 0.7], tol=1e-13)
    assert residual[0] < newton.CLOSE
    np.testing.assert_allclose(found[:, 0], other.x, rtol=1e-9)


def test_what_has_no_root_is_said_to_have_none():
    found, residual = newton.roots(lambda x, points: x**2 + 1, [[0.3, 5.0]])
    assert np.all(residual > 0.9)
    assert np.isfinite(found).all()


def test_one_hopeless_point_does_not_spoil_the_others():
    def system(x, points):
        return np.where(points == 1, np.nan, x - points)

    found, residual = newton.roots(system, [[0.5, 0.5, 0.5]])
    np.testing.assert_allclose(found[0, [0, 2]], [0.0, 2.0], atol=1e-9)
    assert residual[1] == np.inf


def test_the_bracket_closes_on_a_falling_function():
    low, high = np.zeros(3), np.full(3, 10.0)
    roots = np.array([0.1, 3.3, 9.9])
    np.testing.assert_allclose(newton.bracketed(lambda x: roots - x, low, high), roots, rtol=1e-12)


def test_the_bracket_alone_finds_what_newton_finds():
    for name in READY:
        engine, loads = READY[name], np.array([0.1, 0.5, 1.1])
        fuel = loads * engine.rated_fuel_flow
        b = balance.solve(engine, **SITE, fuel_flow=fuel)
        site = dict(p0=np.full(3, 98_543.9), T0=np.full(3, 298.15), N=np.full(3, 30.0))
        points = settling.Points(settling.numbers_of(engine), site)
        flow, pressure = np.exp(settling.bracketed(points, fuel, halvings=50))
        np.testing.assert_allclose(pressure, b.compressor_outlet_pressure, rtol=1e-7)
        np.testing.assert_allclose(flow, b.compressor_mass_flow, rtol=1e-7)


def test_nothing_is_missed_with_every_fault_at_once_and_a_stiff_gate():
    random, count = np.random.default_rng(11), 600
    between = random.uniform
    engine = replace(
        WITH_WASTEGATE,
        turbine_area=WITH_WASTEGATE.turbine_area * between(0.7, 1.3, count),
        intake_coefficient=WITH_WASTEGATE.intake_coefficient * between(1, 4, count),
        exhaust_coefficient=WITH_WASTEGATE.exhaust_coefficient * between(1, 4, count),
        best_compressor_efficiency=between(0.55, 0.76, count),
        turbine_efficiency=between(0.5, 0.74, count),
        timing_retard=between(-2, 10, count),
        leak_area_before_aftercooler=between(0, 3e-4, count),
        leak_area_after_aftercooler=between(0, 3e-4, count),
        exhaust_leak_area=between(0, 3e-4, count),
        wastegate=replace(WITH_WASTEGATE.wastegate, span=25e3),
    )
    site = dict(
        ambient_pressure=atmosphere.pressure(between(0, 3000, count)),
        ambient_temperature=between(253.15, 318.15, count),
        engine_speed=between(8.0, 38.0, count),
    )
    load = between(0.08, 1.1, count)
    fuelled = balance.solve(engine, **site, fuel_flow=load * engine.rated_fuel_flow)
    assert fuelled.converged.all()
    loaded = balance.solve(engine, **site, power=load * engine.rated_power)
    assert loaded.converged.all()
    assert np.isin(loaded.state, ["solved", "cannot carry this load"]).all()
    np.testing.assert_allclose(loaded.power[loaded.carried], (load * engine.rated_power)[loaded.carried], rtol=1e-6)
    assert np.all(loaded.power[~loaded.carried] < (load * engine.rated_power)[~loaded.carried])


def test_guessing_by_hand_comes_to_the_same_boost():
    for engine in [AIR_TO_AIR, NOT_AFTERCOOLED, WITH_WASTEGATE]:
        for first_guess in [1.05, 2.0, 4.7]:
            worked = guessing.steps(
                engine, **SITE, fuel_flow=engine.rated_fuel_flow, first_guess=first_guess, closeness=1e-4
            )
            b = balance.solve(engine, **SITE, fuel_flow=engine.rated_fuel_flow)
            assert worked[0].compressor_outlet_pressure == pytest.approx(first_guess * SITE["ambient_pressure"])
            assert worked[-1].verdict == "balanced"
            assert worked[-1].boost == pytest.approx(b.boost, rel=1e-3)
            assert worked[-1].mass_flow == pytest.approx(b.mass_flow, rel=1e-3)
            for guess, following in itertools.pairwise(worked):
                higher = following.compressor_outlet_pressure > guess.compressor_outlet_pressure
                assert higher == (guess.power_to_spare > 0) == ("guess higher" in guess.verdict)
                assert guess.power_to_spare == pytest.approx(
                    engine.shaft_efficiency * guess.turbine_power - guess.compressor_power, rel=1e-12
                )


def test_a_first_guess_that_cannot_be_is_refused():
    for first_guess in [1.0, 5.0, -3.0, np.nan]:
        with pytest.raises(OutOfRangeError, match="first_guess must be between 1 and 5"):
            guessing.steps(AIR_TO_AIR, **SITE, fuel_flow=0.0165, first_guess=first_guess)


def test_more_fuel_than_the_stop_is_never_called_solved():
    stop = AIR_TO_AIR.greatest_fuel_flow
    found = balance.solve(AIR_TO_AIR, **SITE, fuel_flow=np.array([0.5 * stop, stop, 1.001 * stop, 3 * stop]))
    assert found.state.tolist() == ["solved", "solved", "more fuel than the stop", "more fuel than the stop"]
    assert np.isnan(found.power).tolist() == [False, False, True, True]
    assert not found.converged[2:].any()
