"""A picture as data: what it tells without eyes, and what it refuses."""

import json

import numpy as np
import pytest

from turbomath.pictures.charge_gain import picture_charge_gain, picture_difference
from turbomath.pictures.comparison import picture_comparison
from turbomath.pictures.densities import picture_densities
from turbomath.pictures.picture import Axis, Picture, Series
from turbomath.pictures.roles import ROLES
from turbomath.table.errors import OutOfRangeError

PSI = 6894.757  # Pa, NIST SP 811 appendix B.8
BOOST = np.array([24.0, np.nan, 6.0, 13.0]) * PSI  # out of order and with a gap


@pytest.fixture
def gain():
    return picture_charge_gain(
        BOOST,
        (np.array([1.43, 0.5, 0.37, 0.81]), np.array([0.05, 0.05, 0.04, 0.05])),
        (np.array([1.44, 0.5, 0.36, 0.79]), np.array([0.06, 0.05, 0.05, 0.05])),
        "us",
    )


def test_points_come_in_the_order_of_x_and_gaps_are_left_out(gain):
    theory, measured = gain.series
    assert measured.x == pytest.approx((6.0, 13.0, 24.0))
    assert measured.y == pytest.approx((37, 81, 143))
    assert measured.low == pytest.approx((33, 76, 138))
    assert measured.high == pytest.approx((41, 86, 148))
    assert theory.y == pytest.approx((36, 79, 144))


def test_measured_and_theory_have_their_own_roles(gain):
    assert [(one.kind, one.role) for one in gain.series] == [("line", "theory"), ("points", "measured")]


def test_axes_hold_everything_and_say_name_and_unit(gain):
    assert gain.x.words == "boost [psi]"
    assert gain.y.words == "charge gain [%]"
    assert gain.x.low <= 0 <= 24 <= gain.x.high
    assert gain.y.low <= 0 < 148 <= gain.y.high


def test_alt_text_says_type_axes_with_ranges_and_trend(gain):
    assert "lines and points with bars" in gain.alt
    assert "charge gain [%] from 0 to 160 against boost [psi] from 0 to 25" in gain.alt
    assert "Rising from 37 ± 4 to 143 ± 5 %: measured." in gain.alt
    assert "Rising from 36 ± 5 to 144 ± 6 %: theoretical." in gain.alt


def test_table_twin_has_every_point_with_its_plus_or_minus(gain):
    assert gain.heads == ("boost [psi]", "theoretical [%]", "measured [%]")
    assert gain.rows == (("6", "36 ± 5", "37 ± 4"), ("13", "79 ± 5", "81 ± 5"), ("24", "144 ± 6", "143 ± 5"))


def test_two_readings_at_one_boost_keep_a_row_each():
    picture = picture_difference(np.array([6.0, 6.0]) * PSI, np.array([0.01, -0.02]), np.array([0.03, 0.03]), "us")
    assert [row[2] for row in picture.rows] == ["1 ± 3", "−2 ± 3"]


def test_a_falling_series_and_a_steady_one_say_so():
    axis = Axis("boost", "psi", 0, 10)
    falling = Series("line", "hot", "down", (1.0, 2.0), (5.0, 3.0))
    steady = Series("line", "ambient", "flat", (1.0, 2.0), (5.0, 5.0))
    alt = Picture("Two", axis, axis, (falling, steady)).alt
    assert "Falling from 5 to 3 psi: down." in alt
    assert "Steady at 5 psi: flat." in alt


def test_densities_are_drawn_in_the_roles_of_the_air():
    three = [(np.array([value] * 4), np.full(4, 0.05)) for value in (1.1, 2.1, 2.7)]
    picture = picture_densities(BOOST, *three, "si")
    assert {one.role: one.y[0] for one in picture.series} == pytest.approx({"ambient": 1.1, "hot": 2.1, "cooled": 2.7})
    assert picture.y.unit == "kg/m³"
    assert len(picture.heads) == 4


def test_a_place_without_any_density_is_not_drawn():
    nothing = (np.full(4, np.nan), np.full(4, np.nan))
    known = (np.full(4, 1.1), np.full(4, 0.05))
    picture = picture_densities(BOOST, known, nothing, known, "us")
    assert {one.label for one in picture.series} == {"air outside", "manifold"}


def test_runs_side_by_side_keep_their_names():
    runs = [
        ("hot", "no aftercooler", BOOST, np.full(4, 2.0), np.full(4, 0.1)),
        ("cooled", "air-to-air", BOOST + PSI, np.full(4, 2.6), np.full(4, 0.1)),
    ]
    picture = picture_comparison("boost", "manifold_density", runs, "si")
    assert picture.title == "Manifold density against boost, 2 runs"
    assert picture.heads == ("boost [kPa]", "no aftercooler [kg/m³]", "air-to-air [kg/m³]")
    assert len(picture.rows) == 6
    assert all("–" in row for row in picture.rows)  # no two share a boost


def test_a_picture_of_nothing_can_still_be_told():
    nothing = np.full(4, np.nan)
    picture = picture_difference(BOOST, nothing, nothing, "us")
    assert picture.rows == ()
    assert "No points: difference." in picture.alt


def test_the_record_goes_through_json_unchanged(gain):
    record = gain.to_dict()
    assert json.loads(json.dumps(record)) == record
    assert record["alt"] == gain.alt
    assert record["series"][1]["role"] == "measured"


@pytest.mark.parametrize(
    ("changes", "named"),
    [({"kind": "pie"}, "pie"), ({"role": "blue"}, "blue"), ({"y": (1.0,)}, "as many"), ({"low": (1.0,)}, "as many")],
)
def test_what_is_no_series_is_refused(changes, named):
    good = dict(kind="line", role="hot", label="x", x=(1.0, 2.0), y=(1.0, 2.0))
    with pytest.raises(OutOfRangeError, match=named):
        Series(**(good | changes))


def test_no_two_roles_look_alike_without_colour():
    assert len({(role.dash, role.marker) for role in ROLES.values()}) == len(ROLES)


@pytest.mark.parametrize("role", ROLES.values(), ids=ROLES)
def test_colours_stand_out_from_white_paper(role):
    """At least 4.5 : 1, by the formula of WCAG 2.2, success criterion 1.4.3."""
    parts = (int(role.colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    assert 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05) >= 4.5
