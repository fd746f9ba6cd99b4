"""Lesson 05 as a student uses it: predict, move, pick a run, read an own folder, compare; by keyboard and mouse."""

import csv
import re
import shutil
import subprocess
import sys

import pytest

from tests.browser.pages import cells, leaving, live, pop_ups
from tests.browser.test_lesson_03 import CUT, KEYS, NAMED, NARROW, OVERLAPS, in_sight, plain, serious
from tests.widgets.test_what_the_engine_gains_runs import NAMES, RUNS, SLIPS, agrees, hotter, place_broken
from turbomath import files

NAME = "05_what_the_engine_gains"
GAUGES, THREE, COST, TICKET = range(4)
AIR = "generator_air_to_air"


@pytest.fixture
def page(open_lesson):
    page = open_lesson(NAME)
    part(page, TICKET).wait_for()
    return page


@pytest.fixture
def own(classroom):
    """Return ``own(name)``: a fresh place for a run in the work folder; it is gone after the test."""
    made = []

    def place(name):
        made.extend(classroom.work / one for one in (name, f"{name}-report"))
        return made[-2]

    yield place
    for folder in made:
        shutil.rmtree(folder, ignore_errors=True)


def part(page, number):
    return page.locator(".tm").nth(number)


def predict(page, number=GAUGES, option="about 168 %"):
    """Enter a prediction by keyboard and wait for the picture."""
    part(page, number).get_by_role("radio", name=option).focus()
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    part(page, number).locator("svg").first.wait_for()


def told(page, pattern, number=GAUGES):
    """Wait until the sentence in words matches."""
    words = re.compile(pattern.replace(" ", r"\s"))
    part(page, number).locator(".tm-sentence").filter(has_text=words).wait_for(timeout=15_000)


def choose(page, label, option, number=GAUGES):
    part(page, number).get_by_label(label, exact=True).select_option(option)


def read(page, folder):
    """Type the name of a folder and send it by Enter."""
    choose(page, "readings", "own")
    box = part(page, GAUGES).get_by_role("textbox", name="folder")
    box.fill(folder)
    box.press("Enter")


def slider(page, name, number=GAUGES):
    return part(page, number).get_by_role("slider", name=name, exact=True)


def box(page, name, number=GAUGES):
    return part(page, number).get_by_role("textbox", name=f"{name}, number")


def readouts(page, number=GAUGES):
    texts = part(page, number).locator(".tm-readouts b").all_inner_texts()
    return [text.replace("\xa0", " ") for text in texts]


def command_line(work, *arguments):
    """Run the command line in the work folder, as the user would."""
    command = [sys.executable, "-m", "turbomath", *arguments]
    return subprocess.run(command, capture_output=True, encoding="utf-8", cwd=work, timeout=120)


def test_nothing_is_drawn_until_a_prediction_is_entered_by_keyboard(page):
    for number, option, outcome in ((GAUGES, "about 68 %", "About 145 % denser"),
                                    (THREE, "it rises", "It falls, here from"),
                                    (COST, "no: less boost", "Yes: 27.5 % more air is left of 33.9 %")):  # fmt: skip
        assert part(page, number).locator("svg").count() == 0
        assert outcome not in plain(part(page, number))
        predict(page, number, option)
        kept = part(page, number).get_by_role("group", name="your prediction and the outcome")
        assert kept.evaluate("node => node === document.activeElement")
        assert outcome in plain(kept)


@pytest.mark.parametrize("name", ["boost", "ambient temperature", "barometer", "effectiveness"])
def test_each_slider_moves_by_keyboard_and_by_mouse(page, name):
    predict(page)
    handle = slider(page, name)
    seen = [part(page, GAUGES).locator(".tm-sentence").inner_text()]
    for key in ("Home", "End", "PageDown", "ArrowLeft", "ArrowLeft", "ArrowLeft", "ArrowUp"):
        handle.focus()
        page.keyboard.press(key)
        page.wait_for_timeout(250)
        seen.append(part(page, GAUGES).locator(".tm-sentence").inner_text())
    assert len(set(seen)) >= 5
    handle.scroll_into_view_if_needed()
    at = handle.bounding_box()
    page.mouse.click(at["x"] + 0.3 * at["width"], at["y"] + at["height"] / 2)
    page.wait_for_timeout(400)
    assert float(box(page, name).input_value().replace("−", "-")) == pytest.approx(float(handle.input_value()))


@pytest.mark.parametrize("name", RUNS)
def test_the_lesson_and_the_command_line_show_the_same_numbers(page, classroom, own, name):
    report = own(name).with_name(f"{name}-report")
    done = command_line(classroom.work, "report", name)
    assert done.returncode == 0
    with (report / "reduced.csv").open(encoding="utf-8-sig", newline="") as stream:
        expected = {row["point"]: row for row in csv.DictReader(stream)}
    page_text = (report / "report.html").read_text(encoding="utf-8").replace("\xa0", " ")
    predict(page)
    choose(page, "readings", name)
    points = part(page, GAUGES).get_by_label("point", exact=True)
    points.wait_for()
    options = points.locator("option").all_inner_texts()
    assert len(options) >= 7
    for turn, option in enumerate(options):
        points.select_option(index=turn)
        point = option.split(":")[0]
        told(page, rf"Point {point}, ")
        texts, row = readouts(page), expected[point]
        assert all(agrees(text, row, column) for text, column in zip(texts, NAMES, strict=False))
        assert texts[3] == row["agree"]
        assert all(text in page_text for text in texts[:3])
        assert all(text in done.stdout for text in texts[:3])
    shutil.rmtree(report)


def test_an_own_folder_agrees_a_hotter_one_does_not_and_its_report_is_a_click_away(page, own, classroom, screenshot):
    shutil.copytree(files.shipped("data") / AIR, own("mine"))
    hotter(own("hot_run"), 60)
    predict(page)
    read(page, "mine")
    told(page, "measured 143 ± 5 %, theory 144 ± 6 %. They agree: the difference, −1 ± 4 %")
    part(page, GAUGES).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_agree")
    read(page, "hot_run")
    told(page, "They do not agree.*Furthest from its design: effectiveness 0.564 ± 0.020, design 0.8")
    assert readouts(page)[3] == "no"
    screenshot(page, f"{NAME}_disagree")
    notes = plain(part(page, GAUGES).locator(".tm-notes"))
    assert notes.index("Limits of the maker, first") < notes.index("AMBER point 2")
    assert "look for a fouled core" in notes
    part(page, GAUGES).get_by_role("button", name="make the report").click()
    part(page, GAUGES).get_by_text(f"Written: {classroom.work / 'hot_run-report' / 'report.html'}").wait_for()
    with page.expect_popup() as opened:
        part(page, GAUGES).get_by_role("link", name="open the report").click()
    opened.value.get_by_text("−23 ± 4").first.wait_for()
    screenshot(opened.value, f"{NAME}_report")
    assert leaving([opened.value.url]) == []


@pytest.mark.parametrize("slip", list(SLIPS)[:10])
def test_a_refused_folder_shows_the_command_lines_sentence_and_the_lesson_goes_on(page, own, classroom, slip):
    place_broken(own("broken"), slip)
    refused = command_line(classroom.work, "report", "broken")
    assert refused.returncode == 1
    predict(page)
    read(page, "broken")
    alert = part(page, GAUGES).locator(".tm-readings").get_by_role("alert")
    alert.filter(has_text="found").wait_for()
    assert plain(alert) == f"! {refused.stderr.strip()}"
    slider(page, "boost").focus()
    page.keyboard.press("End")
    told(page, "At 40.0 psi of boost, theory says")
    choose(page, "readings", AIR)
    told(page, "They agree")
    assert not alert.is_visible()


def test_the_readings_are_reached_by_keyboard_alone(page, own, screenshot):
    shutil.copytree(files.shipped("data") / AIR, own("mine"))
    predict(page)
    run = part(page, GAUGES).get_by_label("readings", exact=True)
    run.focus()
    page.keyboard.type("a folder")
    page.keyboard.press("Tab")
    page.keyboard.type("nowhere")
    page.keyboard.press("Enter")
    part(page, GAUGES).get_by_text("nowhere: found 'no such folder', expected a run folder").wait_for()
    part(page, GAUGES).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_refused")
    page.keyboard.press("Control+a")
    page.keyboard.type("mine")
    page.keyboard.press("Enter")
    told(page, "Point 7.*They agree")
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("ArrowUp")
    told(page, "Point 6")


def test_the_sliders_go_to_the_point_and_a_case_is_kept(page, screenshot):
    predict(page)
    choose(page, "readings", "generator_jacket_water")
    told(page, "measured 110 ± 4 %")
    part(page, GAUGES).get_by_role("button", name="set the sliders to this point").click()
    part(page, GAUGES).locator(".tm-readouts b").get_by_text("111.1").wait_for()
    assert box(page, "effectiveness").input_value() == "0.75"
    part(page, GAUGES).get_by_role("button", name="keep this case").click()
    part(page, GAUGES).get_by_text("kept: 111.1").wait_for()
    choose(page, "readings", "")
    told(page, "theory says")
    part(page, GAUGES).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_kept")


def test_three_aftercoolers_at_equal_boost_equal_air_and_equal_density(page, screenshot):
    predict(page, THREE, "it stays")
    told(page, "15.3 % more air with jacket-water and 33.4 % more air with air-to-air", THREE)
    assert readouts(page, THREE)[:3] == ["24.0"] * 3
    part(page, THREE).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_equal_boost")
    choose(page, "compare at", "air", THREE)
    told(page, "18.4 psi with jacket-water and 13.6 psi with air-to-air.*Less boost, the same air", THREE)
    choose(page, "compare at", "density", THREE)
    told(page, "30.8 psi with jacket-water, and 45.4 psi without", THREE)
    screenshot(page, f"{NAME}_equal_density")
    choose(page, "compare at", "boost", THREE)
    box(page, "compressor efficiency", THREE).fill("0,60")
    box(page, "compressor efficiency", THREE).press("Enter")
    part(page, THREE).locator(".tm-readouts b").get_by_text("37.2").wait_for()
    slider(page, "boost", THREE).focus()
    page.keyboard.press("t")
    table = part(page, THREE).get_by_role("table", name="The three engines in numbers")
    assert "139.4" in table.get_by_role("row").nth(3).inner_text()


def test_the_trade_and_its_break_even(page, screenshot):
    predict(page, COST, "about 34 %")
    assert readouts(page, COST) == ["27.5", "9.6", "2880", "12.9", "34.2"]
    box(page, "cooler pressure loss", COST).fill("9.6")
    box(page, "cooler pressure loss", COST).press("Enter")
    told(page, "A loss of 9.6 psi would take it all", COST)
    part(page, COST).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_cost")


def test_the_exit_ticket_names_the_mistake_and_lets_one_try_again(page, screenshot):
    ticket = part(page, TICKET)
    ticket.get_by_role("radio", name="29.1 %").check()
    ticket.get_by_role("button", name="check").nth(1).click()
    ticket.get_by_text("multiply 1.339 by 0.952").wait_for()
    ticket.get_by_role("button", name="try again").click()
    ticket.get_by_role("radio", name="27.5 %").check()
    ticket.get_by_role("button", name="check").nth(1).click()
    ticket.get_by_text("1.339 × 0.952 = 1.275").wait_for()


def open_all(page):
    for number, option in ((GAUGES, "about 168 %"), (THREE, "it stays"), (COST, "about 34 %")):
        predict(page, number, option)
    read(page, AIR)
    told(page, "They agree")
    for number in (GAUGES, THREE, COST):
        part(page, number).locator("summary").first.click()


def test_no_key_changes_the_notebook_whatever_control_has_the_focus(page):
    open_all(page)
    before = cells(page)
    controls = page.locator(".tm").locator("input:visible, button:visible, summary:visible, select:visible, a:visible")
    count = controls.count()
    assert count > 60
    for turn in range(count):
        controls.nth(turn % controls.count()).focus()
        for key in KEYS:
            page.keyboard.press(key)
    page.wait_for_timeout(700)  # the notebook waits for a second letter
    assert cells(page) == before
    assert pop_ups(page) == 0


def test_every_control_has_a_name_and_a_focus_that_is_seen(page):
    open_all(page)
    controls = page.locator(".tm").locator("input:visible, button:visible, summary:visible, select:visible")
    for turn in range(controls.count()):
        control = controls.nth(turn)
        name = control.evaluate(NAMED)
        assert name.strip(), control.evaluate("node => node.outerHTML")
        control.focus()
        page.keyboard.press("Shift")  # the last doing was by keyboard, so the focus is shown
        style = control.evaluate("node => [getComputedStyle(node).outlineStyle, getComputedStyle(node).outlineWidth]")
        assert style == ["solid", "3px"], name


@pytest.mark.parametrize("open_it", [False, True], ids=["before", "after"])
def test_axe_finds_no_serious_problem(page, open_it):
    if open_it:
        open_all(page)
        read(page, "nowhere")
        part(page, GAUGES).get_by_text("no such folder").wait_for()
        page.keyboard.press("Tab")
        for number in (GAUGES, THREE, COST):
            part(page, number).get_by_role("button", name="table").click()
    assert serious(page) == []


def test_when_python_is_gone_the_lesson_comes_back(page, classroom):
    predict(page)
    part(page, GAUGES).evaluate("node => { node.dataset.old = 'yes' }")
    classroom.kill_kernels()
    choose(page, "readings", AIR)
    part(page, GAUGES).get_by_text("Python does not answer").wait_for(timeout=10_000)
    page.locator(".tm:not([data-old])").first.wait_for(timeout=60_000)
    live(page)
    predict(page)
    choose(page, "readings", AIR)
    told(page, "They agree")


def test_the_picture_the_sentence_and_the_readings_are_in_sight_together(page, requests, screenshot):
    predict(page)
    choose(page, "readings", AIR)
    told(page, "They agree")
    part(page, GAUGES).focus()
    part(page, GAUGES).evaluate("node => node.scrollIntoView()")
    page.wait_for_timeout(300)
    first = part(page, GAUGES)
    parts = [slider(page, "boost"), slider(page, "effectiveness"), first.get_by_label("readings", exact=True),
             first.locator("svg").first, first.locator("svg").nth(1), first.locator(".tm-sentence"),
             first.locator(".tm-readouts"), first.get_by_role("button", name="reset")]  # fmt: skip
    assert [in_sight(page, one) for one in parts] == [True] * len(parts)
    assert leaving(requests) == []
    assert pop_ups(page) == 0
    screenshot(page, NAME)


@pytest.mark.parametrize("size", [{}, NARROW], ids=["whole", "200 %"])
def test_nothing_is_cut_and_no_words_of_the_pictures_overlap(open_lesson, own, size, screenshot):
    hotter(own("hot_run"), 60)
    page = open_lesson(NAME, **size)
    zoom = "zoom" if size else "whole"
    open_all(page)
    for folder in (*RUNS, "hot_run"):
        read(page, folder)
        told(page, "Point")
        page.wait_for_timeout(500)
        assert page.evaluate(CUT) == [], folder
        assert page.evaluate(OVERLAPS) == [], folder
        part(page, GAUGES).locator(".tm-readings").evaluate("node => node.scrollIntoView()")
        screenshot(page, f"{NAME}_{folder}_{zoom}")
    for equal in ("boost", "air", "density"):
        choose(page, "compare at", equal, THREE)
        page.wait_for_timeout(500)
        assert page.evaluate(OVERLAPS) == [], equal
    for psi in ("2", "40"):
        box(page, "boost", THREE).fill(psi)
        box(page, "boost", THREE).press("Enter")
        page.wait_for_timeout(500)
        assert page.evaluate(OVERLAPS) == [], psi
    for number in (THREE, COST):
        part(page, number).locator("svg").first.scroll_into_view_if_needed()
        screenshot(page, f"{NAME}_panel_{number}_{zoom}")
