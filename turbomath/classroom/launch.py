"""`turbomath lessons`: copy the lesson, start JupyterLab on this machine, say where it is, stop when asked."""

import html
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TextIO

from turbomath.classroom import digests, settings, work_copies
from turbomath.disk import files
from turbomath.table.errors import TurbomathError

PATIENCE = 120  # seconds to the first answer: an old classroom machine with a virus scanner takes its time
_DOOR = (
    '<!doctype html><meta charset="utf-8"><meta name="referrer" content="no-referrer"><title>turbomath</title>'
    '<meta http-equiv="refresh" content="0; url={0}"><a href="{0}">Open the lessons</a>\n'
)
_DIRECT = urllib.request.build_opener(urllib.request.ProxyHandler({}))  # this machine is never behind a proxy


def lessons(asked: str | None = None, *, browser: bool = True, present: bool = False) -> None:
    """Open the home page or a lesson in the browser; return when the server has ended.

    Parameters
    ----------
    asked : str, optional
        The lesson's name or number; without it the home page opens.
    browser : bool
        Whether to open the browser, where there is a screen.
    present : bool
        Whether the lesson begins on the wall, in present mode.

    Raises
    ------
    TurbomathError
        When there is no such lesson, or JupyterLab does not start or ends by itself.
    """
    if present and not asked:
        raise TurbomathError("Which lesson is to be presented? Name it, such as: turbomath lessons 03 --present")
    names = [work_copies.lesson_name(asked)] if asked else list(digests.lessons())
    if not names:
        raise TurbomathError("No lesson was found in this installation. Install turbomath again.")
    work = files.work_folder().absolute()
    print(f"Your work folder: {work}")
    for name in names:
        kept = work_copies.refresh(name, work)
        if kept:
            print(f"Your changes are kept in: {kept.name}")
    print("Starting JupyterLab on this machine. This takes a few seconds.", flush=True)
    opened = f"/doc/tree/{names[0]}.ipynb" if asked else settings.HOME
    _serve(work, opened, browser and _has_screen(), present)


def _serve(work: Path, opened: str, browser: bool, present: bool) -> None:
    """Run the server for the page *opened* until it ends or the user ends it."""
    folder, door = settings.make(work, opened, present=present), work_copies.own(work) / "open.html"
    try:
        with _log(work) as log, _ended_by_signals(), _server(folder, log) as server:
            address = _address(folder, server)
            if address is None:
                raise TurbomathError(f"JupyterLab did not start. What it said last is in {log.name}.")
            lesson = f"{address[0]}{opened}?token={address[1]}"
            if browser:
                _open(lesson, door, log)
            print(lesson)
            print("Open the address above in your browser. To stop: press Ctrl+C here.", flush=True)
            while server.poll() is None:
                time.sleep(0.2)
            if server.returncode:
                raise TurbomathError(f"JupyterLab ended by itself. What it said last is in {log.name}.")
    except KeyboardInterrupt:
        pass
    finally:
        door.unlink(missing_ok=True)
        shutil.rmtree(folder, ignore_errors=True)
    print("Stopped. Your work is in the work folder.", flush=True)


@contextmanager
def _server(folder: Path, log: TextIO) -> Iterator[subprocess.Popen]:
    """Give the running server; at the end close its pipe, which stops it and its kernels, and wait for it."""
    command = [sys.executable, "-P", "-m", "turbomath.classroom.server", str(folder)]
    server = subprocess.Popen(
        command,
        stdin=subprocess.PIPE,
        stdout=log,
        stderr=log,
        env=settings.environment(folder),
        cwd=tempfile.gettempdir(),
        start_new_session=True,  # and its like on Windows: Ctrl+C is for the command line alone
        creationflags=getattr(subprocess, "CREATE_NEW_PROCESS_GROUP", 0),
    )
    try:
        yield server
    finally:
        try:
            server.communicate(timeout=20)  # it closes the pipe
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait()


def _address(folder: Path, server: subprocess.Popen) -> tuple[str, str] | None:
    """Return (address, token) once the server answers, or None when it ended or was too slow."""
    end = time.monotonic() + PATIENCE
    while server.poll() is None and time.monotonic() < end:
        for note in (folder / "runtime").glob("jpserver-*.json"):
            try:
                told = json.loads(note.read_text(encoding="utf-8"))
                address = f"http://127.0.0.1:{told['port']}"
                head = {"Authorization": f"token {told['token']}"}
                _DIRECT.open(urllib.request.Request(f"{address}/api/status", headers=head), timeout=10).close()
                return address, told["token"]
            except (OSError, ValueError):
                pass  # half written, or not listening yet
        time.sleep(0.1)
    return None


def _open(lesson: str, door: Path, log: TextIO) -> None:
    """Open a lesson in the browser through a page that is for this user alone.

    The address holds the key to the lessons, and every user of a machine can read how each program was started.
    """
    files.write_whole(door, _DOOR.format(html.escape(lesson)))
    command = [sys.executable, "-P", "-m", "webbrowser", door.as_uri()]
    how = {"stdin": subprocess.DEVNULL, "stdout": log, "stderr": log, "start_new_session": True}
    threading.Thread(target=subprocess.run, args=(command,), kwargs=how, daemon=True).start()


@contextmanager
def _log(work: Path) -> Iterator[TextIO]:
    """Give the file for what JupyterLab says: it would alarm on the screen, and helps when something fails."""
    place = work_copies.own(work) / "server.log"
    if place.is_symlink():  # put there by somebody else: never write where it points
        place.unlink()
    with open(place, "w", encoding="utf-8") as log:
        yield log


@contextmanager
def _ended_by_signals() -> Iterator[None]:
    """Let the signals that end a program end the server first, as Ctrl+C does."""
    names = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP", "SIGBREAK") if hasattr(signal, name)]
    before = {name: signal.signal(name, signal.default_int_handler) for name in names}
    try:
        yield
    finally:
        for name, handler in before.items():
            signal.signal(name, handler)


def _has_screen() -> bool:
    """Whether there is a window to open a browser in: without one a text browser would take over the terminal."""
    if not sys.platform.startswith("linux"):
        return True
    return any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "BROWSER"))
