"""The file of a fitted engine: it comes back as it was, and what is not whole is refused with its place."""

import numpy as np
import pytest

from turbomath import RefusedFileError
from turbomath.engine.expected import Point
from turbomath.engine.fitting import fit
from turbomath.lab.run.engine_file import FittedEngine, as_toml, read_engine

DAY = dict(ambient_pressure=98_544.0, ambient_temperature=298.15, engine_speed=30.0)


@pytest.fixture(scope="module")
def fitted():
    full = dict(**DAY, fuel_flow=0.0165, power=291e3, manifold_pressure=264e3, medium_temperature=np.nan)
    half = dict(**DAY, fuel_flow=0.0089, power=146e3, manifold_temperature=311.0)
    return FittedEngine(fit([full, half]), "a 'run' with \"marks\"", "2026-03-12", True)


@pytest.fixture
def text(fitted):
    return as_toml(fitted)


@pytest.fixture
def read(tmp_path):
    def read(text):
        (tmp_path / "engine.toml").write_text(text, encoding="utf-8")
        return read_engine(tmp_path / "engine.toml")

    return read


def test_it_comes_back_to_the_last_digit(fitted, text, read):
    found = read(text)
    assert (found.run, found.date, found.invented) == (fitted.run, fitted.date, True)
    assert found.fit.engine == fitted.fit.engine
    assert (found.fit.freed, found.fit.usual) == (fitted.fit.freed, fitted.fit.usual)
    for part in ("leftover", "points", "directions"):
        for name, value in getattr(fitted.fit, part).items():
            np.testing.assert_array_equal(getattr(found.fit, part)[name], value)
    there = Point(**DAY, fuel_flow=np.array([0.005, 0.012]))
    for name, one in fitted.fit.expected(there).items():
        np.testing.assert_array_equal(found.fit.expected(there)[name].plus_or_minus, one.plus_or_minus)


def test_an_invented_engine_says_so_in_its_first_line(text):
    assert text.startswith("# INVENTED.")


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("turbine_area = ", "turbine_aria = ", "'turbine_aria'"),
        ("turbine_efficiency = 0.7\n", "", "turbine_efficiency"),
        ("nozzle_share = ", "nozzle_share = true # ", "a number"),
        ("blade_speed_fall = 1.0", "blade_speed_fall = inf", "a number"),
        ('driven_by = "fuel_flow"', 'driven_by = "wind"', "fuel_flow or power"),
        ("liquid_read = false", 'liquid_read = "no"', "true or false"),
        ("[points]", "[pints]", "pints"),
        ("drive = [0.0165, ", "drive = [nan, ", "a list of numbers"),
        ("drive = [0.0165, ", "drive = [0.0165, 0.01, ", "as many numbers"),
        ("[freed.turbine_area]", "[freed.turbine_size]", "turbine_size"),
        ("[usual]\nnames = [", '[usual]\nnames = ["luck", ', "names among"),
        ("[engine]", "engine = 5\n[motor]", "lines such as|motor"),
    ],
)
def test_what_is_not_whole_is_refused_with_its_place(text, read, old, new, words):
    assert old in text
    with pytest.raises(RefusedFileError, match=words):
        read(text.replace(old, new, 1))


def test_a_file_cut_short_or_missing_is_refused(text, read, tmp_path):
    with pytest.raises(RefusedFileError):
        read(text[: len(text) // 2])
    with pytest.raises(RefusedFileError, match="no such file"):
        read_engine(tmp_path / "other.toml")
