"""Lesson 10: three engines on the balance, with what is held equal said and kept; guesses; the same fuel up high."""

import json

import nbformat
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.widgets.lesson_06 import opened, outcome, places_of, readouts, same
from tests.widgets.told import line, tell
from turbomath import files
from turbomath.engine import balance
from turbomath.engine.ready_engines import AIR_TO_AIR, READY
from turbomath.errors import OutOfRangeError
from turbomath.physics import atmosphere
from turbomath.pictures.bars_side_by_side import picture_bars_side_by_side
from turbomath.pictures.lying_bars import Bar, Group
from turbomath.pictures.printed import svg
from turbomath.widgets import compare_three_engines, compare_three_engines_guesses, compare_three_engines_height
from turbomath.widgets.compare_three_engines_held import (
    AIR,
    AIR_FLOW,
    BOOST,
    FUEL,
    NAMES,
    NONE,
    OWN,
    REMATCHED,
    SAME,
    place,
    three,
)
from turbomath.widgets.compare_three_engines_ticket import TICKET, ticket_compare_three_engines
from turbomath.widgets.controls import at_start

FITTED = (compare_three_engines.panel_compare_three_engines, compare_three_engines.PREDICTION)
GUESSES = (compare_three_engines_guesses.panel_closing_in, compare_three_engines_guesses.PREDICTION)
HEIGHT = (compare_three_engines_height.panel_up_high, compare_three_engines_height.PREDICTION)
each_panel = pytest.mark.parametrize("of", [FITTED, GUESSES, HEIGHT], ids=["fitted", "guesses", "height"])
LESSON = nbformat.read(files.shipped("lessons") / "10_compare_three_engines.ipynb", as_version=4)
WORDS = "\n".join(cell.source for cell in LESSON.cells if cell.cell_type == "markdown")
NOTES = (files.shipped("lessons") / "teaching_notes" / "10_compare_three_engines.md").read_text(encoding="utf-8")
CODES = {f"M{turn}" for turn in range(1, 19)}
PSI, MILE = 6894.757, 228.6
elevations, temperatures = st.floats(0.0, 3000.0), st.floats(255.0, 318.0)
many = settings(deadline=None, max_examples=15)


def balances(held, load=1.0, elevation=MILE, temperature=298.15):
    return [one for _, one in three(held, load, elevation, temperature).values()]


# What is held equal is equal


@many
@given(elevations, temperatures, st.floats(0.1, 1.1))
def test_equal_fuel_is_the_fuel_that_carries_the_load_with_air_to_air(elevation, temperature, load):
    bare, watered, cooled = balances(FUEL, load, elevation, temperature)
    assert cooled.power == pytest.approx(load * 291e3, rel=1e-6)
    assert bare.fuel_flow == watered.fuel_flow == cooled.fuel_flow


@many
@given(elevations, temperatures, st.floats(0.1, 1.0), st.sampled_from([AIR_FLOW, BOOST, REMATCHED]))
def test_equal_air_and_equal_boost_are_equal_by_a_balance_solved_afresh(elevation, temperature, load, held):
    engines = three(held, load, elevation, temperature)
    guide = engines[AIR][1]
    for engine, one in engines.values():
        if one is None:
            assert held == AIR_FLOW  # its fuel stop comes first
            continue
        again = balance.solve(engine, ambient_pressure=atmosphere.pressure(elevation), ambient_temperature=temperature,
                              engine_speed=30.0, fuel_flow=one.fuel_flow)  # fmt: skip
        name = "mass_flow" if held == AIR_FLOW else "boost"
        assert getattr(again, name) == pytest.approx(getattr(guide, name), rel=2e-6)
        if held == REMATCHED:
            assert one.fuel_flow == guide.fuel_flow
        else:
            assert engine.turbine_area == AIR_TO_AIR.turbine_area


def test_with_nothing_held_each_engine_carries_its_own_rating():
    for (name, (engine, one)), power in zip(three(OWN, 1.0, MILE, 298.15).items(), (190e3, 248e3, 291e3), strict=True):
        assert engine is READY[name]
        assert one.power == pytest.approx(power, rel=1e-6)


@pytest.mark.parametrize("root", [0.3, 1.0, 2.999, 3.0, 0.25])
def test_a_place_is_found_to_many_digits(root):
    assert place(lambda x: x**3, root**3, 0.25, 3.0) == pytest.approx(root, rel=1e-7)
    assert place(lambda x: -np.exp(x), -np.exp(root), 0.25, 3.0) == pytest.approx(root, rel=1e-7)


def test_a_place_that_is_nowhere_is_none():
    assert place(lambda x: x, 4.0, 0.0, 3.0) is None
    assert place(lambda x: x + np.nan, 1.0, 0.0, 3.0) is None


# Directions: facts of this model over its domain, and those of the trade (Watson and Janota, from memory)


@many
@given(elevations, temperatures, st.floats(0.3, 1.1))
def test_at_equal_fuel_air_to_air_has_least_boost_most_air_and_the_coolest_exhaust(elevation, temperature, load):
    bare, watered, cooled = balances(FUEL, load, elevation, temperature)
    assert cooled.boost < watered.boost < bare.boost
    assert cooled.mass_flow > max(bare.mass_flow, watered.mass_flow)
    assert cooled.turbine_inlet_temperature < min(bare.turbine_inlet_temperature, watered.turbine_inlet_temperature)
    assert cooled.pressure_ratio < min(bare.pressure_ratio, watered.pressure_ratio)


@many
@given(elevations, temperatures, st.floats(0.1, 1.0))
def test_at_equal_air_no_aftercooler_needs_more_boost_fuel_and_heat(elevation, temperature, load):
    bare, _, cooled = balances(AIR_FLOW, load, elevation, temperature)
    if bare is None:
        return
    assert bare.boost > cooled.boost
    assert bare.fuel_flow > cooled.fuel_flow
    assert bare.turbine_inlet_temperature > cooled.turbine_inlet_temperature


@many
@given(elevations, temperatures, st.floats(0.5, 1.1))
def test_at_equal_boost_the_coolest_charge_is_the_most_air(elevation, temperature, load):
    found = balances(BOOST, load, elevation, temperature)
    densities = [one.mass_flow * one.manifold_temperature for one in found]
    assert densities == pytest.approx(densities[:1] * 3, rel=1e-5)  # the same pressure in each manifold
    assert found[2].mass_flow > max(found[0].mass_flow, found[1].mass_flow)


def test_the_turbine_that_keeps_the_boost_without_a_cooler_is_wider_and_stands_in_hotter_exhaust():
    engines = three(REMATCHED, 1.0, MILE, 298.15)
    areas = [engine.turbine_area for engine, _ in engines.values()]
    heats = [one.turbine_inlet_temperature for _, one in engines.values()]
    assert areas == sorted(areas, reverse=True)
    assert heats == sorted(heats, reverse=True)


def test_at_quarter_load_jacket_water_heats_the_charge_and_takes_air():
    bare, watered, _ = balances(FUEL, 0.25)
    assert watered.manifold_temperature > watered.compressor_outlet_temperature
    assert watered.mass_flow < bare.mass_flow
    bare, watered, _ = balances(FUEL, 1.0)
    assert watered.mass_flow > bare.mass_flow


@many
@given(temperatures, st.floats(0.6, 1.0))
def test_up_high_the_gauge_hardly_moves_and_air_falls(temperature, share):
    record = at_start(compare_three_engines_height.CONTROLS)._replace(
        ambient_temperature=temperature, fuel_flow=share * AIR_TO_AIR.rated_fuel_flow)  # fmt: skip
    sea, high = compare_three_engines_height.settled(record, np.array([0.0, 3048.0]))
    assert abs(high["boost"] / sea["boost"] - 1) < 0.1
    assert 0.80 < high["mass_flow"] / sea["mass_flow"] < 0.92
    assert high["pressure_ratio"] > sea["pressure_ratio"] + 0.4
    assert high["turbine_inlet_temperature"] > sea["turbine_inlet_temperature"] + 40


# The predictions, and what the panels say


def test_fitting_a_cooler_takes_some_10_psi_and_brings_some_14_per_cent():
    told = outcome(opened(FITTED))
    bare, _, cooled = balances(FUEL)
    fall, gain = (bare.boost - cooled.boost) / PSI, 100 * (cooled.mass_flow / bare.mass_flow - 1)
    assert (fall, gain) == (pytest.approx(10.5, abs=1.0), pytest.approx(14, abs=0.5))
    assert f"It falls by {fall:.1f} psi" in told
    assert f"draws {gain:.0f} % more air" in told


@pytest.mark.parametrize("held", [FUEL, AIR_FLOW, BOOST, REMATCHED, OWN])
@pytest.mark.parametrize("system", ["us", "si"])
def test_the_sentence_says_what_is_held_equal_and_the_table_marks_it(held, system):
    panel = opened(FITTED, system)
    tell(panel, "type", name="load", text="80")
    shown = tell(panel, "pick", name="equal", key=held)["shown"]
    said = {FUEL: "fuel and turbine", AIR_FLOW: "air and turbine", BOOST: "boost and turbine",
            REMATCHED: "fuel and boost", OWN: "only the share of the rated power"}[held]  # fmt: skip
    assert shown["sentence"].startswith(f"Held equal: {said}")
    equal = [row for row in shown["tables"][0]["rows"] if row[-1] == "equal"]
    assert len(equal) == (0 if held == OWN else 2)
    assert all(len(set(row[1:4])) == 1 for row in equal)
    assert "INVENTED" in shown["pictures"][0]["title"]


@many
@given(st.data())
def test_every_number_is_the_balances(data):
    panel = PANELS[data.draw(st.sampled_from(["us", "si"]))]
    held = data.draw(st.sampled_from([FUEL, AIR_FLOW, BOOST, REMATCHED, OWN]))
    tell(panel, "pick", name="equal", key=held)
    for name in ("load", "ambient_temperature", "elevation"):
        frame = tell(panel, "slide", name=name, text=data.draw(places_of(panel, name)))
    json.dumps(frame, allow_nan=False)
    record = panel._desk.record()
    engines = three(held, record.load, record.elevation, record.ambient_temperature)
    si = panel._desk.system == "si"
    rows = {row[0].split(" [")[0]: row[1:4] for row in frame["shown"]["tables"][0]["rows"]}
    for turn, (engine, one) in enumerate(engines.values()):
        assert same(rows["turbine opening"][turn], engine.turbine_area * 1e4 / (1 if si else 6.4516))
        if one is None:
            assert {text[turn] for name, text in rows.items() if name != "turbine opening"} == {"–"}
            continue
        assert same(rows["boost"][turn], one.boost / (1e3 if si else PSI))
        assert same(rows["air"][turn], one.mass_flow * (60 if si else 60 / 0.45359237))
        assert same(rows["fuel"][turn], one.fuel_flow * (3600 if si else 3600 / 0.45359237))
        assert same(rows["T3, manifold"][turn], one.manifold_temperature - 273.15 if si else
                    1.8 * one.manifold_temperature - 459.67)  # fmt: skip
        assert same(rows["air-fuel ratio"][turn], one.air_fuel_ratio)
        assert same(rows["pressure ratio"][turn], one.pressure_ratio)
    if engines[NONE][1]:
        gain = 100 * (engines[AIR][1].mass_flow / engines[NONE][1].mass_flow - 1)
        assert same(readouts(frame)["air"].removeprefix("+"), gain)


PANELS = {system: opened(FITTED, system) for system in ("us", "si")}


def test_what_cannot_be_carried_is_said_as_such():
    panel = opened(FITTED)
    tell(panel, "type", name="load", text="110")
    shown = tell(panel, "pick", name="equal", key=AIR_FLOW)["shown"]
    assert "With no aftercooler the engine cannot be brought there: its fuel stop comes first" in shown["sentence"]
    assert "cannot" in shown["pictures"][0]["alt"]
    assert readouts(panel.frame)["boost"] == "–"
    frame = tell(panel, "type", name="load", text="200")
    assert "the air-to-air engine cannot carry 200 % of its rated power here. Set less load" in frame["error"]["words"]
    shown = tell(panel, "pick", name="equal", key=OWN)["shown"]
    assert "cannot carry this load" in shown["sentence"]
    with pytest.raises(OutOfRangeError, match="cannot carry 300 %"):
        three(FUEL, 3.0, 0.0, 298.15)


def test_exhaust_hotter_than_turbines_are_let_run_is_named():
    panel = opened(FITTED)
    assert "hotter than turbines" not in panel.frame["shown"]["sentence"]
    shown = tell(panel, "type", name="ambient_temperature", text="115")["shown"]
    assert "Over 1380 °F, hotter than turbines are commonly let run: no aftercooler." in shown["sentence"]


@pytest.mark.parametrize("cooler", NAMES)
def test_guesses_close_in_on_the_boost_of_the_balance_from_both_sides(cooler):
    record = at_start(compare_three_engines_guesses.CONTROLS)._replace(cooler=cooler)
    settled = balance.solve(SAME[cooler], ambient_pressure=atmosphere.pressure(MILE), ambient_temperature=298.15,
                            engine_speed=30.0, fuel_flow=record.fuel_flow)  # fmt: skip
    for first in (1.3, 2.0, 4.5):
        worked = compare_three_engines_guesses.guesses(record._replace(pressure_ratio=first))
        assert worked[-1].boost == pytest.approx(settled.boost, rel=2e-3)
        for one in worked[:-1]:
            assert (one.power_to_spare > 0) == (one.boost < settled.boost)
        assert abs(worked[-1].power_to_spare) < 1e-3 * worked[-1].compressor_power


def test_the_guesses_are_told_one_by_one_and_a_high_one_falls_short():
    panel = opened(GUESSES)
    assert "to spare: it speeds up" in panel.frame["shown"]["sentence"]
    frame = tell(panel, "type", name="pressure_ratio", text="4.5")
    assert "short: it slows down" in frame["shown"]["sentence"]
    table = frame["shown"]["tables"][0]
    assert [row[0] for row in table["rows"]] == [str(turn) for turn in range(1, len(table["rows"]) + 1)]
    assert readouts(frame)["guesses"] == table["rows"][-1][0]
    assert table["rows"][-1][-1] == "balanced"
    assert "between 1 and 5" in tell(panel, "type", name="pressure_ratio", text="7")["error"]["words"]


def test_more_boost_makes_the_exhaust_cooler_in_the_guesses():
    worked = sorted(compare_three_engines_guesses.guesses(at_start(compare_three_engines_guesses.CONTROLS)),
                    key=lambda one: one.boost)  # fmt: skip
    heats = [one.turbine_inlet_temperature for one in worked]
    assert heats == sorted(heats, reverse=True)


def test_the_three_panels_agree_on_one_engine():
    fitted, guessed, high = (opened(of) for of in (FITTED, GUESSES, HEIGHT))
    fuel = fitted.frame["shown"]["tables"][0]["rows"][0][3]
    boost = float(fitted.frame["shown"]["tables"][0]["rows"][2][3])
    assert float(readouts(tell(guessed, "type", name="fuel_flow", text=fuel))["boost"]) == pytest.approx(
        boost, abs=0.11
    )
    tell(high, "type", name="fuel_flow", text=fuel)
    shown = tell(high, "type", name="elevation", text="750")["shown"]
    assert f"to {boost} psi" in shown["sentence"]


# What cannot be, and what is kept


@each_panel
@settings(max_examples=15, deadline=None)
@given(st.data())
def test_whatever_is_typed_there_is_an_answer_or_a_sentence(of, data):
    panel = opened(of, data.draw(st.sampled_from(["us", "si"])))
    for name in [one["name"] for one in panel.frame["controls"] if "options" not in one]:
        text = data.draw(st.one_of(st.text(max_size=30), st.floats(-1e5, 1e5).map("{:.6g}".format), st.just("0")))
        frame = tell(panel, "type", name=name, text=text)
        json.dumps(frame, allow_nan=False)
        assert frame["notice"] == ""
        assert frame["error"] is None or "the lesson's own sums failed" not in frame["error"]["words"]


@each_panel
def test_nothing_of_the_outcome_is_there_before_a_prediction(of):
    panel, question = of
    made = panel()
    for say, words in (("keep", {}), ("answer", {"text": ""})):
        sent = json.dumps([made.opening, tell(made, say, **words)], ensure_ascii=False)
        assert made.frame["shown"] is None
        assert not any(one.reply in sent for one in question.options)


@each_panel
def test_a_case_is_kept_reset_comes_back_and_units_change_nothing(of):
    panel = opened(of)
    before = panel.frame["shown"]
    tell(panel, "keep")
    frame = tell(panel, "type", name="ambient_temperature", text="20")
    assert [one["kept"] for one in frame["shown"]["readouts"]] == [one["text"] for one in before["readouts"]]
    tell(panel, "system", system="si")
    tell(panel, "system", system="us")
    assert panel.frame["shown"] == frame["shown"]
    assert tell(panel, "reset")["shown"] == before


def test_a_number_out_of_the_lessons_range_is_said_and_kept():
    frame = tell(opened(FITTED), "type", name="ambient_temperature", text="125")
    assert "Out of range" in line(frame, "ambient_temperature")["fault"]


def test_bars_side_by_side_keep_their_facts_and_stay_apart():
    groups = [Group(name, unit, 10.0, (Bar("hot", "a", 8.0, "8"), Bar("cooled", "b", 12.0, "12")))
              for name, unit in (("boost", "psi"), ("ratio", "-"), ("air", "lb/min"))]  # fmt: skip
    picture = picture_bars_side_by_side("Bars", groups[:2], groups[2:])
    assert [fact[0] for fact in picture.rows] == ["boost [psi]"] * 2 + ["ratio"] * 2 + ["air [lb/min]"] * 2
    ends = [max(one.x) for one in picture.series if one.kind == "band"]
    starts = [min(one.x) for one in picture.series if one.kind == "band"]
    assert max(ends[:4]) < min(starts[4:])
    assert ends[0] - starts[0] == pytest.approx(8 / 12 * (ends[1] - starts[1]))


def test_the_pictures_print():
    for module in (compare_three_engines, compare_three_engines_guesses, compare_three_engines_height):
        for system in ("us", "si"):
            for picture in module.answer(at_start(module.CONTROLS), system).pictures:
                assert "<svg" in svg(picture)


# The words of the lesson


def test_the_numbers_of_the_lesson_are_the_models():
    bare, _, cooled = balances(FUEL)
    for one in (bare, cooled):
        absolute, heat = one.manifold_pressure / PSI, 1.8 * one.manifold_temperature
        assert f"| {one.boost / PSI:.1f} psi ({one.boost / 1e3:.0f} kPa) " in WORDS
        assert f"2.70 × {absolute:.1f} ÷ {heat + 0.33:.0f} = {one.manifold_pressure / 16018.46 / 287.05 / heat * 1.8:.3f}"\
            in WORDS  # fmt: skip
        assert f"{1.8 * one.turbine_inlet_temperature - 459.67:,.0f} °F" in WORDS
    gain, fall = 100 * (cooled.mass_flow / bare.mass_flow - 1), (bare.boost - cooled.boost) / PSI
    assert f"draws **{gain:.0f} % more air**, and the gauge shows **{fall:.0f} psi less**" in WORDS
    assert f"{100 * (1 - cooled.power / bare.power):.0f}"[-1:] in "23"
    assert "**less** power" in WORDS
    bare, _, cooled = balances(BOOST)
    assert 0.32 < cooled.mass_flow / bare.mass_flow - 1 < 0.35  # "a third more"


def test_the_guesses_of_the_lesson_are_the_panels():
    worked = compare_three_engines_guesses.guesses(at_start(compare_three_engines_guesses.CONTROLS))
    for turn in (1, 2, len(worked)):
        one = worked[turn - 1]
        assert f"| {turn} | {one.compressor_outlet_pressure / atmosphere.pressure(MILE):.2f} | {one.boost / PSI:.1f} psi" \
            in WORDS  # fmt: skip


@pytest.mark.parametrize("question", TICKET, ids=lambda question: question.text[:16])
def test_one_option_is_right_and_each_wrong_one_names_a_mistake(question):
    *options, last = question.options
    assert last.words == "my answer is not here"
    assert sum(one.right for one in options) == 1
    assert all(one.mistake in CODES for one in options if not one.right)
    panel, turn = ticket_compare_three_engines(), TICKET.index(question)
    for one in question.options:
        assert tell(panel, "answer", question=turn, text=one.words)["asked"][turn]["reply"] == one.reply
        tell(panel, "again", question=turn)


def test_the_numbers_of_the_ticket_are_true_in_both_systems():
    us, si = (24.0 + 14.3) / (34.5 + 14.3), (165 + 98.6) / (238 + 98.6)
    cold, cold_si = (394 + 460) / (129 + 460), (201 + 273) / (54 + 273)
    for ratio, heat, gauge in ((us, cold, 24.0 / 34.5), (si, cold_si, 165 / 238)):
        assert round(100 * (1 - ratio)) == 22
        assert ratio * heat == pytest.approx(1.14, abs=0.0051)
        assert 1 - gauge == pytest.approx(0.30, abs=0.008)
    assert us * 394 / 129 == pytest.approx(2.4, abs=0.01)
    assert si * 201 / 54 == pytest.approx(2.9, abs=0.02)
    assert (pytest.approx(0.88, abs=0.004), pytest.approx(0.88, abs=0.004)) == (34.1 / 38.7, 235 / 266)
    assert pytest.approx(0.69, abs=0.004) == 10.1 / 14.7


def test_the_lesson_says_what_is_fitted_what_is_left_out_and_who_has_the_last_word():
    for words in ("**fitted**", "**proves nothing**", "Do not. The model counts", "What else it leaves out",
                  "Which engine is best depends on the work", "the maker's rating holds"):  # fmt: skip
        assert words in WORDS
    assert [f"### Card {turn}: {name}" in WORDS for turn, name in enumerate(
        ("no aftercooler", "jacket-water", "air-to-air"), 1)] == [True] * 3  # fmt: skip
    order = [cell.id for cell in LESSON.cells]
    assert order.index("cautions") == order.index("write") + 1
    assert "90 minutes" in WORDS
    assert "90 minutes" in NOTES
    assert "Agreement there proves nothing" in NOTES


def test_what_the_cards_may_claim_is_so():
    bare, watered, cooled = balances(FUEL, 0.25)
    assert bare.mass_flow > watered.mass_flow
    own = balances(OWN)
    assert own[0].boost < min(own[1].boost, own[2].boost)
    assert own[0].pressure_ratio < min(own[1].pressure_ratio, own[2].pressure_ratio)
    frost, heat = (balances(FUEL, 1.0, MILE, (degrees + 459.67) / 1.8) for degrees in (-10, 115))
    swings = [hot.manifold_temperature - cold.manifold_temperature for cold, hot in zip(frost, heat, strict=True)]
    assert min(swings) == swings[1]
    usual = balances(FUEL)
    lost = [1 - hot.mass_flow / one.mass_flow for one, hot in zip(usual, heat, strict=True)]
    assert min(lost) == lost[1]
    assert f"some {10 * round(0.18 * swings[1])} F°" in WORDS
    assert f"some {10 * round(0.18 * swings[2])} F°" in WORDS
    ratios = [one.pressure_ratio for one in balances(AIR_FLOW, 0.75)]
    assert min(ratios) == ratios[2]
