"""Workbooks (XLSX). Readings come in: looked at from outside first, then read cell by cell, or refused whole.

A workbook is a packed folder. Its size, members and unpacked size are checked before anything in it is unpacked;
formulas, macros, links to other files and document types are refused, so nothing in it can run or fetch. Results
go out as numbers and plain texts.
"""

import datetime
import io
import warnings
import zipfile
import zlib
from collections.abc import Collection, Sequence
from pathlib import Path

import numpy as np

from turbomath.disk.plain_files import Place
from turbomath.lab.run.cells import MOST_ROWS, Sheet, table
from turbomath.table.errors import RefusedFileError

MOST_BYTES = 5_000_000
MOST_MEMBERS = 200
MOST_UNPACKED_BYTES = 30_000_000
LAST_ROW, MOST_CELLS = 1_048_576, 2_000_000  # of a sheet, blank ones too
SHEET_NAME = "readings"
NUMBERS_ONLY = "Copy the cells, paste them as values, and save again."
SAVE_AGAIN = "Save it again as a workbook (XLSX) without macros, or as CSV."
_FORBIDDEN = {"vbaproject.bin": "macros", "externallinks/": "links to other files"}
_BROKEN = (zipfile.BadZipFile, zlib.error, OSError, NotImplementedError, RuntimeError, EOFError)


def read_workbook(path: Path | str) -> Sheet:
    """Return the `Sheet` of a workbook: its only sheet, or the one named "readings".

    A number comes as its shortest text, a time as hours and minutes, and a cell shown in per cent as a per cent.

    Raises
    ------
    RefusedFileError
        If the file is too large, holds what could run, or cannot be read whole.
    """
    place = Place(str(path))
    _look_from_outside(Path(path), place)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of looks and of menus, which are not read
        return table(_records(path, place), ",", place)


def workbook(rows: Sequence[Sequence[str]], title: str, text_columns: Collection[str] = ()) -> bytes:
    """Return the bytes of a workbook with one sheet: *rows* of texts, the head first.

    Below the head a text is written as a number, but for the columns of these names; none is ever a formula.
    """
    import openpyxl

    from turbomath.paper.page import visible  # pages are slow to import, and reading needs none

    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title, sheet.freeze_panes = title, "C2"
    for row, texts in enumerate(rows, 1):
        for column, (name, text) in enumerate(zip(rows[0], texts, strict=True), 1):
            if text:
                is_number = row > 1 and name not in text_columns
                cell = sheet.cell(row, column, float(text) if is_number else visible(text))
                cell.data_type = "n" if is_number else "s"  # else a text that begins with = would be a formula
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _look_from_outside(path, place):
    """Refuse what is too large or could run, before any of it is unpacked; then unpack each part once as a trial."""
    if not path.is_file():
        raise place.refusal("no plain file", "a workbook (XLSX)", SAVE_AGAIN)
    if path.stat().st_size > MOST_BYTES:
        raise place.refusal("a larger file", f"at most {MOST_BYTES:,} bytes", "Split the run into several folders.")
    try:
        with zipfile.ZipFile(path) as packed:
            members = packed.infolist()
            if len(members) > MOST_MEMBERS:
                raise place.refusal(f"{len(members)} parts", f"at most {MOST_MEMBERS}", SAVE_AGAIN)
            if sum(member.file_size for member in members) > MOST_UNPACKED_BYTES:
                expected = f"at most {MOST_UNPACKED_BYTES:,} bytes when unpacked"
                raise place.refusal("a file that unpacks to more", expected, SAVE_AGAIN)
            for member in members:
                _refuse_member(member.filename, packed.read(member), place)
    except _BROKEN:
        raise place.refusal("a broken workbook", "a workbook (XLSX) that opens in a spreadsheet", SAVE_AGAIN) from None


def _refuse_member(name, content, place):
    for part, what in _FORBIDDEN.items():
        if part in name.lower():
            raise place.refusal(what, "a workbook with cells only", SAVE_AGAIN)
    if name.lower().endswith((".xml", ".rels")):
        is_utf_8 = content.lstrip(b"\xef\xbb\xbf").startswith(b"<") and b"\0" not in content[:200]
        if not is_utf_8 or b"<!" in content.replace(b"<!--", b"").replace(b"<![CDATA[", b""):
            raise place.refusal(f"a document type in {name}", "cells only", SAVE_AGAIN)


def _records(path, place):
    """Return (spreadsheet row, cells as text) of every row that is not blank."""
    import openpyxl

    book = None
    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=False, keep_links=False)
        return _as_wide_as_the_head(list(_rows(_only_sheet(book, place), place)))
    except RefusedFileError:
        raise
    except Exception:  # whatever a damaged workbook makes the library stumble over
        raise place.refusal("a broken workbook", "a workbook (XLSX) that opens in a spreadsheet", SAVE_AGAIN) from None
    finally:
        if book:
            book.close()


def _as_wide_as_the_head(records):
    width = len(records[0][1]) if records else 0
    return [(row, texts + [""] * (width - len(texts))) for row, texts in records]


def _only_sheet(book, place):
    sheets = book.worksheets
    named = [sheet for sheet in sheets if sheet.title.strip().lower() == SHEET_NAME]
    if len(sheets) == 1 or len(named) == 1:
        return (named or sheets)[0]
    titles = ", ".join(sheet.title for sheet in sheets) or "none"
    raise place.refusal(f"the sheets {titles}", f"one sheet, or one named {SHEET_NAME!r}", "Name the sheet so.")


def _rows(sheet, place):
    """Yield (row, texts) of the rows that are not blank; the sheet's own note of its size is not trusted."""
    sheet.reset_dimensions()
    found = cells_seen = 0
    for row, cells in enumerate(sheet.iter_rows(), 1):
        texts = [_text(cell, place.at(row=row)) for cell in cells]
        if any(text.strip() for text in texts):
            found += 1
            yield row, texts
        cells_seen += len(cells)
        if found > MOST_ROWS + 2 or row > LAST_ROW or cells_seen > MOST_CELLS:
            most = f"at most {MOST_ROWS:,} readings"
            raise place.at(row=row).refusal("more rows", most, "Split the run into several folders.")


def _text(cell, place):
    """Return what a cell says, as a person would write it into a CSV file."""
    value = cell.value
    if value is None:
        return ""
    if cell.data_type == "f":
        raise place.at(column=cell.column_letter).refusal(f"the formula {value}", "a number or a text", NUMBERS_ONLY)
    if cell.data_type == "e":
        raise place.at(column=cell.column_letter).refusal(value, "a number or a text", NUMBERS_ONLY)
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, (int, float)):
        return f"{_shortest(value * 100.0, 12)}%" if "%" in (cell.number_format or "") else _shortest(value)
    if isinstance(value, datetime.time):
        return value.isoformat("seconds").removesuffix(":00")
    if isinstance(value, datetime.datetime):
        return value.isoformat(" ", "minutes").removesuffix(" 00:00")
    return str(value)


def _shortest(value, figures=None):
    """Return the shortest decimal text that is this number, without an exponent; or so many figures of it."""
    if isinstance(value, int):
        return str(value)
    return np.format_float_positional(value, precision=figures, unique=figures is None, fractional=False, trim="-")
