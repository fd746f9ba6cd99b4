"""Lesson 11: how far hand work, ideal, real and wet air are apart, and whether gauges can tell."""

import json
from types import SimpleNamespace

import numpy as np
import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.opening import opened, readouts, shared, slid, words
from tests.widgets.told import tell
from turbomath.panels.is_ideal_air_good_enough import models_beside as lesson
from turbomath.panels.is_ideal_air_good_enough.models import airs, apart, gauges
from turbomath.panels.is_ideal_air_good_enough.picture_left_out import picture_left_out, verdict
from turbomath.widgets.controls import at_start

IDEAL, WORDS = "is_ideal_air_good_enough", words("is_ideal_air_good_enough")
START = at_start(lesson.CONTROLS)
CASES = {name.replace("_", " "): START._replace(**values) for name, values in lesson.CASES.items()}
BARO = 101_325.0
PSI, INHG = 6894.757293168, 3386.389  # NIST Special Publication 811 (2008), appendix B


def sentence(frame):
    return frame["shown"]["sentence"].replace("\xa0", " ")


def offs(controls):
    return apart(airs(controls))


# The four airs against the outside


def by_hand(inlet, ratio, efficiency):
    """T1 [1 + (ratio^(2/7) − 1) ÷ efficiency]: Heywood (1988), section 6.8, with a heat-capacity ratio of 7/5."""
    return inlet * (1 + (ratio ** (2 / 7) - 1) / efficiency)


def by_coolprop(inlet, ratio, efficiency):
    """The same with the equation of Lemmon and others (2000), solved by CoolProp."""
    start, entropy = (PropsSI(sign, "P", BARO, "T", inlet, "Air") for sign in "HS")
    work = (PropsSI("H", "P", ratio * BARO, "S", entropy, "Air") - start) / efficiency
    return PropsSI("T", "P", ratio * BARO, "H", start + work, "Air")


def dry_part(ratio, inlet, humidity, manifold):
    """Dry air in the charge [kg/m^3] by CoolProp's humid air (Herrmann and others, 2009)."""
    water = HAPropsSI("W", "T", inlet, "P", BARO, "R", humidity)
    return 1 / HAPropsSI("Vda", "T", manifold, "P", ratio * BARO, "W", water)


@pytest.mark.parametrize(("inlet", "ratio", "efficiency"), [(300.0, 3.0, 0.74), (300.0, 5.0, 0.60), (240.0, 4.2, 0.81)])
def test_hand_work_and_real_dry_air_are_those_of_textbook_and_reference(inlet, ratio, efficiency):
    record = START._replace(ambient_temperature=inlet, pressure_ratio=ratio, compressor_efficiency=efficiency)
    found = airs(record)
    assert found["perfect"].outlet == pytest.approx(by_hand(inlet, ratio, efficiency), rel=1e-12)
    assert found["real"].outlet == pytest.approx(by_coolprop(inlet, ratio, efficiency), rel=1e-8)
    cooled = by_coolprop(inlet, ratio, efficiency) * 0.2 + inlet * 0.8  # Kays and London (1984), chapter 2
    assert found["real"].charge == pytest.approx(PropsSI("D", "P", ratio * BARO, "T", cooled, "Air"), rel=1e-8)
    perfect = by_hand(inlet, ratio, efficiency) * 0.2 + inlet * 0.8
    assert found["perfect"].charge == pytest.approx(ratio * BARO / (287.05287 * perfect), rel=1e-9)  # ISO 2533


@pytest.mark.parametrize(("inlet", "ratio", "humidity"), [(300.0, 3.0, 1.0), (305.0, 2.4, 0.71), (281.0, 3.9, 0.55)])
def test_the_water_in_the_charge_is_that_of_the_reference(inlet, ratio, humidity):
    record = START._replace(ambient_temperature=inlet, pressure_ratio=ratio, relative_humidity=humidity)
    found = airs(record)["moist"]
    assert found.condensate == 0
    # CoolProp's humid air has another edition of the virial coefficients
    assert found.charge == pytest.approx(dry_part(ratio, inlet, humidity, found.manifold), rel=1e-4)


def test_gamma_reads_a_tenth_to_five_kelvin_high_from_ratio_15_to_5():
    ratios = np.linspace(1.5, 5.0, 8)
    high = {
        share: [by_hand(300.0, one, share) - by_coolprop(300.0, one, share) for one in ratios] for share in (0.60, 0.74)
    }
    assert (high[0.74][0], high[0.60][-1]) == pytest.approx((0.1, 5.0), abs=0.2)
    for share, wanted in high.items():
        found = [
            sum(offs(CASES["dry day"]._replace(pressure_ratio=one, compressor_efficiency=share))[0])
            for one in ratios.tolist()
        ]
        assert found == pytest.approx(wanted, abs=1e-4)
        assert np.all(np.diff(found) > 0)


def test_the_real_gas_counts_little_at_300_kelvin_and_most_in_deep_cold_at_high_boost():
    for ratio in (1.5, 2.0, 3.0, 4.0, 5.0):
        outlet, charge = offs(CASES["dry day"]._replace(pressure_ratio=ratio))
        assert abs(outlet[1]) <= 0.14
        assert abs(charge[1]) <= 6e-4
    cold = offs(CASES["deep cold"])[1]
    assert cold[1] == pytest.approx(-0.0046, abs=5e-5)
    assert max(cold, key=abs) == cold[1]
    state = airs(CASES["deep cold"])["real"]
    ideal = 5 * BARO / (PropsSI("GAS_CONSTANT", "Air") / PropsSI("M", "Air") * state.manifold)
    assert ideal / PropsSI("D", "P", 5 * BARO, "T", state.manifold, "Air") - 1 == pytest.approx(cold[1], abs=2e-4)


def test_saturated_air_at_300_kelvin_costs_three_and_a_half_per_cent_and_is_the_largest():
    outlet, charge = offs(CASES["wet day"])
    share = PropsSI("P", "T", 300.0, "Q", 1, "Water") / BARO  # IAPWS-95
    assert share == pytest.approx(0.0349, abs=1e-4)
    assert charge[2] == pytest.approx(share / (1 - share), abs=1.5e-3)  # a share of the dry air that is left
    assert abs(charge[2]) > 20 * max(abs(charge[0]), abs(charge[1]))
    assert outlet[2] == pytest.approx(1.0, abs=0.05)


def test_the_gauges_are_those_of_the_standards():
    found = airs(START)["moist"]
    thermometer, density = gauges(START, found)
    assert thermometer == pytest.approx(2 * 2.2 / 3**0.5)  # ASTM E230, type K; GUM 4.3.7
    boost, barometer, manifold = 0.01 * 60 * PSI, 0.03 * INHG, 2.2  # ASME B40.100, grade A, middle half
    shares = np.array([boost / (3 * BARO), barometer / (3 * BARO), manifold / found.manifold])
    assert density == pytest.approx(2 / 3**0.5 * np.sqrt(np.sum(shares**2)), rel=1e-3)
    hot = START._replace(pressure_ratio=5.0, compressor_efficiency=0.5)
    outlet = airs(hot)["moist"]
    assert gauges(hot, outlet)[0] == pytest.approx(2 / 3**0.5 * 0.0075 * (outlet.outlet - 273.15))
    better = START._replace(grade="2A", thermocouple="special")
    assert all(one < other for one, other in zip(gauges(better, found), (thermometer, density), strict=True))


def test_from_a_ratio_of_about_four_and_a_half_a_thermometer_sees_gamma():
    def seen(ratio):
        record = CASES["dry day"]._replace(pressure_ratio=ratio)
        found = airs(record)
        return verdict(apart(found)[0][0], gauges(record, found["moist"])[0])

    assert [seen(ratio) for ratio in (1.5, 3.0, 4.4, 4.6, 5.0)] == ["inside"] * 3 + ["counts"] * 2


# What is shown


def test_the_wet_day_is_told_in_both_units():
    panel = opened(IDEAL)
    told = sentence(panel.frame)
    assert "Charge: “dry air” is most off, 3.54 % too much, more than the ± 1.8 %" in told
    assert "Outlet: “γ = 1.4”, 1.8 F° too hot, within the ± 4.6 F°" in told
    assert panel.frame["asked"][0]["outcome"].startswith("The water: left out, the dry air is 3.5 % too much")
    found = readouts(panel.frame)
    assert (found["outlet, wet air"], found["hand work, outlet"], found["hand work, charge"]) == ("346", "+3.5", "+3.5")
    told = sentence(tell(panel, "system", system="si"))
    assert "1.0 C° too hot, within the ± 2.5 C°" in told
    assert readouts(panel.frame)["outlet, wet air"] == "174"


@pytest.mark.parametrize(
    ("label", "words"),
    [
        ("dry day", "“γ = 1.4” is most off, 0.06 % too little, within"),
        ("hard squeeze", "5.7 F° too hot, more than the ± 4.6 F°"),
        ("deep cold", "“ideal gas” is most off, 0.46 % too little, within the ± 2.1 %"),
    ],
)
def test_each_case_says_what_counts(label, words):
    assert words in sentence(tell(opened(IDEAL), "case", label=label))


def test_water_that_condenses_is_told():
    panel = opened(IDEAL)
    tell(panel, "type", name="effectiveness", text="0.95")
    frame = tell(panel, "type", name="pressure_ratio", text="4")
    assert "g/kg of water form drops behind the aftercooler" in frame["shown"]["sentence"]


def test_pictures_and_tables_say_the_same():
    shown = opened(IDEAL).frame["shown"]
    models, *steps, way = shown["tables"]
    assert len(models["rows"]) == 4
    assert way["rows"] == tuple(map(tuple, shown["engines"][0]["rows"]))
    for picture, table, unit in zip(shown["pictures"], steps, ("F°", "%"), strict=True):
        assert [list(row) for row in table["rows"]] == picture["rows"]
        for name, off, told in picture["rows"]:
            assert f"{name}: {off} {unit}, {told}." in picture["alt"]
            assert f"{off} {unit}, {told}" in [one["words"] for one in picture["texts"]]
    total = float(models["rows"][0][-1])
    parts = [float(row[1].replace("−", "-")) for row in shown["pictures"][1]["rows"]]
    assert sum(parts) == pytest.approx(total, abs=0.02)


@pytest.mark.parametrize("off", [-7.3, -0.2, 0.0, 1.9, 4.4])
def test_a_bar_begins_at_zero_and_is_as_long_as_its_number(off):
    picture = picture_left_out("Bars", (("one", off), ("two", 1.0), ("three", 0.5)), 2.0, "gauges", "%", most=5.0)
    bars = {one.label: one.x for one in picture.series if one.kind == "band"}
    zero, reach = 50.0, (bars["two"][1] - bars["two"][0])
    low, high = bars["one"]
    assert (low, high) == pytest.approx(sorted((zero, zero + off * reach)))
    assert bars["gauges"] == pytest.approx((zero - 2 * reach, zero + 2 * reach))
    assert picture.rows[0][2] == ("counts" if abs(off) > 2 else "inside")


# Trends


@given(st.floats(285, 318), st.floats(1.5, 3.5), st.floats(0.1, 0.85), st.floats(0.6, 0.84))
def test_more_water_more_squeeze_and_a_poorer_wheel_put_hand_work_further_off(inlet, ratio, humidity, efficiency):
    record = START._replace(
        ambient_temperature=inlet,
        pressure_ratio=ratio,
        relative_humidity=humidity,
        compressor_efficiency=efficiency,
        effectiveness=0.5,
    )
    outlet, charge = offs(record)
    assert offs(record._replace(relative_humidity=humidity + 0.1))[1][2] > charge[2]
    assert offs(record._replace(pressure_ratio=ratio + 0.2))[0][0] > outlet[0]
    assert offs(record._replace(compressor_efficiency=efficiency - 0.05))[0][0] > outlet[0]
    assert sum(outlet) > 0


def test_dry_air_has_no_water_to_leave_out():
    outlet, charge = offs(CASES["dry day"])
    assert (outlet[2], charge[2]) == pytest.approx((0.0, 0.0), abs=1e-12)


# What cannot be, and what is kept


@given(st.data())
def test_wherever_the_sliders_stand_there_is_an_answer(data):
    panel, texts = shared(IDEAL, data.draw(st.sampled_from(["us", "si"]))), {}
    for control in [one for one in panel.frame["controls"] if "position" in one]:
        steps = round((control["high"] - control["low"]) / control["step"])
        place = control["low"] + data.draw(st.sampled_from([0, 1, steps // 2, steps])) * control["step"]
        texts[control["name"]] = f"{place:.10g}"
    frame = slid(panel, texts)
    if frame["error"]:
        assert "60 psi" in frame["error"]["words"] or "beyond these models" in frame["error"]["words"]
    json.dumps(frame, allow_nan=False)


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("pressure_ratio", "0.8", "nothing is squeezed"),
        ("pressure_ratio", "7", "the boost gauge ends at 60 psi"),
        ("ambient_temperature", "-60", "from −40 to 131 °F"),
        ("ambient_temperature", "180", "from −40 to 131 °F"),
        ("compressor_efficiency", "0.1", "beyond these models"),
    ],
)
def test_what_no_model_reaches_is_refused_in_a_sentence(name, text, words):
    assert words in tell(opened(IDEAL), "type", name=name, text=text)["error"]["words"]


# The words of the lesson


def test_the_table_of_the_lesson_is_that_of_the_models():
    for day, ratio, humidity in (
        ("dry, ratio 1.5", 1.5, 0),
        ("dry, ratio 3", 3, 0),
        ("dry, ratio 5", 5, 0),
        ("saturated, ratio 3", 3, 1),
    ):
        outlet, charge = offs(START._replace(pressure_ratio=float(ratio), relative_humidity=float(humidity)))
        cells = next(row for row in WORDS.splitlines() if row.startswith(f"| {day} |")).split("|")[2:-1]
        found = [float(cell.split()[0].replace("−", "-")) for cell in cells]
        assert found == pytest.approx([*outlet, *(100 * one for one in charge)], abs=0.0051), day


def test_the_worked_numbers_are_true():
    factor = 1.369
    assert pytest.approx(factor, abs=5e-4) == 3**0.286
    assert (300 * factor, 540 * factor) == pytest.approx((410.7, 739.3), abs=0.05)
    assert pytest.approx((449.6, 809.3), abs=0.05) == (300 + 110.7 / 0.74, 540 + 199.3 / 0.74)
    assert pytest.approx((4.6, 2.5), abs=0.05) == (2 * 4.0 / 3**0.5, 2 * 2.2 / 3**0.5)
    assert pytest.approx((0.035, 0.035), abs=5e-4) == (0.513 / 14.70, 3.54 / 101.3)
    found = airs(CASES["wet day"])
    kelvin = [found[name].outlet for name in ("perfect", "real", "moist")]
    assert [f"{one * 1.8 - 459.67:.0f}" for one in kelvin] == ["349", "348", "346"]
    assert [f"{one - 273.15:.0f}" for one in kelvin] == ["176", "175", "174"]
    for said in ("**349 °F**", "**348 °F**", "**346 °F**", "−0.46 %", "5.2 C° too hot"):
        assert said in WORDS
    poor = offs(CASES["hard squeeze"]._replace(compressor_efficiency=0.6))[0][0]
    assert poor == pytest.approx(5.2, abs=0.05)


def test_the_numbers_of_the_ticket_are_true():
    vapour = PropsSI("P", "T", (80 + 459.67) / 1.8, "Q", 1, "Water")  # IAPWS-95
    assert (vapour / PSI, vapour / 1e3) == pytest.approx((0.51, 3.5), abs=0.02)
    assert pytest.approx((0.035, 0.035), abs=5e-4) == (0.51 / 14.7, 3.5 / 101.3)
    by_weight = HAPropsSI("W", "T", (80 + 459.67) / 1.8, "P", BARO, "R", 1.0)
    assert by_weight == pytest.approx(0.022, abs=5e-4)
    record = SimpleNamespace(**CASES["deep cold"]._asdict())
    assert abs(apart(airs(record))[1][1]) == pytest.approx(0.005, abs=1e-3)


def test_what_matters_is_said():
    for said in ("Water matters most", "read the humidity", "The real gas blamed", "Compare with the ± first"):
        assert said in WORDS
