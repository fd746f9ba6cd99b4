"""Every number on the panel is the library's, over the whole range of each control, in both systems of units."""

import functools
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.opening import number, same, slid, unseen
from tests.widgets.told import line, opened, tell
from turbomath.physics import charge

# NIST Special Publication 811 (2008), appendix B: exact factors, but the last figures of the psi
PSI, POUND_PER_CUBIC_FOOT = 6894.757293168, 0.45359237 / 0.3048**3
BAROMETER = 14.2 * PSI
TO_SI = {
    "us": (lambda psi: psi * PSI, lambda f: (f + 459.67) / 1.8),
    "si": (lambda kpa: kpa * 1e3, lambda c: c + 273.15),
}
A, B = (20 * PSI, 759.67 / 1.8), (15 * PSI, 579.67 / 1.8)


@functools.cache
def shared(system):
    panel = opened()
    tell(panel, "system", system=system)
    return panel


def places_of(control):
    return st.integers(0, round((control["high"] - control["low"]) / control["step"])).map(
        lambda turn: f"{control['low'] + turn * control['step']:.10g}"
    )


@st.composite
def cases(draw):
    system = draw(st.sampled_from(["us", "si"]))
    frame = shared(system).frame
    return system, *(draw(places_of(line(frame, name))) for name in ("boost", "manifold_temperature"))


@given(cases())
def test_every_number_equals_the_library_to_its_last_digit(case):
    system, boost_text, temperature_text = case
    frame = slid(shared(system), {"boost": boost_text, "manifold_temperature": temperature_text})
    boost, temperature = (convert(float(text)) for convert, text in zip(TO_SI[system], case[1:], strict=True))
    density, of_a, of_b = (charge.density(gauge + BAROMETER, kelvin) for gauge, kelvin in ((boost, temperature), A, B))
    per_density = POUND_PER_CUBIC_FOOT if system == "us" else 1.0
    pressure = (boost + BAROMETER) / (PSI if system == "us" else 1e3)
    absolute = temperature * (1.8 if system == "us" else 1.0)
    expected = (pressure, absolute, density / per_density, 100 * (density / of_a - 1), 100 * (density / of_b - 1))
    shown = frame["shown"]
    for readout, value in zip(shown["readouts"], expected, strict=True):
        assert same(readout["text"], value), readout
    words = shown["sentence"]
    assert same(re.search(r"holds ([\d.]+)", words)[1], expected[2])
    for label, gain in zip("AB", expected[3:], strict=True):
        told = re.search(rf"([\d.]+) % (more|less) than {label}", words)
        assert same(told[1], abs(gain)) if told else abs(gain) < 0.05
        assert not told or (told[2] == "more") == (gain > 0)
    row = shown["tables"][0]["rows"][2]
    assert same(row[4], expected[2])
    assert same(row[2], pressure)
    point = shown["pictures"][0]["series"][-1]
    assert point["x"][0] == pytest.approx(float(temperature_text), abs=1e-9)
    assert point["y"][0] == pytest.approx(float(boost_text), abs=1e-9)
    assert line(frame, "boost")["fault"] == line(frame, "manifold_temperature")["fault"] == ""


def test_the_two_manifolds_of_the_question_are_those_of_the_shop_formula():
    """2.70 p/T with 460: the shop's rounding of ISO 2533's gas constant (common practice)."""
    rows = shared("us").frame["shown"]["tables"][0]["rows"]
    assert number(rows[0][4]) == pytest.approx(2.70 * 34.2 / 760, rel=1e-3)
    assert number(rows[1][4]) == pytest.approx(2.70 * 29.2 / 580, rel=1e-3)
    assert (rows[0][4], rows[1][4]) == ("0.1215", "0.1360")


def test_the_table_twin_names_the_units_of_the_system():
    assert shared("us").frame["shown"]["tables"][0]["heads"][4] == "density [lb/ft³]"
    assert shared("si").frame["shown"]["tables"][0]["heads"][4] == "density [kg/m³]"


@pytest.mark.parametrize(("system", "boost"), [("us", "17.3"), ("si", "0.7")])
def test_switching_units_a_hundred_times_changes_nothing(system, boost):
    panel = opened()
    tell(panel, "system", system=system)
    tell(panel, "slide", name="boost", text=boost)
    tell(panel, "type", name="manifold_temperature", text="123,4")
    before, record = panel.frame, panel._desk.record()
    for _ in range(50):
        unseen(panel, "system", system="si" if system == "us" else "us")
        unseen(panel, "system", system=system)
    tell(panel, "system", system=system)
    assert panel._desk.record() == record
    assert panel.frame == before
    assert line(panel.frame, "manifold_temperature")["text"] == "123,4"
