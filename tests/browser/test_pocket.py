"""Lesson 03 as one file, opened from the disk without a network: by touch on a phone, by keyboard on a PC."""

import json
import random
from pathlib import Path

import pytest

from tests.browser.conftest import PICTURES
from tests.browser.firefox import ARROW_RIGHT, ENTER, FIREFOX, firefox
from tests.browser.pages import PHONE, WHOLE, box, button, cut, overlaps, panel, plain, serious, slider, told
from tests.browser.walk import KEPT, predict
from tests.pocket.replayed import ANSWERED, OPEN, alive, answered, differences, messages
from turbomath.panels.hot_air_is_thin import LESSON, panel_hot_air_is_thin
from turbomath.pocket import written
from turbomath.pocket.plan import Plan

A = "A: 20 psi (138 kPa) of boost, 300 °F (149 °C)"
NAME, STATES = "panel_hot_air_is_thin", 60


@pytest.fixture(scope="module")
def file(tmp_path_factory):
    (path,) = written.write([LESSON], tmp_path_factory.mktemp("a folder") / "pocket lessons")
    return path


@pytest.fixture
def opened(chromium, file):
    """Return ``opened(**of the context)`` -> a page with the file, offline; it must ask for nothing but itself."""
    contexts, asked = [], []

    def page(**options):
        contexts.append(chromium.new_context(**options))
        contexts[-1].set_offline(True)
        found = contexts[-1].new_page()
        found.on("request", lambda request: asked.append(request.url))
        found.on("pageerror", lambda error: asked.append(str(error)))
        found.goto(file.as_uri())
        alive(found)
        return found

    yield page
    for one in contexts:
        one.close()
    assert [one for one in asked if one != file.as_uri() and not one.startswith("data:")] == []


def test_on_a_phone_it_is_walked_by_touch(opened, screenshot):
    page = opened(viewport=PHONE, has_touch=True, is_mobile=True)
    screenshot(page, "pocket_phone_top")
    assert panel(page).locator("svg").count() == 0
    panel(page).get_by_text(A).tap()
    button(page, "this is my prediction").tap()
    assert "B holds more: 0.1360 lb/ft³" in plain(panel(page).get_by_role("group", name=KEPT))
    told(page, "At 20.0 psi of boost and 300 °F")
    handle = slider(page, "boost")
    handle.scroll_into_view_if_needed()
    at = handle.bounding_box()
    page.touchscreen.tap(at["x"] + 0.75 * at["width"], at["y"] + at["height"] / 2)
    told(page, "At (29|30|31).. psi of boost and 300 °F")
    screenshot(page, "pocket_phone_boost")
    panel(page).get_by_role("checkbox", name="hold manifold temperature").tap()
    handle = slider(page, "manifold temperature")
    at = handle.bounding_box()
    page.touchscreen.tap(at["x"] + 0.25 * at["width"], at["y"] + at["height"] / 2)
    told(page, "At (29|30|31).. psi of boost and 1.. °F")
    button(page, "keep this case").tap()
    button(page, "go to B").tap()
    told(page, "At 15.0 psi of boost and 120 °F")
    panel(page).get_by_text("kept: ").first.wait_for()
    panel(page).get_by_role("radio", name="SI", exact=True).tap()
    told(page, "At 103.4 kPa of boost and 49 °C")
    button(page, "table").tap()
    panel(page).get_by_role("table", name="Kept case").first.wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert [one for number in (0, 1) for one in cut(page, number) if one] == []
    assert overlaps(page) == []
    assert serious(page) == []
    screenshot(page, "pocket_phone_kept")
    page.get_by_role("button", name="light or dark").tap()
    panel(page).evaluate("node => node.scrollIntoView()")
    assert serious(page) == []
    screenshot(page, "pocket_phone_dark")


def test_on_a_pc_every_step_is_done_by_keyboard_and_the_ticket_answered(opened, screenshot):
    page = opened(viewport=WHOLE)
    button(page, "this is my prediction").focus()
    page.keyboard.press("Enter")
    panel(page).get_by_text("Choose one answer first").wait_for()
    predict(page, 0, A)
    slider(page, "boost").focus()
    page.keyboard.press("ArrowRight")
    told(page, "At 20.2 psi")
    panel(page).get_by_text("1 of 3 done").wait_for()
    for name in ("hold boost", "hold manifold temperature"):
        panel(page).get_by_role("checkbox", name=name).press("Space")
    slider(page, "manifold temperature").press("ArrowLeft")
    panel(page).get_by_text("2 of 3 done").wait_for()
    panel(page).get_by_role("checkbox", name="hold boost").press("Space")
    button(page, "go to A").press("Enter")
    button(page, "keep this case").press("Enter")
    box(page, "boost").fill("12,04")
    box(page, "boost").press("Enter")
    told(page, "At 12.0 psi of boost and 300 °F")
    panel(page).get_by_text("Recorded here: 12.0 psi, the nearest to 12,04 psi").wait_for()
    for fahrenheit in range(104, 150, 2):
        box(page, "manifold temperature").fill(str(fahrenheit))
        box(page, "manifold temperature").press("Enter")
    panel(page).get_by_text("all done").wait_for()
    box(page, "boost").fill("lots")
    box(page, "boost").press("Enter")
    panel(page).get_by_text("lots is no number").wait_for()
    page.keyboard.press("Tab")
    page.keyboard.press("t")
    panel(page).get_by_role("table", name="The same in numbers", exact=True).wait_for()
    page.keyboard.press("p")
    assert page.locator(".tm-present").count() == 0
    screenshot(page, "pocket_pc")
    ticket = panel(page, 1)
    ticket.get_by_role("radio", name="20 psi", exact=True).press("Space")
    page.keyboard.press("Enter")
    ticket.get_by_text("That is gauge pressure").wait_for()
    page.set_viewport_size(PHONE)
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert len(page.pdf(format="Letter")) > 10_000


def test_what_is_replayed_is_what_the_panel_answers(opened):
    page, desk = opened(viewport=WHOLE), panel_hot_air_is_thin().desk
    plan = Plan(desk)
    several = [messages(plan, one) for one in random.Random(3).sample(plan.places(), STATES)]
    several[:0] = [[OPEN]]
    several += [
        [{"say": "reset"}, {"say": "keep"}, {"say": "case", "label": desk.sheet.cases[1][0]}],
        [{"say": "drop"}],
    ]
    frames = page.evaluate(ANSWERED, [NAME, several])
    for theirs, ours in zip(frames, answered(desk, several), strict=True):
        assert differences(theirs, ours) == []


def test_where_it_cannot_be_unpacked_the_picture_as_it_opens_is_there(chromium, file):
    page = chromium.new_page()
    page.add_init_script("delete window.DecompressionStream")
    page.goto(file.as_uri())
    page.get_by_text("too old to move this picture").wait_for()
    page.get_by_text("The picture as it opens, and its cases").click()
    assert page.locator(".still img").first.is_visible()
    page.close()


@pytest.mark.skipif(not FIREFOX, reason="NOT WALKED IN FIREFOX: not found. Install: apt-get install firefox-esr")
def test_in_firefox_it_is_walked_by_touch_and_by_keyboard(file, tmp_path):
    panel, drawn = "document.querySelector('.tm')", "document.querySelector('.tm svg')?.outerHTML"
    words = "document.querySelector('.tm .tm-sentence')?.textContent"
    with firefox(tmp_path) as page:
        page.open(file.as_uri(), **PHONE)
        page.until("document.querySelectorAll('.live .tm').length === document.querySelectorAll('.live').length")
        page.tap(f"{panel}.querySelector('[type=radio]')")
        page.told(f"[...{panel}.querySelectorAll('button')].find((one) => /prediction/.test(one.textContent)).focus()")
        page.press(ENTER)
        page.until(f"/At 20.0.psi of boost and 300/.test({words})")
        before = page.told(drawn)
        page.told(f"{panel}.querySelector('[type=range]').focus()")
        page.press(ARROW_RIGHT, ARROW_RIGHT)
        page.until(f"/At 20.4.psi of boost/.test({words}) && {drawn} !== {json.dumps(before)}")
        page.tap(
            f"[...{panel}.querySelectorAll('[type=radio]')].find((one) => /SI/.test(one.closest('label').textContent))"
        )
        page.until(f"/kPa of boost/.test({words})")
        assert int(page.told("String(document.documentElement.scrollWidth)")) <= PHONE["width"]
        assert [one for one in page.requests if one != file.as_uri() and not one.startswith("data:")] == []
        assert page.errors == []
        if PICTURES:
            page.picture(Path(PICTURES) / "pocket_firefox.png")
