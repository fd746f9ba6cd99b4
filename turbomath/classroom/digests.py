"""Which notebooks are shipped lessons: by their code alone, since a student controls everything else in a file."""

import hashlib
import json
from collections.abc import Iterable
from pathlib import Path

from turbomath.disk import files


def lessons() -> dict[str, Path]:
    """Return the shipped lessons: name -> the master file, lowest number first."""
    return {master.stem: master for master in sorted(files.shipped("lessons").glob("*.ipynb"))}


def contents(path: Path) -> list[tuple[str, str]] | None:
    """Return (kind, source) of each cell of a notebook, its kernel last, or None when *path* is not a notebook."""
    try:
        notebook = json.loads(path.read_text(encoding="utf-8"))
        kernel = notebook["metadata"].get("kernelspec", {}).get("name", "python3")
        return [(cell["cell_type"], _text(cell["source"])) for cell in notebook["cells"]] + [("kernel", kernel)]
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError):
        return None


def digest(sources: Iterable[str]) -> str:
    """Return the SHA-256 of the SHA-256 of each code cell, so that no two lists of cells share one by a shifted cut.

    ``digest.js`` of the extension does the same in the browser, on the cells that are about to run.
    """
    return _sha256("".join(_sha256(source) for source in sources))


def whole(cells: Iterable[tuple[str, str]] | None) -> str:
    """Return the digest of all that `contents` gave of a notebook, words and code."""
    return _sha256(json.dumps(list(cells or ())))


def shipped_digests() -> list[str]:
    """Return the digests of the shipped lessons' code, for the browser to compare with."""
    found = (contents(master) for master in lessons().values())
    return sorted({digest(source for kind, source in lesson if kind == "code") for lesson in found if lesson})


def _text(source: str | list[str]) -> str:
    return source if isinstance(source, str) else "".join(source)


def _sha256(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()
