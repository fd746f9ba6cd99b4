"""The lessons as one file each: how big, how long to make, whether they say what the panels say, how fast they follow.

    python -m tests.benchmarks.pocket [FOLDER]

Without FOLDER every lesson is made first; with it, the files that are there are looked at. In each recorded panel 1,000
states are drawn by lot and set by the panel's own messages, and each frame is held against the panel's own: digits and
words as they are, points of pictures to a tenth of a screen's point. Latency is that of lesson 03's first slider
against `interact` with inline matplotlib, both in this run, as they are and with the processor throttled fourfold.
"""

import gzip
import random
import statistics
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.every_panel import PROBE, STOCK, begun, measured, our_sliders
from tests.benchmarks.slider_to_picture import INTERACT, their_slider
from tests.browser.conftest import CHROMIUM, QUIET
from tests.classroom.served import notebook, served
from tests.pocket.replayed import ANSWERED, OPEN, alive, answered, differences, messages
from turbomath.handouts.lesson_page import made
from turbomath.handouts.written import lessons_asked
from turbomath.pocket import page as pocket_page
from turbomath.pocket import written
from turbomath.pocket.plan import Plan
from turbomath.widgets.desk import Desk

STATES, AT_ONCE = 1_000, 50
LESSON, PHONE = "03_hot_air_is_thin", {"width": 390, "height": 844}
MEGABYTE, THROTTLED = 1e6, 4


def main(arguments):
    """Print every figure beside its bar; return 1 where one is missed."""
    from playwright.sync_api import sync_playwright

    rows = []
    with tempfile.TemporaryDirectory() as place, sync_playwright() as playwright:
        folder = Path(arguments[0]) if arguments else Path(place, "pocket")
        if not arguments:
            begin = time.perf_counter()
            list(written.write(lessons_asked(None), folder))
            rows.append(("making every lesson", time.perf_counter() - begin, "s", 300))
        rows += sizes(folder)
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        rows += replayed(browser, folder)
        rows += followed(browser, folder, Path(place))
        browser.close()
    for name, value, unit, most in rows:
        print(f"{name:52} {value:10.3f} {unit:3} <= {most:<8} {'met' if value <= most else 'MISSED'}")
    return 0 if all(value <= most for _, value, _, most in rows) else 1


def sizes(folder):
    """Return the largest lesson as it travels and as it lies, and all of them."""
    files = {path.name: path.read_bytes() for path in sorted(folder.glob("*.html"))}
    sent = {name: len(gzip.compress(whole, 6)) for name, whole in files.items()}
    for name, whole in files.items():
        print(f"{name:40} {len(whole) / MEGABYTE:6.2f} MB, gzipped {sent[name] / MEGABYTE:5.2f} MB")
    return [
        ("largest lesson, gzipped", max(sent.values()) / MEGABYTE, "MB", 1.0),
        ("largest lesson on the disk", max(map(len, files.values())) / MEGABYTE, "MB", 2.5),
        ("all lessons on the disk", sum(map(len, files.values())) / MEGABYTE, "MB", 15.0),
    ]


def replayed(browser, folder):
    """Return how many states differ from the panels, and how many requests were made."""
    off, asked = 0, []
    for lesson in (one for one in lessons_asked(None) if (folder / f"{one.notebook}.html").is_file()):
        page = browser.new_page()
        page.on("request", lambda request: asked.append(request.url))
        page.goto((folder / f"{lesson.notebook}.html").as_uri())
        alive(page)
        for name in pocket_page.panel_names(lesson):
            desk = made(lesson, name).desk
            if isinstance(desk, Desk) and page.locator(f"#{name}").count():
                off += _off(page, name, desk)
        page.close()
    return [("recorded states that differ", off, "", 0), ("requests, the files left out", _left(asked), "", 0)]


def _off(page, name, desk):
    places = Plan(desk).places()
    drawn = random.Random(8).sample(places, min(STATES, len(places)))
    plan, wrong = Plan(desk), []
    page.evaluate(ANSWERED, [name, [[OPEN]]])
    answered(desk, [[OPEN]])
    for first in range(0, len(drawn), AT_ONCE):
        several = [messages(plan, one) for one in drawn[first : first + AT_ONCE]]
        frames = page.evaluate(ANSWERED, [name, several])
        wrong += [found for pair in zip(frames, answered(desk, several), strict=True) if (found := differences(*pair))]
    print(
        f"{name:40} {len(drawn)} of {len(places)} states, {len(wrong)} differ",
        *(one[:2] for one in wrong[:2]),
        flush=True,
    )
    return len(wrong)


def _left(asked):
    return sum(not one.startswith(("file:", "data:")) for one in asked)


def followed(browser, folder, place):
    """Return the time from key to picture as a share of interact's, whole and throttled."""
    masters, work = place / "lessons", place / "work"
    masters.mkdir()
    (masters / f"{STOCK}.ipynb").write_text(notebook(("code", INTERACT)), encoding="utf-8")
    with served(masters, work) as classroom:
        theirs = begun(browser, classroom, masters, STOCK, lambda page: [("", their_slider(page))])[0]
        page = browser.new_context(viewport=PHONE, bypass_csp=True).new_page()  # the probe asks by script
        page.add_init_script(PROBE)
        page.goto((folder / f"{LESSON}.html").as_uri())
        ours = (page, *our_sliders(page)[0])
        rows = []
        for slow, most in ((1, 0.06), (THROTTLED, 0.12)):
            times = [statistics.median(_throttled(slow, *one)) for one in (ours, theirs)]
            print(f"key to picture, processor / {slow}: {times[0]:.0f} ms against {times[1]:.0f} ms")
            rows.append((f"key to picture against interact, processor / {slow}", times[0] / times[1], "", most))
    return rows


def _throttled(slow, page, title, handle):
    page.bring_to_front()
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slow})
    return measured(page, title, handle)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
