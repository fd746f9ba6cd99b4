"""A sheet on a phone, from the disk and without a network: typed, saved as answers.json, marked like any other."""

import json

import pytest

from tests.browser.pages import PHONE, plain, serious
from tests.homework import a_class
from turbomath import units
from turbomath.homework.course import hand_out
from turbomath.homework.marking import handed_in
from turbomath.homework.marking.class_marks import class_marks
from turbomath.table.errors import OutOfRangeError

SEAT = "A01"
TYPED = ["24.5", "24,5", "1,234.5", "1 234.5", "−3", "1e3", "1,234", "12.5.1", "hot", "1.2e", "-", ".5", "5.", "1,23,4"]


@pytest.fixture
def course(tmp_path):
    found = a_class.begun(tmp_path)
    return hand_out.write(tmp_path / "assignment.toml", tmp_path / "seats.csv", found.folder, pocket=True).course


@pytest.fixture
def opened(chromium, course):
    """Return a page with the sheet of a seat, as a phone shows it, offline; it must ask for nothing but itself."""
    context = chromium.new_context(viewport=PHONE, has_touch=True, is_mobile=True, accept_downloads=True)
    context.set_offline(True)
    page, asked = context.new_page(), []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: asked.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: asked.append(str(error)))
    address = (course.student(SEAT) / hand_out.PHONE_SHEET).as_uri()
    page.goto(address)
    yield page
    context.close()
    assert [one for one in asked if one != address and not one.startswith("blob:file")] == []


def place(page, question, part):
    return page.locator(f'[data-question="{question}"] [data-part="{part}"]')


def test_what_is_typed_on_a_phone_is_saved_taken_up_again_and_marked(opened, course, screenshot, tmp_path):
    page = opened
    screenshot(page, "homework_phone_top")
    *first, (question, part, answer, _, _) = a_class.right_rows(course, SEAT)
    for name, box, right, *_ in first:
        number, _, unit = right.partition(" ")
        field = place(page, name, box)
        field.get_by_role("textbox").fill(number)
        if unit:
            field.get_by_role("textbox").press("Tab")
            assert plain(field.locator(".fault")) == "Choose a unit."
            field.get_by_role("combobox").select_option(unit)
            assert plain(field.locator(".fault")) == ""
    place(page, question, part).locator(f"[value='{answer}']").tap()
    page.locator(f'[data-question="{question}"] .remark').fill('it\'s "hot" <there>')
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert serious(page, "main") == []
    with page.expect_download() as saved:
        page.get_by_role("button", name="save answers.json").tap()
    page.get_by_text("All that you wrote can be read.").wait_for()
    screenshot(page, "homework_phone_saved")
    assert saved.value.suggested_filename == "answers.json"
    path = course.student(SEAT) / handed_in.ANSWERS_JSON
    saved.value.save_as(path)
    assert json.loads(page.locator("#text").input_value()) == json.loads(path.read_text(encoding="utf-8"))
    marks = next(one for one in class_marks(course) if one.seat == SEAT)
    assert marks.points == sum(one.points for one in course.assignment.questions)
    page.reload()  # the browser kept it
    assert page.get_by_text("Taken up: what you typed in this browser before").is_visible()
    page.evaluate("localStorage.clear()")
    page.reload()  # it kept nothing: the file gives it back
    assert page.locator("#said").text_content() == ""
    stray = json.loads(path.read_text(encoding="utf-8"))
    stray["answers"].insert(0, {**stray["answers"][0], "question": 'no "such', "part": "]"})  # not of this sheet
    altered = tmp_path / "altered.json"
    altered.write_text(json.dumps(stray), encoding="utf-8")
    page.locator("#again").set_input_files(altered)
    page.get_by_text("Taken up: what stood in the file").wait_for()
    assert json.loads(page.locator("#text").input_value()) == json.loads(path.read_text(encoding="utf-8"))
    other = tmp_path / "other.json"
    other.write_text(path.read_text(encoding="utf-8").replace(course.sheet_code(SEAT), "none"), encoding="utf-8")
    page.locator("#again").set_input_files(other)
    page.get_by_text("That file is of another sheet").wait_for()


def test_a_number_that_the_page_takes_is_one_that_marking_reads(opened):
    field = opened.locator(".box:has(select)").first
    for typed in TYPED:
        field.get_by_role("textbox").fill(typed)
        field.get_by_role("textbox").press("Tab")
        try:
            units.number(typed)
        except OutOfRangeError:
            assert plain(field.locator(".fault")).startswith("This "), typed
        else:
            assert plain(field.locator(".fault")) == "Choose a unit.", typed
    opened.get_by_role("button", name="save answers.json").tap()
    opened.get_by_text("Look again at what is marked: 1.").wait_for()
