"""Lesson 00 as a student uses it: cautions first, the drawing, the gauge, typing, the run-up; by keyboard and mouse."""

import re

import pytest

from tests.browser.pages import afresh, in_sight, live, painted, panel, plain, pop_ups, settled
from tests.browser.walk import Walk, predict

NAME = "00_start_here"
STATIONS, WHERE, GAUGE, TYPING, RUN_UP, TICKET = range(6)
TWO_OF_22, TWO_OF_60 = "0.4 psi (3 kPa): 2 % of 22", "1.2 psi (8 kPa): 2 % of 60"
ENOUGH = ">100, and it is enough"


def told(page, pattern, number=GAUGE):
    words = re.compile(pattern.replace(" ", r"\s"))
    panel(page, number).get_by_role("status").filter(has_text=words).wait_for()


def typed(page, number, text):
    """Type a reading into one box of the trainer and send it by Enter."""
    box = panel(page, TYPING).get_by_role("textbox").nth(number)
    box.fill(text)
    box.press("Enter")
    return box


def unfold(page):
    panel(page, RUN_UP).focus()
    page.keyboard.press("t")
    typed(page, 0, "24.5 pis")
    typed(page, 1, "77 F")
    panel(page, TYPING).get_by_text("The nearest is 'psi'").wait_for()
    panel(page, STATIONS).get_by_role("button", name="table").click()


def ends(page):
    gauge = panel(page, GAUGE)
    for span, division, psi in (("60", "1", "22"), ("15", "0.2", "0"), ("100", "5", "100"), ("30", "0.5", "30")):
        gauge.get_by_role("combobox", name="scale").select_option(span)
        gauge.get_by_role("combobox", name="smallest division").select_option(division)
        box = gauge.get_by_role("textbox", name="boost, number")
        box.fill(psi)
        box.press("Enter")
        told(page, rf"reads {psi}.0 psi")
        settled(page)
        yield f"{psi} psi"


WALK = Walk(
    answers=(
        (GAUGE, TWO_OF_60, "± 1.2 psi"),
        (RUN_UP, ENOUGH, "It counts as at least 100: enough to judge a least"),
    ),
    sliders={GAUGE: ["boost"]},
    turns=(("± 0.8 psi", "The grade speaks of the whole span", "± 2 psi"),),
    controls=45,
    unfold=unfold,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_the_lesson_opens_at_its_top_with_the_cautions_before_anything_else(page, screenshot):
    page.reload()
    live(page)
    panel(page, TICKET).wait_for()
    painted(page)
    assert in_sight(page, page.get_by_role("heading", level=1))
    parts = ("Caution 1 of", "we have read this", "Talk it through", "Four places where")
    order = [page.get_by_text(words).locator("visible=true").first.bounding_box()["y"] for words in parts]
    assert order == sorted(order)
    for number in (2, 3):
        page.get_by_role("button", name="we have read this").click()
        page.get_by_text(f"Caution {number} of").wait_for()
    page.get_by_role("button", name="show all, to print").click()
    page.get_by_text("Stop at once").locator("visible=true").first.wait_for()
    assert panel(page, GAUGE).locator("svg").count() == 0
    assert pop_ups(page) == 0
    page.get_by_role("heading", name="Before anybody starts an engine").evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_cautions")


def test_the_drawing_has_words_for_eyes_and_without_them(page, screenshot):
    figure = panel(page, STATIONS)
    alt = figure.get_by_role("img").get_attribute("aria-label")
    assert "compressor outlet (2): hot, squeezed" in alt
    told(page, "338 °F .170 °C.; after the aftercooler it is at 132 °F", STATIONS)
    table = figure.get_by_role("table")
    assert not table.is_visible()
    figure.get_by_role("button", name="table").focus()
    page.keyboard.press("t")
    table.wait_for()
    assert table.get_by_role("row").nth(4).inner_text().split("\t")[0] == "manifold (3)"
    figure.evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_stations")


def test_the_gauge_by_keyboard_gives_the_two_specimens(page):
    main = panel(page, GAUGE).get_by_role("button", name="this is my prediction")
    main.focus()
    page.keyboard.press("Enter")
    panel(page, GAUGE).get_by_text("Choose one answer first").wait_for()
    predict(page, GAUGE, TWO_OF_22)
    kept = plain(panel(page, GAUGE).get_by_role("group", name="your prediction and the outcome"))
    assert f"You predicted: {TWO_OF_22}" in kept
    assert "± 1.2 psi" in kept
    assert "not of what it reads" in kept
    told(page, "within 1.2 psi, which is 5.5 % of the reading")
    slider = panel(page, GAUGE).get_by_role("slider", name="boost", exact=True)
    slider.focus()
    page.keyboard.press("Home")
    told(page, "reads 0.0 psi")
    for _ in range(6):
        page.keyboard.press("ArrowRight")
    told(page, "reads 3.0 psi, in the lowest quarter.*within 1.8 psi, which is 60 % of the reading")
    grade = panel(page, GAUGE).get_by_role("combobox", name="grade")
    grade.focus()
    page.keyboard.press("Home")
    told(page, "reads 3.0 psi.*within 0.06 psi, which is 2 % of the reading")
    page.keyboard.press("A")
    told(page, "within 1.2 psi, which is 40 %")


def test_the_gauge_by_mouse_scale_grade_units_and_a_kept_case(page, screenshot):
    predict(page, GAUGE, TWO_OF_60)
    gauge = panel(page, GAUGE)
    gauge.get_by_role("button", name="go to 3 psi").click()
    told(page, "60 % of the reading")
    gauge.get_by_role("button", name="keep this case").click()
    gauge.get_by_role("combobox", name="scale").select_option("15")
    told(page, "within 0.45 psi, which is 15 %")
    gauge.get_by_text("kept: 60").wait_for()
    gauge.evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_kept")
    gauge.get_by_role("radio", name="SI", exact=True).check()
    told(page, "reads 20.7 kPa.*within 3.1 kPa, which is 15 %")
    gauge.get_by_role("radio", name="US", exact=True).check()
    slider = gauge.get_by_role("slider", name="boost", exact=True)
    slider.scroll_into_view_if_needed()
    at = slider.bounding_box()
    page.mouse.move(at["x"] + at["width"] * 0.05, at["y"] + at["height"] / 2)
    page.mouse.down()
    page.mouse.move(at["x"] + at["width"] * 0.8, at["y"] + at["height"] / 2, steps=8)
    page.mouse.up()
    gauge.get_by_role("alert").filter(has_text="beyond the scale, which ends at 15.0").wait_for()
    screenshot(page, f"{NAME}_error")
    gauge.get_by_role("button", name="reset").click()
    told(page, "reads 22.0 psi.*5.5 %")


def test_typing_is_read_or_refused_and_the_box_stays(page, screenshot):
    trainer = panel(page, TYPING)
    box = typed(page, 0, "24,5 psi")
    trainer.get_by_role("status").filter(has_text="Read as boost 24.5 psi = 168.92 kPa.").wait_for()
    assert box.evaluate("node => node === document.activeElement")
    typed(page, 0, "24.5 pis")
    trainer.get_by_text("The nearest is 'psi'").wait_for()
    assert not trainer.get_by_text("Read as boost").is_visible()
    typed(page, 1, "77 F")
    trainer.get_by_text("77 °F = 25 °C").wait_for()
    typed(page, 2, "12 in H2O")
    trainer.get_by_text("12 inH2O = 2.9891 kPa").wait_for()
    typed(page, 3, "<img src=x onerror=document.title='run'>")
    trainer.get_by_text("expected a number, then its unit").wait_for()
    assert page.title() != "run"
    assert trainer.locator("img").count() == 0
    trainer.evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_typing")


def test_the_run_up_opens_after_an_answer_and_shows_limits_and_zeros(page, screenshot):
    predict(page, RUN_UP, ENOUGH)
    told(page, "No idle reading passes a limit.*>100 counts as at least 100 psi", RUN_UP)
    page.keyboard.press("t")
    idle, zeros = (panel(page, RUN_UP).get_by_role("table").nth(turn) for turn in (0, 1))
    zeros.wait_for()
    assert idle.get_by_role("row").nth(2).inner_text().split("\t")[3:] == [">100", "at least 40", "within"]
    assert "oil pressure\t2 psi\t± 3 psi\tfine" in plain(zeros)
    panel(page, RUN_UP).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_run_up")


def test_tickets_name_the_mistake_and_let_one_try_again(page):
    ticket = panel(page, TICKET)
    ticket.get_by_role("radio", name="± 0.8 psi").check()
    ticket.get_by_role("button", name="check").first.click()
    ticket.get_by_text("The grade speaks of the whole span").wait_for()
    ticket.get_by_role("button", name="try again").click()
    ticket.get_by_role("radio", name="± 2 psi").check()
    ticket.get_by_role("button", name="check").first.click()
    ticket.get_by_text("5 % of the reading").wait_for()
    where = panel(page, WHERE)
    where.get_by_role("radio", name="compressor outlet (2)").check()
    where.get_by_role("button", name="check").first.click()
    where.get_by_text("squeezed, hot, and not yet cooled").wait_for()


def test_controls_picture_and_sentence_are_in_sight_together(page, screenshot):
    predict(page, GAUGE, TWO_OF_22)
    gauge = panel(page, GAUGE)
    gauge.evaluate("node => node.scrollIntoView()")
    painted(page)
    seen = [
        gauge.get_by_role("slider", name="boost", exact=True),
        gauge.get_by_role("combobox", name="grade"),
        gauge.locator("svg").first,
        gauge.locator("svg").nth(1),
        gauge.locator(".tm-sentence"),
        gauge.get_by_role("button", name="reset"),
    ]
    assert [in_sight(page, one) for one in seen] == [True] * 6
    screenshot(page, NAME)
