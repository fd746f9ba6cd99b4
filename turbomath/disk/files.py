"""Where lessons, data and work live, and how text reaches the disk whole."""

import os
import tempfile
from pathlib import Path

BYTE_ORDER_MARK = "\ufeff"  # without it a spreadsheet takes the UTF-8 of a CSV file for something else
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
    """Write text or bytes to *path* so that a reader finds the old file or the new one, never half of either."""
    path = Path(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=".writing-")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content.encode() if isinstance(content, str) else content)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(temporary, 0o644)
        os.replace(temporary, path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise


def cell(text: object) -> str:
    """Return *text* safe for a spreadsheet cell: what a spreadsheet would run as a formula is shown as text."""
    text = str(text)
    seen = [mark for mark in text if mark.isprintable() and not mark.isspace()]
    return "'" + text if seen and seen[0] in "=+-@" else text
