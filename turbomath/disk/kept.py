"""What a reader predicted, set and answered in each lesson: a journal a lesson, in the reader's own work folder.

A record says only what has changed on one panel, so two windows of a lesson add to each other. Nothing is kept unless
`turbomath lessons` opened the lesson: it makes the folder and names the notebook.
"""

import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from turbomath.disk import files
from turbomath.disk.journal import Journal
from turbomath.table.errors import RefusedFileError

KINDS = ("prediction", "ticket")
MOST_FILES = 9  # of one lesson: beside a file that is none of ours another is begun
_NOTEBOOK = "JPY_SESSION_NAME"  # the path of the notebook, which the server gives to its Python
_STRANGE = (
    "{}: no line in it is one that this kit wrote. It was left as it is. The lesson starts fresh, and what you do now "
    "is kept in {}."
)
_told: dict[str, str] = {}  # which panel tells a note, so that not each one does
_seen: dict[Path, tuple] = {}  # what a journal held when it was last read, for the next panel of the same lesson


def folder() -> Path:
    """Return where the journals of the lessons are."""
    return files.work_folder() / ".turbomath" / "kept"


def opened() -> str:
    """Return the name of the lesson that this Python runs for, or nothing where nothing is to be kept."""
    name = Path(os.environ.get(_NOTEBOOK, "")).stem
    return name if name and folder().parent.is_dir() else ""


class Kept:
    """What is kept of one panel, or nothing where no lesson is open.

    Parameters
    ----------
    panel : str
        What the panel is called in its lesson.
    kind : "prediction" or "ticket"
        What its questions are.

    Attributes
    ----------
    state : dict
        How the reader left the panel.
    note : str
        A sentence on what could not be read, or ""; the first panel of a lesson tells it.
    """

    def __init__(self, panel: str, kind: str) -> None:
        self._head, self.note = {"panel": panel, "kind": kind}, ""
        self.state: dict[str, Any] = {}
        self._journal: Journal | None = None
        if not (lesson := opened()):
            return
        records, note, path = _read(lesson)
        self._journal = Journal(path)
        self.note = note if _told.setdefault(note, panel) == panel else ""
        for one in records:
            if one.get("panel") == panel and isinstance(one.get("set"), dict):
                self.state = merged(self.state, one["set"])

    def keep(self, changed: Mapping[str, Any], *, sure: bool = True) -> None:
        """Put what has changed on the panel on the disk; not *sure* is enough for a slider on its way.

        Raises
        ------
        OSError, TurbomathError, ValueError
            If the disk or JSON refuses; what was kept before is as it was.
        """
        if self._journal and changed:
            self._journal.append({**self._head, "set": dict(changed)}, sure=sure)


def answered(lesson: str) -> dict[str, list[str]]:
    """Return the questions that were ever answered in a lesson, by kind."""
    found: dict[str, set[str]] = {kind: set() for kind in KINDS}
    for one in _read(lesson)[0]:
        asked = one["set"].get("asked") if isinstance(one.get("set"), dict) else None
        if one.get("kind") in KINDS and isinstance(asked, dict):
            found[one["kind"]] |= {text for text, said in asked.items() if isinstance(said, dict) and said.get("said")}
    return {kind: sorted(texts) for kind, texts in found.items()}


def forget(lesson: str = "") -> None:
    """Forget what was done in a lesson, or in every one; a file that is none of ours stays."""
    for path in [folder() / name for name in _names(lesson)] if lesson else folder().glob("*.journal"):
        if path.is_file() and (_own(path)[0] or not path.stat().st_size):
            path.unlink()


def changes(before: Mapping[str, Any], after: Mapping[str, Any]) -> dict[str, Any]:
    """Return what *after* says otherwise than *before*, table within table; None is what it says no more."""
    found: dict[str, Any] = {name: None for name in before if name not in after}
    for name, value in after.items():
        old = before.get(name)
        if value != old:
            found[name] = changes(old, value) if isinstance(old, Mapping) and isinstance(value, Mapping) else value
    return found


def merged(state: Mapping[str, Any], changed: Mapping[str, Any]) -> dict[str, Any]:
    """Return a state with its changes made; the other way round from `changes`."""
    found = dict(state)
    for name, value in changed.items():
        old = found.get(name)
        found[name] = merged(old if isinstance(old, dict) else {}, value) if isinstance(value, dict) else value
    return {name: value for name, value in found.items() if value is not None}


def _names(lesson):
    return [f"{lesson}.journal", *(f"{lesson} {turn}.journal" for turn in range(2, MOST_FILES + 1))]


def _read(lesson):
    """Return (records, note, path) of the journal of a lesson: the first file that is one, or is not there yet."""
    strange: list[str] = []
    for path in (folder() / name for name in _names(lesson)):
        records, note = _own(path) if os.path.lexists(path) else ([], "")
        if records or not note:
            break
        strange.append(path.name)
    if strange:
        note = f"{note} {_STRANGE.format(' and '.join(strange), path.name)}".strip()
    return records, note, path


def _own(path):
    """Return (records, note) of a file; a note and no record where it is no journal."""
    try:
        told = path.stat()
        mark = told.st_size, told.st_mtime_ns
        if _seen.get(path, (None,))[0] != mark:
            _seen[path] = (mark, Journal(path).read())
        return _seen[path][1]
    except (OSError, RefusedFileError) as trouble:
        return [], str(trouble)
