"""Damaged copies of a shipped run: what the checks say of the turbine and of the whole shaft."""

from dataclasses import replace

import numpy as np
import pytest

from tests.lab.verdicts.altered import FULL_LOAD, read, without
from turbomath.lab.checks import check_run
from turbomath.lab.run.readings import read_run

RUN = read_run("generator_air_to_air")
# Emf of type J and type K in mV by °C: ASTM E230 (ITS-90 tables), every 100 °C to 700 °C
J = (0.0, 5.269, 10.779, 16.327, 21.848, 27.393, 33.102, 39.132)
K = (0.0, 4.096, 8.138, 12.209, 16.397, 20.644, 24.905, 29.129, 33.275, 37.326, 41.276)


ROOM = 25.0  # °C at the meter, which adds what its own type gives there: a cold probe reads right, whatever its type


def emf(table, celsius):
    return np.interp(celsius, 100.0 * np.arange(len(table)), table)


def j_read_as_k(kelvin):
    celsius = kelvin - 273.15
    at_meter = emf(J, celsius) - emf(J, ROOM) + emf(K, ROOM)
    return np.where(np.isnan(celsius), np.nan, np.interp(at_meter, K, 100.0 * np.arange(len(K)))) + 273.15


def found(run, check):
    return {flag.point: flag for flag in check_run(run) if flag.check == check}


@pytest.mark.parametrize(
    "name", ["generator_air_to_air", "generator_jacket_water", "generator_no_aftercooler", "stand_unloaded_run_up"]
)
def test_nothing_is_found_in_a_shipped_run(name):
    run = read_run(name)
    assert [flag for flag in check_run(run) if flag.check in (43, 44, 45)] == []


def test_a_thermometer_40_degrees_low_before_the_turbine():
    flags = found(read(RUN, turbine_inlet_temperature=lambda one: one - 40), 43)
    assert flags["7"].level == "amber"
    assert "shaft power ratio 1.4" in flags["7"].reason
    assert flags["7"].reason.endswith("so the shaft does not close")
    assert "may read low" in flags["7"].action
    assert flags["7"].fits_unit == ""


def test_a_thermocouple_of_type_j_read_as_k():
    run = read(RUN, turbine_inlet_temperature=j_read_as_k)
    assert run["turbine_inlet_temperature"][FULL_LOAD] > RUN["turbine_inlet_temperature"][FULL_LOAD] + 100
    efficiency = found(run, 45)["7"]
    assert efficiency.level == "red"
    assert "nothing outside 0.2 to 1.15 can be right" in efficiency.reason
    flags = found(run, 43)
    assert {"2", "7"} <= set(flags)
    assert "leak between the two ends" in flags["7"].action


def test_both_probes_of_type_j_read_right_when_cold_and_the_shop_is_told_to_look_at_their_type():
    run = read(RUN, turbine_inlet_temperature=j_read_as_k, turbine_outlet_temperature=j_read_as_k)
    assert run["turbine_outlet_temperature"][0] == pytest.approx(RUN["turbine_outlet_temperature"][0], abs=0.5)
    flags = check_run(run)
    assert not [flag for flag in flags if flag.point == "0" and flag.level in ("amber", "red")]
    action = found(run, 43)["7"].action
    assert "check the type of each against its meter" in action
    assert action.index("wrong when hot") < action.index("look for a leak")


def test_without_a_thermometer_at_the_compressor_outlet_its_efficiency_by_the_shaft_is_judged():
    """No compressor does better than an ideal one, so a turbine that seems to give so little was misread."""
    bare = without(RUN, "compressor_outlet_temperature")
    assert found(bare, 43) == {}
    flags = found(read(bare, turbine_inlet_temperature=lambda one: one - 40), 43)
    assert {flags[point].level for point in "456"} == {"red"}
    assert flags["6"].reason.startswith("compressor efficiency by shaft 1.1")
    assert "no compressor takes less than an ideal one" in flags["6"].reason
    assert "Read both thermometers in the exhaust cold" in flags["6"].action


def test_an_air_flow_20_per_cent_high_is_no_matter_of_the_shaft_but_of_the_filling():
    flow = np.array([np.nan, 12.0, 41.4, 48.0, 54.3, 60.5, 67.4, 73.2, 37.6]) * 0.45359237 / 60
    run = replace(
        RUN,
        columns=(*RUN.columns, "air_flow"),
        values=RUN.values | {"air_flow": flow},
        cells=RUN.cells | {"air_flow": tuple(f"{one:.3f}" for one in flow)},
        units=RUN.units | {"air_flow": "kg/s"},
    )
    assert found(run, 43) == {}
    assert "volumetric efficiency 1.10" in found(run, 22)["7"].reason


def test_the_gauges_before_and_after_the_turbine_swapped():
    before = RUN["turbine_inlet_pressure"] - RUN.station_pressure
    values = {
        "turbine_inlet_pressure": RUN.station_pressure + RUN["exhaust_back_pressure"],
        "exhaust_back_pressure": before,
    }
    flags = found(replace(RUN, values=RUN.values | values), 44)
    assert flags["7"].level == "red"
    assert "gas flows through a turbine from the higher pressure on" in flags["7"].reason


def test_the_thermometers_before_and_after_the_turbine_swapped():
    pair = "turbine_inlet_temperature", "turbine_outlet_temperature"
    run = replace(RUN, values=RUN.values | {pair[0]: RUN[pair[1]], pair[1]: RUN[pair[0]]})
    flags = found(run, 44)
    assert set(flags) == {"2", "3", "4", "5", "6", "7"}
    assert "turbine inlet temperature and turbine outlet temperature look swapped" in flags["7"].reason


def test_a_thermometer_that_reads_low_is_not_called_swapped_for_the_idling_points():
    """At idle the exhaust hardly cools, so it seems to leave hotter; at load a swap would spoil what is right."""
    read_low = RUN["turbine_inlet_temperature"] - np.where(np.arange(9) == 0, 0.0, 40.0)
    flags = check_run(read(RUN, turbine_inlet_temperature=lambda _: read_low))
    assert {flag.point for flag in flags if flag.level == "red"} >= {"1", "8"}
    assert not any("look swapped" in flag.reason for flag in flags)


def test_no_other_point_is_judged_by_a_doubtful_one():
    """A row with a reading that cannot be is left out of what is said of the shaft as a whole."""
    values = RUN["turbine_inlet_temperature"].copy()
    values[FULL_LOAD] = RUN["turbine_outlet_temperature"][FULL_LOAD] - 50
    flags = check_run(read(RUN, turbine_inlet_temperature=lambda _: values))
    assert {flag.check for flag in flags if flag.point == "7"} >= {44}
    assert not {flag.check for flag in flags if flag.point == "7"} & {43, 45}


def test_without_readings_of_the_turbine_nothing_is_said():
    bare = without(RUN, "turbine_outlet_temperature", "turbine_inlet_pressure")
    assert not any(flag.check in (43, 44, 45) for flag in check_run(bare))
