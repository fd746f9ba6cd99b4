"""What a report says of the weather: the dew point at boost pressure, and how much water the aftercooler makes."""

import dataclasses

import numpy as np
import pytest

from turbomath import air
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report import sentences
from turbomath.lab.run.readings import read_run
from turbomath.physics import real_humidity
from turbomath.uncertainty import Estimate


@pytest.fixture(scope="module")
def moist():
    return reduce_run(read_run("generator_air_to_air"), air=air.choose("moist"))


def with_results(reduced, **changed):
    """The same run with other values of some results, each with a ± of a tenth of it."""
    fields = {name: Estimate(np.full(len(reduced.run), np.nan), np.full(len(reduced.run), np.nan)) for name in changed}
    for name, (row, value) in changed.items():
        fields[name].value[row], fields[name].standard_uncertainty[row] = value, 0.05 * abs(value)
    return dataclasses.replace(reduced, estimates={**reduced.estimates, **fields})


def test_the_moist_model_says_so_and_its_dew_point_has_the_enhancement_factor(moist):
    assert moist.air == "moist"
    row, run = 6, moist.run
    ambient = run.station_pressure[row]
    ratio = real_humidity.humidity_ratio(ambient, run["ambient_temperature"][row], run["relative_humidity"][row])
    dew = real_humidity.dew_point(ambient + run["boost"][row], ratio)
    assert moist["dew_point"].value[row] == pytest.approx(dew, abs=1e-6)


def test_the_gains_of_the_moist_model_stay_inside_what_the_gauges_allow(moist):
    perfect = reduce_run(moist.run, air=air.choose("perfect"))
    for name in ("measured_charge_gain", "theoretical_charge_gain", "compressor_efficiency"):
        apart = np.abs(moist[name].value - perfect[name].value)
        assert np.nanmax(apart / perfect[name].plus_or_minus) < 0.5
        assert np.nanmax(apart) > 1e-5  # and it is another model


def test_a_dry_charge_makes_no_water(moist):
    said = sentences.water_sentence(moist, "si")
    assert said.startswith("Water: the dew point at boost pressure is highest at point ")
    assert "no water forms" in said


def test_water_is_told_in_grams_a_minute_at_the_wettest_point(moist):
    wet = with_results(moist, dew_point=(3, 325.0), condensate_flow=(3, 2e-3))
    for system, dew in (("si", "°C"), ("us", "°F")):
        said = sentences.water_sentence(wet, system)
        assert f"{dew}. Water forms in the aftercooler, most of it at point 3: 120 ± 12 g/min." in said


def test_without_a_reading_of_humidity_nothing_is_said_of_water(moist):
    assert sentences.water_sentence(with_results(moist, dew_point=(0, np.nan)), "si") == ""
