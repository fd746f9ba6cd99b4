"""Where lessons, data and work live, and how text reaches the disk whole."""

import os
import secrets
import shutil
import stat
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

BYTE_ORDER_MARK = "\ufeff"  # without it a spreadsheet takes the UTF-8 of a CSV file for something else
_WRITING = ".writing-"  # how a file is called until it is whole
_LONG_AGO = 3600.0  # s
_NEW = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0)
_PACKAGE = Path(__file__).resolve().parents[1]


def shipped(folder: str) -> Path:
    """Return the shipped folder "data" or "lessons": inside an installed kit, or beside it in a checkout."""
    installed = _PACKAGE / folder
    return installed if installed.is_dir() else _PACKAGE.parent / folder


def shipped_runs(under: str = "") -> list[str]:
    """Return the names of the shipped runs, in alphabetical order; those *under* a folder begin with its name."""
    folder = shipped("data")
    return sorted(bench.parent.relative_to(folder).as_posix() for bench in (folder / under).glob("*/bench.toml"))


def work_folder() -> Path:
    """Return the user's work folder: ``TURBOMATH_WORK``, or ``turbomath`` in the home folder."""
    return Path(os.environ.get("TURBOMATH_WORK") or Path.home() / "turbomath")


def write_whole(path: Path | str, content: str | bytes) -> None:
    """Write text or bytes to *path* so that a reader finds the old file or the new one, never half of either.

    A new file may be read by whom the system's usual mask allows, in a folder that is for its owner alone by nobody
    else; one that is there keeps its permissions.
    """
    path = Path(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    _drop_left_over(path.parent)
    temporary = path.parent / f"{_WRITING}{secrets.token_hex(8)}"
    try:
        with os.fdopen(os.open(temporary, _NEW, _permissions(path)), "wb") as stream:
            stream.write(content.encode() if isinstance(content, str) else content)
            stream.flush()
            os.fsync(stream.fileno())
        if path.is_file():
            os.chmod(temporary, stat.S_IMODE(path.stat().st_mode))
        os.replace(temporary, path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    keep_names(path.parent)


@contextmanager
def whole_folder(path: Path | str) -> Iterator[Path]:
    """Give a new folder to fill; it stands at *path*, where nothing or an empty folder is, once all is in it."""
    path = Path(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    place = path.parent / f"{_WRITING}{secrets.token_hex(8)}"
    try:
        place.mkdir()
        yield place
        if path.is_dir():
            path.rmdir()
        os.replace(place, path)
    except BaseException:
        shutil.rmtree(place, ignore_errors=True)
        raise
    keep_names(path.parent)


def keep_names(folder: Path) -> None:
    """Put the names of new files on the disk too, where the system allows it for a folder."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _permissions(path):
    """Return what a new file allows; the system takes off what its mask forbids."""
    alone = os.name != "nt" and not path.parent.stat().st_mode & 0o077
    return 0o600 if alone else 0o666


def _drop_left_over(folder):
    """Remove what a crash left of what was being written long ago."""
    for left in folder.glob(f"{_WRITING}*"):
        with suppress(OSError):
            if time.time() - left.stat().st_mtime > _LONG_AGO:
                shutil.rmtree(left) if left.is_dir() else left.unlink()


def cell(text: object) -> str:
    """Return *text* safe for a spreadsheet cell: what a spreadsheet would run as a formula is shown as text."""
    text = str(text)
    seen = [mark for mark in text if mark.isprintable() and not mark.isspace()]
    return "'" + text if seen and seen[0] in "=+-@" else text
