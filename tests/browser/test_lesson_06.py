"""Lesson 06 as a student uses it: swallow, fill, burn up to the smoke, pay for the boost; by keyboard and by mouse."""

import pytest

from tests.browser.pages import afresh, button, choose, enter, panel, settled, slider, told
from tests.browser.walk import Walk, predict_all, slider_names

NAME = "06_air_fuel_and_power"
SWALLOW, FILLING, SMOKE, PAYS, WHEEL, WAIT = range(6)
ANSWERS = (
    (SWALLOW, "none: the same cubic feet are the same air", "34 % more: 61.3 lb/min in place of 45.8 lb/min"),
    (FILLING, "the ÷ 2 of the four-stroke was forgotten", "On the density outside it is 2.06"),
    (SMOKE, "460 hp (343 kW): half of the gain", "The air allows 520 hp in place of 400 hp"),
    (PAYS, "the crankshaft, by way of a belt", "The exhaust pays 83 hp"),
    (WHEEL, "less: hot gas is thin", "91 hp in place of 83 hp"),
    (WAIT, "at once: the fuel makes the boost", "Half after 0.5 s, 90 % after 2.0 s"),
)
EDGES = {  # what is typed into each panel, so that bars and points are at their ends
    SWALLOW: ("engine speed", ("600", "2400")),
    FILLING: ("mass flow", ("0", "110")),
    SMOKE: ("smoke limit", ("16", "30")),
    PAYS: ("turbine efficiency", ("0.5", "0.85")),
    WHEEL: ("exhaust back pressure", ("0", "15")),
    WAIT: ("load", ("30", "110")),
}


def ends(page):
    for turn in (0, 1):
        for system in ("US", "SI"):
            for number, (name, texts) in EDGES.items():
                panel(page, number).get_by_role("radio", name=system, exact=True).check()
                enter(page, name, texts[turn], number)
            settled(page)
            yield f"end {turn} {system}"


WALK = Walk(
    answers=ANSWERS,
    sliders={
        SWALLOW: ["manifold temperature", "boost", "engine speed", "displacement"],
        FILLING: ["mass flow", "manifold temperature", "boost", "engine speed"],
        SMOKE: ["mass flow", "power", "specific fuel consumption", "smoke limit"],
        PAYS: ["turbine inlet temperature", "turbine efficiency", "compressor outlet temperature", "mass flow"],
        WHEEL: ["turbine inlet temperature", "exhaust back pressure", "turbine efficiency", "mass flow"],
        WAIT: ["load", "rotor inertia"],
    },
    turns=(
        ("122.5 lb (55.6 kg)", "once in two turns", "61.3 lb (27.8 kg)"),
        ("14.7", "petrol with a spark", "24.8"),
        ("0.578 lb/hp·h (351 g/kW·h)", "1.26 minutes", "0.347 lb/hp·h (211 g/kW·h)"),
        ("72 hp (54 kW), the exhaust", "32 from a difference", "83 hp (62 kW), the exhaust"),
    ),
    controls=60,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_the_specimens_units_and_the_table(page, screenshot):
    predict_all(page, ANSWERS)
    told(page, "61.3 lb/min of air, 33.9 % more than at 330 °F", SWALLOW)
    button(page, "keep this case", SWALLOW).click()
    button(page, "go to not cooled", SWALLOW).click()
    told(page, "45.8 lb/min of air, as much as at 330 °F", SWALLOW)
    panel(page, SWALLOW).get_by_text("kept: 61.3").wait_for()
    button(page, "reset", SWALLOW).click()
    panel(page, SWALLOW).locator("summary").get_by_text("more", exact=True).click()
    choose(page, "working cycle", "two-stroke", SWALLOW)
    told(page, "1800 times a minute", SWALLOW)
    panel(page, SWALLOW).get_by_role("radio", name="SI", exact=True).check()
    told(page, "55.6 kg/min of air", SWALLOW)
    button(page, "reset", SWALLOW).click()
    slider(page, slider_names(page, SWALLOW)[0], SWALLOW).focus()
    page.keyboard.press("t")
    panel(page, SWALLOW).get_by_role("table").first.wait_for()
    screenshot(page, f"{NAME}_table")
    told(page, "efficiency 0.87 on manifold density", FILLING)
    for case, words in (
        ("430 hp", "430 hp runs at 24.8"),
        ("435 hp", "435 hp runs at 24.0"),
        ("30 % more air", "More fuel would give 520 hp"),
    ):
        button(page, f"go to {case}", SMOKE).click()
        told(page, words, SMOKE)
    told(page, "0.6 psi under the manifold", PAYS)
    button(page, "go to worn turbine", PAYS).click()
    told(page, "10.7 psi over the manifold", PAYS)
    enter(page, "power", "600", SMOKE)
    told(page, "It smokes", SMOKE)
