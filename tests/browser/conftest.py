"""Browser tests: lessons as a user sees them, in Debian's chromium, from one server started by `turbomath lessons`.

The tests of a file share one page with the lesson that the file names as NAME, which saves opening it each time::

    @pytest.fixture
    def page(shared_lesson):
        return afresh(shared_lesson)                 # every panel as at the start (tests.browser.pages)

    def test_something(page, classroom, screenshot):
        ...                                          # any Playwright call on the page
        classroom.kill_kernels()                     # as a crash would
        live(page)                                   # wait until the lesson runs again (tests.browser.pages)
        screenshot(page, "03_hot_air_is_thin")       # to the folder TURBOMATH_PICTURES; without one, nothing

A test that needs a fresh browser profile and a fresh Python opens its own page: `open_lesson("03_hot_air_is_thin")`.
At the end, each request that a page made must have stayed on this machine. The browser itself can reach no other.

Without chromium or Playwright there is one loud skip; with ``TURBOMATH_REQUIRE_BROWSER=1`` that is a failure.
"""

import importlib.util
import os
import shutil
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.browser.pages import PATIENCE, at_top, leaving, live
from tests.classroom.served import lesson, notebook, served
from tests.lessons import lessons

INSTALL = 'apt-get install chromium && python -m pip install -e ".[test]"'
REQUIRED = os.environ.get("TURBOMATH_REQUIRE_BROWSER") == "1"
CHROMIUM = os.environ.get("TURBOMATH_CHROMIUM") or shutil.which("chromium")
PICTURES = os.environ.get("TURBOMATH_PICTURES")
QUIET = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
]

MISSING = [
    what
    for what, there in (("chromium", CHROMIUM), ("Playwright", importlib.util.find_spec("playwright")))
    if not there
]
WHY = f"NO BROWSER TEST WAS RUN: {' and '.join(MISSING)} not found. Install: {INSTALL}"


def pytest_collection_modifyitems(config, items):
    """Mark the tests of this folder; where the browser is missing and nobody requires it, keep one, skipped aloud."""
    here = [item for item in items if Path(__file__).parent in item.path.parents]
    for item in here:
        item.add_marker("browser")
    if MISSING and not REQUIRED and not config.option.short and here:
        config.hook.pytest_deselected(items=here[1:])
        items[:] = [item for item in items if item not in here[1:]]
        here[0].add_marker(pytest.mark.skip(reason=WHY))


@pytest.fixture(scope="session")
def chromium():
    """Give the one browser."""
    if MISSING:
        pytest.fail(WHY, pytrace=False)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def lessons_folder(tmp_path_factory):
    """Return a folder of masters: the real lessons, and throw-away ones: 90_box, its twin 92_box, and 91_breaks."""
    folder = tmp_path_factory.mktemp("lessons")
    for master in lessons().values():
        shutil.copy(master, folder)
    for name in ("90_box", "92_box"):
        (folder / f"{name}.ipynb").write_text(lesson(), encoding="utf-8")
    (folder / "91_breaks.ipynb").write_text(notebook(("code", "1 / 0"), ("code", "print('after')")), encoding="utf-8")
    return folder


@pytest.fixture(scope="session")
def classroom(lessons_folder, tmp_path_factory):
    """Give the one server: its ``address``, ``token``, ``work`` folder, ``kill_kernels()``, ``ask(path)``."""
    with served(lessons_folder, tmp_path_factory.mktemp("work")) as running:
        yield running


@pytest.fixture
def requests():
    """Return the list of all addresses that the pages of this test asked for, in order."""
    return []


@contextmanager
def windows(chromium, requests):
    """Give ``opened(address, width=1366, height=768)`` -> a page in a fresh profile; all are closed at the end."""
    contexts = []

    def opened(address, *, width=1366, height=768):
        contexts.append(chromium.new_context(viewport={"width": width, "height": height}))
        contexts[-1].set_default_timeout(PATIENCE)
        page = contexts[-1].new_page()
        page.on("request", lambda request: requests.append(request.url))
        page.on("websocket", lambda socket: requests.append(socket.url))
        page.goto(address)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert leaving(requests) == []


@pytest.fixture
def open_address(chromium, requests):
    """Return ``open_address(address, width=1366, height=768)`` -> a page in a fresh profile.

    The browser's zoom of 200 % is half as many points each way: ``width=683, height=384``.
    """
    with windows(chromium, requests) as opened:
        yield opened


@pytest.fixture
def open_lesson(open_address, classroom, lessons_folder):
    """Return ``open_lesson(name, width=1366, height=768)`` -> a page with that shipped lesson, run."""

    names = []

    def opened(name, **size):
        names.append(name)
        shutil.copy(lessons_folder / f"{name}.ipynb", classroom.work)
        page = open_address(classroom.lesson(name), **size)
        live(page)
        return page

    yield opened
    classroom.end_sessions(*names)


@pytest.fixture(scope="module")
def shared_lesson(request, chromium, classroom, lessons_folder):
    """Return the page, run, that the tests of a file share: of the lesson NAME, or of the one that is asked for."""
    name = getattr(request, "param", None) or request.module.NAME
    shutil.copy(lessons_folder / f"{name}.ipynb", classroom.work)
    with windows(chromium, []) as opened:
        page = opened(classroom.lesson(name))
        live(page)
        yield page
    classroom.end_sessions(name)


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


@pytest.fixture
def open_notebook(open_address, classroom):
    """Return ``open_notebook({name: text, ...})`` -> a page with the first of these files of the work folder."""
    placed = []

    def opened(notebooks):
        for name, text in notebooks.items():
            placed.append(classroom.work / f"{name}.ipynb")
            placed[-1].write_text(text, encoding="utf-8")
        return open_address(classroom.lesson(next(iter(notebooks))))

    yield opened
    classroom.end_sessions(*(path.stem for path in placed))
    for path in placed:
        path.unlink(missing_ok=True)


@pytest.fixture(scope="session")
def screenshot():
    """Return ``screenshot(page, name)``: a picture into the folder TURBOMATH_PICTURES; without one, nothing."""

    def taken(page, name):
        if PICTURES:
            page.screenshot(path=Path(PICTURES) / f"{name}.png")

    return taken


@pytest.fixture(scope="session")
def pictured(screenshot):
    """Return ``pictured(page, name)``: a picture of each panel of a lesson, from its top."""

    def taken(page, name):
        for number in range(page.locator(".tm").count() if PICTURES else 0):
            at_top(page, number)
            screenshot(page, f"{name}_{number}")

    return taken
