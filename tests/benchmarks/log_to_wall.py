"""How long a logger's line takes from the disk to the wall of lesson 08, in a browser, at 10 Hz.

    python -m tests.benchmarks.log_to_wall [MINUTES]        # two; 60 for a real hour

Lines come torn, in bursts and after pauses, some of which part a line; now and then the logger moves its file and
begins another. The clock runs from the write that ends a line to the frame on which the wall's count has reached it.
Beside the wall the same file is followed without a browser, and each number compared. The bar: 95 of 100 within a
second, no line lost or misread, on a machine that has little else to do. Exits with 1 where it is missed.
"""

import csv
import os
import random
import re
import shutil
import sys
import tempfile
import threading
import time
from pathlib import Path

import numpy as np

from tests.browser.conftest import CHROMIUM, QUIET
from tests.browser.pages import live
from tests.classroom.served import served
from tests.lab.run.logged import log
from turbomath.disk import files
from turbomath.lab.entry.live_log import LiveLog
from turbomath.lab.run.bench import read_bench

NAME = "08_live_lab"
RATE, LOOK = 10.0, 0.3  # rows a second, s between two looks without a browser
BURST, TORN, PAUSED, PAUSE = 0.05, 0.3, 0.0005, (2.0, 15.0)  # shares of the lines, s
MOVED = 6  # files of one run
PROBE = """
window.seen = [];
new MutationObserver(() => requestAnimationFrame(() => setTimeout(() => {
  const line = document.querySelector('.tm-present .tm-following')?.innerText ?? '';
  const rows = line.match(/([\\d,]+) rows/);
  if (rows && rows[1] !== window.last) window.seen.push([Date.now() / 1000, window.last = rows[1], line]);
}))).observe(document, { subtree: true, childList: true, characterData: true });
"""


def written(path, head, rows, told, busy, chance):
    """Write the rows at their times, some in two pieces, some late and all at once; tell when each was whole.

    *busy* gets how much the machine had to do while each file was written.
    """
    start, late, waited = time.monotonic(), [], 0.0
    for turn, row in enumerate(rows):
        if turn and turn % -(-len(rows) // MOVED) == 0:
            path.rename(path.with_name(f"{path.stem}.{turn}.csv"))
            path.write_text(head, encoding="utf-8")
            busy.append(os.getloadavg()[1])
        time.sleep(max(0.0, start + waited + turn / RATE - time.monotonic()))
        late.append(row)
        if chance.random() < BURST and turn < len(rows) - 1:
            continue  # the logger pauses: this one comes with the next
        text = "".join(late)
        cut = chance.randrange(len(text)) if chance.random() < TORN else 0
        with path.open("a", encoding="utf-8") as stream:
            stream.write(text[:cut])
            stream.flush()
            if cut:
                rest = chance.uniform(*PAUSE) if chance.random() < PAUSED / TORN else 0.02
                waited += rest
                time.sleep(rest)
            stream.write(text[cut:])
        told += [time.time()] * len(late)
        late.clear()


def hung(browser, classroom):
    """Return the page whose lesson follows the file on a wall."""
    page = browser.new_context(viewport={"width": 1366, "height": 768}).new_page()
    page.set_default_timeout(120_000)
    page.add_init_script(PROBE)
    page.goto(classroom.lesson(NAME))
    live(page)
    lab = page.locator(".tm").filter(has_text="What does your engine gain?")
    lab.get_by_role("combobox", name="run folders in your work folder").select_option(label="run")
    lab.get_by_text("Nothing entered yet").wait_for()
    lab.locator("details.tm-log summary").click()
    box = lab.locator("details.tm-log").get_by_role("textbox", name="a logger's file")
    box.fill("run/today.csv")
    box.press("Enter")
    lab.get_by_text("is followed").wait_for()
    page.locator(".tm-presentable").first.focus()
    page.keyboard.press("p")
    wall = page.locator(".tm-present")
    while wall.get_attribute("data-step") != "observe":
        page.keyboard.press("PageDown")
        page.wait_for_timeout(300)
    wall.locator(".tm-following", has_text="is followed").wait_for()
    return page


def followed(page, path, bench, count, writer):
    """Return ([(when, rows, line)] of the wall, the `LiveLog` beside it) when the writer has ended."""
    beside, seen = LiveLog(path, bench), []
    last = 0.0
    while writer.is_alive() or time.time() - last < 5.0:
        last = time.time() if writer.is_alive() else last
        page.wait_for_timeout(1000 * LOOK)
        seen += [(when, int(rows.replace(",", "")), line) for when, rows, line in page.evaluate("seen.splice(0)")]
        beside.look()
        beside.offers()
    return seen, beside


def misread_on(seen, names, meant):
    """Return how many numbers on the wall are not those of the row that it says it shows."""
    wrong = 0
    for _, rows, text in seen:
        line = text.replace("\xa0", " ").split(" rows. Now ")[1]
        for words, name in (("load", "load"), ("boost", "boost"), ("engine speed", "engine_speed")):
            shown = re.search(rf"\b{words} ([-\d.]+) ", line)
            wrong += shown is None or float(shown[1]) != meant[rows - 1, names.index(name)]
    return wrong


def main(minutes):
    """Print what was found; return 1 if a bar is missed."""
    from playwright.sync_api import sync_playwright

    head, *rows = log(round(60 * minutes * RATE), 1 / RATE)[0].splitlines(keepends=True)
    told, busy = [], []
    with tempfile.TemporaryDirectory() as place, sync_playwright() as playwright:
        work = Path(place, "work")
        (work / "run").mkdir(parents=True)
        path = work / "run" / "today.csv"
        shutil.copy(files.shipped("data") / "generator_air_to_air" / "bench.toml", work / "run")
        path.write_text(head, encoding="utf-8")
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        with served(files.shipped("lessons"), work) as classroom:
            shutil.copy(files.shipped("lessons") / f"{NAME}.ipynb", work)
            page = hung(browser, classroom)
            writer = threading.Thread(target=written, args=(path, head, rows, told, busy, random.Random(22)))
            writer.start()
            seen, beside = followed(page, path, read_bench(work / "run" / "bench.toml"), len(rows), writer)
        browser.close()
    return judged(head, rows, told, [*busy, os.getloadavg()[1]], seen, beside)


def judged(head, rows, told, busy, seen, beside):
    """Print the figures beside their bars; return 1 if one is missed."""
    names = [name.split(" [")[0].replace(" ", "_") for name in next(csv.reader([head]))]
    meant = np.array([[float(cell) for cell in row.split(",")] for row in rows])
    when = np.array([one[0] for one in seen])
    first = np.searchsorted([one[1] for one in seen], np.arange(1, len(rows) + 1))
    behind = when[first[first < len(seen)]] - np.array(told)[first < len(seen)]
    half, most = np.percentile(behind, [50, 95])
    print(f"{len(behind):,} lines at {RATE:g} Hz in {MOVED} files: on the wall after {half:.2f} s (median)")
    print(f"95 of 100 in {most:.2f} s, the last in {max(behind):.2f} s; bar 1 s")
    parts = zip(np.array_split(behind, MOVED), busy, strict=True)
    print(
        "of each file, with the load of the machine:",
        *(f"{np.percentile(one, 95):.2f} s ({at:.1f})" for one, at in parts),
    )
    got = {name: np.array(beside.values[name]) for name in names if name != "time"}
    lost = (len(rows) - seen[-1][1], len(rows) - beside.rows)
    misread = (
        int(misread_on(seen, names, meant)),
        sum(int((got[name] != meant[: beside.rows, at]).sum()) for at, name in enumerate(names) if name in got),
    )
    print(f"lost on the wall and beside it: {lost}; misread: {misread} of {3 * len(seen):,} and {meant.size:,} numbers")
    return int(most > 1.0 or any(lost) or any(misread))


if __name__ == "__main__":
    sys.exit(main(float(sys.argv[1]) if len(sys.argv) > 1 else 2.0))
