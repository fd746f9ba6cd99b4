"""Present mode: every word can be read from the back of a shop, and a remote's Page keys lead through the lesson."""

import re

import pytest

from tests.browser.pages import afresh, live, overlaps, panel, parted, plain, pop_ups, serious, settled, sized
from tests.classroom.served import served
from tests.lessons import lessons

NAME = "03_hot_air_is_thin"
WALLS = ({"width": 1366, "height": 768, "bar": 24}, {"width": 1920, "height": 1080, "bar": 34})
LETTERS = """(bar) => {
  const root = document.querySelector('.tm-present'), found = [], seen = (words, size, box) => {
    if (!box.width || !box.height) return;
    const out = box.left < -1 || box.right > innerWidth + 1 || box.top < -1 || box.bottom > innerHeight + 1;
    if (size < bar || out) found.push(`${words.slice(0, 40)}: ${size.toFixed(1)} px${out ? ', cut' : ''}`);
  };
  const texts = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  let count = 0;
  while (texts.nextNode()) {
    const node = texts.currentNode, holder = node.parentElement, area = document.createRange();
    if (!node.data.trim() || holder.closest('.tm-unseen, option')) continue;
    area.selectNodeContents(node);
    const grown = holder.getScreenCTM?.().a ?? 1; // of a drawing, which is enlarged as a whole
    seen(node.data, parseFloat(getComputedStyle(holder).fontSize) * grown, area.getBoundingClientRect());
    count += 1;
  }
  for (const box of root.querySelectorAll('input[type=text], select')) {
    seen(`box ${box.value}`, parseFloat(getComputedStyle(box).fontSize), box.getBoundingClientRect());
  }
  return count > 5 ? found : ['nothing is presented'];
}"""
WHERE = """() => {
  const shown = document.querySelector('.tm-present'), all = [...document.querySelectorAll('.tm-presentable')];
  return shown ? `${all.indexOf(shown)} ${shown.dataset.step}` : '';
}"""


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def present(page, number=0):
    page.locator(".tm-presentable").nth(number).focus()
    page.keyboard.press("p")
    wall(page).wait_for()


def wall(page):
    return page.locator(".tm-present")


def step(page):
    """Return where the class is; wait for the picture where there is one to see, or for the run that it follows."""
    where = page.evaluate(WHERE)
    if where.endswith("observe"):
        wall(page).locator("svg:visible, .tm-following:visible").first.wait_for()
    settled(page)
    return where


def bar(page, name):
    return wall(page).locator(".tm-bar").get_by_role("button", name=name, exact=True)


def too_small(page, size):
    """Return what is below the bar, cut or on each other on this step: as it is, and with the next picture."""
    found = page.evaluate(LETTERS, size["bar"]) + overlaps(page)
    if bar(page, "next picture").is_visible():
        bar(page, "next picture").click()
        settled(page)
        found += page.evaluate(LETTERS, size["bar"]) + overlaps(page)
    return found


@pytest.mark.parametrize(
    "shared_lesson", [one for one in lessons() if one != "homework"], indirect=True, scope="module"
)
def test_every_word_on_the_wall_can_be_read_from_the_back_row(page, request, screenshot):
    name = request.node.callspec.params["shared_lesson"]
    for size in WALLS:
        sized(page, {"width": size["width"], "height": size["height"]})
        present(page)
        seen = []
        while (where := step(page)) and len(seen) < 60:
            found = too_small(page, size)
            screenshot(page, f"present_{name}_{size['width']}_{len(seen):02d}")
            assert found + parted(wall(page).locator(".tm-ballot p, .tm-ballot li")) == [], (where, size)
            if bar(page, "keep this case").is_visible():
                page.keyboard.press("k")
                settled(page)
                assert page.evaluate(LETTERS, size["bar"]) == [], (where, size, "kept")
                page.keyboard.press("k")
            assert wall(page).locator("svg:visible").count() <= 2
            assert wall(page).locator("input[type=range]:visible").count() <= 2
            assert wall(page).locator(".tm-ballot:visible").count() <= 1
            seen.append(where)
            page.keyboard.press("PageDown")
        assert len(seen) >= 2
        assert wall(page).count() == 0


def test_page_keys_lead_from_the_prediction_to_the_ticket_and_back(page):
    present(page)
    forth = []
    for _ in range(5):
        forth.append(step(page))
        page.keyboard.press("PageDown")
    assert forth == ["0 predict", "0 vote", "0 observe", "0 explain", "1 vote"]
    assert step(page) == "1 explain"
    for where in ("1 vote", "0 explain", "0 observe", "0 vote", "0 predict", "0 predict"):
        page.keyboard.press("PageUp")
        assert step(page) == where
    page.keyboard.press("Escape")
    assert wall(page).count() == 0
    assert pop_ups(page) == 0


def test_the_instructor_opens_the_gate_without_a_prediction(page):
    present(page)
    assert panel(page).locator("svg").count() == 0
    assert "0.1360" not in plain(wall(page))
    bar(page, "observe").click()
    wall(page).locator("svg:visible").first.wait_for()
    page.keyboard.press("Escape")
    assert "Opened without a prediction." in plain(panel(page))
    assert "You predicted" not in plain(panel(page))


def counted(page, *hands):
    """Wait until the boxes of the tally show so many hands."""
    boxes = "[...document.querySelectorAll('.tm-present .tm-tally input')]"
    shown = f"hands => {boxes}.map((box) => box.value).join() === hands"
    page.wait_for_function(shown, arg=",".join(hands))


def test_hands_are_counted_by_key_by_click_and_typed_and_stand_beside_the_outcome(page):
    present(page)
    page.keyboard.press("PageDown")
    for key in ("1", "1", "2"):
        page.keyboard.press(key)
    counted(page, "2", "1", "0", "0")
    wall(page).get_by_role("button", name="one hand less for 1").click()
    counted(page, "1", "1", "0", "0")
    third = wall(page).get_by_role("textbox", name="hands for 3")
    third.fill("some")
    third.press("Enter")
    wall(page).get_by_text("'some' is no count of hands").wait_for()
    third.fill("6")
    third.press("Enter")
    wall(page).get_by_text("is no count of hands").wait_for(state="hidden")
    assert "6 of 8" not in plain(wall(page))
    bar(page, "explain").click()
    wall(page).locator(".tm-told", has_text="B holds more: 0.1360").wait_for()
    assert re.findall(r"\d of 8", plain(wall(page))) == ["1 of 8", "1 of 8", "6 of 8", "0 of 8"]
    long = [one.bounding_box()["width"] for one in wall(page).locator(".tm-split").all()[:3]]
    assert long[2] == pytest.approx(6 * long[0], rel=0.1)
    page.keyboard.press("Escape")
    present(page)
    bar(page, "vote").click()
    assert wall(page).get_by_role("textbox", name="hands for 3").input_value() == "6"


def test_a_case_is_frozen_above_another(page):
    present(page)
    bar(page, "observe").click()
    wall(page).locator("svg:visible").first.wait_for()
    page.keyboard.press("k")
    kept = wall(page).locator("figcaption:visible", has_text="kept: yours")
    kept.wait_for()
    wall(page).get_by_role("slider", name="boost").focus()
    page.keyboard.press("End")
    wall(page).get_by_text("At 40.0 psi of boost").wait_for()
    titles = wall(page).locator("figcaption:visible").all_inner_texts()
    assert [one.replace("\xa0", " ") for one in titles] == [
        "yours: 40.0 psi at 300 °F",
        "kept: yours: 20.0 psi at 300 °F",
    ]
    bar(page, "drop the kept case").click()
    kept.wait_for(state="hidden")


def test_it_is_light_or_dark_and_stays_so_from_panel_to_ticket(page):
    present(page)
    paper = "() => getComputedStyle(document.querySelector('.tm-present')).backgroundColor"
    assert page.evaluate(paper) == "rgb(255, 255, 255)"
    page.keyboard.press("d")
    assert page.evaluate(paper) == "rgb(20, 24, 29)"
    for _ in range(4):
        page.keyboard.press("PageDown")
        step(page)
    assert page.evaluate(WHERE) == "1 vote"
    assert page.evaluate(paper) == "rgb(20, 24, 29)"
    assert serious(page) == []


def test_the_command_line_begins_on_the_wall_once(open_address, lessons_folder, tmp_path):
    with served(lessons_folder, tmp_path / "work", "03", "--present", "--no-browser") as classroom:
        page = open_address(classroom.lesson(NAME))
        live(page)
        wall(page).wait_for()
        assert step(page) == "0 predict"
        page.keyboard.press("Escape")
        assert wall(page).count() == 0


def test_from_outside_a_panel_the_key_and_the_button_present_the_one_in_sight(page):
    page.locator(".jp-Notebook h1").click()
    page.keyboard.press("p")
    wall(page).wait_for()
    assert step(page) == "0 predict"
    page.keyboard.press("p")
    page.locator(".tm").last.evaluate("node => node.scrollIntoView()")
    page.get_by_role("button", name="On the wall").click()
    wall(page).wait_for()
    assert step(page) == "1 vote"
    page.keyboard.press("Escape")


def test_leaving_gives_the_panel_back_as_it_was(page):
    before = panel(page).bounding_box()["width"]
    present(page)
    page.keyboard.press("p")
    assert wall(page).count() == 0
    assert panel(page).bounding_box()["width"] == before
    panel(page).get_by_role("radio").first.check()
    panel(page).get_by_role("button", name="this is my prediction").click()
    panel(page).locator("svg").first.wait_for()
    assert panel(page).locator("svg text").first.evaluate("node => getComputedStyle(node).fontSize") != "26.5px"
