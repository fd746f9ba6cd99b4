"""The homework notebook as a student uses it: practice with its replies, a sheet kept through a crash, handed in."""

import json
import re
import shutil
from pathlib import Path

import pytest

from tests.browser.pages import afresh, fits, live, painted, plain, pop_ups, serious, settled
from tests.browser.walk import Walk, keys_change_nothing
from tests.homework.a_class import variants_of
from turbomath.disk.journal import Journal
from turbomath.homework.asking import variants
from turbomath.homework.bank import QUESTIONS, SUBJECTS
from turbomath.homework.course import hand_out
from turbomath.homework.marking import class_marks
from turbomath.homework.marking.terminal import PRACTICE
from turbomath.working.coherent import from_si

NAME, SEAT = "homework", "A07"
ASKED = ("manifold_pressure_from_boost", "gauge_error", "order_the_stations")
ASSIGNMENT = 'name = "week 3"\ntitle = "Week 3: <b>pressure</b> & gain"\nhints = true\ndue = 2026-12-11\n' + "".join(
    f'[[questions]]\nquestion = "{name}"\n' for name in ASKED
)
BOX = "manifold pressure"


WALK = Walk(controls=10)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


@pytest.fixture
def sheet(classroom, tmp_path):
    """Return (course, the sheet of the seat in the work folder, as its student puts it there)."""
    (tmp_path / "week.toml").write_text(ASSIGNMENT, encoding="utf-8")
    (tmp_path / "seats.txt").write_text(SEAT, encoding="utf-8")
    course = hand_out.write(tmp_path / "week.toml", tmp_path / "seats.txt", tmp_path / "course").course
    mine = classroom.work / "mine"
    mine.mkdir()
    yield course, Path(shutil.copy(next(course.student(SEAT).glob("sheet-*.json")), mine))
    shutil.rmtree(mine)


def practice(page):
    return page.locator(".tm").nth(0)


def own(page):
    return page.locator(".tm").nth(1)


def variant(name, units="us", retry=0):
    return variants.make(name, secret=PRACTICE, assignment=PRACTICE, seat=SEAT, units=units, retry=retry)


def outcome(one, place):
    """Return the number that the usual mistake at a place leads to, or the key, in the unit asked for."""
    asked = one.asked[-1]
    values = one.key if place is None else one.outcomes[place][1]
    return from_si(float(values[asked.name]), asked.unit(one.units), asked.row)


def choose(page, name):
    """Take the numbers of the seat, and a question of the bank, by keyboard."""
    panel = practice(page)
    seat = panel.get_by_role("textbox", name="numbers of seat")
    seat.fill(SEAT)
    seat.press("Tab")
    subject = next(one for one, questions in SUBJECTS.items() if name in [each.name for each in questions])
    panel.get_by_role("combobox", name="subject").select_option(subject)
    panel.get_by_role("combobox", name="question").select_option(name)
    panel.get_by_text(f"Sheet code {variant(name).code}").wait_for()


def answer(page, part, text):
    """Type an answer and send it by Enter."""
    box = practice(page).get_by_role("textbox", name=part, exact=True)
    box.fill(text)
    box.press("Enter")
    return box


def told(place, words):
    """Wait until a reply begins with these words, and return the whole of it."""
    found = place.locator(".tm-reply", has_text=re.compile(rf"^(! )?{re.escape(words)}")).first
    found.wait_for()
    return plain(found)


def open_sheet(page, path):
    box = own(page).get_by_role("textbox", name="or its path")
    box.fill(str(path))
    box.press("Enter")
    own(page).get_by_role("heading", name="Week 3").wait_for()


def entry(page, part=BOX):
    return own(page).get_by_role("textbox", name=part, exact=True)


def reply_of(page, part=BOX):
    """Return the reply below a box of the sheet."""
    return own(page).locator(".tm-part", has=page.get_by_role("textbox", name=part, exact=True)).locator(".tm-reply")


def saved(page, part=BOX, words="Saved."):
    reply_of(page, part).filter(has_text=re.compile(rf"^(! )?{re.escape(words)}")).wait_for()


def test_one_right_one_in_a_wrong_unit_and_three_mistakes_each_get_their_reply(page, screenshot):
    name = "manifold_pressure_from_boost"
    choose(page, name)
    one = variant(name)
    key = outcome(one, None)
    box = answer(page, BOX, f"{key:.2f} psi")
    assert "The number is right" in told(practice(page), "Look at the unit.")
    assert box.get_attribute("aria-invalid") == ""
    codes = []
    for place, (mistake, _) in enumerate(one.outcomes[:3]):
        answer(page, BOX, f"{outcome(one, place):.2f} psi abs")
        assert mistake.message in told(practice(page), f"A usual mistake ({mistake.code}).")
        codes.append(mistake.code)
    assert len(set(codes)) == 3
    practice(page).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_mistake")
    answer(page, BOX, f"{key:.2f} psi abs".replace(".", ","))
    assert f"the key is {key:.2f} psi abs" in told(practice(page), "Right.")
    assert box.get_attribute("aria-invalid") is None
    assert box.evaluate("node => node === document.activeElement")
    box.fill("1")
    assert plain(practice(page).locator(".tm-reply")).strip() == "", "a reply stands while its answer stands"
    assert pop_ups(page) == 0


def test_an_own_earlier_value_is_carried_and_choices_take_a_letter(page):
    choose(page, "gauge_error")
    one = variant("gauge_error")
    boost = from_si(one.givens["boost"].value, "psi", "boost")
    near = 1.25 * from_si(float(one.key["half_width"]), "psi", "boost")  # wrong, and yet such as a gauge could have
    practice(page).get_by_role("textbox", name="half width", exact=True).fill(f"{near:.1f} psi".replace(".", ","))
    answer(page, "share of reading", f"{100 * round(near, 1) / boost:.2f} %")
    told(practice(page).locator(".tm-part").nth(1), "Right for your own earlier value.")
    choose(page, "two_mechanics")
    one = variant("two_mechanics")
    right = next(place for place, option in enumerate(one.asked) if not option.code)
    practice(page).locator(".tm-exercise").get_by_role("radio").nth(right).focus()
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    told(practice(page), "Right.")


def test_help_by_keyboard_hints_one_by_one_then_the_worked_solution_with_its_equations(page, screenshot):
    choose(page, "outlet_temperature")
    one, panel = variant("outlet_temperature"), practice(page)
    assert not panel.get_by_role("button", name="worked solution").is_visible()
    panel.get_by_role("button", name="hint 1").focus()
    page.keyboard.press("Enter")
    panel.get_by_role("listitem").filter(has_text=one.question.hints[0]).wait_for()
    assert not panel.get_by_role("button", name="hint 2").is_visible(), "the method comes after a try"
    answer(page, one.question.asked[-1].name.replace("_", " "), "9999 °F")
    told(panel, "Not yet.")
    panel.get_by_role("button", name="hint 2").focus()
    page.keyboard.press("Enter")
    hints = panel.get_by_role("list", name="hints")
    hints.get_by_text(one.question.hints[1]).wait_for()
    assert hints.evaluate("node => node === document.activeElement"), "the button has gone"
    panel.get_by_role("button", name="worked solution", exact=True).focus()
    page.keyboard.press("Space")
    worked = panel.get_by_role("group", name="worked solution")
    worked.wait_for()
    assert worked.locator("math").count() > 4
    assert worked.locator("math mfrac").first.bounding_box()["height"] > 20, "drawn as mathematics"
    panel.evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_worked")
    panel.get_by_role("button", name="hide the worked solution").press("Enter")
    worked.wait_for(state="hidden")


def test_fresh_numbers_units_and_seat_change_the_numbers_and_empty_the_box(page):
    name = "manifold_pressure_from_boost"
    choose(page, name)
    box = answer(page, BOX, "12 psi abs")
    told(practice(page), "Not yet.")
    practice(page).get_by_role("button", name="fresh numbers").click()
    practice(page).get_by_text(f"Sheet code {variant(name, retry=1).code}").wait_for()
    assert practice(page).get_by_role("textbox", name=BOX).input_value() == ""
    practice(page).get_by_role("radio", name="SI", exact=True).check()
    practice(page).get_by_text(f"Sheet code {variant(name, 'si').code}").wait_for()
    assert "kPa" in practice(page).locator(".tm-exercise").inner_text()
    seat = practice(page).get_by_role("textbox", name="numbers of seat")
    seat.fill("")
    seat.press("Enter")
    practice(page).get_by_text("The seat is empty").wait_for()
    assert box.count() == 1


def test_a_record_is_kept_only_when_it_is_wanted(page, classroom):
    journal = Journal(classroom.work / "practice.journal")
    choose(page, "manifold_pressure_from_boost")
    answer(page, BOX, "12 psi abs")
    told(practice(page), "Not yet.")
    assert journal.read() == ([], "")
    practice(page).get_by_role("checkbox", name="keep a record of my practice").check()
    practice(page).get_by_text("is kept in").wait_for()
    answer(page, BOX, "13 psi abs")
    settled(page)
    assert practice(page).get_by_text(re.compile("^Kept in")).is_visible()
    assert [one["answer"] for one in journal.read()[0]] == ["13 psi abs"]
    journal.path.unlink()


def test_a_sheet_is_answered_kept_through_a_crash_and_handed_in(page, classroom, sheet, screenshot):
    course, path = sheet
    own(page).get_by_role("button", name="look again").click()
    found = own(page).get_by_role("combobox", name="sheets in your work folder")
    found.locator("option", has_text="mine/").wait_for(state="attached")
    found.select_option(str(path))
    own(page).get_by_role("heading", name="Week 3: <b>pressure</b> & gain").wait_for()
    made = variants_of(course, SEAT)
    key = from_si(float(made[ASKED[0]].key["manifold_pressure"]), "psi abs", "pressure")
    entry(page).fill(f"{key:.2f} psi abs".replace(".", ","))
    saved(page)
    assert f"Read as {key:.4g} psi abs." in plain(reply_of(page))
    assert "ight" not in plain(reply_of(page)), "it does not mark"
    entry(page, "half width").fill("soon")
    saved(page, "half width", "Saved, but it cannot be read.")
    right = next(place for place, option in enumerate(made[ASKED[2]].asked) if not option.code)
    own(page).get_by_role("radio").nth(right).check()
    own(page).get_by_text("3 of 4 boxes are filled.").wait_for()
    own(page).get_by_role("button", name="hint 1").first.click()
    own(page).get_by_text(QUESTIONS[ASKED[0]].hints[0]).wait_for()
    own(page).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_sheet")
    classroom.kill_kernels()
    entry(page, "share of reading").fill("7,5 %")
    entry(page, "share of reading").press("Tab")
    live(page)
    own(page).get_by_text("entries were found on the disk").wait_for()
    assert entry(page).input_value() == f"{key:.2f} psi abs".replace(".", ",")
    assert entry(page, "half width").input_value() == "soon"
    assert own(page).get_by_role("radio").nth(right).is_checked()
    saved(page, "share of reading")
    assert entry(page, "share of reading").input_value() == "7,5 %", "typed while Python was away"
    own(page).get_by_role("button", name="hand in").click()
    own(page).get_by_text("Handed in on").wait_for()
    own(page).get_by_role("button", name="hand in").scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_handed_in")
    content = json.loads((path.parent / "answers.json").read_text(encoding="utf-8"))
    assert (content["schema"], content["seat"], content["sheet"]) == ("turbomath-answers-1", SEAT, path.stem[6:])
    shutil.copy(path.parent / "answers.json", course.student(SEAT))
    marks = {(one.question, one.part): one.finding for one in class_marks.class_marks(course)[0].parts}
    assert marks[ASKED[0], "manifold_pressure"] == "right"
    assert marks[ASKED[2], ""] == "right"
    entry(page, "half width").fill("2 psi")
    own(page).get_by_text("You have changed it since: hand in again.").wait_for()


def test_where_the_disk_refuses_it_says_so_the_text_stays_and_can_be_saved_later(page, sheet, screenshot):
    _, path = sheet
    open_sheet(page, path)
    journal = path.with_suffix(".journal")
    journal.symlink_to("/dev/full")
    entry(page).fill("36,8 psi abs")
    saved(page, words="Not saved:")
    reply_of(page).scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_not_saved")
    assert entry(page).input_value() == "36,8 psi abs"
    journal.unlink()
    own(page).get_by_role("button", name="save again").click()
    saved(page)
    assert Journal(journal).read()[0][-1]["answer"] == "36,8 psi abs"
    assert not own(page).get_by_role("button", name="save again").is_visible()


def test_a_hostile_sheet_is_refused_or_shown_as_words(page, sheet):
    _, path = sheet
    content = json.loads(path.read_text(encoding="utf-8"))
    for question in content["questions"]:
        question["wording"] = "<img src=x onerror=\"document.title='CANARY'\"><script>document.title='CANARY'</script>"
    path.write_text(json.dumps(content), encoding="utf-8")
    open_sheet(page, path)
    own(page).get_by_text("<img src=x").first.wait_for()
    assert own(page).locator("img, script, h2 b").count() == 0
    path.write_text("[" * 9_000, encoding="utf-8")
    box = own(page).get_by_role("textbox", name="or its path")
    box.fill(str(path))
    box.press("Enter")
    own(page).get_by_role("alert").filter(has_text="too deep inside each other").wait_for()
    assert "CANARY" not in page.title()
    assert not own(page).get_by_role("heading", name="Week 3").is_visible()


def test_no_key_changes_the_notebook_and_every_control_has_a_name_and_a_focus_that_is_seen(page, sheet):
    open_sheet(page, sheet[1])
    answer(page, BOX, "1 psi abs")
    told(practice(page), "")
    keys_change_nothing(page, least=25)


def test_the_tab_key_goes_through_in_the_order_of_the_page(page):
    choose(page, "manifold_pressure_from_boost")
    practice(page).get_by_role("combobox", name="subject").focus()
    seen = []
    for _ in range(9):
        seen.append(page.evaluate("(document.activeElement.labels?.[0] ?? document.activeElement).textContent.trim()"))
        page.keyboard.press("Tab")
    assert seen == [
        "subject",
        "question",
        "numbers of seat",
        "US",
        "keep a record of my practice",
        BOX,
        "check",
        "hint 1",
        "fresh numbers",
    ]


def test_axe_finds_no_serious_problem(page, sheet):
    assert serious(page) == []
    open_sheet(page, sheet[1])
    entry(page).fill("soon")
    saved(page, words="Saved, but")
    choose(page, "outlet_temperature")
    answer(page, "compressor outlet temperature", "1 °F")
    told(practice(page), "Not yet.")
    practice(page).get_by_role("button", name="worked solution").click()
    practice(page).get_by_role("group", name="worked solution").wait_for()
    assert serious(page) == []


def test_nothing_is_cut(page, sheet, pictured):
    open_sheet(page, sheet[1])
    entry(page, "half width").fill("36 of something long")
    saved(page, "half width", "Saved, but")
    for name in ("uncertainty_of_effectiveness", "two_mechanics", "impossible_reading", "highest_pressure_ratio"):
        choose(page, name)
        panel = practice(page)
        first = panel.locator(".tm-exercise input").first
        if first.get_attribute("type") == "radio":
            first.check()
        else:
            first.fill("1,5")
        panel.get_by_role("button", name="check").click()
        panel.get_by_role("button", name="worked solution", exact=True).click()
        panel.get_by_role("group", name="worked solution").wait_for()
        fits(page, f"{NAME}_{name}", pictured)
