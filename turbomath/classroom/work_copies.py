"""The lessons in the work folder: a clean copy to open, and whatever was altered kept beside it."""

import difflib
import json
import os
from pathlib import Path

from turbomath.classroom import digests
from turbomath.disk import files
from turbomath.table.errors import TurbomathError


def lesson_name(asked: str) -> str:
    """Return the shipped lesson that *asked* means: its name, with or without .ipynb, or its number.

    Raises
    ------
    TurbomathError
        Naming the nearest lesson and the list.
    """
    names = list(digests.lessons())
    wanted = asked.removesuffix(".ipynb")
    numbered = [name for name in names if wanted.isdecimal() and name.startswith(f"{int(wanted):02d}_")]
    if wanted in names or numbered:
        return wanted if wanted in names else numbered[0]
    nearest = difflib.get_close_matches(wanted, names, 1, 0.3)
    hint = f" Did you mean {nearest[0]}?" if nearest else ""
    raise TurbomathError(f"There is no lesson {asked!r}.{hint} The lessons are: {', '.join(names) or 'none'}.")


def own(work: Path) -> Path:
    """Return the folder, of a work folder, for what is nobody else's business; both are made where they are not."""
    place = work / ".turbomath"
    work.mkdir(mode=0o700, parents=True, exist_ok=True)
    place.mkdir(mode=0o700, exist_ok=True)
    return place


def refresh(name: str, folder: Path) -> Path | None:
    """Make ``folder/name.ipynb`` a copy of the shipped lesson; return where an altered one was kept, or None.

    Altered means other words or other code than it had when it was copied: outputs and notes that JupyterLab adds when
    it saves do not count. A copy of an older kit's lesson that nobody altered gives way to the new one.
    """
    master, copy, kept = digests.lessons()[name], folder / f"{name}.ipynb", None
    record = own(folder) / "copied.json"
    copied = _copied(record)
    if os.path.lexists(copy):
        found = digests.contents(copy)
        if found is not None and found == digests.contents(master):
            return None
        if found is None or copied.get(name) != digests.whole(found):
            kept = _free(folder, name)
            copy.rename(kept)
    files.write_whole(copy, master.read_text(encoding="utf-8"))
    files.write_whole(record, json.dumps({**copied, name: digests.whole(digests.contents(copy))}, indent=1) + "\n")
    return kept


def _copied(record: Path) -> dict[str, str]:
    """Return lesson -> digest of what was copied; nothing where the file is not whole."""
    try:
        found = json.loads(record.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return {}
    return found if isinstance(found, dict) else {}


def _free(folder: Path, name: str) -> Path:
    """Return the first of "NAME (yours)", "NAME (yours 2)", ... that is not there yet."""
    number, path = 1, folder / f"{name} (yours).ipynb"
    while os.path.lexists(path):
        number += 1
        path = folder / f"{name} (yours {number}).ipynb"
    return path
