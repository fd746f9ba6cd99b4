"""Lesson 01: what a gauge reading is worth in two places, behind a weather report, and in a pressure ratio."""

import json
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.opening import notes, number, opened, places_of, readouts, same, shared, slid, unseen, words
from tests.widgets.told import tell
from turbomath.panels.gauge_and_absolute import LESSON
from turbomath.physics import atmosphere, compression
from turbomath.pictures.pressure_columns import Block, Column, picture_pressure_columns

# NIST Special Publication 811 (2008), appendix B: mercury at 0 °C, water at 4 °C
PSI, INHG, INH2O, FOOT = 6894.757293168, 3386.389, 249.0889, 0.3048
US = {
    "boost": PSI,
    "elevation": FOOT,
    "intake_restriction": INH2O,
    "sea_level_pressure": INHG,
    "barometer": INHG,
    "cooler_pressure_loss": PSI,
}
SI = dict.fromkeys(US, 1e3) | {"elevation": 1.0}
PLACES, REPORT, RATIO = "gauge_and_absolute", "bench_barometer", "pressure_ratio"
WORDS, NOTES = words("gauge_and_absolute"), notes("gauge_and_absolute")


def barometer_at(feet, sea=101_325.0):
    """ISO 2533:1975, clause 2, with its constants written out again."""
    return sea * (1 - 0.0065 * feet * FOOT / 288.15) ** (9.80665 / (287.05287 * 0.0065))


# The specimens


def test_25_psi_at_sea_level_and_at_5280_feet():
    panel = opened(PLACES)
    assert "37.1 psi abs up there, 39.7 psi abs at sea level. That is 6.5 % less" in panel.frame["asked"][0]["outcome"]
    assert "At 5280 ft with 25.0 psi on the gauge, the manifold holds 37.1 psi abs" in panel.frame["shown"]["sentence"]
    assert readouts(panel.frame)["against sea level"] == "−6.5"
    assert (barometer_at(5280) / PSI + 25, 101_325 / PSI + 25) == pytest.approx((37.1, 39.7), abs=0.05)


def test_the_weather_reports_30_05_inches_at_3550_feet():
    panel = opened(REPORT)
    found = readouts(panel.frame)
    assert (found["on the bench"], found["rule of thumb"]) == ("26.39", "26.50")
    assert (
        "26.39 inHg. The rule of thumb, 1 inHg for each 1,000 ft, says 26.50 inHg" in panel.frame["asked"][0]["outcome"]
    )
    assert barometer_at(3550, 30.05) == pytest.approx(26.39, abs=0.005)


def test_boost_over_barometer_is_1_68_where_the_ratio_is_2_87():
    found = readouts(opened(RATIO).frame)
    assert (found["pressure ratio"], found["boost ÷ barometer"]) == ("2.87", "1.68")
    inlet, outlet = 29.10 * INHG - 12 * INH2O, 29.10 * INHG + 25.5 * PSI
    assert (outlet / inlet, 24 * PSI / (29.10 * INHG)) == pytest.approx((2.87, 1.68), abs=0.005)


ERRORS = ((1000, "3.7", "1.4"), (2200, "8.3", "3.0"), (3500, "13.7", "4.8"), (5280, "21.5", "7.2"))


@pytest.mark.parametrize(("feet", "density", "manifold"), ERRORS)
def test_what_29_92_costs_at_four_elevations(feet, density, manifold):
    panel = opened(REPORT)
    tell(panel, "type", name="sea_level_pressure", text="29.9213")
    found = readouts(tell(panel, "type", name="elevation", text=str(feet)))
    assert (found["report: density off"], found["report: manifold off"]) == (density, manifold)
    station = barometer_at(feet)
    assert 100 * (101_325 / station - 1) == pytest.approx(float(density), abs=0.05)
    assert 100 * (101_325 - station) / (station + 24 * PSI) == pytest.approx(float(manifold), abs=0.05)
    assert re.search(rf"\| {feet:,} ft \(.*?\) \| {density} % \| {manifold} % \|", WORDS)
    assert any(
        row[0] == f"{feet} ft" and row[3:] == (f"{density} %", f"{manifold} %")
        for row in panel.frame["shown"]["tables"][0]["rows"]
    )


# Every number is the library's


def drawn(data, of):
    """Return the system, the frame after every control was slid, and the controls in SI."""
    system = data.draw(st.sampled_from(["us", "si"]))
    panel, sizes = shared(of, system), US if system == "us" else SI
    names = [one["name"] for one in panel.frame["controls"] if one["name"] in US]
    texts = {name: data.draw(places_of(panel, name)) for name in names}
    frame = slid(panel, texts)
    assert frame["error"] is None
    json.dumps(frame, allow_nan=False)
    return system, frame, {name: float(text) * sizes[name] for name, text in texts.items()}


@given(st.data(), st.sampled_from(["station", "corrected"]))
def test_every_number_of_the_two_places_is_the_librarys(data, taken):
    for system in ("us", "si"):
        unseen(shared(PLACES, system), "pick", name="taken", key=taken)
    system, frame, si = drawn(data, PLACES)
    unit, inches = (PSI, INHG) if system == "us" else (1e3, 1e3)
    station = atmosphere.station_pressure(si["sea_level_pressure"], si["elevation"])
    here, sea = station + si["boost"], si["sea_level_pressure"] + si["boost"]
    expected = (
        station / inches,
        station / unit,
        here / unit,
        100 * (here / sea - 1),
        (station - si["intake_restriction"]) / unit,
    )
    for one, value in zip(frame["shown"]["readouts"], expected, strict=True):
        assert same(one["text"], value), one
    reckoned = here if taken == "station" else sea
    rows = frame["shown"]["tables"][0]["rows"]
    assert all(same(row[2], top / unit) for row, top in zip(rows, (sea, here, reckoned), strict=False))
    told = [number(text) for text in re.findall(r"−?\d+\.\d+", frame["shown"]["sentence"])]
    assert any(value == pytest.approx(here / unit, abs=0.051) for value in told)


@given(st.data())
def test_every_number_of_the_weather_report_is_the_librarys(data):
    system, frame, si = drawn(data, REPORT)
    unit = INHG if system == "us" else 1e3
    station = atmosphere.station_pressure(si["sea_level_pressure"], si["elevation"])
    thumb = si["sea_level_pressure"] - si["elevation"] / FOOT / 1000 * INHG
    apart = si["sea_level_pressure"] - station
    expected = (
        station / unit,
        thumb / unit,
        (thumb - station) / unit,
        100 * apart / station,
        100 * apart / (station + si["boost"]),
    )
    for one, value in zip(frame["shown"]["readouts"], expected, strict=True):
        assert abs(number(one["text"]) - value) <= 0.5 * 10.0 ** -len(one["text"].partition(".")[2]) + 1e-5, one
    point = frame["shown"]["pictures"][0]["series"][-1]
    assert point["y"][0] == pytest.approx(station / unit, rel=1e-6)


@given(st.data())
def test_every_number_of_the_pressure_ratio_is_the_librarys(data):
    system, frame, si = drawn(data, RATIO)
    unit = PSI if system == "us" else 1e3
    inlet = si["barometer"] - si["intake_restriction"]
    outlet = si["barometer"] + si["boost"] + si["cooler_pressure_loss"]
    expected = (inlet / unit, outlet / unit, compression.pressure_ratio(inlet, outlet), si["boost"] / si["barometer"])
    for one, value in zip(frame["shown"]["readouts"], expected, strict=True):
        assert same(one["text"], value), one
    wrong = dict(frame["shown"]["tables"][0]["rows"])
    assert same(wrong["manifold ÷ barometer"], (si["barometer"] + si["boost"]) / si["barometer"])
    assert same(wrong["manifold ÷ inlet, no aftercooler loss"], (si["barometer"] + si["boost"]) / inlet)
    assert same(wrong["outlet ÷ barometer, no restriction"], outlet / si["barometer"])


# The picture


LOSS = 1e4  # Pa, on top of each column


def columns_of(*heights):
    loss = Block("hot", "aftercooler loss", LOSS)
    return [
        Column(f"place {turn}", (Block("ambient", "barometer", low), Block("hot", "boost", high), loss))
        for turn, (low, high) in enumerate(heights)
    ]


@given(
    st.lists(st.tuples(st.floats(1e3, 1.2e5), st.floats(-5e4, 4e6)), min_size=1, max_size=4),
    st.sampled_from(["us", "si"]),
    st.floats(0, 2e5),
)
def test_blocks_stand_on_each_other_and_the_ladder_reaches_the_top(heights, system, once):
    picture = picture_pressure_columns("Pressures", columns_of(*heights), system, most=4e5, times=once)
    unit = PSI if system == "us" else 1e3
    blocks = [one for one in picture.series if one.kind == "band"]
    for (low, high), air, boost, loss in zip(heights, blocks[::3], blocks[1::3], blocks[2::3], strict=True):
        assert air.high[0] - air.low[0] == pytest.approx(low / unit)
        assert boost.high[0] - boost.low[0] == pytest.approx(abs(high) / unit)
        assert pytest.approx(low / unit) in (boost.low[0], boost.high[0])
        assert (loss.low[0], loss.high[0]) == pytest.approx(((low + high) / unit, (low + high + LOSS) / unit), abs=1e-6)
    top = max(one.y[-1] for one in picture.series if one.label == "ladder")
    assert top >= (max(sum(pair) for pair in heights) + LOSS) / unit - 1e-9
    assert top <= picture.y.high
    levels = [one.y[0] for one in picture.series if one.label == "times"]
    assert levels == pytest.approx([once / unit * turn for turn in range(1, len(levels) + 1)])
    assert len(levels) <= 16
    assert [float(row[2].replace("−", "-")) for row in picture.rows] == pytest.approx(
        [(sum(pair) + LOSS) / unit for pair in heights], abs=0.051
    )
    json.dumps(picture.to_dict(), allow_nan=False)


@pytest.mark.parametrize("once", [0.0, 5e-324, 1.0, 1e4])
def test_multiples_too_close_to_be_told_apart_are_left_out(once):
    picture = picture_pressure_columns("Pressures", columns_of((1e5, 1e5)), "us", most=4e5, times=once)
    assert not [one for one in picture.series if one.label == "times"]


def test_the_switch_shows_the_error_as_an_arrow_from_the_true_top_to_the_reckoned_one():
    panel = opened(PLACES)
    arrows = [one for one in panel.frame["shown"]["pictures"][0]["series"] if one["label"] == "error"]
    assert arrows == []
    frame = tell(panel, "pick", name="taken", key="corrected")
    shaft = next(one for one in frame["shown"]["pictures"][0]["series"] if one["label"] == "error")
    assert shaft["y"] == pytest.approx([37.10, 39.70], abs=0.005)
    assert any(text["words"] == "2.6 psi too high" for text in frame["shown"]["pictures"][0]["texts"])
    assert "29.92 inHg makes it 39.7 psi abs" in frame["shown"]["sentence"]
    assert "2.6 psi too high, or 7.0 %" in frame["shown"]["sentence"]
    frame = tell(panel, "type", name="elevation", text="-1000")
    assert "too low" in frame["shown"]["sentence"]
    frame = tell(panel, "type", name="elevation", text="0")
    assert "no error, or 0.0 %" in frame["shown"]["sentence"]


@pytest.mark.parametrize(
    ("of", "said"), [(PLACES, "37.1 psi above vacuum"), (REPORT, "26.39 inHg"), (RATIO, "39.8 psi above vacuum")]
)
def test_the_words_of_the_picture_tell_the_numbers(of, said):
    assert said in opened(of).frame["shown"]["pictures"][0]["alt"]


# What cannot be, and what is kept


@pytest.mark.parametrize(
    ("of", "name", "text", "words"),
    [
        (PLACES, "boost", "-13", "below a full vacuum"),
        (PLACES, "intake_restriction", "400", "more than the whole"),
        (REPORT, "boost", "-14", "below a full vacuum"),
        (RATIO, "boost", "-15", "below a full vacuum"),
        (RATIO, "intake_restriction", "500", "more than the whole"),
    ],
)
def test_more_than_all_the_air_is_refused_in_words_and_the_panel_goes_on(of, name, text, words):
    panel = opened(of)
    frame = tell(panel, "type", name=name, text=text)
    assert words in frame["error"]["words"]
    assert tell(panel, "reset")["error"] is None


# The words of the lesson


def test_the_worked_numbers_are_the_librarys():
    assert barometer_at(5280) / INHG == pytest.approx(24.64, abs=0.005)
    assert barometer_at(3550, 1.0) == pytest.approx(0.8782, abs=5e-5)
    assert pytest.approx(0.8782, abs=5e-5) == (1 - 3550 * 0.000006876) ** 5.256
    assert pytest.approx(0.8782, abs=5e-5) == (1 - 1082 * 0.00002256) ** 5.256
    for sum_, value in (
        ("24.64 × 0.4912 = 12.1", 24.64 * 0.4912),
        ("29.10 × 0.4912 = 14.29", 29.10 * 0.4912),
        ("14.29 − 12 × 0.0361 = 13.86", 14.29 - 12 * 0.0361),
        ("14.29 + 24 + 1.5 = 39.79", 39.79),
        ("39.79 ÷ 13.86 = **2.87**", 39.79 / 13.86),
        ("274.35 ÷ 95.55 = **2.87**", 274.35 / 95.55),
        ("98.54 + 165.47 + 10.34 = 274.35", 98.54 + 165.47 + 10.34),
        ("24 ÷ 14.29 = 1.68", 24 / 14.29),
        ("98.54 − 2.99 = 95.55", 98.54 - 2.99),
        ("30.05 × 0.8782 = **26.39", 30.05 * 0.8782),
        ("101.76 × 0.8782 = **89.4", 101.76 * 0.8782),
        ("30.05 − 3.55 = **26.50", 26.50),
    ):
        assert sum_ in WORDS
        assert same(sum_.split("= ")[1].strip("*"), value), sum_
    assert pytest.approx([98.54, 165.47, 10.34, 2.99], abs=0.005) == [
        29.10 * INHG / 1e3,
        24 * PSI / 1e3,
        1.5 * PSI / 1e3,
        12 * INH2O / 1e3,
    ]
    assert pytest.approx((2.036, 27.7), abs=0.03) == (PSI / INHG, PSI / INH2O)


def test_the_rule_of_thumb_is_as_good_as_the_notes_say():
    apart = {feet: 29.92 - feet / 1000 - barometer_at(feet, 29.92) for feet in range(0, 10_001, 500)}
    assert all(abs(error) <= 0.2 for feet, error in apart.items() if feet <= 7000)
    assert apart[10_000] == pytest.approx(-0.65, abs=0.05)
    assert "within 0.2 inHg up to 7,000 ft" in NOTES.replace("\n", " ")


def test_the_pitfalls_of_the_trade_are_named():
    for said in (
        "A sealed gauge",
        "scan tool's manifold pressure** is absolute",
        "In. vacuum",
        "vented",
        "ratio of the standard atmosphere",
        "12.1 − 14.7 = −2.6 psi",
    ):
        assert said in WORDS
    assert (12.1 - 14.7, (barometer_at(5280) - 101_325) / 1e3) == pytest.approx((-2.6, -17.9), abs=0.05)


def test_the_numbers_of_the_ticket_are_true():
    assert pytest.approx(36.2) == 22 + 14.2
    station = barometer_at(5280) / PSI
    assert (24 + station, 24 + 101_325 / PSI, 24 + 24.64) == pytest.approx((36.1, 38.7, 48.6), abs=0.05)
    assert 100 * ((24 + 101_325 / PSI) / (24 + station) - 1) == pytest.approx(7, abs=0.5)
    barometer = 28.60 * INHG / PSI
    assert barometer == pytest.approx(14.05, abs=0.005)
    slips = (14.05 + 12 * INH2O / PSI, 14.05 - 12 * INH2O / PSI, (28.60 - 12) * INHG / PSI)
    assert slips == pytest.approx((14.48, 13.62, 8.15), abs=0.006)
    assert all(f"{value:.2f} psi" in {one.words for one in LESSON.ticket[2].options} for value in (14.48, 13.62, 8.15))
