"""From a plain file to its text or its TOML: the whole of it, or a refusal in one sentence that says where."""

import os
import re
import stat
import tomllib
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Self

from turbomath.table.errors import RefusedFileError

SAVE_AS_CSV = "Save it again as CSV (comma separated, UTF-8)."
LONGEST_LINE = 1_000  # of a TOML file
MOST_BYTES = 256_000
_OPENED = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
_NO_TEXT = {
    b"PK\x03\x04": "a workbook (XLSX)",
    b"\xd0\xcf\x11\xe0": "a workbook (XLS)",
    b"\xff\xfe": "UTF-16 text",
    b"\xfe\xff": "UTF-16 text",
    b"%PDF": "a PDF",
    b"\x1f\x8b": "an archive",
    b"\x80": "a file for a program",
}
_BYTE_ORDER_MARK = b"\xef\xbb\xbf"
_UTF_8_PAIR = re.compile(rb"[\xc2-\xdf][\x80-\xbf]|[\xe0-\xef][\x80-\xbf]{2}")


@dataclass(frozen=True)
class Place:
    """Where in which file; it makes the refusals that point there."""

    file: str
    row: int | None = None
    column: str | None = None

    def at(self, **changes: Any) -> Self:
        """Return the same place with another row or column."""
        return replace(self, **changes)

    def refusal(self, found: object, expected: str, action: str) -> RefusedFileError:
        """Return (not raise) the refusal that points at this place."""
        return RefusedFileError(self.file, found, expected, action, row=self.row, column=self.column)

    def __str__(self):
        return self.file if self.row is None else f"{self.file}, row {self.row}"


def text(path: Path | str, name: str = "", most_bytes: int = MOST_BYTES) -> str:
    """Return the text of a plain file: UTF-8 with or without a byte-order mark, or else cp1252.

    A link, a pipe and a device are refused before anything is read, and a large file by its size.

    Raises
    ------
    RefusedFileError
        With *name* (the path, if it is left out) and one sentence.
    """
    place = Place(name or str(path))
    try:
        about = os.lstat(path)
        if not stat.S_ISREG(about.st_mode):
            found = "a link" if stat.S_ISLNK(about.st_mode) else "a folder or a device"
            raise place.refusal(found, "a file", "Put the file itself there.")
        if about.st_size > most_bytes:
            most = f"at most {most_bytes:,}"
            raise place.refusal(f"{about.st_size:,} bytes", most, "Look whether it is the right file.")
        with os.fdopen(os.open(path, _OPENED), "rb") as stream:
            raw = stream.read(most_bytes)
    except FileNotFoundError:
        raise place.refusal("no such file", "a file that is there", "Check the name and the folder.") from None
    except OSError as trouble:
        action = "Check that it is a file, and who may read it."
        raise place.refusal(trouble.strerror, "a file that opens", action) from None
    found = decoded(raw, place)
    if "\0" in found:
        raise place.refusal(found[:40], "plain text in UTF-8", SAVE_AS_CSV)
    return found


def decoded(raw: bytes, place: Place) -> str:
    """Return bytes as text: UTF-8 with or without a byte-order mark, or else cp1252; or refuse what is no text."""
    for start, what in _NO_TEXT.items():
        if raw.startswith(start):
            raise place.refusal(what, "plain text in UTF-8", SAVE_AS_CSV)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        place = place.at(row=raw.count(b"\n", 0, error.start) + 1)
        broken = raw[max(error.start - 10, 0) : error.start + 10].decode("cp1252", "replace")
    if not raw.startswith(_BYTE_ORDER_MARK) and not _UTF_8_PAIR.search(raw):  # else it is UTF-8 with a broken letter
        try:
            return raw.decode("cp1252")
        except UnicodeDecodeError:
            pass
    raise place.refusal(broken, "letters in one encoding, UTF-8", SAVE_AS_CSV)


def toml(text: str, place: Place, example: str) -> dict[str, Any]:
    """Return what the text of a TOML file says; *example* is a line as it could stand there."""
    lines = text.splitlines()
    for row, line in enumerate(lines, 1):
        if len(line) > LONGEST_LINE:  # a key of thousands of parts would take minutes to read
            raise place.at(row=row).refusal(line, f"lines of at most {LONGEST_LINE:,} letters", "Shorten this line.")
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        message = "Too many brackets" if isinstance(error, RecursionError) else str(error)
        said = re.search(r"\(at line (\d+)", message)
        at = int(said[1]) if said else None
        found = lines[at - 1].strip() if at and at <= len(lines) else "a file cut short"
        action = f"{message.split(' (at ')[0]}: correct this line."
        raise place.at(row=at).refusal(found, f"lines such as {example}", action) from None
