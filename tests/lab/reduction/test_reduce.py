"""A run reduced: the hand-worked reference case, which reading stands behind which number, what is missing and why."""

import numpy as np
import pytest

from tests.lab.reference_case import BENCH, REFERENCE, written
from turbomath import air
from turbomath.lab.reduction import reduce, shaft
from turbomath.lab.reduction.results import RESULTS
from turbomath.lab.report import tables
from turbomath.lab.run.readings import read_run
from turbomath.table.quantities import QUANTITIES


@pytest.fixture
def reduced(tmp_path):
    def make(change=None, drop=(), bench=BENCH, gas=None):
        return reduce.reduce_run(written(tmp_path, change, drop, bench), air=gas and air.choose(gas))

    return make


def test_the_reference_case_is_reduced_to_its_hand_worked_figures(reduced):
    results = reduced(gas="perfect")
    expected = dict(
        pressure_ratio=(2.87, 0.005),
        compressor_efficiency=(0.74, 0.001),
        effectiveness=(0.80, 0.001),
        manifold_density=(2.81, 0.005),
        compressor_outlet_density=(2.16, 0.005),
        density_ratio=(2.443, 0.001),
        measured_aftercooling_density_gain=(0.302, 0.001),
        mass_flow_gain=(0.334, 0.001),
        measured_charge_gain=(1.443, 0.001),
        theoretical_charge_gain=(1.443, 0.001),
        air_flow=(61.6 / 60 * 0.45359237, 0.0005),
    )
    for name, (value, tolerance) in expected.items():
        assert results[name].value[0] == pytest.approx(value, abs=tolerance), name
    assert results.agree == ("yes",)


def test_measured_and_theoretical_share_their_gauges_so_the_difference_is_surer_than_either(reduced):
    sure = {'"0.74"': '"0.74 ± 0.0001"', '"0.80"': '"0.80 ± 0.0001"', '"1.5 psi"': '"1.5 psi ± 0.001 psi"'}
    bench = BENCH.replace('"2A"', '"B"')
    for usual, exact in sure.items():
        assert usual in bench
        bench = bench.replace(usual, exact)
    results = reduced(bench=bench)
    apart = np.hypot(results["measured_charge_gain"].plus_or_minus, results["theoretical_charge_gain"].plus_or_minus)
    assert results["charge_gain_difference"].plus_or_minus[0] < 0.25 * apart[0]
    assert (
        results["charge_gain_difference"].contributions["boost"][0]
        < 0.2 * (results["measured_charge_gain"].contributions["boost"][0])
    )


def test_a_fouled_aftercooler_disagrees(reduced):
    assert reduced({"manifold temperature [°F]": "190"}).agree == ("no",)


def test_every_result_has_its_uncertainty_or_a_reason_why_it_is_missing(reduced):
    results = reduced()
    assert set(results.estimates) == set(RESULTS)
    for name, estimate in results.estimates.items():
        if name in results.missing:
            assert np.isnan(estimate.value).all()
        else:
            assert np.isfinite(estimate.value).all(), name
            assert (estimate.standard_uncertainty > 0).all(), name
    fuel = {"fuel_flow", "power", "air_fuel_ratio", "excess_air_ratio", "specific_fuel_consumption", "corrected_power"}
    others = {"volumetric_efficiency", "dew_point", "condensate_flow", "conductance"}
    assert set(results.missing) == others | fuel | set(shaft.RESULTS)


def test_the_least_sheet_gives_the_theoretical_side_and_says_what_nothing_measured(reduced):
    keep = ("point", "condition", "barometer [inHg]", "ambient temperature [°F]", "boost [psi]")
    results = reduced(drop=[head for head in REFERENCE if head not in keep])
    assert results["theoretical_charge_gain"].value[0] == pytest.approx(1.46, abs=0.02)
    assert np.isnan(results["measured_charge_gain"].value[0])
    assert results.missing["measured_charge_gain"] == "no reading of manifold temperature"
    assert "compressor outlet temperature" in results.missing["compressor_efficiency"]
    assert list(results.sources["intake_restriction"]) == ["not read: 0 to 25 inH2O, what a maker usually allows"]
    assert results.agree == ("",)


@pytest.mark.parametrize(
    ("change", "drop", "quantity", "source"),
    [
        ({}, (), "compressor_inlet_temperature", "compressor inlet temperature"),
        ({}, ("compressor inlet temperature [°F]",), "compressor_inlet_temperature", "ambient temperature"),
        ({}, (), "cooler_pressure_loss", "one differential gauge"),
        (
            {"compressor outlet pressure [psi gauge]": "25.5"},
            ("cooler pressure loss [psi]",),
            "cooler_pressure_loss",
            "difference of two gauges",
        ),
        ({"compressor outlet pressure [psi gauge]": "25.5"}, (), "cooler_pressure_loss", "one differential gauge"),
        (
            {"compressor outlet pressure [psi gauge]": "25.5"},
            (),
            "compressor_outlet_pressure",
            "compressor outlet pressure",
        ),
        ({}, (), "compressor_outlet_pressure", "manifold pressure and cooler pressure loss"),
        (
            {},
            ("cooler pressure loss [psi]",),
            "compressor_outlet_pressure",
            "manifold pressure and the design cooler pressure loss (assumed)",
        ),
        ({"manifold pressure [kPa abs]": "264"}, (), "manifold_pressure", "boost and barometer"),
        ({"manifold pressure [kPa abs]": "264"}, ("boost [psi]",), "manifold_pressure", "manifold pressure (absolute)"),
        (
            {},
            ("cooling medium temperature [°F]",),
            "medium_temperature",
            "ambient temperature (no reading at the core face)",
        ),
        (
            {"relative humidity [%]": "50", "wet bulb temperature [°F]": "64"},
            (),
            "relative_humidity",
            "relative humidity",
        ),
        ({"wet bulb temperature [°F]": "64"}, (), "relative_humidity", "wet bulb temperature"),
    ],
)
def test_the_better_source_is_used_and_named(reduced, change, drop, quantity, source):
    assert list(reduced(change, drop).sources[quantity]) == [source]


def test_a_gauge_pressure_takes_the_barometers_error_only_once(reduced):
    gauge = reduced({"compressor outlet pressure [psi gauge]": "25.5"})["pressure_ratio"]
    contributions = gauge.contributions
    assert contributions["compressor_outlet_pressure"][0] > 5 * contributions["barometer"][0] > 0


def test_an_engine_without_aftercooler_has_no_effectiveness(reduced):
    bench = (
        BENCH.replace("air-to-air", "none")
        .replace('effectiveness = "0.80"\n', "")
        .replace('cooler_pressure_loss = "1.5 psi"\n', "")
    )
    drop = ("manifold temperature [°F]", "cooling medium temperature [°F]", "cooler pressure loss [psi]")
    results = reduced({"compressor outlet temperature [°F]": "325.7"}, drop, bench, gas="perfect")
    assert results["measured_charge_gain"].value[0] == pytest.approx(0.831, abs=0.002)
    assert results.agree == ("yes",)
    assert results.missing["effectiveness"] == "this engine has no aftercooler"
    assert list(results.sources["manifold_temperature"]) == ["compressor outlet temperature, no aftercooler"]


def test_with_exhaust_gas_mixed_in_the_manifold_thermometer_is_not_used(reduced):
    results = reduced(bench=BENCH.replace("[engine]", "[engine]\negr = true"))
    for name in ("effectiveness", "air_flow", "measured_charge_gain", "mass_flow_gain"):
        assert "exhaust gas is mixed in" in results.missing[name], name
    assert np.isfinite(results["compressor_efficiency"].value[0])


COOLER_OUTLET = {"manifold temperature [°F]": "190", "cooler outlet temperature [°F]": "132"}


def test_before_exhaust_gas_mixes_in_the_aftercooler_can_be_judged(reduced):
    """Effectiveness by hand (Kays and London, ch. 2): (338 - 132) / (338 - 77); the manifold's own 190 °F is not it."""
    bench = BENCH.replace("[engine]", "[engine]\negr = true")
    results = reduced(COOLER_OUTLET | {"compressor outlet temperature [°F]": "338"}, bench=bench)
    medium = results.run["cooling_medium_temperature"][0] * 1.8 - 459.67
    assert results["effectiveness"].value[0] == pytest.approx((338 - 132) / (338 - medium), abs=1e-6)
    assert np.isfinite(results["measured_charge_gain"].value[0])
    assert list(results.sources["manifold_temperature"]) == [
        "cooler outlet temperature, before any exhaust gas mixes in"
    ]


def test_with_exhaust_gas_in_the_cylinders_air_flow_must_be_read(reduced):
    bench = BENCH.replace("[engine]", "[engine]\negr = true")
    for name in ("air_flow", "air_fuel_ratio", "compressor_power"):
        assert "the cylinders take in more than air" in reduced(COOLER_OUTLET, bench=bench).missing[name], name
    metered = reduced(COOLER_OUTLET | {"air flow [lb/min]": "55.0"}, bench=bench)
    assert metered["air_flow"].value[0] == pytest.approx(55.0 * 0.45359237 / 60)
    assert np.isnan(metered["volumetric_efficiency"].value[0])


def test_without_exhaust_gas_the_cooler_outlet_serves_where_the_manifold_has_no_thermometer(reduced):
    results = reduced({"cooler outlet temperature [°F]": "132"}, ("manifold temperature [°F]",))
    assert np.isfinite(results["effectiveness"].value[0])
    assert np.isfinite(results["air_flow"].value[0])


def test_a_sea_level_barometer_is_brought_to_the_site(reduced):
    bench = BENCH.replace('barometer = "station"', 'barometer = "sea-level"\nelevation = "3550 ft"')
    high = reduced({"barometer [inHg]": "30.05"}, bench=bench)
    same = reduced({"barometer [inHg]": "26.39"})
    assert high["ambient_density"].value[0] == pytest.approx(same["ambient_density"].value[0], rel=3e-4)


def test_measured_air_flow_gives_the_volumetric_efficiency(reduced):
    results = reduced({"air flow [lb/min]": "58"})
    assert results["volumetric_efficiency"].value[0] == pytest.approx(0.92 * 58 / 61.6, abs=0.001)
    assert results["air_flow"].value[0] == pytest.approx(58 / 60 * 0.45359237)


def test_readings_that_cannot_be_leave_a_gap_not_a_crash(reduced):
    results = reduced({"compressor outlet temperature [°F]": "70", "boost [psi]": "-40"})
    assert np.isnan(results["measured_charge_gain"].value[0])
    assert np.isfinite(results["ambient_density"].value[0])


@pytest.mark.parametrize(
    "change",
    [
        {"engine speed [rpm]": "0"},
        {"engine speed [rpm]": "-1800"},
        {"air flow [lb/min]": "-58"},
        {"relative humidity [%]": "130"},
        {"intake restriction [inH2O]": "900"},
        {"boost [psi]": "-14.2"},
    ],
)
def test_readings_that_cannot_be_stop_only_what_needs_them(reduced, change):
    results = reduced(change)
    assert np.isfinite(results["ambient_density"].value[0])
    if any("flow" in head or "speed" in head for head in change):
        assert np.isnan(results["air_flow"].value[0])
        assert np.isfinite(results["measured_charge_gain"].value[0])


def test_a_pegged_gauge_is_never_computed_with(reduced):
    results = reduced({"boost [psi]": ">60"})
    assert np.isnan(results["theoretical_charge_gain"].value[0])


@pytest.mark.parametrize("run", ["generator_air_to_air", "stand_unloaded_run_up"])
def test_the_three_gains_alone_are_those_of_the_whole_reduction_to_the_last_bit(run):
    whole, gains = reduce.reduce_run(run, method="sobol"), reduce.gains_a_second_way(read_run(run))
    for name, one in gains.items():
        assert np.array_equal(one.value, whole[name].value, equal_nan=True), name
        assert np.array_equal(one.standard_uncertainty, whole[name].standard_uncertainty, equal_nan=True), name


def test_linear_and_sobol_agree_at_load(reduced):
    results = reduced()
    sobol = reduce.reduce_run(results.run, method="sobol")
    for name in ("measured_charge_gain", "compressor_efficiency", "effectiveness", "charge_gain_difference"):
        assert sobol[name].standard_uncertainty[0] == pytest.approx(results[name].standard_uncertainty[0], rel=0.02)


def test_the_table_has_one_row_a_reading_and_a_width_for_each_result(reduced):
    frame = reduced().to_frame()
    assert list(frame.columns[:2]) == ["point", "condition"]
    assert len(frame) == 1
    assert frame["measured charge gain [%]"].iloc[0] == pytest.approx(144.3, abs=0.1)
    heads = {head.split(" [")[0] for head in frame.columns}
    names = {QUANTITIES[name].plain_name for name in RESULTS}
    assert names | {f"{name} ±" for name in names} <= heads


@pytest.mark.parametrize("system", ["us", "si"])
def test_the_table_has_the_heads_and_the_numbers_of_reduced_csv(reduced, system):
    results = reduced()
    heads, *rows = tables.reduced_rows(results, system)
    frame = results.to_frame(system)
    assert list(frame.columns) == heads
    assert [tables.six_figures(value) for value in frame.iloc[0, 2:-1]] == rows[0][2:-1]


def test_the_air_is_moist_where_humidity_was_read_and_real_dry_air_elsewhere(reduced):
    assert reduced().air == "real"
    damp = reduced({"relative humidity [%]": "90"})
    assert damp.air == "moist"
    assert damp["ambient_density"].value[0] < reduced()["ambient_density"].value[0]
    assert reduced(gas="ideal").air == "ideal"
