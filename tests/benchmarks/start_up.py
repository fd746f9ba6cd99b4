"""How long from the command to the first live picture, beside JupyterLab with a notebook of one stock slider.

    python -m tests.benchmarks.start_up [LESSON]

Both start from nothing, in turn, each with a fresh server, a fresh Python and a fresh browser profile. The clock runs
from the command until the lesson's first panel, or the slider, is on the page. The stock notebook is run as soon as it
is open. Bar: the lesson's median at most 1.3 of the slider's. Exits with 1 where it is missed.
"""

import statistics
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.open_a_lesson import SLIDER
from tests.browser.conftest import CHROMIUM, QUIET
from tests.browser.pages import live
from tests.classroom.served import notebook, served
from tests.classroom.stock import TOKEN, stock
from turbomath.disk import files

ROUNDS, FIRST, BAR = 5, 1, 1.3
RUN = "notebook:run-all-cells"
OPEN = "window.jupyterapp?.shell.currentWidget?.sessionContext?.session?.kernel"
PATIENCE = 120_000  # ms


def main(lesson):
    """Print both times and their ratio; return 1 if it misses the bar."""
    from playwright.sync_api import sync_playwright

    times = {"slider": [], "lesson": []}
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        for turn in range(ROUNDS + FIRST):
            for name, started in (("slider", with_slider), ("lesson", with_lesson)):
                with tempfile.TemporaryDirectory() as place:
                    took = started(browser, Path(place), lesson)
                times[name] += [took] if turn >= FIRST else []
        browser.close()
    return told(times)


def with_slider(browser, place, _lesson):
    """Return the seconds of stock JupyterLab."""
    (place / "work").mkdir()
    (place / "work" / "slider.ipynb").write_text(notebook(("code", SLIDER)), encoding="utf-8")
    start = time.perf_counter()
    with stock(place, place / "work") as address:
        page = opened(browser, f"{address}lab/tree/slider.ipynb?token={TOKEN.replace(' ', '%20')}")
        page.wait_for_function(f"() => Boolean({OPEN})", timeout=PATIENCE)
        page.evaluate(f"void window.jupyterapp.commands.execute('{RUN}')")
        page.locator(".widget-slider").first.wait_for(timeout=PATIENCE)
        took = time.perf_counter() - start
        page.context.close()
    return took


def with_lesson(browser, place, lesson):
    """Return the seconds of `turbomath lessons`."""
    start = time.perf_counter()
    with served(files.shipped("lessons"), place / "work", lesson, "--no-browser") as classroom:
        page = opened(browser, classroom.full_address)
        page.locator(".tm").first.wait_for(timeout=PATIENCE)
        took = time.perf_counter() - start
        live(page)
        page.context.close()
    return took


def opened(browser, address):
    page = browser.new_context(viewport={"width": 1366, "height": 768}).new_page()
    page.goto(address)
    return page


def told(times):
    """Print what was found; return 1 if the bar is missed."""
    for name, found in times.items():
        print(f"{name}: {statistics.median(found):.2f} s (from {min(found):.2f} to {max(found):.2f})")
    ratio = statistics.median(times["lesson"]) / statistics.median(times["slider"])
    print(f"{ratio:.2f} of the slider's; bar {BAR}: {'ok' if ratio <= BAR else 'MISSED'}")
    return int(ratio > BAR)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1] if sys.argv[1:] else "03"))
