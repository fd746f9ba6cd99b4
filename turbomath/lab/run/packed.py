"""A packed file of a spreadsheet program (XLSX, ODS) looked at from outside: refused before any of it is read.

Its size, parts and unpacked size are checked first. Macros, links to other files, passwords and document types are
refused, so nothing in it can run or fetch.
"""

import lzma
import struct
import zipfile
import zlib
from pathlib import Path

from turbomath.disk.plain_files import Place
from turbomath.table.errors import RefusedFileError

MOST_BYTES = 5_000_000
MOST_PARTS = 200
MOST_UNPACKED_BYTES = 30_000_000
SAVE_AGAIN = "Save it again as a workbook (XLSX or ODS) without macros, or as CSV."
_FORBIDDEN_PARTS = {
    "vbaproject.bin": "macros",
    "basic/": "macros",
    "scripts/": "macros",
    "externallinks/": "links to other files",
}
_FORBIDDEN_MARKS = {
    b"<manifest:encryption-data": "a password",
    b"<table:table-source": "links to other files",
    b"<table:dde-link": "links to other files",
}
_BROKEN = (
    zipfile.BadZipFile,
    zlib.error,
    lzma.LZMAError,
    struct.error,
    OSError,
    ValueError,
    NotImplementedError,
    RuntimeError,
    EOFError,
)


def parts(path: Path, place: Place) -> dict[str, bytes]:
    """Return the parts of a packed file, or refuse one that is too large or broken, or holds what could run."""
    if not path.is_file():
        raise place.refusal("no plain file", "a workbook (XLSX or ODS)", SAVE_AGAIN)
    if path.stat().st_size > MOST_BYTES:
        raise place.refusal("a larger file", f"at most {MOST_BYTES:,} bytes", "Split the run into several folders.")
    try:
        with zipfile.ZipFile(path) as packed:
            return {name: _sound(name, packed.read(name), place) for name in _part_names(packed, place)}
    except RefusedFileError:
        raise
    except _BROKEN:
        raise broken(place) from None


def broken(place: Place) -> RefusedFileError:
    """Return (not raise) the refusal of a file that no spreadsheet program would open."""
    return place.refusal("a broken workbook", "a workbook that opens in a spreadsheet", SAVE_AGAIN)


def _part_names(packed, place):
    """Return the names of the parts, if there are not too many and not too much in them."""
    members = packed.infolist()
    if len(members) > MOST_PARTS:
        raise place.refusal(f"{len(members)} parts", f"at most {MOST_PARTS}", SAVE_AGAIN)
    if sum(member.file_size for member in members) > MOST_UNPACKED_BYTES:
        expected = f"at most {MOST_UNPACKED_BYTES:,} bytes when unpacked"
        raise place.refusal("a file that unpacks to more", expected, SAVE_AGAIN)
    return [member.filename for member in members]


def _sound(name, content, place):
    """Return the content of a part in which nothing could run, fetch or grow."""
    for part, what in _FORBIDDEN_PARTS.items():
        if part in name.lower():
            raise place.refusal(what, "a workbook with cells only", SAVE_AGAIN)
    if name.lower().endswith((".xml", ".rels")):
        for mark, what in _FORBIDDEN_MARKS.items():
            if mark in content:
                raise place.refusal(what, "a workbook with cells only", SAVE_AGAIN)
        is_utf_8 = content.lstrip(b"\xef\xbb\xbf").startswith(b"<") and b"\0" not in content[:200]
        if not is_utf_8 or b"<!" in content.replace(b"<!--", b"").replace(b"<![CDATA[", b""):
            raise place.refusal(f"a document type in {name}", "cells only", SAVE_AGAIN)
    return content
