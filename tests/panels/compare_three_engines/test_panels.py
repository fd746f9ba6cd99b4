"""Lesson 10: what its panels say, keep and refuse, and their pictures."""

import json
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.compare_three_engines.opening import FITTED, GUESSES, HEIGHT, HERE, POUND, PSI, balances
from tests.panels.opening import opened, outcome, places_of, readouts, same, shared, slid, unseen
from tests.widgets.told import line, tell
from turbomath.engine import balance
from turbomath.engine.ready_engines import AIR_TO_AIR
from turbomath.panels.compare_three_engines import guesses
from turbomath.panels.compare_three_engines.held import (
    AIR,
    AIR_FLOW,
    BOOST,
    FUEL,
    NAMES,
    NONE,
    OWN,
    REMATCHED,
    SAME,
    three,
)
from turbomath.panels.compare_three_engines.picture_bars_side_by_side import picture_bars_side_by_side
from turbomath.physics import atmosphere
from turbomath.pictures.lying_bars import Bar, Group
from turbomath.table.errors import OutOfRangeError
from turbomath.widgets.controls import at_start

EVERY = (FUEL, AIR_FLOW, BOOST, REMATCHED, OWN)


# The predictions, and what the panels say


def test_the_named_loads_are_full_and_a_quarter():
    cases = [case for _, case in shared(FITTED)._desk.sheet.cases]
    assert cases == [{"load": 1.0}, {"load": 0.25}]


def test_fitting_a_cooler_takes_some_10_psi_and_brings_some_16_per_cent():
    told = outcome(opened(FITTED))
    bare, _, cooled = balances(FUEL)
    fall, gain = (bare.boost - cooled.boost) / PSI, 100 * (cooled.mass_flow / bare.mass_flow - 1)
    assert (fall, gain) == (pytest.approx(10.5, abs=1.0), pytest.approx(16, abs=1.0))
    assert f"It falls by {fall:.1f} psi" in told
    assert f"draws {gain:.0f} % more air" in told


@pytest.mark.parametrize("held", EVERY)
@pytest.mark.parametrize("system", ["us", "si"])
def test_the_sentence_says_what_is_held_equal_and_the_table_marks_it(held, system):
    panel = opened(FITTED, system)
    tell(panel, "type", name="load", text="80")
    shown = tell(panel, "pick", name="equal", key=held)["shown"]
    said = {
        FUEL: "fuel and turbine",
        AIR_FLOW: "air and turbine",
        BOOST: "boost and turbine",
        REMATCHED: "fuel and boost",
        OWN: "only the share of the rated power",
    }[held]
    assert shown["sentence"].startswith(f"Held equal: {said}")
    equal = [row for row in shown["tables"][0]["rows"] if row[-1] == "equal"]
    assert len(equal) == (0 if held == OWN else 2)
    assert all(len(set(row[1:4])) == 1 for row in equal)
    assert "INVENTED" in shown["pictures"][0]["title"]


@given(st.data())
def test_every_number_is_the_balances(data):
    panel = shared(FITTED, data.draw(st.sampled_from(["us", "si"])))
    held = data.draw(st.sampled_from(EVERY))
    unseen(panel, "pick", name="equal", key=held)
    frame = slid(
        panel, {name: data.draw(places_of(panel, name)) for name in ("load", "ambient_temperature", "elevation")}
    )
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
        assert same(rows["air"][turn], one.mass_flow * (60 if si else 60 / POUND))
        assert same(rows["fuel"][turn], one.fuel_flow * (3600 if si else 3600 / POUND))
        assert same(
            rows["T3, manifold"][turn],
            one.manifold_temperature - 273.15 if si else 1.8 * one.manifold_temperature - 459.67,
        )
        assert same(rows["air-fuel ratio"][turn], one.air_fuel_ratio)
        assert same(rows["pressure ratio"][turn], one.pressure_ratio)
        over = one.turbine_inlet_pressure - one.manifold_pressure
        assert same(rows["exhaust pressure over manifold"][turn], over / (1e3 if si else PSI))
        assert "." not in rows["T2, compressor outlet"][turn]
    if engines[NONE][1]:
        gain = 100 * (engines[AIR][1].mass_flow / engines[NONE][1].mass_flow - 1)
        assert same(readouts(frame)["air"].removeprefix("+"), gain)


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
    assert "too hot" not in panel.frame["shown"]["sentence"]
    shown = tell(panel, "type", name="ambient_temperature", text="115")["shown"]
    assert "No aftercooler: the exhaust would be too hot: 1496 °F before the turbine" in shown["sentence"]
    assert "ambient temperature 115 °F, 2 F° above 113 °F" in shown["sentence"]  # 45 °C
    assert "the maker's manual has yours" in shown["sentence"]


@pytest.mark.parametrize("cooler", NAMES)
def test_guesses_close_in_on_the_boost_of_the_balance_from_both_sides(cooler):
    record = at_start(guesses.CONTROLS)._replace(cooler=cooler)
    settled = balance.solve(
        SAME[cooler],
        ambient_pressure=atmosphere.pressure(HERE),
        ambient_temperature=298.15,
        engine_speed=30.0,
        fuel_flow=record.fuel_flow,
    )
    for first in (1.3, 2.0, 4.5):
        worked, _ = guesses.closing_in(record._replace(pressure_ratio=first))
        assert worked[-1].boost == pytest.approx(settled.boost, rel=0.02)
        for one in worked[:-1]:
            assert (one.power_to_spare > 0) == (one.boost < settled.boost)
        assert abs(worked[-1].power_to_spare) < 0.01 * worked[-1].compressor_power


def test_the_guesses_are_told_one_by_one_and_a_high_one_falls_short():
    panel = opened(GUESSES)
    assert "to spare: it speeds up" in panel.frame["shown"]["sentence"]
    frame = tell(panel, "type", name="pressure_ratio", text="4.5")
    assert "short: it slows down" in frame["shown"]["sentence"]
    table = frame["shown"]["tables"][0]
    *rows, last = table["rows"]
    assert [row[0] for row in rows] == [str(turn) for turn in range(1, len(rows) + 1)]
    assert [row[-1] for row in rows[:2]] == ["lower", "higher"]
    assert (readouts(frame)["guesses"], rows[-1][-1]) == (str(len(rows)), "stop")
    assert (last[0], last[-2], last[2]) == ("balance", "0.0", readouts(frame)["boost"])
    assert "between 1 and 5" in tell(panel, "type", name="pressure_ratio", text="7")["error"]["words"]


def test_more_boost_makes_the_exhaust_cooler_in_the_guesses():
    worked = sorted(guesses.closing_in(at_start(guesses.CONTROLS))[0], key=lambda one: one.boost)
    heats = [one.turbine_inlet_temperature for one in worked]
    assert heats == sorted(heats, reverse=True)


def test_the_three_panels_agree_on_one_engine():
    fitted, guessed, high = (opened(of) for of in (FITTED, GUESSES, HEIGHT))
    rows = {row[0]: row[3] for row in fitted.frame["shown"]["tables"][0]["rows"]}
    fuel, boost = rows["fuel [lb/h]"], float(rows["boost [psi]"])
    frame = tell(guessed, "type", name="fuel_flow", text=fuel)
    assert float(readouts(frame)["boost"]) == pytest.approx(boost, abs=0.21)  # the fuel is shown to the pound
    tell(high, "type", name="fuel_flow", text=fuel)
    shown = tell(high, "type", name="elevation", text="750")["shown"]
    assert float(shown["pictures"][0]["rows"][1][2]) == pytest.approx(boost, abs=0.21)


def test_height_and_sea_level_stand_beside_their_own_numbers():
    frame = opened(HEIGHT).frame
    sea, high = (
        balance.solve(
            SAME[AIR],
            ambient_pressure=atmosphere.pressure(metres),
            ambient_temperature=298.15,
            engine_speed=30.0,
            fuel_flow=AIR_TO_AIR.rated_fuel_flow,
        )
        for metres in (0.0, 2438.4)
    )
    rows = [row[2] for row in frame["shown"]["pictures"][0]["rows"]]
    for text, one in zip(rows[4:6], (sea, high), strict=True):
        assert same(text, one.mass_flow * 60 / POUND)
    assert same(readouts(frame)["air"], 100 * (high.mass_flow / sea.mass_flow - 1))
    assert same(readouts(frame)["pressure ratio"].removeprefix("+"), high.pressure_ratio - sea.pressure_ratio)
    assert re.fullmatch(r"\+\d\.\d\d", readouts(frame)["pressure ratio"])


def test_the_shaft_brings_what_is_to_spare_over_what_the_compressor_takes():
    shown = opened(GUESSES).frame["shown"]
    takes, spare = (float(shown["tables"][0]["rows"][0][turn].replace("−", "-")) for turn in (6, 7))
    points = {one["label"]: one["y"] for one in shown["pictures"][0]["series"] if one["kind"] == "points"}
    assert points["compressor takes"][0] == pytest.approx(takes, abs=0.06)
    assert points["shaft brings"][0] == pytest.approx(takes + spare, abs=0.12)


# What cannot be, and what is kept


def test_a_number_out_of_the_lessons_range_is_said_and_kept():
    frame = tell(opened(FITTED), "type", name="ambient_temperature", text="125")
    assert "Out of range" in line(frame, "ambient_temperature")["fault"]


def test_bars_side_by_side_keep_their_facts_and_stay_apart():
    groups = [
        Group(name, unit, 10.0, (Bar("hot", "a", 8.0, "8"), Bar("cooled", "b", 12.0, "12")))
        for name, unit in (("boost", "psi"), ("ratio", "-"), ("air", "lb/min"))
    ]
    picture = picture_bars_side_by_side("Bars", groups[:2], groups[2:])
    assert [fact[0] for fact in picture.rows] == ["boost [psi]"] * 2 + ["ratio"] * 2 + ["air [lb/min]"] * 2
    ends = [max(one.x) for one in picture.series if one.kind == "band"]
    starts = [min(one.x) for one in picture.series if one.kind == "band"]
    assert max(ends[:4]) < min(starts[4:])
    assert ends[0] - starts[0] == pytest.approx(8 / 12 * (ends[1] - starts[1]))
