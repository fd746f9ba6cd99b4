"""Lesson 09 as a student uses it: a guess and a reason, a reading paid for, the bill, the answer; and on the wall."""

import pytest

from tests.browser.pages import afresh, button, choose, panel, settled, told
from tests.browser.walk import Walk, predict_all

NAME = "09_find_the_fault"
JOBS = range(6)
ANSWERS = (
    (0, "a worn turbine", "pay for the reading that would prove it wrong"),
    (1, "a charge leak", "Ask what else would show the same"),
    (2, "a dirty compressor", "which readings part them?"),
    (3, "too little fuel", "would other gauges have to move with it?"),
    (4, "a plugged air filter", "look for what tells them apart"),
    (5, "too much fuel", "More boost is not more power"),
)


def pay(page, item, number, guess="a gauge that is wrong"):
    """Pay for a reading or a test: a guess and a reason first."""
    choose(page, "now I think", guess, number)
    choose(page, "because of", "a hunch", number)
    choose(page, "next I pay for", item, number)


def ends(page):
    for number in JOBS:
        pay(page, "boost, 5 min", number)
        pay(page, "turbine inlet temperature, 10 min", number)
        pay(page, "Leak test of the charge pipes and the cooler, 30 min", number)
    settled(page)
    yield "paid"
    for number in JOBS:
        pay(page, "nothing more: open the answer", number)
        told(page, "Cheapest way", number)
    settled(page)
    yield "answer"


WALK = Walk(
    answers=ANSWERS,
    turns=(
        ("an aftercooler plugged inside", "The loss over it would be up", "a charge leak after the aftercooler"),
        ("average it with the healthy run", "is wrong too", "read that temperature a second way"),
        ("take the manifold off", "Nobody takes a part off", "look for soot first, by the maker's manual"),
    ),
    controls=60,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_a_reading_is_paid_for_after_a_guess_and_a_reason_and_the_bill_is_kept(page, screenshot):
    predict_all(page, ANSWERS)
    choose(page, "next I pay for", "boost, 5 min", 4)
    told(page, "what do you think now, and because of what", 4)
    screenshot(page, f"{NAME}_waits")
    choose(page, "now I think", "worn turbine or bearings", 4)
    choose(page, "because of", "a hunch", 4)
    told(page, "5 minutes spent. Last: boost", 4)
    pay(page, "Leak test of the charge pipes and the cooler, 30 min", 4)
    told(page, "35 minutes spent", 4)
    told(page, "Stay at or below the maker's test pressure", 4)
    button(page, "table", 4).click()
    panel(page, 4).get_by_role("table").first.wait_for()
    panel(page, 4).scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_bill")
    pay(page, "Turn and feel the turbocharger's shaft, 30 min", 4)
    told(page, "65 minutes spent", 4)
    panel(page, 4).focus()
    page.keyboard.press("p")
    for _ in range(2):
        settled(page)
        page.keyboard.press("PageDown")
    settled(page)
    choose(page, "now I think", "worn turbine or bearings", 4)
    choose(page, "next I pay for", "exhaust back pressure, 15 min", 4)
    told(page, "80 minutes spent", 4)
    settled(page)
    screenshot(page, f"{NAME}_wall")
    page.keyboard.press("Escape")
    pay(page, "nothing more: open the answer", 4, "charge leak after the cooler")
    told(page, "You named it", 4)
    told(page, "What would have fooled you", 4)
    screenshot(page, f"{NAME}_answer")
