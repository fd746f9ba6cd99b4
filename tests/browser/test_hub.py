"""A class on one machine's JupyterHub, as data/hub sets it up: two students, each alone, and their instructor.

The configuration is the shipped one but for ports and how soon an idle Python is ended. The users are users of this
machine, made for the test. A probe that runs as one of them tries to get at the other.
"""

import csv
import json
import os
import re
import subprocess
import time
from pathlib import Path

import psutil
import pytest

from tests.browser.pages import PATIENCE, button, enter, live, panel, told
from tests.browser.test_lesson_03 import A, let_go
from tests.browser.test_lesson_08 import box, lab, line, predict, type_in
from tests.classroom import hub as hubs
from tests.classroom import intruder
from turbomath.disk import files

WHY = f"NO HUB TEST WAS RUN, for want of: {', '.join(hubs.missing())}. As root: {hubs.INSTALL}"
HOT, LAB = "03_hot_air_is_thin", "08_live_lab"
IDLE = 20  # s; a lesson's Python starts before its page is there, and must not be ended meanwhile
RUN, WEEK = "bench 1", "week3"
SHIPPED = files.shipped("data") / "hub"
CLASS_FILES = SHIPPED / "class_files.py"
INTRUDER = Path(intruder.__file__)
HAND_IN = """
from turbomath.panels.homework.sheet import SheetDesk
desk = SheetDesk("sheet")
desk.open(desk.found[0][0])
desk.enter(*next((one.name, one.parts[0][0] if one.parts else "", "12 psi") for one in desk.answers.sheet.questions))
desk.hand_in()
assert "Handed in" in desk.answers.handed, desk.answers.fault
"""
ENTER = """
from turbomath.disk.files import work_folder
from turbomath.lab.entry.entry_run import EntryRun
run = EntryRun(work_folder() / "bench 1")
for column, text in {cells}.items():
    assert run.enter("4A", column, text).saved
assert run.write().saved
"""

pytestmark = pytest.mark.skipif(bool(hubs.missing()) and os.environ.get("TURBOMATH_REQUIRE_HUB") != "1", reason=WHY)


@pytest.fixture(scope="module")
def hub():
    if hubs.missing():
        pytest.fail(WHY, pytrace=False)
    with hubs.running("ana", "ben", idle=IDLE) as started:
        yield started


@pytest.fixture(scope="module")
def ana(hub):
    return next(iter(hub.users))


@pytest.fixture(scope="module")
def ben(hub):
    return list(hub.users)[1]


@pytest.fixture(scope="module")
def instructor(hub, ana, ben):
    """Return ``instructor(command, ...)`` -> what it says; a homework and a run have been given out."""
    desk = hub.place / "desk"
    desk.mkdir(mode=0o700)
    tools = hub.place / "environment" / "bin"

    def run(*command, ends=0):
        where = os.environ | {"TURBOMATH_HUB": str(hub.place)}
        command = [tools / command[0], *command[1:]]
        done = subprocess.run(command, cwd=desk, env=where, capture_output=True, encoding="utf-8", timeout=120)
        assert done.returncode == ends, done.stderr
        return done.stdout

    run.desk = desk
    (desk / "class.csv").write_text(f"seat,student\nA01,{ana}\nA02,{ben}\n", encoding="utf-8")
    run("turbomath", "homework", "sheet", "gauge_to_density", "--seats", "class.csv", "--out", WEEK)
    run("turbomath", "new", RUN)
    for folder in (WEEK, RUN):
        run("python", CLASS_FILES, "give", folder, "class.csv")
    return run


def logged_in(hub, open_address, user):
    page = open_address(hub.address)
    page.get_by_label("Username").fill(user)
    page.get_by_label("Password").fill(hub.users[user])
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(f"**/user/{user}/turbomath*", timeout=2 * PATIENCE)
    return page


def opened(page, hub, user, lesson):
    page.goto(f"{hub.address}user/{user}/turbomath/open/{lesson}")
    live(page)
    return page


def test_each_student_works_alone_and_what_idles_away_is_not_lost(hub, ana, ben, instructor, open_address, screenshot):
    windows, since = {}, 0.0
    for number, user in enumerate((ana, ben)):
        page = logged_in(hub, open_address, user)
        page.locator(".lessons").get_by_role("link", name="Hot air is thin", exact=True).click()
        live(page)
        panel(page).get_by_role("radio", name=A).check()
        button(page, "this is my prediction").click()
        let_go(page)
        drawn = panel(page).locator("svg").last.inner_html()
        enter(page, "boost", "30")
        told(page, "At 30.0 psi of boost")
        assert panel(page).locator("svg").last.inner_html() != drawn
        screenshot(page, f"hub_{HOT}_{number}")

        opened(page, hub, user, LAB)
        lab(page).get_by_role("combobox", name="run folders in your work folder").select_option(label=RUN)
        predict(page)
        type_in(page, "boost", "3 load", f"2{number}.5")
        line(page, "1 saved. All is on the disk.")
        windows[user] = page
        since = since or time.monotonic()
    page = windows[ana]
    page.wait_for_timeout(max(0.0, 1000 * (1.2 * IDLE - (time.monotonic() - since))))
    assert kernels(hub, ana), "a lesson that stands in a window goes on"
    type_in(page, "manifold temperature", "3 load", "132")
    line(page, "2 saved. All is on the disk.")

    nothing_is_got(hub, ben, ana)

    page.context.close()
    hubs.until(lambda: not kernels(hub, ana), "a lesson that nobody looks at goes on")
    hub.stop(ana)
    page = logged_in(hub, open_address, ana)
    opened(page, hub, ana, LAB)
    lab(page).get_by_text("2 readings were found on the disk").wait_for()
    assert box(page, "boost", "3 load").input_value() == "20.5"
    screenshot(page, "hub_again")


def test_what_students_made_comes_back_to_the_instructor(hub, ana, ben, instructor):
    instructor("turbomath", "new", "bench 2")
    said = instructor("python", CLASS_FILES, "give", "bench 2", "class.csv")
    assert said.count("given: bench.toml, readings.csv, record.toml") == 2
    assert instructor("python", CLASS_FILES, "collect", "bench 2", "class.csv").count("nothing yet") == 2
    as_user(hub, ana, HAND_IN)
    for user, cells in ((ana, {"boost": "24.0"}), (ben, {"boost": "24.5", "barometer": "29,10"})):
        as_user(hub, user, ENTER.format(cells=cells))
    (hub.work(ben) / WEEK / "answers.json").symlink_to(instructor.desk / WEEK / "instructor" / "secret")

    said = instructor("python", CLASS_FILES, "collect", WEEK, "class.csv", ends=1)
    assert re.search(rf"A01 +{ana} +handed in, last changed 20\d\d-", said), said
    assert re.search(rf"A02 +{ben} +not done: .*Permission denied", said), said
    assert not (instructor.desk / WEEK / "students" / "A02" / "answers.json").exists()
    instructor("turbomath", "homework", "gradebook", WEEK)
    page = (instructor.desk / WEEK / "instructor" / "class_results.html").read_text(encoding="utf-8")
    assert "1 of 2 seats have handed in." in page

    instructor("python", CLASS_FILES, "collect", RUN, "class.csv")
    groups = [f"{RUN} groups/{seat}" for seat in ("A01", "A02")]
    said = instructor("turbomath", "pool", *groups, "--into", "all")
    assert "A02, row 4A: another group has read it too. This reading stands as 4B." in said
    with open(instructor.desk / "all" / "readings.csv", encoding="utf-8-sig", newline="") as file:
        rows = {one["point"] + one["pass"]: one for one in csv.DictReader(file)}
    assert [rows[name]["boost [psi]"] for name in ("4A", "4B")] == ["24.0", "24.5"]


def as_user(hub, user, code, told=""):
    """Run Python of the kit as a user of the hub; return what it prints."""
    where = {"TURBOMATH_WORK": str(hub.work(user)), "HOME": str(hub.place / "home" / user)}
    python = hub.place / "environment" / "bin" / "python"
    done = subprocess.run(
        [python, "-c", code],
        user=user,
        group=user,
        extra_groups=[],
        umask=0o077,
        env=where,
        cwd="/",
        timeout=120,
        input=told,
        capture_output=True,
        encoding="utf-8",
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def kernels(hub, user):
    return [one for one in hub.processes(user) if "ipykernel_launcher" in " ".join(one.info["cmdline"] or ())]


def looked_at(hub, user):
    """Return what there is of a user's to get at, and the secrets that no command line may hold."""
    home, mine = hub.place / "home" / user, hub.processes(user)
    runtime = hub.place / "run" / user
    server = next(one for one in mine if "singleuser" in " ".join(one.info["cmdline"]))
    ports = [one.laddr.port for one in server.net_connections("inet") if one.status == "LISTEN"]
    kernel_files = [json.loads(one.read_text(encoding="utf-8")) for one in runtime.glob("kernel-*.json")]
    plugs = [one.laddr for process in mine for one in process.net_connections("unix") if one.laddr.startswith("/")]
    secrets = {text for one in [*mine, *psutil.Process(hub.process.pid).children()] for text in tokens(one)}
    secrets |= {one["key"] for one in kernel_files}
    secrets |= {hub.users[user], (hub.place / "hub" / "key").read_text()}
    return {
        "folders": [str(one) for one in (hub.work(user), hub.work(user) / RUN, home, runtime, hub.place / "hub")],
        "files": [
            str(one)
            for place in (hub.work(user), home, runtime, hub.place / "hub")
            for one in place.rglob("*")
            if one.is_file()
        ],
        "kit": str(hub.place / "environment"),
        "processes": [one.pid for one in mine],
        "sockets": sorted(set(plugs)),
        "addresses": [f"http://127.0.0.1:{port}/class/user/{user}/" for port in ports] + [f"{hub.address}user/{user}/"],
        "transports": {one["transport"] for one in kernel_files},
        "secrets": secrets - {""},
    }


def tokens(process):
    """Return the secrets in the environment of a process, which root may read."""
    return [text for name, text in process.environ().items() if "TOKEN" in name]


def tried_by(hub, thief, there):
    """Return what a user gets of what is there, with the token of an own server in hand."""
    server = next(one for one in hub.processes(thief) if "singleuser" in " ".join(one.info["cmdline"]))
    told = {name: what for name, what in there.items() if name not in ("secrets", "transports")}
    told |= {"token": server.environ()["JUPYTERHUB_API_TOKEN"]}
    return json.loads(as_user(hub, thief, INTRUDER.read_text(encoding="utf-8"), json.dumps(told)))


def nothing_is_got(hub, thief, victim):
    """As one user, try to get at the other's work, keys and Python, and at the lessons."""
    there = looked_at(hub, victim)
    assert there["transports"] == {"ipc"}, "at a port every user of the machine can listen to a lesson"
    got = tried_by(hub, thief, there)
    commands = got.pop("commands")
    assert got == {name: [] for name in got}
    assert any("jupyterhub-singleuser" in one for one in commands), "the command lines of all were seen"
    assert not [one for one in commands for secret in there["secrets"] if secret in one]
    own = tried_by(hub, victim, there)  # the same attempts do succeed where they may
    assert own.pop("changed") == []
    assert all(own.values()), own
