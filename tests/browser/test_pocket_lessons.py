"""Every lesson as one file, opened from the disk without a network, on a phone and a PC; recorded on few places."""

import math
import os
import random

import pytest

from tests.browser.pages import PHONE, WHOLE, cut, overlaps, painted, parted, serious
from tests.pocket.replayed import ANSWERED, OPEN, alive, answered, differences, messages
from turbomath.handouts.lesson_page import made
from turbomath.handouts.written import lessons_asked
from turbomath.pocket import page as pocket_page
from turbomath.pocket import plan, written
from turbomath.widgets.controls import Control
from turbomath.widgets.desk import Desk

pytestmark = pytest.mark.long
# All of them take minutes: before a release, TURBOMATH_EVERY_POCKET=1 pytest tests/browser/test_pocket_lessons.py
LESSONS = lessons_asked(None)
if not os.environ.get("TURBOMATH_EVERY_POCKET"):
    LESSONS = [one for one in LESSONS if one.number in ("01", "11")]
STATES, PLACES = 8, 6
ANSWER = """panel => {
  for (const form of panel.querySelectorAll('form, .tm-ask, fieldset')) form.querySelector('[type=radio]')?.click();
  [...panel.querySelectorAll('button')].find((one) => /prediction/.test(one.textContent))?.click();
}"""


def coarse(control, system):
    """Return the scale of a slider with about so many places, its ends as they are."""
    low, high, step = SCALE(control, system)
    count = round((high - low) / step)
    stride = next(one for one in range(max(1, count // PLACES), count + 1) if count % one == 0)
    return low, high, float(f"{step * stride:.12g}")


SCALE = Control.scale


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("every lesson")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Control, "scale", coarse)
        patch.setattr(plan, "FINE", 3)
        patch.setattr(plan, "COARSE", 3)
        list(written.write(LESSONS, place))
        yield place


@pytest.mark.parametrize("lesson", LESSONS, ids=[one.notebook for one in LESSONS])
def test_a_lesson_is_worked_on_a_phone_and_on_a_pc(chromium, folder, lesson, screenshot):
    address = (folder / f"{lesson.notebook}.html").as_uri()
    for name, size in (
        ("phone", {"viewport": PHONE, "has_touch": True, "is_mobile": True}),
        ("pc", {"viewport": WHOLE}),
    ):
        context, wrong = chromium.new_context(**size), []
        context.set_offline(True)
        page = context.new_page()
        page.on("request", lambda request, wrong=wrong: wrong.append(request.url))
        page.on("pageerror", lambda error, wrong=wrong: wrong.append(str(error)))
        page.on("console", lambda said, wrong=wrong: wrong.append(said.text) if said.type == "error" else None)
        page.goto(address)
        alive(page)
        panels = page.locator(".live .tm")
        for number in range(panels.count()):
            panels.nth(number).evaluate(ANSWER)
            painted(page)
            moved(page, panels.nth(number), by_touch=name == "phone")
            panels.nth(number).evaluate("node => node.scrollIntoView()")
            screenshot(page, f"pocket_{lesson.notebook[:2]}_{number}_{name}")
        assert page.evaluate("document.documentElement.scrollWidth") <= size["viewport"]["width"]
        assert [found for number in range(panels.count()) for found in cut(page, number)] == []
        assert overlaps(page) == []
        assert parted(page.locator(".prose :is(p, li, td)")) == []
        assert serious(page) == []
        if name == "pc":
            page.reload()
            alive(page)
            assert replayed_otherwise(page, lesson) == []
        context.close()
        assert [one for one in wrong if one != address and not one.startswith("data:")] == []


def moved(page, panel, *, by_touch):
    """Move the first slider that can be moved, by touch or by keyboard; its place must change."""
    sliders = panel.locator("input[type=range]:visible:enabled")
    if not sliders.count():
        return
    handle = sliders.first
    before = handle.input_value()
    if by_touch:
        handle.scroll_into_view_if_needed()
        at = handle.bounding_box()
        share = 0.2 if before == handle.get_attribute("max") else 0.9
        page.touchscreen.tap(at["x"] + share * at["width"], at["y"] + at["height"] / 2)
    else:
        handle.press("Home" if before != handle.get_attribute("min") else "End")
    painted(page)
    assert not math.isclose(float(handle.input_value()), float(before))


def replayed_otherwise(page, lesson):
    """Return what recorded states say otherwise than the panels themselves, some of each panel drawn by lot."""
    found = []
    for name in pocket_page.panel_names(lesson):
        desk = made(lesson, name).desk
        if not isinstance(desk, Desk) or not page.locator(f"#{name}").count():
            continue
        made_plan = plan.Plan(desk)
        places = made_plan.places()
        several = [
            [OPEN],
            *(messages(made_plan, one) for one in random.Random(5).sample(places, min(STATES, len(places)))),
        ]
        frames = page.evaluate(ANSWERED, [name, several])
        found += [
            (name, one) for pair in zip(frames, answered(desk, several), strict=True) for one in differences(*pair)
        ]
    return found
