"""The folder for a PC without a network: all that turbomath needs, and scripts that install and start it there."""

import json
import shutil
from collections.abc import Callable, Collection
from pathlib import Path

from turbomath.disk import files
from turbomath.offline import platforms, wheels
from turbomath.offline.own_wheel import own_wheel
from turbomath.paper.page import page
from turbomath.table.errors import TurbomathError
from turbomath.table.version import __version__

_HERE = Path(__file__).resolve().parent
_SCRIPTS = {"start.cmd": "\r\n", "start.ps1": "\r\n", "start.sh": "\n"}  # with the ends of lines of their systems
_FOLDERS = ("lessons", "data")


def write(
    folder: Path | str,
    machines: Collection[str] = (),
    pythons: Collection[str] = (),
    say: Callable[[str], object] = lambda words: None,
) -> Path:
    """Write a kit into a new folder and return its path; nothing is left of one that could not be made whole.

    Parameters
    ----------
    folder : path
        Where nothing, or an empty folder, is.
    machines, pythons : collection of str, optional
        For which PCs, such as "windows", and for which Python there, such as "3.11"; by default as here.
    say : function
        Told in a sentence what takes its time.

    Raises
    ------
    TurbomathError
        If the folder is in use, a wheel does not exist for one of the PCs, or pip could not fetch it.
    """
    folder = Path(folder)
    if folder.is_file() or (folder.is_dir() and any(folder.iterdir())):
        raise TurbomathError(f"{folder}: found files, expected a new folder. Name another one, or empty it first.")
    chosen = {name: platforms.named(name) for name in machines or platforms.here()[:1]}
    versions = [platforms.version(one) for one in pythons or platforms.here()[1:]]
    made_for = [f"{one.words} with Python {version}" for one in chosen.values() for version in versions]
    with files.whole_folder(folder) as place:
        held, fetched = place / "wheels", place / "fetched"
        held.mkdir()
        own = own_wheel(held)
        for machine in chosen.values():
            for version in versions:
                say(f"Fetching what {machine.words} with Python {version} needs. This takes a minute or more.")
                fetched.mkdir()  # for each PC by itself: a wheel for one is none for another
                wheels.fetch(own, fetched, machine, version)
                for path in fetched.iterdir():
                    path.replace(held / path.name)
                fetched.rmdir()
        for name in _FOLDERS:
            shutil.copytree(files.shipped(name), place / name, ignore=shutil.ignore_patterns(".*", "__pycache__"))
        scripts(place, versions)
        told = {"turbomath": __version__, "for": made_for}
        (place / "kit.json").write_text(json.dumps(told, indent=1) + "\n", encoding="utf-8")
        readme = page(
            "offline_kit.html",
            title="turbomath without a network",
            invented=False,
            made_for=made_for,
            pythons=" or ".join(versions),
            windows="windows" in chosen,
            mac=any("mac" in name for name in chosen),
            linux="linux" in chosen,
        )
        (place / "README.html").write_text(readme, encoding="utf-8")
    return folder


def scripts(folder: Path, pythons: Collection[str]) -> None:
    """Write what starts the kit: a script for each system, and the plain Python that all of them call."""
    for name, end in _SCRIPTS.items():
        text = (_HERE / name).read_text(encoding="utf-8")
        text = text.replace("{pythons}", " ".join(pythons)).replace("{either}", " or ".join(pythons))
        (folder / name).write_text(text, encoding="utf-8", newline=end)
    shutil.copyfile(_HERE / "start.py", folder / "start.py")
    shutil.copyfile(folder / "start.sh", folder / "start.command")  # what a double click opens on macOS
    for name in ("start.sh", "start.command"):
        (folder / name).chmod(0o755)
