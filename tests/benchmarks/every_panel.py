"""How fast the picture of every panel follows its slider, against `interact` with inline matplotlib, in one quiet run.

    python -m tests.benchmarks.every_panel [LESSON ...]

An arrow key is pressed on the first slider of each panel; the time runs from the key event's own stamp to the
first task after the next animation frame behind the last change of the panel's picture: engine and charts together.
It prints the median and the 95th percentile of each panel, and each as a share of interact's. Nothing is gated here.
"""

import shutil
import statistics
import sys
import tempfile
from pathlib import Path

from tests.benchmarks.slider_to_picture import INTERACT, their_slider
from tests.browser.conftest import CHROMIUM, QUIET
from tests.browser.pages import live
from tests.classroom.served import notebook, served
from turbomath.disk import files

ROUNDS, FIRST, STRAGGLERS = 30, 4, 250  # presses; the first of them are not counted; ms to let stragglers draw
STOCK = "92_interact"
PROBE = """
const SEEN = ['src', 'd', 'x', 'y', 'style'];
window.probe = { keyed: 0, done: [] };
addEventListener('keydown', (event) => { probe.keyed = event.timeStamp; }, true);
const drawn = () => requestAnimationFrame(() => setTimeout(() => probe.done.push(performance.now() - probe.keyed)));
new MutationObserver((changes) => {
  if (changes.some(({ target }) => target.closest?.('.tm svg'))) drawn();
  for (const { target, addedNodes, attributeName } of changes) {
    const images = [...addedNodes].flatMap((node) => node.querySelectorAll
      ? [...node.querySelectorAll('img'), ...(node.matches('img') ? [node] : [])] : []);
    if (target.matches?.('img') && attributeName === 'src') images.push(target);
    for (const image of images) image.decode().then(drawn, () => {});
  }
}).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: SEEN });
"""


def main(lessons):
    """Print a line for each panel; return 0."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as place, sync_playwright() as playwright:
        masters, work = Path(place, "lessons"), Path(place, "work")
        shutil.copytree(files.shipped("lessons"), masters)
        (masters / f"{STOCK}.ipynb").write_text(notebook(("code", INTERACT)), encoding="utf-8")
        names = lessons or sorted(one.stem for one in masters.glob("[01]*.ipynb"))
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        with served(masters, work) as classroom:
            theirs = measured(*begun(browser, classroom, masters, STOCK, lambda page: [("", their_slider(page))])[0])
            found = {}
            for name in names:
                for page, title, handle in begun(browser, classroom, masters, name, our_sliders):
                    found[f"{name[:2]} {title}"] = measured(page, title, handle)
                classroom.end_sessions(name)
        browser.close()
    told(theirs, found)
    return 0


def begun(browser, classroom, masters, name, sliders):
    """Open a notebook and return (page, title, slider) of each of its panels."""
    shutil.copy(masters / f"{name}.ipynb", classroom.work)
    page = browser.new_context(viewport={"width": 1366, "height": 768}).new_page()
    page.set_default_timeout(60_000)
    page.add_init_script(PROBE)
    page.goto(classroom.lesson(name))
    live(page)
    return [(page, title, handle) for title, handle in sliders(page)]


def our_sliders(page):
    """Open every panel; return (title, first slider) of each that has one."""
    page.locator(".tm").first.wait_for()
    page.wait_for_timeout(1000)  # until all panels of the lesson are on the page
    found = []
    for panel in page.locator(".tm").all():
        enter = panel.get_by_role("button", name="this is my prediction")
        if enter.is_visible():
            panel.get_by_role("radio").first.check()
            enter.click()
            panel.get_by_role("button", name="try again").first.wait_for()
        handle = panel.locator("input[type=range]:visible").first
        if handle.count() and panel.locator("svg:visible").count():
            found.append((panel.locator(".tm-title").inner_text(), handle))
    return found


def measured(page, _title, handle):
    """Return the milliseconds for each key press."""
    handle.focus()
    times = []
    for turn in range(ROUNDS):
        page.evaluate("probe.done = []")
        page.keyboard.press("ArrowRight" if turn % 10 < 5 else "ArrowLeft")
        page.wait_for_function("probe.done.length > 0", timeout=30_000)
        page.wait_for_timeout(STRAGGLERS)
        times.append(page.evaluate("probe.done.at(-1)"))
    return times[FIRST:]


def told(theirs, found):
    """Print median and 95th percentile of each panel in ms and as a share of interact's."""
    of = {"median": statistics.median, "95 %": lambda times: sorted(times)[int(0.95 * len(times))]}
    ours = {title: {name: work(times) for name, work in of.items()} for title, times in found.items()}
    base = {name: work(theirs) for name, work in of.items()}
    print(f"interact with inline matplotlib: median {base['median']:.0f} ms, 95 % {base['95 %']:.0f} ms")
    for title, one in ours.items():
        shares = "  ".join(f"{name} {one[name]:4.0f} ms, {one[name] / base[name]:.2f}" for name in of)
        print(f"{title:74.74}  {shares}")
    usual = statistics.median(one["median"] for one in ours.values())
    slowest = max(ours, key=lambda title: ours[title]["median"])
    worst = max(one["95 %"] / base["95 %"] for one in ours.values())
    print(f"the median panel takes {usual:.0f} ms; the slowest, {slowest!r}, {ours[slowest]['median'] / usual:.1f} x")
    print(f"the largest share at 95 % is {worst:.2f}")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
