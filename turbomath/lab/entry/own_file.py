"""The files that are written from entries: ours as long as nobody else has changed them; another's stays as it is."""

import os
from collections.abc import Callable
from itertools import count
from pathlib import Path

from turbomath.disk import files
from turbomath.lab.entry.entry_journal import EntryJournal, checksum
from turbomath.lab.run.cells import MOST_BYTES

NOT_OURS = "{} holds what was not written here, or was changed since"


def target(
    folder: Path | str, name: str, journal: EntryJournal, is_blank: Callable[[Path], object], why: str = ""
) -> tuple[Path, str]:
    """Return (path, why not *name* or ""): where entries may be written without loss of another's work.

    Parameters
    ----------
    folder, name : path, str
        The run folder, and the file that is meant, such as readings.csv.
    journal : EntryJournal
        It has the sum of each file that was written from it; a file changed since has another.
    is_blank : function
        Whether a file, given by its path, holds nothing of anybody's yet.
    why : str
        Why it may not be *name*, if that is known already.
    """
    own = Path(folder) / name
    if not why and _may_go(own, journal, is_blank):
        return own, ""
    names = (f"{own.stem}-entered{'' if number == 1 else f'-{number}'}{own.suffix}" for number in count(1))
    path = next(path for name in names if _may_go(path := Path(folder) / name, journal, is_blank))
    return path, f"{why or NOT_OURS.format(name)}; it was left as it is, and what you entered is in {path.name}."


def write(path: Path, content: bytes, journal: EntryJournal) -> None:
    """Write a file whole, unless it says so already, and note before that it is ours.

    Raises
    ------
    OSError, RefusedFileError
        If the disk refuses; what was there before is as it was.
    """
    if path.exists() and path.read_bytes() == content:
        return
    journal.will_write(content)  # before, so that a crash between the two leaves no file unknown
    files.write_whole(path, content)


def _may_go(path, journal, is_blank):
    """Return whether a file is none, our own and unchanged, or a blank one."""
    if not os.path.lexists(path):
        return True
    if path.is_symlink() or not path.is_file() or path.stat().st_size > MOST_BYTES:
        return False
    try:
        found = checksum(path.read_bytes())  # before the journal, where another window notes what it is to write
    except OSError:
        return False
    return found in journal.read().sums or bool(is_blank(path))
