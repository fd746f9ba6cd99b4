"""The gauge of lesson 00: what a grade allows, as pressure and as a share of the reading, is the library's."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.opening import asked, number, opened, outcome, readouts, shared, unseen
from tests.widgets.told import line, tell
from turbomath.panels.start_here.reading_a_gauge import CONTROLS, two_figures
from turbomath.uncertainty import Instrument, accuracy, tolerance

PSI = 6894.757293168  # NIST Special Publication 811 (2008), appendix B
# ASME B40.100, per cent of span: lowest quarter, middle half, highest quarter
GRADES = {
    "4A": (0.1, 0.1, 0.1),
    "3A": (0.25, 0.25, 0.25),
    "2A": (0.5, 0.5, 0.5),
    "1A": (1, 1, 1),
    "A": (2, 1, 2),
    "B": (3, 2, 3),
    "C": (4, 3, 4),
    "D": (5, 5, 5),
}


def gauge(**picked):
    panel = opened("start_here", option=1)
    for name, key in picked.items():
        tell(panel, "pick", name=name, key=key)
    return panel


@pytest.mark.parametrize(("psi", "half", "share"), [("22", "1.2", "5.5"), ("3", "1.8", "60")])
def test_the_two_specimens(psi, half, share):
    """0 to 60 psi, grade B: 2 % of 60 over 22, and 3 % of 60 over 3."""
    frame = tell(gauge(), "type", name="boost", text=psi)
    found = readouts(frame)
    assert (found["grade allows ±"], found["of reading ±"]) == (half, share)
    assert f"within {half} psi, which is {share} % of the reading" in frame["shown"]["sentence"]


def test_the_buttons_go_to_the_two_specimens_whatever_was_set():
    panel = gauge(grade="4A", span="100", division="5")
    assert readouts(tell(panel, "case", label="3 psi, no load"))["of reading ±"] == "60"
    assert readouts(tell(panel, "case", label="22 psi, at load"))["of reading ±"] == "5.5"


@pytest.mark.parametrize("grade", GRADES)
@pytest.mark.parametrize(("part", "place"), [(0.1, 0), (0.25, 0), (0.26, 1), (0.74, 1), (0.75, 2), (0.9, 2)])
def test_each_grade_allows_what_the_standard_prints(grade, part, place):
    panel = shared("start_here")
    for name, key in (("grade", grade), ("span", "30"), ("division", "1")):
        unseen(panel, "pick", name=name, key=key)
    frame = tell(panel, "type", name="boost", text=f"{30 * part:g}")
    found, words = readouts(frame), ("lowest quarter", "middle half", "highest quarter")[place]
    assert f"in the {words} of the scale" in frame["shown"]["sentence"]
    assert frame["shown"]["tables"][0]["rows"][-1][1] == words
    assert number(found["grade allows ±"]) == pytest.approx(30 * GRADES[grade][place] / 100, rel=0.05)
    assert number(found["of reading ±"]) == pytest.approx(GRADES[grade][place] / part, rel=0.05)


keys = {one.name: st.sampled_from([key for key, _ in one.options]) for one in CONTROLS[1:]}


def either_way(value):
    """Return what *value* may be shown as: a tie such as 3.75 is rounded by its last bit."""
    return {two_figures(value * (1 + tip)) for tip in (-1e-9, 0, 1e-9)}


@given(st.sampled_from(["us", "si"]), st.floats(0, 1), keys["grade"], keys["span"], keys["division"])
def test_every_number_equals_the_library_to_its_last_digit(system, part, grade, span, division):
    panel, unit = shared("start_here", system), PSI if system == "us" else 1e3
    for name, key in (("grade", grade), ("span", span), ("division", division)):
        unseen(panel, "pick", name=name, key=key)
    text = f"{float(span) * PSI * part / unit:.4f}"
    frame = tell(panel, "type", name="boost", text=text)
    if frame["error"]:
        assert "beyond the scale" in frame["error"]["words"]
        assert float(text) * unit > float(span) * PSI
        return
    reading, end, step = float(text) * unit, float(span) * PSI, float(division) * PSI
    instrument = Instrument(span=(0.0, end), grade=grade, resolution=((float("inf"), step / 2),))
    half, whole = float(accuracy(instrument, reading)), tolerance(instrument, reading)
    expected = [half / unit, 100 * half / reading if reading else None, step / 4 / unit, whole / unit]
    for one, value in zip(frame["shown"]["readouts"], expected, strict=True):
        assert one["text"] in ({"–"} if value is None else either_way(value))
    own = frame["shown"]["tables"][0]["rows"][-1]
    assert own[2] in either_way(half / unit)
    band = next(one for one in frame["shown"]["pictures"][0]["series"] if one["kind"] == "band")
    assert band["x"] == pytest.approx([(reading - half) / unit, (reading + half) / unit], abs=1e-6)
    json.dumps(frame, allow_nan=False)


def test_the_share_falls_along_each_part_of_the_scale():
    frame = tell(gauge(), "slide", name="boost", text="30")
    curve = next(one for one in frame["shown"]["pictures"][1]["series"] if one["kind"] == "line")
    for low, high in ((0, 15), (15.1, 44.9), (45, 60)):
        share = [y for x, y in zip(curve["x"], curve["y"], strict=True) if low <= x <= high]
        assert len(share) > 20
        assert share == sorted(share, reverse=True)


def test_a_reading_of_zero_has_a_band_and_no_per_cent():
    frame = tell(gauge(), "slide", name="boost", text="0")
    assert frame["error"] is None
    assert readouts(frame)["of reading ±"] == "–"
    assert frame["shown"]["sentence"].endswith("within 1.8 psi.")
    json.dumps(frame, allow_nan=False)


@pytest.mark.parametrize(("text", "words"), [("61", "ends at 60.0 psi"), ("-2", "starts at 0")])
def test_off_the_scale_is_said_in_words_and_the_panel_goes_on(text, words):
    panel = gauge()
    frame = tell(panel, "type", name="boost", text=text)
    assert words in frame["error"]["words"]
    assert "22.0 psi" in frame["shown"]["sentence"]
    assert tell(panel, "type", name="boost", text="22")["error"] is None


def test_a_wider_scale_takes_the_reading_that_was_beyond():
    panel = gauge()
    assert tell(panel, "type", name="boost", text="70")["error"]
    frame = tell(panel, "pick", name="span", key="100")
    assert frame["error"] is None
    assert readouts(frame)["grade allows ±"] == "2"


@pytest.mark.parametrize(
    "message",
    [
        {"name": "grade", "key": "E"},
        {"name": "boost", "key": "22"},
        {"name": "grade"},
        {"name": "grade", "key": ["B"]},
        {"name": "__class__", "key": "B"},
    ],
)
def test_an_option_that_is_not_on_the_list_changes_nothing(message):
    panel = gauge()
    before = panel._desk.record()
    assert tell(panel, "pick", **message)["notice"]
    assert panel._desk.record() == before
    assert tell(panel, "slide", name="grade", text="B")["notice"]


def test_reset_picks_what_was_picked_at_the_start_and_units_change_no_key():
    panel = gauge(grade="D", span="15")
    tell(panel, "system", system="si")
    assert line(panel.frame, "grade")["key"] == "D"
    assert ["60", "0 to 413.7 kPa (0 to 60 psi)"] in line(panel.frame, "span")["options"]
    frame = tell(panel, "reset")
    assert [line(frame, name)["key"] for name in ("grade", "span", "division")] == ["B", "60", "1"]


def test_a_kept_gauge_stands_beside_the_next():
    panel = gauge()
    tell(panel, "keep")
    frame = tell(panel, "pick", name="grade", key="A")
    assert [one["kept"] for one in frame["shown"]["readouts"][:2]] == ["1.2", "5.5"]
    assert frame["shown"]["readouts"][0]["text"] == "0.6"


def test_the_prediction_names_per_cent_of_span_and_false_precision():
    options = asked("start_here").options
    assert {one.mistake for one in options} == {"M13", "M18", ""}
    assert [one.words for one in options if one.right] == ["1.2 psi (8 kPa): 2 % of 60"]
    assert "20.8 psi to 23.2 psi" in outcome(gauge())
