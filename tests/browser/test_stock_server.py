"""The lessons on a Jupyter server that is not their own: found, run, and a guest that changes nothing else.

It is JupyterLab as anybody starts it, below a `base_url`, with what the wheel puts beside Python.
"""

import pytest

from tests.browser.pages import button, choose, live, panel
from tests.classroom.served import notebook
from tests.classroom.stock import TOKEN, stock
from tests.wheel import built, unpacked

BASE, LESSON = "/user/ana/", "05_what_the_engine_gains"


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    """Give (address, root) of a stock server that has the kit beside its Python."""
    place = tmp_path_factory.mktemp("stock")
    root = place / "Kurs Üben"
    (root / "turbomath").mkdir(parents=True)
    with stock(place, root, BASE, unpacked(built(place), place / "site")) as address:
        yield address, root


def entered(page):
    page.locator("input[type=password]").first.fill(TOKEN)
    page.keyboard.press("Enter")
    return page


def test_a_stock_server_runs_the_lessons(server, open_address, screenshot):
    address, root = server
    canary = root / "ran"
    for name in ("turbomath", "ipywidgets", "colorsys"):  # beside the lesson, where its Python would look first
        (root / "turbomath" / f"{name}.py").write_text(f"open({str(canary)!r}, 'w')", encoding="utf-8")
    page = entered(open_address(f"{address}turbomath"))
    page.locator(".lessons").get_by_role("link", name="What the engine gains", exact=True).click()
    live(page)
    assert page.url == f"{address}doc/workspaces/turbomath/tree/turbomath/{LESSON}.ipynb"
    assert not canary.exists()
    panel(page).get_by_role("radio").first.check()
    button(page, "this is my prediction").click()
    choose(page, "readings", "generator_air_to_air")
    button(page, "make the report").click()
    with page.expect_popup() as opened:
        panel(page).get_by_role("link", name="open the report").click()
    assert opened.value.url.startswith(f"{address}files/turbomath/")
    opened.value.get_by_text("measured charge gain").first.wait_for()
    screenshot(page, "stock_lesson")
    page.reload()
    live(page)
    panel(page).get_by_role("button", name="try again").first.wait_for()  # what was predicted is kept
    page.get_by_role("button", name="Begin again").click()
    page.get_by_role("button", name="begin again", exact=True).click()
    panel(page).get_by_role("button", name="this is my prediction").wait_for()
    page.locator("summary", has_text="About this lesson").click()
    link = page.get_by_role("link", name="teaching notes").evaluate("one => one.href")
    assert "Teaching notes 05" in page.request.get(link).text()
    after = page.get_by_role("link", name="the next lesson: 06_air_fuel_and_power").evaluate("one => one.href")
    assert after == f"{address}turbomath/open/06_air_fuel_and_power"


def test_what_is_no_lesson_is_left_alone_on_a_stock_server(server, open_address, screenshot):
    address, root = server
    canary = root / "ran by itself"
    (root / "mine.ipynb").write_text(notebook(("code", f"open({str(canary)!r}, 'w')")), encoding="utf-8")
    page = entered(open_address(f"{address}lab/tree/mine.ipynb"))
    page.get_by_text("Python 3 (ipykernel) | Idle").wait_for()
    assert page.locator("[data-id='jp-running-sessions']").is_visible()
    assert page.locator(".turbomath-bar, .turbomath-lesson, #turbomath-tools:visible").count() == 0
    assert page.get_by_role("menuitem", name="Run", exact=True).is_visible()
    screenshot(page, "stock_mine")
    page.goto(f"{address}lab/tree/turbomath/{LESSON}.ipynb")  # among other things a lesson is one too
    live(page)
    panel(page).wait_for()
    assert page.get_by_role("menuitem", name="Run", exact=True).is_visible()
    screenshot(page, "stock_among_others")
    assert not canary.exists()
