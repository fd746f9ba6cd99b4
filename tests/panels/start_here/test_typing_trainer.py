"""The typing trainer: a reading as the shop writes it is read to the digit, the rest is refused in a sentence."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.widgets.told import tell
from turbomath import units
from turbomath.panels.start_here.typing_trainer import BOXES, reading, told, trainer
from turbomath.table.errors import TurbomathError

PLACES = {box.quantity: turn for turn, box in enumerate(BOXES)}


# NIST Special Publication 811 (2008), appendix B: psi, inH2O (4 °C), inHg (0 °C)
@pytest.mark.parametrize(
    ("quantity", "text", "words"),
    [
        ("boost", "24,5 psi", "24.5 psi = 168.92 kPa"),
        ("boost", " 24.5psi ", "24.5 psi = 168.92 kPa"),
        ("boost", "1.7 bar", "24.656 psi = 170 kPa"),
        ("boost", ">60 psi", "boost at least 60 psi"),
        ("boost", "−2 psi", "−2 psi = −13.79 kPa"),
        ("ambient_temperature", "77 F", "77 °F = 25 °C"),
        ("ambient_temperature", "77F", "77 °F = 25 °C"),
        ("ambient_temperature", "25 degrees C", "77 °F = 25 °C"),
        ("ambient_temperature", "-40 °C", "−40 °F = −40 °C"),
        ("intake_restriction", "12 in H2O", "12 inH2O = 2.9891 kPa"),
        ("intake_restriction", '12 "H2O', "2.9891 kPa"),
        ("barometer", "29,10 inHg", "29.1 inHg = 98.544 kPa"),
        ("barometer", "1 013,2 hPa", "29.92 inHg = 101.32 kPa"),
    ],
)
def test_a_shop_spelling_is_read(quantity, text, words):
    frame = tell(trainer(), "answer", question=PLACES[quantity], text=text)["asked"][PLACES[quantity]]
    assert frame["fault"] == ""
    assert words in frame["reply"]
    assert frame["said"] == text.strip()


@pytest.mark.parametrize(
    ("quantity", "text", "words"),
    [
        ("boost", "24.5", "without a unit"),
        ("boost", "24.5 pis", "The nearest is 'psi'"),
        ("boost", "", "then its unit"),
        ("boost", "twenty psi", "expected a number"),
        ("boost", "1,234 psi", "It could be 1234 or 1.234"),
        ("boost", "20 psi abs", "counts from the barometer"),
        ("boost", "20 ± 1 psi", "U+00B1"),
        ("boost", "<60 psi", "a number"),
        ("boost", "0.1 MPa", "give kPa or bar"),
        ("boost", "3 \u0440si", "U+0440"),
        ("boost", "9" * 99 + " psi", "103 characters"),
        ("ambient_temperature", "77 degrees", "expected °F"),
        ("ambient_temperature", "-500 F", "cannot be"),
        ("ambient_temperature", "12 psi", "is a unit of pressure"),
        ("intake_restriction", "12 F", "is a unit of temperature"),
        ("barometer", "14.7 psi gauge", "counts from vacuum"),
        ("barometer", "0 inHg", "cannot be"),
        ("barometer", "1,013 hPa", "It could be 1013 or 1.013"),
    ],
)
def test_anything_else_is_refused_in_one_plain_sentence(quantity, text, words):
    frame = tell(trainer(), "answer", question=PLACES[quantity], text=text)["asked"][PLACES[quantity]]
    assert words in frame["fault"]
    assert frame["fault"][0].isupper() or not frame["fault"][0].isalpha()
    assert (frame["said"], frame["reply"]) == ("", "")


def test_a_box_stays_and_each_try_replaces_the_one_before():
    widget = trainer()
    assert all(one["stays"] for one in widget.opening["questions"])
    assert "24.5 psi" in tell(widget, "answer", text="24,5 psi")["asked"][0]["reply"]
    frame = tell(widget, "answer", text="24.5 pis")["asked"][0]
    assert frame["fault"]
    assert frame["reply"] == ""
    frame = tell(widget, "answer", text="1.7 bar")["asked"][0]
    assert "24.656 psi" in frame["reply"]
    assert frame["fault"] == ""
    assert tell(widget, "answer", question=1, text="77 F")["asked"][0]["said"] == "1.7 bar"


def test_what_is_rare_is_said_and_not_changed():
    assert told("9999 psi", "boost").endswith("That is rare: check the number and the unit.")
    assert "9999 psi" in told("9999 psi", "boost")


@given(st.sampled_from(sorted(PLACES)), st.text(max_size=60))
def test_no_text_breaks_a_box(quantity, text):
    frame = tell(trainer(), "answer", question=PLACES[quantity], text=text)
    one = frame["asked"][PLACES[quantity]]
    assert frame["notice"] == ""
    assert bool(one["fault"]) != bool(one["reply"])
    json.dumps(frame, allow_nan=False)


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script> psi",
        "__import__('os') psi",
        "1 psi; 2 psi",
        "=1+1 psi",
        "\x00 1 psi",
        "1\n2 psi",
        "１２ psi",
        "1 psi\u202e",
        "nan psi",
        "inf psi",
        "1e999 psi",
        ">",
        ">>5 psi",
        "psi 5",
    ],
)
def test_hostile_text_is_refused_in_one_short_sentence(text):
    with pytest.raises(TurbomathError) as refusal:
        reading(text, "boost")
    assert len(str(refusal.value)) < 300
    assert "\n" not in str(refusal.value)
    assert "Traceback" not in str(refusal.value)


@given(st.floats(-9999, 9999).map(lambda value: round(value, 2)), st.sampled_from(units.spellings("boost")))
def test_what_is_read_is_what_was_typed(value, unit):
    assert reading(f"{value} {unit}", "boost") == pytest.approx(units.to_si(value, unit, "boost"), rel=1e-12)
