"""What a reader has answered in each lesson, kept in the work folder for the home page.

Nothing is kept unless `turbomath lessons` opened the lesson: it makes the folder and names the notebook.
"""

import json
import os
from pathlib import Path

from turbomath.disk import files

KINDS = ("prediction", "ticket")
_NOTEBOOK = "JPY_SESSION_NAME"  # the path of the notebook, which the server gives to its Python


def folder() -> Path:
    """Return where the answers of each lesson are noted."""
    return files.work_folder() / ".turbomath" / "progress"


def note(kind: str, question: str) -> None:
    """Note that a question of the open lesson was answered; *kind* is one of `KINDS`."""
    name = Path(os.environ.get(_NOTEBOOK, "")).stem
    if not name or not folder().parent.is_dir():
        return
    found = answered(name)
    found[kind] = sorted({*found[kind], question})
    files.write_whole(folder() / f"{name}.json", json.dumps(found, ensure_ascii=False, indent=1))


def answered(name: str) -> dict[str, list[str]]:
    """Return the questions answered in a notebook, by kind; none where the note is missing or torn."""
    try:
        found = json.loads((folder() / f"{name}.json").read_text(encoding="utf-8"))
        return {kind: [str(one) for one in found[kind]] for kind in KINDS}
    except (OSError, ValueError, LookupError, TypeError):
        return {kind: [] for kind in KINDS}


def forget() -> None:
    """Forget what was answered in every lesson."""
    for path in folder().glob("*.json"):
        path.unlink()
