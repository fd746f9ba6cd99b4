"""Why nothing comes of a result: the reading that is wanting is named, and nothing that can be had is left out."""

import numpy as np
import pytest
from CoolProp.HumidAirProp import HAPropsSI

from tests.lab.reference_case import BENCH, written
from tests.lab.verdicts.altered import FULL_LOAD, INHG, PSI, generator, read, without
from turbomath.lab import checks
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report import tables
from turbomath.lab.report.sentences import missing_lines
from turbomath.lab.report.terminal import on_terminal
from turbomath.lab.run.readings import read_run

NO_BAROMETER = ("barometer [inHg]",)
FUEL = {"fuel flow [lb/h]": "131.5", "power [kW]": "288"}
BAROMETER = "no reading of the barometer"


@pytest.fixture
def reduced(tmp_path):
    def make(change=None, drop=(), bench=BENCH, **how):
        return reduce_run(written(tmp_path, change, drop, bench), **how)

    return make


def test_without_a_barometer_that_is_the_reason_and_no_gauge_that_was_read(reduced):
    found = reduced(drop=NO_BAROMETER)
    assert found.missing["pressure_ratio"] == BAROMETER
    assert found.missing["measured_charge_gain"] == BAROMETER
    assert found.missing["compressor_efficiency"] == BAROMETER
    assert not any("boost" in reason or "restriction" in reason for reason in found.missing.values())


def test_a_gauge_pressure_without_its_barometer_is_wanting_the_barometer(reduced):
    found = reduced({"compressor outlet pressure [psi gauge]": "25.5"}, (*NO_BAROMETER, "boost [psi]"))
    assert found.missing["compressor_outlet_density"] == BAROMETER
    boostless = reduced(drop=("boost [psi]",))
    assert boostless.missing["measured_charge_gain"] == "no reading of boost or manifold pressure"


def test_what_needs_no_barometer_is_shown_on_the_terminal(reduced):
    found = reduced(FUEL, NO_BAROMETER)
    assert tables.judged_rows(found) == [0]
    text = on_terminal(found, "us")
    assert "0.80 ± 0.02" in text  # effectiveness
    assert "131.5 ±" in text
    assert "386 ±" in text  # 288 kW


def test_an_absolute_manifold_pressure_gives_the_density_without_a_barometer(reduced):
    found = reduced({"manifold pressure [kPa abs]": "264"}, (*NO_BAROMETER, "boost [psi]"), air="perfect")
    temperature = (128.9 + 459.67) / 1.8
    assert found["manifold_density"].value[0] == pytest.approx(264_000 / 287.05287 / temperature, rel=1e-5)
    assert list(found.sources["relative_humidity"]) == [
        "no barometer or ambient temperature with it: the air is taken as dry"
    ]
    assert found["air_flow"].value[0] > 0
    assert found.missing["measured_charge_gain"] == BAROMETER


def test_without_a_barometer_a_humidity_that_was_read_makes_no_water_of_nothing(reduced):
    change = {"manifold pressure [kPa abs]": "264", "relative humidity [%]": "60"}
    found = reduced(change, (*NO_BAROMETER, "boost [psi]"))
    for name in ("dew_point", "condensate_flow"):
        assert np.isnan(found[name].value).all()
    assert np.isfinite(found["manifold_density"].value).all()


@pytest.mark.parametrize(
    ("change", "outside"),
    [
        ({"ambient temperature [°F]": "-31", "compressor inlet temperature [°F]": "-28"}, True),
        ({"barometer [inHg]": "19.4"}, True),  # 3,500 m
        ({}, False),
    ],
)
def test_outside_its_limits_the_standard_is_the_reason(reduced, change, outside):
    found = reduced({**FUEL, **change})
    said = "the day is outside what ISO 1585 corrects: 10 to 40 °C, 80 to 110 kPa of dry air, a factor of 0.9 to 1.1"
    assert (found.missing.get("corrected_power") == said) == outside


def test_fuel_that_was_not_read_is_no_matter_of_the_standard(reduced):
    reason = reduced().missing["corrected_power"]
    assert "fuel flow" in reason
    assert "ISO 1585" not in reason


def test_compressor_power_needs_no_restriction(reduced):
    found = reduced(drop=("intake restriction [inH2O]",))
    assert found["compressor_power"].value[0] == pytest.approx(reduced()["compressor_power"].value[0], rel=1e-3)


def test_a_pressure_before_the_cooler_only_gives_the_manifold_by_the_design_loss(reduced):
    change = {"compressor outlet pressure [psi gauge]": "25.5"}
    found = reduced(change, ("boost [psi]", "cooler pressure loss [psi]"))
    assert found["measured_charge_gain"].value[0] == pytest.approx(1.443, abs=0.003)
    source = "compressor outlet pressure less the design cooler pressure loss (assumed)"
    assert list(found.sources["manifold_pressure"]) == [source]
    assert found["measured_charge_gain"].contributions["design_cooler_pressure_loss"][0] > 0
    said = " ".join(flag.reason for flag in checks.check_run(found.run))
    assert "too little boost" not in said


def test_without_any_thermometer_at_the_inlet_that_is_the_reason(reduced):
    found = reduced(drop=("ambient temperature [°F]", "compressor inlet temperature [°F]"))
    for name in ("compressor_efficiency", "ideal_outlet_temperature", "mass_flow_gain", "greatest_possible_gain"):
        assert found.missing[name].startswith("no reading of compressor inlet temperature or ambient temperature")
    assert not any("nothing that can be" in reason for reason in found.missing.values())


def test_heat_needs_the_pressure_at_the_outlet_and_says_so(reduced):
    bench = BENCH.replace('cooler_pressure_loss = "1.5 psi"\n', "")
    found = reduced({"air flow [lb/min]": "48"}, ("cooler pressure loss [psi]",), bench)
    wanted = "no reading of compressor outlet pressure, nor of boost with cooler pressure loss"
    assert found.missing["heat_rejected"] == found.missing["compressor_power"] == wanted


def test_of_the_design_only_what_is_not_stated_is_asked_for(reduced):
    one = reduced(bench=BENCH.replace('cooler_pressure_loss = "1.5 psi"\n', ""))
    assert one.missing["theoretical_charge_gain"] == "bench.toml [design] does not state cooler_pressure_loss"
    engine = BENCH.replace('"air-to-air"', '"none"').split("[design]")[0]
    none = reduced(drop=("cooling medium temperature [°F]", "cooler pressure loss [psi]"), bench=engine)
    assert none.missing["theoretical_charge_gain"] == "bench.toml [design] does not state compressor_efficiency"


def test_a_value_that_cannot_be_is_named_with_its_point(reduced):
    found = reduced({"boost [psi]": "250"})
    assert found.missing["theoretical_charge_gain"] == "nothing comes of boost 250 psi at point 1"


def test_readings_in_different_rows_only_are_said_so():
    def only(row):
        return lambda values: np.where(np.arange(len(values)) == row, values, np.nan)

    run = read(generator(), boost=only(7), manifold_temperature=only(6))
    assert reduce_run(run).missing["manifold_density"] == "no row has all the readings it needs"


def test_at_little_boost_the_mass_flow_gain_has_no_number_and_the_gauges_are_the_reason():
    found = reduce_run(generator())
    efficiency, gain = found["compressor_efficiency"], found["mass_flow_gain"]
    idle = 1
    assert efficiency.value[idle] + efficiency.plus_or_minus[idle] > 1
    assert np.isnan(gain.value[idle])
    assert np.isnan(gain.plus_or_minus[idle])
    assert np.isfinite(gain.value[2:]).all()
    assert tables.result_texts(found, "mass_flow_gain", [idle, 2], "us") == ["cannot tell", "12.4 ± 1.2"]


def test_where_no_row_can_tell_it_is_said_once():
    reason = reduce_run(read_run("stand_unloaded_run_up")).missing["greatest_possible_gain"]
    assert reason.startswith("the gauges cannot tell at so little boost")
    lines = missing_lines(reduce_run("generator_no_aftercooler"))
    (line,) = [one for one in lines if one.endswith(": this engine has no aftercooler")]
    assert "mass flow gain" in line


WET = {"wet bulb temperature [°F]": "78"}


@pytest.mark.parametrize("wet", ["78", "40"])
def test_of_two_thermometers_that_cannot_be_no_humidity_comes_and_it_is_found(reduced, wet):
    found = reduced({"wet bulb temperature [°F]": wet})
    assert list(found.sources["relative_humidity"]) == ["none: the air is taken as dry"]
    assert np.isnan(found["dew_point"].value).all()
    flags = [flag for flag in checks.check_run(found.run) if flag.check == 37]
    assert [(flag.level, flag.column) for flag in flags] == [("amber", "wet bulb temperature".replace(" ", "_"))]
    assert ("above the dry thermometer" in flags[0].reason) == (wet == "78")


@pytest.mark.parametrize("wet", ["77", "64"])
def test_two_thermometers_that_can_be_are_used_and_no_finding(reduced, wet):
    found = reduced({"wet bulb temperature [°F]": wet})
    assert list(found.sources["relative_humidity"]) == ["wet bulb temperature"]
    assert np.isfinite(found["charge_gain_difference"].standard_uncertainty).all()
    assert not [flag for flag in checks.check_run(found.run) if flag.check == 37]


def test_a_frozen_wick_gives_the_humidity_of_a_winter_day(reduced):
    winter = {"ambient temperature [°F]": "23", "compressor inlet temperature [°F]": "26"}
    found = reduced({**winter, "wet bulb temperature [°F]": "21.2"})
    # -5 C dry, -6 C wet, ice on the wick; CoolProp takes it so too
    dry = reduced(winter)["ambient_density"].value[0]
    vapour = HAPropsSI("W", "T", 268.15, "P", 29.10 * INHG, "Twb", 267.15)
    assert found["ambient_density"].value[0] / dry == pytest.approx((1 + vapour) / (1 + vapour / 0.62197), rel=2e-5)
    assert found["dew_point"].value[0] > 273


def test_loss_of_a_run_without_any_manifold_gauge_is_that_of_the_design():
    run = without(read(generator(), compressor_outlet_pressure=lambda _: _), "boost")
    assert np.isnan(run["boost"]).all()
    values = dict(run.values)
    values["compressor_outlet_pressure"] = generator()["boost"] + generator()["barometer"] + 1.5 * PSI
    found = reduce_run(type(run)(**{**vars(run), "values": values}))
    assert found["manifold_density"].value[FULL_LOAD] == pytest.approx(
        reduce_run(generator())["manifold_density"].value[FULL_LOAD], rel=2e-3
    )


def test_an_engine_without_aftercooler_shows_no_column_of_what_it_cannot_have():
    found = reduce_run("generator_no_aftercooler")
    texts = tables.result_texts(found, "mass_flow_gain", tables.judged_rows(found), "us")
    assert set(texts) == {"–"}
