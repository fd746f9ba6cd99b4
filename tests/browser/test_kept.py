"""What a reader did in a lesson is there after a reload and after a restart, until it is begun again."""

from tests.browser.pages import box, live, panel, plain, pop_ups, settled, told
from tests.classroom.served import served
from turbomath.disk import kept

NAME = "03_hot_air_is_thin"


def done(page):
    """Return whether all that was done is there: reason, explanation, number, case, tick, answer on the ticket."""
    told(page, "At 31.5 psi")
    here, ticket = plain(panel(page)), plain(panel(page, 1))
    assert "because hot air is thin" in here
    assert panel(page).get_by_label("and now, because").input_value() == "mass counts"
    assert box(page, "boost").input_value() == "31,5"
    assert panel(page).get_by_role("button", name="drop the kept case").is_visible()
    assert panel(page).locator(".tm-done").count() == 1
    assert "1 of 3 done" in here
    assert "You said:" in ticket


def test_all_is_there_after_a_reload_and_a_restart_until_it_is_begun_again(
    open_address, lessons_folder, tmp_path, screenshot
):
    with served(lessons_folder, tmp_path / "work", "03", "--no-browser") as classroom:
        page = open_address(classroom.lesson(NAME))
        live(page)
        panel(page).get_by_label("because (if you like)").fill("hot air is thin")
        panel(page).get_by_role("radio").first.check()
        panel(page).get_by_role("button", name="this is my prediction").click()
        panel(page).get_by_role("button", name="keep this case").click()
        box(page, "boost").fill("31,5")
        box(page, "boost").press("Enter")
        panel(page).get_by_role("status").get_by_text("Step 1 is done. 1 of 3.").wait_for(state="attached")
        panel(page).get_by_label("and now, because").fill("mass counts")
        panel(page).get_by_label("and now, because").press("Enter")
        panel(page, 1).get_by_role("radio").first.check()
        panel(page, 1).get_by_role("button", name="check").first.click()
        settled(page)
        done(page)
        page.reload()
        live(page)
        done(page)
        screenshot(page, "kept_reloaded")
    with served(lessons_folder, tmp_path / "work", "03", "--no-browser") as classroom:
        page = open_address(classroom.lesson(NAME))
        live(page)
        done(page)
        page.get_by_role("button", name="Begin again").click()
        page.get_by_role("button", name="keep it").click()
        assert pop_ups(page) == 0
        done(page)
        page.get_by_role("button", name="Begin again").click()
        screenshot(page, "kept_begin_again")
        page.locator(".jp-Dialog").get_by_role("button", name="begin again").click()
        panel(page).get_by_role("button", name="this is my prediction").wait_for()
        assert panel(page).get_by_label("because (if you like)").input_value() == ""
        assert panel(page).locator("svg").count() == 0
        assert not list((tmp_path / "work").rglob(f"{kept.folder().name}/*.journal"))
