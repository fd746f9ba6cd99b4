"""The wheels of all that turbomath needs, for any PC: pip fetches them, here where there is a network."""

import email.parser
import re
import subprocess
import sys
import zipfile
from collections.abc import Collection
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name, parse_wheel_filename

from turbomath.offline.platforms import Machine, answers
from turbomath.table.errors import TurbomathError

_MISSING = re.compile(r"No matching distribution found for (\S+)")


def fetch(own: Path, folder: Path, machine: Machine, python: str) -> None:
    """Fetch into *folder* the wheels that turbomath's *own* one needs on a machine with that Python.

    pip decides by the Python that runs it which of them are needed only there, such as on Windows alone. What the
    wheels themselves ask for on the other machine is fetched as well, until nothing is missing.

    Raises
    ------
    TurbomathError
        Naming the wheel that does not exist for that machine, or what else pip said.
    """
    asked: set[str] = {str(own)}
    while asked:
        _fetch(sorted(asked), folder, machine, python)
        asked = missing(folder, machine, python)


def missing(folder: Path, machine: Machine, python: str) -> set[str]:
    """Return what the wheels of a folder need on that machine and is not among them."""
    there = {parse_wheel_filename(path.name)[0] for path in folder.glob("*.whl")}
    needed = (need for path in folder.glob("*.whl") for need in needs(path))
    told = answers(machine, python)
    return {
        f"{need.name}{need.specifier}"
        for need in needed
        if canonicalize_name(need.name) not in there and (need.marker is None or need.marker.evaluate(told))
    }


def needs(wheel: Path) -> list[Requirement]:
    """Return what a wheel asks for, with the conditions under which it does."""
    with zipfile.ZipFile(wheel) as opened:
        name = next(name for name in opened.namelist() if re.fullmatch(r"[^/]+\.dist-info/METADATA", name))
        told = email.parser.Parser().parsestr(opened.read(name).decode())
    return [Requirement(text) for text in told.get_all("Requires-Dist", ())]


def _fetch(asked: Collection[str], folder: Path, machine: Machine, python: str) -> None:
    where = [f"--platform={tag}" for tag in machine.tags]
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check", "--no-input"]
    command += ["--only-binary=:all:", f"--python-version={python}", "--implementation=cp", *where]
    done = subprocess.run(
        [*command, f"--dest={folder}", *asked],
        capture_output=True,
        encoding="utf-8",
        errors="replace",
    )
    if done.returncode == 0:
        return
    if "No module named pip" in done.stderr:
        raise TurbomathError("This Python has no pip, which fetches the wheels. Run: python -m ensurepip")
    if found := _MISSING.search(done.stderr):
        raise TurbomathError(
            f"There is no wheel of {found[1]} for {machine.words} and Python {python}, so no kit was made for it. "
            "Try another Python: --python 3.12"
        )
    last = next((line for line in reversed(done.stderr.splitlines()) if line.startswith("ERROR")), "ERROR: no reason")
    raise TurbomathError(f"pip could not fetch the wheels: {last.removeprefix('ERROR: ')}. Is there a network?")
