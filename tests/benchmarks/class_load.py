"""A class at work on one machine: so many real kernels with lesson 03, each with a slider that moves every 20 s.

    python -m tests.benchmarks.class_load [--users 24] [--minutes 30]

Through a real JupyterHub with `data/hub`, each student a user of the machine, where that can run (root, JupyterHub, its
proxy: see tests/classroom/hub.py); else through one JupyterLab server, and it says so. It prints the memory of a user
(PSS, which parts shared pages among those who share), the time from a slider to its answer, failures, how much each
kernel grew, and how many users a machine serves. Bars: no failure, 95 of 100 answers within 0.4 s, at most 10 MB grown.
Exits with 1 where one is missed. The students are programs: no browser draws here or takes memory.
"""

import argparse
import asyncio
import json
import math
import os
import statistics
import sys
import tempfile
import time
import uuid
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field

import psutil
from jupyter_server.services.kernels.connection.base import deserialize_binary_message
from tornado.httpclient import AsyncHTTPClient, HTTPRequest
from tornado.websocket import websocket_connect

from tests.classroom import hub as hubs
from tests.classroom.served import served
from turbomath.classroom import digests
from turbomath.disk import files

LESSON, EVERY = "03_hot_air_is_thin", 20  # s between two doings of a student
SLOWEST, P95, GROWN = 30.0, 0.4, 10.0  # s until an answer counts as none; s; MB
KEPT_FREE = 2.0  # GB for the system itself, beside the hub
MB = 1e6


@dataclass
class Student:
    """One student: the server, the key to it, the notebook, and what was seen."""

    address: str
    key: str
    notebook: str
    took: list[float] = field(default_factory=list)
    failed: list[str] = field(default_factory=list)
    kernel: str = ""
    at_first: float = 0.0

    async def asked(self, path, method="GET", data=None):
        """Return what the server answers to a program."""
        head = {"Authorization": f"token {self.key}", "Content-Type": "application/json"}
        body = None if data is None else json.dumps(data)
        request = HTTPRequest(f"{self.address}{path}", method, head, body, request_timeout=300)
        return json.loads((await AsyncHTTPClient().fetch(request)).body or b"null")

    async def begin(self):
        """Open the lesson, run it, predict."""
        session = {"path": f"{self.notebook}.ipynb", "name": self.notebook, "type": "notebook"}
        session["kernel"] = {"name": "python3"}
        self.kernel = (await self.asked("api/sessions", "POST", session))["kernel"]["id"]
        place = f"{self.address.replace('http', 'ws', 1)}api/kernels/{self.kernel}/channels"
        head = {"Authorization": f"token {self.key}"}
        self.line = await websocket_connect(HTTPRequest(place, headers=head, request_timeout=300))
        self.panel = ""
        for kind, source in digests.contents(digests.lessons()[LESSON]):
            if kind == "code":
                await self.ran(source)
        await self.did("first", say="answer", text=self.choice, why="", question=0)
        await self.did("let go", say="hold", name="manifold_temperature", on=False)

    async def work(self, until, wait):
        """Move the slider every 20 s, each student at another moment."""
        await asyncio.sleep(wait)
        self.at_first, turn = self.private(), 0
        while time.monotonic() < until:
            start, turn = time.monotonic(), turn + 1
            try:
                frame = await self.did(f"{turn}", say="slide", name="boost", text=str(10 + turn % 20))
                assert f"{10 + turn % 20}" in json.dumps(frame["shown"]["sentence"]), "an answer to something else"
                self.took.append(time.monotonic() - start)
            except (TimeoutError, AssertionError, KeyError, OSError) as trouble:
                self.failed.append(f"{type(trouble).__name__}: {trouble}")
            await asyncio.sleep(max(0.0, EVERY - (time.monotonic() - start)))

    async def ran(self, source):
        """Run a cell to its end, and keep in mind the panel with sliders that it has made."""
        asked = await self.said("execute_request", code=source, silent=False, store_history=False)
        while True:
            heard = await self.heard()
            content, of = heard["content"], heard["parent_header"].get("msg_id")
            if heard["msg_type"] == "comm_open" and not self.panel:
                opening = content["data"].get("state", {}).get("opening", {})
                if opening.get("controls"):
                    self.panel = content["comm_id"]
                    self.choice = opening["questions"][0]["options"][0]
            if heard["msg_type"] == "error":
                raise AssertionError(content["evalue"])
            if of == asked and heard["msg_type"] == "status" and content["execution_state"] == "idle":
                return

    async def did(self, turn, **doing):
        """Do something on the panel; return the frame that answers it."""
        data = {"method": "custom", "content": {**doing, "turn": turn}}
        await self.said("comm_msg", comm_id=self.panel, data=data)
        while True:
            heard = await asyncio.wait_for(self.heard(), SLOWEST)
            if heard["msg_type"] == "comm_msg" and heard["content"]["comm_id"] == self.panel:
                frame = heard["content"]["data"].get("state", {}).get("frame", {})
                if frame.get("turn") == turn:
                    assert not frame["notice"], frame["notice"]
                    return frame

    async def said(self, kind, **content):
        """Send a message of Jupyter's to the kernel; return its name."""
        name = uuid.uuid4().hex
        header = {"msg_id": name, "msg_type": kind, "username": "", "session": self.kernel, "version": "5.3"}
        message = {"header": header, "parent_header": {}, "metadata": {}, "content": content, "channel": "shell"}
        await self.line.write_message(json.dumps(message))
        return name

    async def heard(self):
        """Return the next message of the kernel."""
        text = await self.line.read_message()
        if text is None:
            raise OSError("the line to the kernel was cut")
        return deserialize_binary_message(text) if isinstance(text, bytes) else json.loads(text)

    def private(self):
        """Return the memory that the kernel has for itself alone [MB]."""
        for one in psutil.process_iter(["cmdline"]):
            if self.kernel in " ".join(one.info["cmdline"] or ()) and "ipykernel" in " ".join(one.info["cmdline"]):
                return one.memory_full_info().uss / MB
        return float("nan")


@contextmanager
def through_the_hub(count):
    """Give (students, what to call it, function -> PSS of the hub itself, of the students [MB])."""
    with hubs.running(*(f"s{number}" for number in range(count))) as hub:
        for name in hub.users:
            hub.ask(f"users/{name}", "POST")
        for name in hub.users:
            with suppress(OSError):  # slow to start: it goes on by itself
                hub.ask(f"users/{name}/server", "POST")
        for name in hub.users:
            hubs.until(lambda name=name: hub.ask(f"users/{name}")["servers"].get("", {}).get("ready"))

        def memory():
            own = [psutil.Process(hub.process.pid), *psutil.Process(hub.process.pid).children(recursive=True)]
            mine = [one for one in own if one.username() not in hub.users]
            return pss(mine), sum(pss(hub.processes(name)) for name in hub.users)

        yield [Student(f"{hub.address}user/{name}/", hub.key, LESSON) for name in hub.users], "JupyterHub", memory


@contextmanager
def through_one_server(count):
    """Give the same for one server of `turbomath lessons` with all kernels in it."""
    with tempfile.TemporaryDirectory() as work, served(files.shipped("lessons"), work) as room:
        students = [Student(f"{room.address}/", room.token, f"{LESSON} (yours {n})") for n in range(count)]
        yield students, "one server, no hub", lambda: (0.0, pss(room.processes()))


def pss(processes):
    """Return the memory of processes, each shared page parted among those who share it [MB]."""
    found = 0.0
    for one in processes:
        with suppress(psutil.Error):
            found += one.memory_full_info().pss / MB
    return found


async def measured(students, minutes, memory):
    """Let all of them work; return the memory of hub and students at the end [MB], and what each kernel grew [MB]."""
    start = time.monotonic()
    await asyncio.gather(*(one.begin() for one in students))
    print(f"{len(students)} lessons run after {time.monotonic() - start:.0f} s", flush=True)
    until = time.monotonic() + 60 * minutes
    await asyncio.gather(*(one.work(until, place * EVERY / len(students)) for place, one in enumerate(students)))
    return memory(), [one.private() - one.at_first for one in students]


def told(students, way, memory, grown):
    """Print what was found; return 1 if a bar is missed."""
    took = sorted(time for one in students for time in one.took)
    failed = [words for one in students for words in one.failed]
    own, of_students = memory
    each = of_students / len(students)
    p95 = took[math.ceil(0.95 * len(took)) - 1]
    print(f"{way}: {len(students)} users on {psutil.cpu_count()} processors, load {os.getloadavg()[0]:.1f} at the end")
    print(f"memory (PSS): a user {each:.0f} MB, the hub and its proxy {own:.0f} MB")
    print(
        f"slider to answer: median {1000 * statistics.median(took):.0f} ms, p95 {1000 * p95:.0f} ms, "
        f"slowest {1000 * took[-1]:.0f} ms, of {len(took)}"
    )
    print(f"failures: {len(failed)}", *failed[:3], sep="\n  ")
    print(f"a kernel grew by {statistics.median(grown):.1f} MB, at most {max(grown):.1f} MB")
    for size in (8, 16, 24, 32, 64):
        fit = int(((size - KEPT_FREE) * 1000 - own) / each)
        print(f"a machine with {size} GB serves {fit} users by memory ({KEPT_FREE:g} GB left to the system)")
    missed = [
        words
        for words, is_missed in (
            ("failures", bool(failed)),
            (f"p95 above {P95} s", p95 > P95),
            (f"a kernel grew by more than {GROWN} MB", max(grown) > GROWN),
        )
        if is_missed
    ]
    print(f"MISSED: {', '.join(missed)}" if missed else "all bars met")
    return int(bool(missed))


def main(arguments):
    """Run it; return 1 if a bar is missed."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--users", type=int, default=24)
    parser.add_argument("--minutes", type=float, default=30)
    asked = parser.parse_args(arguments)
    if hubs.missing():
        print(f"NO HUB, for want of: {', '.join(hubs.missing())}. As root: {hubs.INSTALL}")
    with (through_one_server if hubs.missing() else through_the_hub)(asked.users) as (students, way, memory):
        return told(students, way, *asyncio.run(measured(students, asked.minutes, memory)))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
