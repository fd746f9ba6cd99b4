"""The lesson's own pictures: lines along which density is equal, and boxes whose dots weigh the same."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import units
from turbomath.panels.hot_air_is_thin.equal_density import MOST_LINES, lines, table
from turbomath.panels.hot_air_is_thin.picture_box_of_air import MOST_DOTS, picture_box_of_air
from turbomath.panels.hot_air_is_thin.picture_equal_density import axes, picture_equal_density
from turbomath.physics import charge
from turbomath.pictures.printed import svg

BAROMETER = 97_905.6


def chart(temperature, boost, system, held=()):
    cases = [("measured", "yours", temperature, boost)]
    x, y = axes((283.15, 473.15), (0.0, 275_790.0), cases, system)
    return picture_equal_density(x, y, lines(BAROMETER, x, y, system), cases, system, held=held)


systems = st.sampled_from(["us", "si"])


@given(st.floats(200, 900), st.floats(-90_000, 2e6), systems)
def test_each_line_has_the_density_it_is_named_for_and_stays_in_the_picture(temperature, boost, system):
    picture = chart(temperature, boost, system)
    drawn = [one for one in picture.series if one.kind == "line"]
    assert 1 <= len(drawn) <= MOST_LINES
    for one in drawn:
        named, unit = one.label.split(" ")
        pressure = units.to_si(np.array(one.y), picture.y.unit, "boost") + BAROMETER
        kelvin = units.to_si(np.array(one.x), picture.x.unit, "manifold_temperature")
        density = units.from_si(charge.density(pressure, kelvin), unit, "density")
        assert density == pytest.approx(float(named), rel=1e-9)
        for values, axis in ((one.x, picture.x), (one.y, picture.y)):
            slack = 1e-9 * (axis.high - axis.low)
            assert axis.low - slack <= min(values) < max(values) <= axis.high + slack


@given(st.floats(200, 900), st.floats(-90_000, 2e6), systems)
def test_the_axes_stretch_to_hold_the_readers_point(temperature, boost, system):
    picture = chart(temperature, boost, system)
    point = picture.series[-1]
    assert picture.x.low - 1e-6 <= point.x[0] <= picture.x.high + 1e-6
    assert picture.y.low - 1e-6 <= point.y[0] <= picture.y.high + 1e-6


@given(st.floats(200, 900), st.floats(-90_000, 2e6), systems)
def test_the_table_says_what_the_lines_say(temperature, boost, system):
    picture = chart(temperature, boost, system)
    heads, rows = table(BAROMETER, picture.x, picture.y, system)
    assert len(rows) == 5
    for row in rows:
        kelvin = units.to_si(float(row[0].replace("−", "-")), picture.x.unit, "manifold_temperature")
        for head, cell in zip(heads[1:], row[1:], strict=True):
            named, unit = head.split(" ")[:2]
            pressure = charge.pressure(units.to_si(float(named), unit, "density"), kelvin)
            exact = units.from_si(pressure - BAROMETER, picture.y.unit, "boost")
            if cell == "–":
                assert not picture.y.low + 1e-6 < exact < picture.y.high - 1e-6
            else:
                assert float(cell.replace("−", "-")) == pytest.approx(exact, abs=0.06, rel=2e-3)


def test_what_is_held_is_a_line_through_the_point():
    held = chart(400.0, 1e5, "si", held={"manifold_temperature", "boost", "barometer"})
    upright, level = (
        next(one for one in held.series if one.label == label) for label in ("temperature held", "boost held")
    )
    assert upright.x == pytest.approx((126.85, 126.85))
    assert level.y == pytest.approx((100.0, 100.0))


@given(st.lists(st.floats(0.05, 60), min_size=1, max_size=4), systems)
def test_dots_are_as_many_as_the_air_is_dense(densities, system):
    picture = picture_box_of_air([("hot", f"box {turn}", value) for turn, value in enumerate(densities)], system)
    dots = [len(one.x) for one in picture.series if one.kind == "points"]
    dot = float(picture.title.split("one dot is ")[1].split(" ")[0]) * (16.018463 if system == "us" else 1)
    assert max(dots) <= MOST_DOTS
    for count, density in zip(dots, densities, strict=True):
        assert abs(count - density / dot) <= 0.5 + 1e-6 * count
    assert [count for _, count in picture.counts] == dots
    assert all(f"{count} dots" in picture.alt for count in dots)
    for place, one in enumerate(one for one in picture.series if one.kind == "points"):
        assert all(place < x < place + 1 for x in one.x)
        assert all(0 < y < 1 for y in one.y)


def test_more_air_adds_dots_and_moves_none():
    thin, thick = (picture_box_of_air([("hot", "box", density)], "si").series[1] for density in (1.0, 2.0))
    assert thick.x[: len(thin.x)] == thin.x
    assert len(thick.x) == 2 * len(thin.x) == 200


def test_both_pictures_print_as_well_as_they_are_drawn_live():
    lines, box = chart(400.0, 1e5, "us"), picture_box_of_air([("hot", "A", 1.9)], "us")
    assert svg(lines).count("<path") > 5
    assert svg(box).count("0z") == len(box.series[1].x) > 50  # each dot is a closed circle
    assert lines.rows
    assert box.rows
