"""Tolerances against the standards, propagation against the worked examples of the GUM and its Supplement 1."""

import numpy as np
import pytest

from turbomath import OutOfRangeError
from turbomath.uncertainty import Instrument, propagate, signed_shares, standard, tolerance

PSI = 6894.757  # Pa, NIST SP 811


def gauge(grade, top=60 * PSI, **more):
    return Instrument(kind="bourdon", span=(0.0, top), grade=grade, **more)


def test_gauge_grades():
    cases = [
        ("4A", 0.1, 0.1),
        ("3A", 0.25, 0.25),
        ("2A", 0.5, 0.5),
        ("1A", 1, 1),
        ("A", 2, 1),
        ("B", 3, 2),
        ("C", 4, 3),
        ("D", 5, 5),
    ]
    for grade, outer, middle in cases:
        widths = tolerance(gauge(grade), np.array([3, 15, 15.1, 22, 44.9, 45, 58]) * PSI) / (60 * PSI) * 100
        np.testing.assert_allclose(widths, [outer, outer, middle, middle, middle, outer, outer], rtol=1e-12)


def test_a_grade_b_gauge_at_22_psi_is_good_to_1_2_psi_and_at_3_psi_to_1_8():
    assert tolerance(gauge("B"), 22 * PSI) == pytest.approx(1.2 * PSI)
    assert tolerance(gauge("B"), 3 * PSI) == pytest.approx(1.8 * PSI)


def celsius(degrees):
    return degrees + 273.15


def test_thermocouple_limits_of_error():
    cases = [
        ("K", "standard", 165.6, 2.2),  # ASTM E230, table of limits of error: 330 °F is below the 0.75 % part
        ("J", "standard", 400.0, 3.0),
        ("T", "standard", 165.6, 1.242),
        ("T", "special", 100.0, 0.5),
        ("K", "special", 593.0, 2.372),
        ("E", "standard", 500.0, 2.5),
        ("K", "1", 300.0, 1.5),  # IEC 60584-1, tolerance classes
        ("K", "1", 600.0, 2.4),
        ("K", "2", 300.0, 2.5),
        ("J", "2", 500.0, 3.75),
        ("T", "2", 100.0, 1.0),
    ]
    for letter, grade, reading, width in cases:
        instrument = Instrument(kind="thermocouple", thermocouple=(letter, grade))
        assert tolerance(instrument, celsius(reading)) == pytest.approx(width, abs=5e-4)


# Every type and class: the least width in C° and the per cent of the reading, as printed; the greater one counts.
# ASTM E230/E230M, table of limits of error, and IEC 60584-1:2013, table of tolerance classes, above 0 °C (the rows that
# the test above does not name are from memory of the print)
PRINTED_LIMITS = {
    "standard": {"K": (2.2, 0.75), "J": (2.2, 0.75), "N": (2.2, 0.75), "E": (1.7, 0.5), "T": (1.0, 0.75)},
    "special": {"K": (1.1, 0.4), "J": (1.1, 0.4), "N": (1.1, 0.4), "E": (1.0, 0.4), "T": (0.5, 0.4)},
    "1": {"K": (1.5, 0.4), "J": (1.5, 0.4), "N": (1.5, 0.4), "E": (1.5, 0.4), "T": (0.5, 0.4)},
    "2": {"K": (2.5, 0.75), "J": (2.5, 0.75), "N": (2.5, 0.75), "E": (2.5, 0.75), "T": (1.0, 0.75)},
}


def test_every_thermocouple_of_both_standards_is_as_wide_as_printed_cold_and_hot():
    for grade, types in PRINTED_LIMITS.items():
        for letter, (degrees, per_cent) in types.items():
            instrument = Instrument(kind="thermocouple", thermocouple=(letter, grade))
            for reading, width in ((20.0, degrees), (800.0, 8 * per_cent)):
                assert tolerance(instrument, celsius(reading)) == pytest.approx(width, rel=1e-9), (letter, grade)


def test_accuracy_of_span_of_reading_and_plain():
    span = (0.0, 5 * PSI)
    assert tolerance(Instrument(span=span, accuracy=(0.02, "of span")), 1.0) == pytest.approx(0.1 * PSI)
    assert tolerance(Instrument(accuracy=(0.01, "of reading")), -250.0) == pytest.approx(2.5)
    assert tolerance(Instrument(accuracy=(101.6, "plain")), 98e3) == pytest.approx(101.6)
    assert tolerance(Instrument(), 98e3) == 0.0


def test_the_step_of_reading_adds_its_half_in_squares():
    instrument = gauge("B", resolution=((30 * PSI, 0.5 * PSI), (np.inf, 1.0 * PSI)))
    assert tolerance(instrument, 22 * PSI) == pytest.approx(np.hypot(1.2, 0.25) * PSI)
    assert tolerance(instrument, 30 * PSI) == pytest.approx(np.hypot(1.2, 0.25) * PSI), "up to 30 psi, and at it"
    assert tolerance(instrument, 40 * PSI) == pytest.approx(np.hypot(1.2, 0.5) * PSI)


def test_standard_uncertainty_is_that_of_a_rectangle():
    # JCGM 100:2008, 4.3.7
    assert standard(gauge("B"), 22 * PSI) == pytest.approx(1.2 * PSI / np.sqrt(3))


def test_an_unknown_grade_is_refused_with_the_valid_ones():
    with pytest.raises(OutOfRangeError, match="'4A', '3A'"):
        tolerance(gauge("E"), 22 * PSI)


def end_gauge(ls, d, da, theta, alpha, dtheta):
    return ls + d - ls * (da * theta + alpha * dtheta)


END_GAUGE = dict(ls=50_000_623.0, d=215.0, da=0.0, theta=-0.1, alpha=11.5e-6, dtheta=0.0)
END_GAUGE_U = dict(
    ls=25.0,
    d=np.sqrt(5.8**2 + 3.9**2 + 6.7**2),
    da=1e-6 / np.sqrt(3) * np.sqrt(1),
    theta=np.sqrt(0.2**2 + 0.5**2 / 2),
    alpha=2e-6 / np.sqrt(3),
    dtheta=0.05 / np.sqrt(3),
)


def test_gum_h1_end_gauge():
    # JCGM 100:2008, H.1: l = 50 000 838 nm, combined standard uncertainty 32 nm (31.7 unrounded)
    result = propagate(end_gauge, END_GAUGE, END_GAUGE_U)["result"]
    assert result.value == pytest.approx(50_000_838, abs=0.5)
    assert result.standard_uncertainty == pytest.approx(31.7, abs=0.06)


H2 = dict(V=4.9990, I=19.6610e-3, phi=1.04446)
H2_U = dict(V=0.0032, I=0.0095e-3, phi=0.00075)
H2_R = {("V", "I"): -0.36, ("V", "phi"): 0.86, ("I", "phi"): -0.65}


def impedance(V, I, phi):  # noqa: E741
    return {"R": V / I * np.cos(phi), "X": V / I * np.sin(phi), "Z": V / I}


def test_gum_h2_correlated_inputs():
    # JCGM 100:2008, H.2, table H.4: R = 127.732(71), X = 219.847(295), Z = 254.260(236) ohm
    results = propagate(impedance, H2, H2_U, correlation=H2_R)
    for name, value, u in (("R", 127.732, 0.071), ("X", 219.847, 0.295), ("Z", 254.260, 0.236)):
        assert results[name].value == pytest.approx(value, abs=6e-4)
        assert results[name].standard_uncertainty == pytest.approx(u, rel=0.016)  # r is printed to two digits


def test_sobol_agrees_with_linear_where_the_function_is_nearly_straight():
    normal = dict.fromkeys(H2, "normal")
    linear = propagate(impedance, H2, H2_U, correlation=H2_R)
    sobol = propagate(impedance, H2, H2_U, method="sobol", correlation=H2_R, distributions=normal)
    for name in linear:
        assert sobol[name].standard_uncertainty == pytest.approx(linear[name].standard_uncertainty, rel=0.01)


def total(a, b, c, d):
    return a + b + c + d


@pytest.mark.parametrize("shape", ["normal", "rectangular"])
def test_supplement_1_sums_of_four(shape):
    # JCGM 101:2008, 9.2.2 and 9.2.3: standard uncertainty 2.0 for four inputs of 1
    inputs = dict.fromkeys("abcd", 0.0)
    result = propagate(
        total, inputs, dict.fromkeys("abcd", 1.0), method="sobol", distributions=dict.fromkeys("abcd", shape)
    )["result"]
    assert result.standard_uncertainty == pytest.approx(2.0, abs=0.005)
    assert result.value == pytest.approx(0.0, abs=0.005)


def test_supplement_1_mass_calibration_shows_what_linear_misses():
    # JCGM 101:2008, 9.3: first order 0.0539 mg, Monte Carlo 0.0754 mg, mean 1.2341 mg
    def deviation(m_rc, dm_rc, rho_a, rho_w, rho_r):
        return (m_rc + dm_rc) * (1 + (rho_a - 1.2) * (1 / rho_w - 1 / rho_r)) - 100_000

    values = dict(m_rc=100_000.0, dm_rc=1.234, rho_a=1.20, rho_w=8000.0, rho_r=8000.0)
    u = dict(m_rc=0.050, dm_rc=0.020, rho_a=0.1 / 3**0.5, rho_w=1000 / 3**0.5, rho_r=50 / 3**0.5)
    shapes = dict(m_rc="normal", dm_rc="normal")
    assert propagate(deviation, values, u)["result"].standard_uncertainty == pytest.approx(0.0539, abs=5e-5)
    sobol = propagate(deviation, values, u, method="sobol", distributions=shapes)["result"]
    assert sobol.value == pytest.approx(1.2341, abs=5e-4)
    assert sobol.standard_uncertainty == pytest.approx(0.0754, rel=0.01)


def test_sobol_matches_a_million_plain_samples_within_one_per_cent():
    def gain(p, t2, t3, loss):
        return {"gain": (p - loss) / p * t2 / t3 - 1, "drop": t2 - t3}

    values = dict(p=270e3, t2=442.0, t3=327.0, loss=10e3)
    u = dict(p=4.8e3, t2=1.3, t3=1.3, loss=0.4e3)
    draws = np.random.default_rng(7).uniform(-(3**0.5), 3**0.5, (4, 1_000_000))
    plain = gain(**{name: values[name] + u[name] * draw for name, draw in zip(values, draws, strict=True)})
    for name, estimate in propagate(gain, values, u, method="sobol").items():
        assert estimate.standard_uncertainty == pytest.approx(plain[name].std(), rel=0.01)
        assert estimate.value == pytest.approx(plain[name].mean(), rel=1e-4)


@pytest.mark.parametrize("method", ["linear", "sobol"])
def test_what_comes_from_one_gauge_cancels_in_a_difference(method):
    def readings(p, t):
        return {"first": p / t, "second": 1.01 * p / t, "difference": 0.01 * p / t}

    values, u = dict(p=np.array([200e3, 270e3]), t=np.array([310.0, 330.0])), dict(p=3e3, t=1.0)
    results = propagate(readings, values, u, method=method)
    apart = np.hypot(results["first"].standard_uncertainty, results["second"].standard_uncertainty)
    assert np.all(results["difference"].standard_uncertainty < 0.02 * apart)


def test_what_is_exactly_known_has_no_width_at_each_point():
    result = propagate(lambda x: 2 * x, {"x": np.array([1.0, 2.0, 3.0])}, {})["result"]
    assert np.array_equal(result.standard_uncertainty, [0.0, 0.0, 0.0])


def test_contributions_make_up_the_whole():
    result = propagate(impedance, H2, H2_U)["R"]
    assert set(result.contributions) == set(H2)
    assert np.sqrt(sum(part**2 for part in result.contributions.values())) == pytest.approx(
        result.standard_uncertainty, rel=1e-12
    )
    assert result.plus_or_minus == 2 * result.standard_uncertainty


def test_missing_readings_spoil_only_their_own_row():
    result = propagate(lambda p, t: p / t, dict(p=np.array([2e5, np.nan]), t=300.0), dict(p=1e3, t=1.0))["result"]
    assert np.isfinite(result.standard_uncertainty[0])
    assert np.isnan(result.value[1])


def test_bad_calls_are_refused():
    with pytest.raises(OutOfRangeError, match="'linear', 'sobol'"):
        propagate(total, dict.fromkeys("abcd", 0.0), {}, method="guess")
    with pytest.raises(OutOfRangeError, match="must be normal"):
        propagate(impedance, H2, H2_U, method="sobol", correlation=H2_R)
    with pytest.raises(OutOfRangeError, match="shapes"):
        propagate(lambda a, b: a + b, dict(a=[1, 2], b=[1, 2, 3]), {})


def test_exact_inputs_leave_no_uncertainty():
    for method in ("linear", "sobol"):
        result = propagate(total, dict.fromkeys("abcd", 2.0), {}, method=method)["result"]
        assert (result.value, result.standard_uncertainty) == (8.0, 0.0)


def test_the_quarters_of_a_gauge_are_counted_from_where_its_scale_begins():
    """ASME B40.100, grade B: 3 % of span in the outer quarters, 2 % in the middle half."""
    suppressed = Instrument(span=(10.0, 50.0), grade="B")
    assert tolerance(suppressed, [15.0, 30.0, 45.0]) == pytest.approx([1.2, 0.8, 1.2])


def test_a_tolerance_has_the_shape_of_its_readings_and_a_missing_one_has_none():
    found = tolerance(Instrument(accuracy=(5.0, "plain")), [1.0, np.nan, 3.0])
    assert np.isnan(found[1])
    assert found[[0, 2]] == pytest.approx([5.0, 5.0])


def test_an_uncertainty_of_what_is_no_input_plays_no_part():
    def double(first):
        return {"double": 2 * first}

    with_it = propagate(double, {"first": 3.0}, {"first": 0.5, "second": 9.0})["double"]
    assert (
        with_it.standard_uncertainty == propagate(double, {"first": 3.0}, {"first": 0.5})["double"].standard_uncertainty
    )


def test_a_share_has_the_sign_of_what_an_error_does():
    """First order of GUM 5.1.3: the slopes of 2 x - 3 y at u(x) = 0.1 and u(y) = 0.2 are +0.2 and -0.6."""
    found = signed_shares(lambda x, y: {"z": 2 * x - 3 * y}, {"x": 5.0, "y": 7.0}, {"x": 0.1, "y": 0.2})
    value, shares = found["z"]
    assert value == -11.0
    assert shares["x"] == pytest.approx(0.2)
    assert shares["y"] == pytest.approx(-0.6)
