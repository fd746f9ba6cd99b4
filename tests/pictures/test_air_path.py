"""The air path: dots of equal mass, warm in colour and tails, the same on the wall, on paper and in words."""

import math
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath.engine import path
from turbomath.pictures import air_path_heat, air_path_printed
from turbomath.pictures.air_path import COOLERS, AirPath, State, picture_air_path
from turbomath.pictures.air_path_layout import LAYOUTS, MACHINES, MASS, STRIPS, WALL
from turbomath.table.errors import TurbomathError

GAS = 287.05  # J/(kg K), of dry air; ICAO Doc 7488
CASE = dict(
    ambient_pressure=98_544.0,
    ambient_temperature=298.15,
    manifold_pressure=264_018.0,
    isentropic_efficiency=0.74,
    effectiveness=0.80,
    cooler_pressure_loss=10_342.0,
    intake_restriction=2_989.0,
    air="perfect",
)
HOT = {
    "turbine_inlet": State(240e3, 810.0, 240e3 / (GAS * 810.0)),
    "turbine_outlet": State(104e3, 700.0, 104e3 / (GAS * 700.0)),
}


def drawing(system="us", cooler="air-to-air", **options):
    case = CASE if cooler != "none" else CASE | {"effectiveness": 0.0, "cooler_pressure_loss": 0.0}
    found = path.charge_path(**case)
    return picture_air_path("The air path", found, cooler, system, medium_temperature=298.15, **options)


def area(corners):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True))) / 2


def crowds_between(record, left, right, low=0.0, high=240.0):
    return [
        one
        for one in record["wide"]["crowds"]
        if all(left <= x <= right and low <= y <= high for x, y in one["corners"])
    ]


def crowding(crowds):
    return sum(one["count"] for one in crowds) / sum(area(one["corners"]) for one in crowds)


def test_the_crowd_in_each_pipe_is_its_density():
    record, found = drawing().to_dict(), path.charge_path(**CASE)
    for density, (left, right) in (
        (found.ambient_density, (0, 108)),
        (found.compressor_outlet_density, (306, 499)),
        (found.manifold_density, (621, 849)),
    ):
        assert crowding(crowds_between(record, left, right)) == pytest.approx(density / MASS, rel=0.03)


@given(st.floats(0.3, 6.0), st.floats(0.3, 6.0))
def test_denser_air_is_never_less_crowded(one, other):
    thin, dense = sorted((one, other))
    for place in (*LAYOUTS.values(), *STRIPS.values()):
        for pipe in place.pipes("air-to-air"):
            counts = [place.crowd(pipe, density, 330.0)["count"] for density in (thin, dense)]
            assert counts[0] <= counts[1]


def test_hot_air_has_another_colour_and_tails_and_cool_air_none():
    record = drawing(exhaust=HOT).to_dict()
    (cool, *_), (hot, *_), (cooled, *_) = (crowds_between(record, *ends) for ends in ((0, 108), (306, 499), (621, 849)))
    fire = record["wide"]["crowds"][-1]
    assert cool["colour"] == cool["tail"] == 0
    assert cool["colour"] < cooled["colour"] < hot["colour"] < fire["colour"]
    assert cooled["tail"] == 0 < hot["tail"] < fire["tail"]
    assert [air_path_heat.heat(warm, 4.4) for warm in (300.0, 440.0, 850.0)] == [(0, 0), (1, 3.0), (2, 5.5)]


def test_the_compressor_narrows_along_its_flow_and_the_turbine_widens():
    crowds = drawing(exhaust=HOT).to_dict()["wide"]["crowds"]
    heights = {
        name: [abs(one["corners"][1][1] - one["corners"][0][1]) for one in crowds if inside(one, *ends)]
        for name, ends in {"compressor": (239, 305, 0, 260), "turbine": (239, 323, 320, 440)}.items()
    }
    assert heights["compressor"] == sorted(heights["compressor"], reverse=True)
    assert heights["turbine"] == sorted(heights["turbine"])
    assert heights["turbine"][0] < heights["turbine"][-1]


def inside(one, left, right, low, high):
    return all(left <= x <= right and low <= y <= high for x, y in one["corners"])


@pytest.mark.parametrize(
    ("system", "gauge", "absolute"), [("us", "24.0 psi gauge", "38.3 abs"), ("si", "165.5 kPa gauge", "264.0 abs")]
)
def test_each_station_says_gauge_and_absolute_temperature_and_density(system, gauge, absolute):
    words = [one["text"] for one in drawing(system).to_dict()["wide"]["words"]]
    assert f"{gauge} · {absolute}" in words
    assert {"us": "77 °F · 0.0719 lb/ft³", "si": "25 °C · 1.151 kg/m³"}[system] in words


def test_the_words_and_the_table_say_the_same():
    path_drawn = drawing(exhaust=HOT, read={"manifold": "24.0 ± 0.9 psi"})
    assert path_drawn.heads == (
        "station",
        "on the gauge [psi]",
        "absolute [psi abs]",
        "temperature [°F]",
        "density [lb/ft³]",
        "read",
    )
    manifold = next(row for row in path_drawn.rows if row[0] == "manifold")
    assert manifold == ("manifold", "24.0", "38.3", "128", "0.1759", "24.0 ± 0.9 psi")
    for row in path_drawn.rows:
        assert row[3] in path_drawn.alt
    assert "read: 24.0 ± 0.9 psi" in path_drawn.alt
    assert "Cooled by outside air." in path_drawn.alt


def test_the_power_through_the_shaft_stands_beside_it_in_words_and_in_the_table():
    known, unknown = drawing(shaft_power=26.8e3), drawing()
    assert "36 hp" in [one["text"] for one in known.to_dict()["wide"]["words"]]
    assert known.rows[-1] == ("power through the shaft", "–", "–", "–", "–", "36 hp")
    assert "Through the shaft: 36 hp." in known.alt
    assert "shaft" not in unknown.alt
    assert not any("hp" in one["text"] for one in known.to_dict(strip=True)["wide"]["words"])
    quiet = drawing(shaft_power=26.8e3, speaks=("compressor",)).to_dict()["wide"]["words"]
    assert next(one for one in quiet if one["text"] == "36 hp")["quiet"]


def test_without_an_aftercooler_none_is_drawn():
    record = drawing(cooler="none").to_dict()["wide"]
    assert "aftercooler" not in [one["text"] for one in record["words"]]
    assert len(record["lines"]) < len(drawing().to_dict()["wide"]["lines"])


def test_what_the_lesson_does_not_speak_of_is_quiet():
    record = drawing(speaks=("compressor",)).to_dict()["wide"]
    loud = [one for one in record["crowds"] if not one["quiet"]]
    assert loud
    assert all(x <= 500 for one in loud for x, _ in one["corners"])
    assert not any(one["quiet"] for one in drawing().to_dict()["wide"]["crowds"])


def test_exhaust_that_nobody_worked_out_is_called_a_sketch():
    assert "sketched only" in [one["text"] for one in drawing().to_dict()["wide"]["words"]]
    assert "sketched only" not in [one["text"] for one in drawing(exhaust=HOT).to_dict()["wide"]["words"]]


def test_a_strip_is_the_way_of_the_air_alone():
    strip = drawing(exhaust=HOT).to_dict(strip=True)["wide"]
    assert strip["size"][1] < LAYOUTS["wide"].height
    assert "turbine" not in [one["text"] for one in strip["words"]]
    assert all(y <= strip["size"][1] for one in strip["crowds"] for _, y in one["corners"])


@pytest.mark.parametrize("strip", [False, True])
@pytest.mark.parametrize("place", ["wide", "narrow", "wall"])
@pytest.mark.parametrize("cooler", COOLERS)
@pytest.mark.parametrize("system", ["us", "si"])
def test_no_two_words_touch_and_none_leaves_the_drawing(place, strip, system, cooler):
    """A letter is taken 0.58 of its size wide, which is more than the usual letters need."""
    read = {"ambient": "77 ± 2 °F", "compressor_outlet": "338 ± 5 °F", "manifold": "24.0 ± 0.9 psi, 132 ± 5 °F"}
    told = drawing(system, cooler, exhaust=HOT, read=read, shaft_power=249e3)
    shown = told.to_dict(strip=strip, wall=place == "wall")["wide" if place == "wall" else place]
    boxes = []
    for one in shown["words"]:
        long = 0.58 * one["size"] * len(one["text"])
        left = one["x"] - {"start": 0.0, "middle": long / 2, "end": long}[one["anchor"]]
        boxes.append((left, left + long, one["y"] - 0.75 * one["size"], one["y"] + 0.2 * one["size"], one["text"]))
    for left, right, top, bottom, text in boxes:
        assert left >= -1, text
        assert right <= shown["size"][0] + 1, text
        assert 0 <= top < bottom <= shown["size"][1], text
    for turn, one in enumerate(boxes):
        for other in boxes[:turn]:
            apart = one[1] <= other[0] or other[1] <= one[0] or one[3] <= other[2] or other[3] <= one[2]
            assert apart, (one[4], other[4])


def test_the_printed_path_has_a_dot_for_each_of_the_crowd_and_is_the_same_each_time():
    record = drawing(exhaust=HOT)
    text = air_path_printed.svg(record)
    assert text == air_path_printed.svg(record)
    root = ElementTree.fromstring(text)
    dots = [one.get("d") for one in root.iter() if one.get("stroke-linecap") == "round"]
    assert sum(one.count("M") for one in dots) == sum(one["count"] for one in record.to_dict()["wide"]["crowds"])
    assert root.find("{http://www.w3.org/2000/svg}title").text == record.alt


def test_a_title_with_marks_of_a_page_stays_a_title():
    record = AirPath("<script>&", {"ambient": State(1e5, 300.0, 1.2)}, "none", "us")
    assert "<script>" not in air_path_printed.svg(record)


@given(st.floats(5e4, 1.1e5), st.floats(240.0, 320.0), st.floats(0.0, 4e5), st.floats(0.4, 1.0), st.floats(0.0, 1.0))
def test_any_engine_can_be_drawn(barometer, outside, boost, efficiency, effectiveness):
    found = path.charge_path(
        ambient_pressure=barometer,
        ambient_temperature=outside,
        manifold_pressure=barometer + boost,
        isentropic_efficiency=efficiency,
        effectiveness=effectiveness,
        air="perfect",
    )
    record = picture_air_path("Any", found, "air-to-air", "si").to_dict()
    assert "nan" not in record["alt"]
    assert sum(one["count"] for one in record["wide"]["crowds"]) < 6_000


def test_what_is_not_known_is_not_told():
    stations = {"ambient": State(1e5, np.nan, np.nan), "manifold": State(2e5, 330.0, math.nan)}
    record = AirPath("A", stations, "none", "si")
    assert "nan" not in str(record.to_dict())
    assert record.rows[0] == ("air outside", "0.0", "100.0", "–", "–", "–")


def test_an_unknown_aftercooler_is_refused():
    with pytest.raises(TurbomathError, match="aftercooler"):
        drawing(cooler="ice")


def test_the_machines_named_are_those_of_the_plate():
    named = {one["text"] for one in drawing().to_dict()["wide"]["words"]} & set(MACHINES)
    assert named == set(MACHINES) - {"shaft"}


@pytest.mark.parametrize("place", [LAYOUTS["wide"], WALL])
def test_the_words_of_the_turbine_stand_above_its_pipe(place):
    record = drawing(exhaust=HOT).drawing(place)
    pipe = min(y for one in record["crowds"] for _, y in one["corners"] if y > place.at(0, 340)[1])
    words = [one for one in record["words"] if one["text"].endswith("gauge") and one["y"] > place.at(0, 240)[1]]
    assert len(words) == 2
    assert all(one["y"] + 0.2 * one["size"] < pipe for one in words)
