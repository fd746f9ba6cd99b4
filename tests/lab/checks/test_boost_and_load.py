"""Boost worked out from absolute pressures carries their ±, and a barometer that moves moves it. All runs INVENTED."""

import pytest

from turbomath.lab import checks
from turbomath.lab.run import readings

HEAD = (
    "point,condition,load [%],engine speed [rpm],ambient temperature [°C],barometer [kPa],manifold pressure [kPa abs]"
)
SENSOR = '[instruments.manifold_pressure]\naccuracy = "{}"\n{}'


@pytest.fixture
def level_of(run_folder):
    """Return the level of check 15 at the second of two points, (load, barometer, manifold pressure) each."""

    def level(first, second, accuracy="2 kPa", resolution='resolution = "1 kPa"\n'):
        rows = [
            f"{n},load,{load},1000,20,{bar},{pressure}" for n, (load, bar, pressure) in enumerate((first, second), 1)
        ]
        run = readings.read_run(run_folder("\n".join([HEAD, *rows, ""]), SENSOR.format(accuracy, resolution)))
        return checks.evaluated(run)[15, 1]

    return level


def test_boosts_a_tenth_of_a_kilopascal_apart_are_no_swapped_rows(level_of):
    assert level_of((97, 89.24, 348.0), (99, 89.34, 348.0)) == ""
    assert level_of((97, 89.24, 348.1), (99, 89.24, 348.0), resolution="") == ""


def test_a_barometer_that_rises_takes_boost_away_at_the_same_manifold_pressure(level_of):
    assert level_of((97, 88.0, 348.0), (99, 91.0, 348.0)) == ""
    assert level_of((97, 91.0, 348.0), (99, 91.0, 345.0)) == "red"


def test_the_width_is_that_of_the_sensor(level_of):
    fallen = (50, 90.0, 200.0), (75, 90.0, 195.0)
    assert level_of(*fallen, accuracy="2 kPa") == "red"
    assert level_of(*fallen, accuracy="8 kPa") == "amber"
    assert level_of(*fallen, accuracy="8 kPa", resolution="") == ""


def test_what_was_read_is_told(run_folder):
    text = f"{HEAD}\n1,load,50,1000,20,90.0,200\n2,load,75,1000,20,90.0,180\n"
    flag = next(one for one in checks.check_run(readings.read_run(run_folder(text, ""))) if one.check == 15)
    assert "load 75 %, manifold pressure 180 kPa abs, barometer 90.0 kPa after load 50 %" in flag.reason
