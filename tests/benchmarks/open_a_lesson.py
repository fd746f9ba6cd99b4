"""How long from opening a lesson to its live panel, beside JupyterLab opening a notebook with one stock slider.

    python -m tests.benchmarks.open_a_lesson [LESSON ...]

Both open in the same server and browser, in turn, each time with a fresh Python and a fresh browser profile. The clock
runs from asking for the address until the control is on the page: the lesson's first panel, or the slider. Bar: the
lesson's median at most 1.5 of the slider's. Exits with 1 where it is missed.
"""

import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path

from tests.browser.conftest import CHROMIUM, QUIET
from tests.browser.pages import live
from tests.classroom.served import notebook, served
from turbomath.disk import files

ROUNDS, FIRST, BAR = 5, 1, 1.5
LESSONS = ("00_start_here", "03_hot_air_is_thin", "05_what_the_engine_gains")
STOCK = "92_stock_slider"
SLIDER = "import ipywidgets\n\nipywidgets.FloatSlider(description='boost')"
LIVE = {STOCK: ".widget-slider"}


def main(lessons):
    """Print both times and the ratio for each lesson; return 1 if one misses the bar."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as place, sync_playwright() as playwright:
        masters, work = Path(place, "lessons"), Path(place, "work")
        shutil.copytree(files.shipped("lessons"), masters)
        (masters / f"{STOCK}.ipynb").write_text(notebook(("code", SLIDER)), encoding="utf-8")
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        with served(masters, work) as classroom:
            for name in (STOCK, *lessons):
                shutil.copy(masters / f"{name}.ipynb", classroom.work)
            times = {name: [] for name in (STOCK, *lessons)}
            for turn in range(ROUNDS + FIRST):
                for name, found in times.items():
                    took = opened(browser, classroom, name)
                    found += [took] if turn >= FIRST else []
        browser.close()
    return told(times)


def opened(browser, classroom, name):
    """Return the seconds until the control of the notebook is on the page and Python answers."""
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page, start = context.new_page(), time.perf_counter()
    page.goto(classroom.lesson(name))
    page.locator(LIVE.get(name, ".tm")).first.wait_for(timeout=120_000)
    took = time.perf_counter() - start
    live(page)
    context.close()
    classroom.end_sessions()
    return took


def told(times):
    """Print what was found; return 1 if a bar is missed."""
    ratios = {name: statistics.median(found) / statistics.median(times[STOCK]) for name, found in times.items()}
    for name, found in times.items():
        ends = f"from {1000 * min(found):.0f} to {1000 * max(found):.0f}"
        verdict = "ok" if ratios[name] <= BAR else "MISSED"
        print(
            f"{name}: {1000 * statistics.median(found):.0f} ms ({ends}), {ratios[name]:.2f} of the slider's; "
            f"bar {BAR}: {verdict}"
        )
    return int(max(ratios.values()) > BAR)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:] or LESSONS))
