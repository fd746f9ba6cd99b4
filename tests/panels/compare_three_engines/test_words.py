"""Lesson 10: the numbers and the words of the notebook, the ticket and the teaching notes are true."""

import re

import pytest

from tests.panels.compare_three_engines.opening import HERE, POUND, PSI, balances
from tests.panels.opening import notes, words
from turbomath.panels.compare_three_engines import guesses
from turbomath.panels.compare_three_engines.held import AIR_FLOW, BOOST, FUEL, OWN
from turbomath.physics import atmosphere
from turbomath.widgets.controls import at_start

WORDS, NOTES = words("compare_three_engines"), notes("compare_three_engines")


def fahrenheit(temperature):
    """Return a temperature [K] in °F."""
    return 1.8 * temperature - 459.67


# The words of the lesson


def row(text, name):
    """Return the cells of the row of this name, each as its numbers; thousands lose their comma, a minus is real."""
    cells = next(one for one in text.splitlines() if one.startswith(f"| {name} ")).split("|")[2:-1]
    return [
        [float(found.replace(",", "").replace("−", "-")) for found in re.findall(r"[−\d][\d,]*\.?\d*", cell)]
        for cell in cells
    ]


def test_the_numbers_of_the_lesson_are_the_models_rounded():
    bare, _, cooled = balances(FUEL)
    sums = re.findall(r"2\.70 × ([\d.]+) ÷ (\d+) = ([\d.]+) lb/ft³ \(([\d.]+) kg/m³\)", WORDS)
    for turn, (one, found) in enumerate(zip((bare, cooled), sums, strict=True)):
        psi, rankine, density, si = map(float, found)
        assert density == pytest.approx(2.70 * psi / rankine, abs=5.1e-4)
        assert si == pytest.approx(16.018 * density, abs=0.015)
        assert psi == pytest.approx(one.manifold_pressure / PSI, rel=0.03)
        assert row(WORDS, "boost")[turn] == pytest.approx((one.boost / PSI, one.boost / 1e3), rel=0.04)
        assert row(WORDS, "air")[turn] == pytest.approx((one.mass_flow * 60 / POUND, one.mass_flow * 60), rel=0.02)
        for name, kelvin in (
            ("manifold temperature", one.manifold_temperature),
            ("exhaust before the turbine", one.turbine_inlet_temperature),
        ):
            assert row(WORDS, name)[turn] == pytest.approx((fahrenheit(kelvin), kelvin - 273.15), rel=0.02)
    gain, fall = 100 * (cooled.mass_flow / bare.mass_flow - 1), (bare.boost - cooled.boost) / PSI
    said = re.search(r"draws \*\*(\d+) % more air\*\*, and the gauge shows \*\*some (\d+) psi", WORDS)
    assert tuple(map(float, said.groups())) == (pytest.approx(gain, abs=0.8), pytest.approx(fall, abs=1.0))
    more = float(re.search(r"gives air-to-air some (\d) % \*\*more\*\* power", WORDS).group(1))
    assert more == pytest.approx(100 * (cooled.power / bare.power - 1), abs=0.8)
    bare, _, cooled = balances(BOOST)
    assert 0.32 < cooled.mass_flow / bare.mass_flow - 1 < 0.35  # "a third more"


def test_the_pressures_and_coolings_of_the_lesson_multiply():
    ratio, cooling, product = map(float, re.search(r"([\d.]+) × ([\d.]+) = \*\*([\d.]+)\*\*", WORDS).groups())
    assert ratio * cooling == pytest.approx(product, abs=0.0051)
    (_, first, first_rankine), (_, second, second_rankine) = [
        (0, *map(float, found)) for found in re.findall(r"2\.70 × ([\d.]+) ÷ (\d+)", WORDS)
    ]
    assert second / first == pytest.approx(ratio, abs=5.1e-4)
    assert first_rankine / second_rankine == pytest.approx(cooling, abs=5.1e-4)


def test_the_guesses_of_the_lesson_are_the_panels_rounded():
    worked, rest = guesses.closing_in(at_start(guesses.CONTROLS))
    told = float(re.search(r"There is one boost between, about (\d+) psi", WORDS).group(1))
    assert told == pytest.approx(rest.boost / PSI, abs=0.6)
    for turn, one in enumerate(worked[:3], 1):
        ratio, boost, air, heat, takes, spare = (cell[0] for cell in row(WORDS, str(turn)))
        assert ratio == pytest.approx(one.compressor_outlet_pressure / atmosphere.pressure(HERE), abs=0.0051)
        assert boost == pytest.approx(one.boost / PSI, abs=0.3)
        assert air == pytest.approx(one.mass_flow * 60 / POUND, rel=0.02)
        assert heat == pytest.approx(fahrenheit(one.turbine_inlet_temperature), rel=0.02)
        assert takes == pytest.approx(one.compressor_power / 745.7, rel=0.03)
        assert spare == pytest.approx(one.power_to_spare / 745.7, abs=2.0)


def test_the_answers_for_the_cards_are_the_models():
    bare, watered, cooled = balances(FUEL)
    heat = balances(FUEL, 1.0, HERE, (115 + 459.67) / 1.8)
    told = re.search(r"loses (\d+) % of its air, air-to-air (\d+) %, none (\d+) %", NOTES).groups()
    lost = [100 * (1 - hot.mass_flow / one.mass_flow) for one, hot in zip((bare, watered, cooled), heat, strict=True)]
    assert [float(one) for one in told] == pytest.approx([lost[1], lost[2], lost[0]], abs=0.8)
    quarter, quarter_watered, _ = balances(FUEL, 0.25)
    less = float(re.search(r"(\d+) % \*\*less\*\* air than no aftercooler", NOTES).group(1))
    assert less == pytest.approx(100 * (1 - quarter_watered.mass_flow / quarter.mass_flow), abs=0.8)
    carries, needs = map(float, re.search(r"kPa\) carries ([\d.]+) lb/min.* for ([\d.]+) \|", NOTES).groups())
    assert (carries, needs) == tuple(pytest.approx(one.mass_flow * 60 / POUND, rel=0.02) for one in (cooled, bare))


def test_the_numbers_of_the_ticket_are_true_in_both_systems():
    us, si = (24.0 + 14.3) / (33.7 + 14.3), (165 + 98.6) / (232 + 98.6)
    cold, cold_si = (395 + 460) / (129 + 460), (202 + 273) / (54 + 273)
    for ratio, heat, gauge in ((us, cold, 24.0 / 33.7), (si, cold_si, 165 / 232)):
        assert round(100 * (1 - ratio)) == 20
        assert ratio * heat == pytest.approx(1.16, abs=0.0051)
        assert 1 - gauge == pytest.approx(0.29, abs=0.008)
    assert us * 395 / 129 == pytest.approx(2.44, abs=0.01)
    assert si * 202 / 54 == pytest.approx(2.98, abs=0.02)
    assert (pytest.approx(0.88, abs=0.004), pytest.approx(0.88, abs=0.004)) == (34.1 / 38.7, 235 / 266)
    assert pytest.approx(0.69, abs=0.004) == 10.1 / 14.7


def test_the_lesson_says_what_is_fitted_what_is_left_out_and_who_has_the_last_word():
    for said in (
        "**fitted**",
        "**proves nothing**",
        "With care. The model gives air-to-air",
        "What else it leaves out",
        "Which engine is best depends on the work",
        "the maker's rating holds",
    ):
        assert said in WORDS
    assert [
        f"### Card {turn}: {name}" in WORDS
        for turn, name in enumerate(("no aftercooler", "jacket-water", "air-to-air"), 1)
    ] == [True] * 3
    assert "Agreement there proves nothing" in NOTES


def test_what_the_cards_may_claim_is_so():
    bare, watered, _ = balances(FUEL, 0.25)
    assert bare.mass_flow > watered.mass_flow
    own = balances(OWN)
    assert own[0].boost < min(own[1].boost, own[2].boost)
    assert own[0].pressure_ratio < min(own[1].pressure_ratio, own[2].pressure_ratio)
    frost, heat = (balances(FUEL, 1.0, HERE, (degrees + 459.67) / 1.8) for degrees in (-10, 115))
    swings = [hot.manifold_temperature - cold.manifold_temperature for cold, hot in zip(frost, heat, strict=True)]
    assert min(swings) == swings[1]
    usual = balances(FUEL)
    lost = [1 - hot.mass_flow / one.mass_flow for one, hot in zip(usual, heat, strict=True)]
    assert min(lost) == lost[1]
    told = re.search(r"moves by some (\d+) F° .* with air-to-air by some (\d+) F°", WORDS).groups()
    assert [float(one) for one in told] == pytest.approx([1.8 * swing for swing in swings[1:]], abs=8)
    ratios = [one.pressure_ratio for one in balances(AIR_FLOW, 0.75)]
    assert min(ratios) == ratios[2]
