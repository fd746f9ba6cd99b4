"""Printed pictures: the same bytes each time, self-contained, whatever the labels hold."""

import xml.etree.ElementTree as ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath.pictures import printed
from turbomath.pictures.picture import Axis, Picture, Series, Text
from turbomath.table.errors import OutOfRangeError

SVG = "{http://www.w3.org/2000/svg}"


def picture(label="measured", words="a word"):
    series = (
        Series("band", "cooled", "band", (0.0, 5.0), (1.0, 4.0), (0.5, 3.0), (1.5, 5.0)),
        Series("line", "theory", "theoretical", (0.0, 5.0), (1.0, 4.1)),
        Series("points", "measured", label, (0.0, 5.0), (1.0, 4.0), (0.5, 3.5), (1.5, 4.5)),
    )
    return Picture("A picture", Axis("boost", "psi", 0, 6), Axis("gain", "%", -1, 6), series, (Text(1, 2, words),))


def test_the_same_picture_gives_the_same_bytes():
    assert printed.svg(picture()) == printed.svg(picture())


def test_another_picture_gives_others():
    assert printed.svg(picture()) != printed.svg(picture(label="another"))


def test_a_printed_picture_asks_nobody_for_anything_and_runs_nothing():
    root = ElementTree.fromstring(printed.svg(picture()))
    for element in root.iter():
        assert element.tag not in {f"{SVG}script", f"{SVG}image", f"{SVG}foreignObject"}
        for name, value in element.attrib.items():
            assert not name.lower().startswith("on")
            if name.endswith("href"):
                assert value.startswith("#")
    assert "<dc:date>" not in printed.svg(picture())


def test_dashes_tell_theory_from_the_rest():
    paths = [part.partition("/>")[0] for part in printed.svg(picture()).split("<path")[1:]]
    dashed = [path for path in paths if "stroke-dasharray" in path]
    assert any("#6a3d9a" in line for line in dashed)
    assert not any("#1b1f24" in line for line in dashed)


@pytest.mark.parametrize(
    "label",
    [
        r"$\frac{$",
        "--><script>alert(1)</script>",
        "a\x00b\x1b[0m",
        "\ud800",
        "漢字 😀",
        "=1+1",
        "\u202e cba",
        "x" * 500,
        "",
    ],
)
def test_any_label_is_drawn_as_it_is(label):
    root = ElementTree.fromstring(printed.svg(picture(label=label, words=label)))
    assert root.find(f".//{SVG}script") is None


@given(st.lists(st.tuples(st.floats(0, 1), st.floats(0.03, 0.2)), min_size=1, max_size=5))
def test_labels_never_overlap_and_keep_their_order(labels):
    wanted, heights = zip(*sorted(labels), strict=True)
    places = printed.spread(list(wanted), list(heights))
    for index in range(1, len(places)):
        assert places[index] - places[index - 1] >= (heights[index] + heights[index - 1]) / 2 - 1e-9
    assert places[-1] <= 1 + 1e-9


def test_labels_with_room_stay_where_they_belong():
    assert printed.spread([0.1, 0.5, 0.9], [0.1, 0.1, 0.1]) == pytest.approx([0.1, 0.5, 0.9])


def test_each_number_lies_where_its_axis_says():
    """By hand: x = 5 of 0..6 and y = 4 of -1..6, between the edges of the frame."""
    frame = printed.Frame(picture(), 300)
    assert frame.across(5.0) == pytest.approx(70 + 5 / 6 * (640 - 150 - 70))
    assert frame.down(4.0) == pytest.approx(260 - 5 / 7 * 250)
    line = next(part for part in printed.svg(picture()).split("<path") if "#6a3d9a" in part)
    assert f'd="M70.0 {frame.down(1.0):.1f}L{frame.across(5.0):.1f} {frame.down(4.1):.1f}"' in line


def test_a_bar_along_x_goes_from_its_left_to_its_right_end_and_is_kept_as_data():
    both = Series("points", "hot", "both", (2.0,), (3.0,), (2.5,), (3.5,), (1.0,), (4.0,))
    one = Picture("A picture", Axis("boost", "psi", 0, 6), Axis("gain", "%", -1, 6), (both,))
    frame = printed.Frame(one, printed.HEIGHT)
    left, right, at = (f"{number:.1f}" for number in (frame.across(1.0), frame.across(4.0), frame.down(3.0)))
    assert f"M{left} {at}H{right}" in printed.svg(one)
    assert one.to_dict()["series"][0]["left"] == [1.0]
    assert "left" not in picture().to_dict()["series"][0]
    with pytest.raises(OutOfRangeError, match="ends of bars"):
        Series("points", "hot", "both", (2.0,), (3.0,), left=(1.0,))


def test_a_bar_goes_from_its_low_to_its_high_end():
    frame = printed.Frame(picture(), 300)
    bar = f'd="M{frame.across(5.0):.1f} {frame.down(3.5):.1f}V{frame.down(4.5):.1f}m'
    assert bar in printed.svg(picture())


@pytest.mark.parametrize(
    ("low", "high", "most", "words"),
    [
        (0, 30, 4, ["0", "10", "20", "30"]),
        (-6, 4, 5, ["−5", "0"]),
        (0, 0.18, 5, ["0.00", "0.05", "0.10", "0.15"]),
        (0, 1, 8, ["0.0", "0.2", "0.4", "0.6", "0.8", "1.0"]),
        (0, 20000, 6, ["0", "5000", "10000", "15000", "20000"]),
    ],
)
def test_the_marks_of_an_axis_are_round_numbers(low, high, most, words):
    assert [word for _, word in printed.marks(Axis("gain", "%", low, high), most)] == words


def test_the_words_of_a_low_picture_stay_inside_it():
    """A letter is about 7 px wide; 24 and more of them would stand out of a picture 170 px high."""
    long = Picture("A picture", Axis("boost", "psi", 0, 6), Axis("charge gain difference", "%", -1, 6), ())
    root = ElementTree.fromstring(printed.svg(long, 170))
    turned = [node.text for node in root.iter(f"{SVG}text") if "rotate" in node.get("transform", "")]
    assert turned == ["charge gain", "difference [%]"]
    assert root.get("viewBox") == "0 0 640 170"
