"""Throw-away lessons for the tests of the shell, and the real command line serving them."""

import json
import os
import re
import subprocess
import sys
import urllib.error
import urllib.request
from contextlib import contextmanager
from pathlib import Path

import psutil

import turbomath

HOUSE = Path(turbomath.__file__).parents[1]

PANEL = """
import ipywidgets as w
box = w.FloatText(value=3.0, description="Boost")
answer = w.HTML()
box.observe(lambda change: setattr(answer, "value", f"<p class='answer'>twice is {2 * change.new:g}</p>"), "value")
answer.value = "<p class='answer'>twice is 6</p>"
w.VBox([box, answer, w.IntSlider(description="Load")])
""".strip()

# The command line as the user starts it, but for where the shipped lessons lie.
COMMAND = """
import signal, sys
from pathlib import Path
from turbomath import cli
from turbomath.disk import files
signal.signal(signal.SIGINT, signal.default_int_handler)  # started in the background, pytest itself ignores Ctrl+C
shipped, place = files.shipped, Path(sys.argv[1])
files.shipped = lambda folder: place if folder == "lessons" else shipped(folder)
sys.exit(cli.main(sys.argv[2:]))
"""


def notebook(*cells):
    """Return a notebook's text from (kind, source) pairs, the code hidden as in the lessons."""
    made = [_cell(number, kind, source) for number, (kind, source) in enumerate(cells)]
    kernel = {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}
    return json.dumps({"cells": made, "metadata": {"kernelspec": kernel}, "nbformat": 4, "nbformat_minor": 5})


def _cell(number, kind, source):
    cell = {"cell_type": kind, "id": f"cell-{number}", "metadata": {}, "source": source.splitlines(keepends=True)}
    if kind == "code":
        cell |= {"execution_count": None, "outputs": [], "metadata": {"jupyter": {"source_hidden": True}}}
    return cell


def lesson(*more):
    """Return the throw-away lesson: words, a control with its answer, a second cell; and *more* cells."""
    words = ("markdown", "# A box of air\n\nHow much does it hold? Type a number.")
    return notebook(words, ("code", PANEL), ("code", 'print("second", 6 * 7)  # °C, ½, 𝛾'), *more)


class Classroom:
    """``turbomath lessons`` at work: its process, what it printed, its address and token, its work folder."""

    def __init__(self, process, work):
        self.process, self.work, self.printed = process, work, []
        for line in process.stdout:
            self.printed.append(line.rstrip("\n"))
            if "To stop" in line:
                break
        lines = [line for line in self.printed if "?token=" in line]
        assert len(lines) == 1, f"no address in {self.printed}"
        self.full_address = lines[0]
        self.address = re.match(r"http://[^/]+", self.full_address)[0]
        self.token = self.full_address.split("?token=")[1]

    def lesson(self, name):
        """Return the full address of a notebook in the work folder."""
        return f"{self.address}/doc/tree/{name}.ipynb?token={self.token}"

    def ask(self, path, *, method="GET", data=None, token=None):
        """Return (status, answer) of the server for *path*; *token* "" asks without one."""
        given = self.token if token is None else token
        head = {"Authorization": f"token {given}"} if given else {}
        body = None if data is None else json.dumps(data).encode()
        request = urllib.request.Request(self.address + path, data=body, headers=head, method=method)
        try:
            with urllib.request.build_opener(urllib.request.ProxyHandler({})).open(request, timeout=30) as answer:
                return answer.status, answer.read()
        except urllib.error.HTTPError as refusal:
            return refusal.code, b""

    def processes(self, word=""):
        """Return the server and the kernels, or those of them with *word* in their command."""
        found = psutil.Process(self.process.pid).children(recursive=True)
        return [process for process in found if word in _command(process)]

    def sessions(self, *names):
        """Return what the server knows of the open notebooks, or of those with one of the *names*."""
        found = json.loads(self.ask("/api/sessions")[1])
        return [session for session in found if not names or session["path"].removesuffix(".ipynb") in names]

    def kernels(self, *names):
        """Return the processes in which notebooks run, or those in which these notebooks do."""
        known = [session["kernel"]["id"] for session in self.sessions(*names)] if names else [""]
        return [one for one in self.processes("ipykernel_launcher") if any(mark in _command(one) for mark in known)]

    def kill_kernels(self, *names):
        """End the kernels as a crash would."""
        for kernel in self.kernels(*names):
            kernel.kill()

    def end_sessions(self, *names):
        """Shut down the notebooks' kernels, so that the next test starts with a fresh one."""
        for session in self.sessions(*names):
            self.ask(f"/api/sessions/{session['id']}", method="DELETE")


def _command(process):
    try:
        return " ".join(process.cmdline())
    except psutil.NoSuchProcess:
        return "gone meanwhile"


@contextmanager
def served(lessons, work, *arguments, **environment):
    """Give a `Classroom` for ``turbomath lessons ARGUMENTS`` with the shipped lessons of the folder *lessons*."""
    command = [sys.executable, "-c", COMMAND, str(lessons), "lessons", *(arguments or ["--no-browser"])]
    own = {"TURBOMATH_WORK": str(work), "PYTHONPATH": str(HOUSE)}
    process = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=os.environ | own | environment
    )
    try:
        yield Classroom(process, Path(work))
    finally:
        process.terminate()
        process.communicate(timeout=60)
