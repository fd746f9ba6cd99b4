"""How fast a picture follows a slider: the panel against `interact` with inline matplotlib, in JupyterLab, in one run.

    python -m tests.benchmarks.slider_to_picture

Both draw the pictures of lesson 03. An arrow key is pressed on a slider; the time runs from the key event's own stamp
to the first task after the next animation frame behind the last change of the picture. Bars: the panel's median and
95th percentile at most 0.12 and 0.15 of interact's; pictures while dragging at least 0.9 of the values that the
control reported; 500 changes leave no node of the page, no Python object and no listener behind. Exits with 1 where a
bar is missed.
"""

import json
import statistics
import sys
import tempfile
from pathlib import Path

from tests.browser.conftest import CHROMIUM, QUIET
from tests.browser.pages import live
from tests.classroom.served import notebook, served

ROUNDS, FIRST, CHANGES = 80, 5, 500
PANEL = """
import gc
from turbomath.panels.hot_air_is_thin import panel_hot_air_is_thin
panel = panel_hot_air_is_thin()
panel
"""
COUNT = """
gc.collect()
print("objects", len(gc.get_objects()), "listeners", len(panel._trait_notifiers), "comm", panel.comm.comm_id)
"""
INTERACT = """
%matplotlib inline
from collections import namedtuple
import matplotlib.pyplot as plt
from ipywidgets import interact
import turbomath.panels.hot_air_is_thin.two_manifolds as lesson
from turbomath import units
from turbomath.pictures.roles import ROLES

Record = namedtuple("Record", "boost manifold_temperature barometer held")
MARKERS = {"square": "s", "triangle": "^", "circle": "o", "diamond": "D", "": "."}
DASHES = {"solid": "-", "dashed": "--", "dotted": ":"}

def draw(boost=20.0, temperature=300.0):
    record = Record(units.to_si(boost, "psi", "boost"), units.to_si(temperature, "°F", "manifold_temperature"),
                    lesson.BAROMETER, ())
    pictures = lesson.answer(record, "us").pictures
    figure, places = plt.subplots(2, 1, figsize=(6.7, 4.4), height_ratios=(300, 124))
    for axes, picture in zip(places, pictures):
        for one in picture.series:
            role = ROLES[one.role]
            if one.kind == "line":
                axes.plot(one.x, one.y, color=role.colour, linestyle=DASHES[role.dash])
            else:
                mark = MARKERS[role.marker] if picture.x.words else "."
                axes.plot(one.x, one.y, mark, color=role.colour, markersize=3)
            if picture.x.words:
                axes.text(one.x[-1], one.y[-1], one.label, color=role.colour)
        for text in picture.texts:
            axes.text(text.x, text.y, text.words)
        axes.set(xlim=(picture.x.low, picture.x.high), ylim=(picture.y.low, picture.y.high), xlabel=picture.x.words,
                 ylabel=picture.y.words, title=picture.title)
    plt.show()

interact(draw, boost=(0.0, 40.0, 0.2), temperature=(50.0, 392.0, 2.0))
"""
SECOND_CELL = """() => {
  jupyterapp.shell.currentWidget.content.activeCellIndex = 1;
  return jupyterapp.commands.execute('notebook:run-cell');
}"""
PROBE = """
const SEEN = ['src', 'd', 'x', 'y', 'style'];
window.probe = { keyed: 0, done: [], values: 0, pictures: 0 };
addEventListener('keydown', (event) => { probe.keyed = event.timeStamp; }, true);
addEventListener('input', () => { probe.values += 1; }, true);
const drawn = () => {
  probe.pictures += 1;
  requestAnimationFrame(() => setTimeout(() => { if (probe.keyed) probe.done.push(performance.now() - probe.keyed); }));
};
new MutationObserver((changes) => {
  for (const { target, addedNodes, attributeName } of changes) {
    const images = [...addedNodes].flatMap((node) => node.querySelectorAll
      ? [...node.querySelectorAll('img'), ...(node.matches('img') ? [node] : [])] : []);
    if (target.matches?.('img') && attributeName === 'src') images.push(target);
    for (const image of images) image.decode().then(drawn, () => {});
  }
  if (changes.some(({ target }) => target.closest?.('.tm svg')?.querySelector('.tm-axis'))) drawn();
}).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: SEEN });
"""


def main():
    """Print the table and return the exit code."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        lessons, work = Path(folder, "lessons"), Path(folder, "work")
        lessons.mkdir()
        (lessons / "panel.ipynb").write_text(notebook(("code", PANEL), ("code", COUNT)), encoding="utf-8")
        (lessons / "interact.ipynb").write_text(notebook(("code", INTERACT)), encoding="utf-8")
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        with served(lessons, work) as classroom:
            ours = measured(browser, classroom.lesson("panel"), our_slider)
            theirs = measured(browser, classroom.lesson("interact"), their_slider)
            leaks = leaked(browser, classroom.lesson("panel"))
        browser.close()
    return told(ours, theirs, leaks)


def opened(browser, address):
    page = browser.new_context(viewport={"width": 1366, "height": 768}).new_page()
    page.add_init_script(PROBE)
    page.goto(address)
    live(page)
    return page


def our_slider(page):
    panel = page.locator(".tm").first
    predict, again = (panel.get_by_role("button", name=one).first for one in ("this is my prediction", "try again"))
    predict.or_(again).first.wait_for()
    if predict.is_visible():
        panel.get_by_role("radio").first.check()
        predict.click()
        again.wait_for()
    return panel.get_by_role("slider", name="boost")


def their_slider(page):
    page.locator(".jp-OutputArea-output img").wait_for()
    return page.locator(".noUi-handle").first


def measured(browser, address, slider):
    """Return (milliseconds for each key, values reported while dragging, pictures drawn for them)."""
    page = opened(browser, address)
    handle = slider(page)
    handle.focus()
    times = []
    for turn in range(ROUNDS):
        page.evaluate("probe.done = []")
        page.keyboard.press("ArrowRight" if turn % 20 < 10 else "ArrowLeft")
        page.wait_for_function("probe.done.length > 0", timeout=10_000)
        page.wait_for_timeout(250)  # let stragglers draw; the last picture counts
        times.append(page.evaluate("probe.done.at(-1)"))
    values, pictures = dragged(page, handle)
    page.context.close()
    return times[FIRST:], values, pictures


def dragged(page, handle):
    page.evaluate("Object.assign(probe, { keyed: 0, values: 0, pictures: 0 })")
    at = handle.bounding_box()
    start = at["x"] + at["width"] / 2
    page.mouse.move(start, at["y"] + at["height"] / 2)
    page.mouse.down()
    for step in range(80):
        page.mouse.move(start + (step if step < 40 else 80 - step) * 2.5, at["y"] + at["height"] / 2)
        page.wait_for_timeout(24)
    page.mouse.up()
    page.wait_for_timeout(500)
    return page.evaluate("[probe.values, probe.pictures]")


def leaked(browser, address):
    """Return what 500 changes added: nodes of the page, listeners of the page, objects and listeners in Python."""
    page = opened(browser, address)
    handle = our_slider(page)
    devtools = page.context.new_cdp_session(page)

    def counts():
        devtools.send("HeapProfiler.collectGarbage")
        page.evaluate(SECOND_CELL)
        page.wait_for_timeout(1500)
        printed = page.locator(".jp-OutputArea-output pre").last.inner_text().split()
        dom = devtools.send("Memory.getDOMCounters")
        return {
            "nodes": dom["nodes"],
            "page listeners": dom["jsEventListeners"],
            "objects": int(printed[1]),
            "listeners": int(printed[3]),
            "comm": printed[5],
        }

    def change(times):
        handle.focus()
        for turn in range(times):
            page.keyboard.press("ArrowRight" if turn % 100 < 50 else "ArrowLeft")
            page.wait_for_timeout(20)
        page.wait_for_timeout(1000)

    change(50)
    for _ in range(3):  # the first outputs of the counting cell bring listeners of their own
        before = counts()
    change(CHANGES)
    after = counts()
    page.context.close()
    return {
        name: after[name] - value if name != "comm" else int(after[name] != value) for name, value in before.items()
    }


def told(ours, theirs, leaks):
    """Print every figure beside its bar."""
    rows = []
    for words, bar, of in (
        ("median", 0.12, statistics.median),
        ("95 %", 0.15, lambda times: sorted(times)[int(0.95 * len(times))]),
    ):
        mine, other = of(ours[0]), of(theirs[0])
        rows.append(
            (
                f"slider to picture, {words}",
                f"{mine:.0f} ms against {other:.0f} ms",
                mine / other,
                f"<= {bar:.2f}",
                mine <= bar * other,
            )
        )
    share = ours[2] / ours[1]
    rows.append(("pictures for values while dragging", f"{ours[2]} for {ours[1]}", share, ">= 0.90", share >= 0.9))
    print(f"{len(ours[0])} key presses each; interact while dragging drew {theirs[2]} pictures")
    for words, figures, ratio, bar, met in rows:
        print(f"{words:36} {figures:24} {ratio:5.2f}  {bar}  {'met' if met else 'MISSED'}")
    clean = (
        leaks["nodes"] < 50
        and leaks["objects"] < 500
        and not any(leaks[name] > 0 for name in ("page listeners", "listeners", "comm"))
    )
    print(f"{CHANGES} changes added {json.dumps(leaks)}  {'met' if clean else 'MISSED'}")
    return 0 if clean and all(row[-1] for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main())
