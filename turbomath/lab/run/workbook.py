"""Workbooks (XLSX). Readings come in: looked at from outside first, then read cell by cell, or refused whole.

Formulas and errors are refused; results go out as numbers and plain texts.
"""

import datetime
import io
import re
import warnings
from collections.abc import Collection, Sequence
from functools import partial
from pathlib import Path
from xml.etree import ElementTree

from turbomath.disk.plain_files import Place
from turbomath.lab.run import book, packed
from turbomath.lab.run.cells import Sheet
from turbomath.table.errors import RefusedFileError


def read_workbook(path: Path | str) -> Sheet:
    """Return the `Sheet` of a workbook: its only sheet, or the one named "readings".

    Raises
    ------
    RefusedFileError
        If the file is too large, holds what could run, or cannot be read whole.
    """
    import openpyxl

    place, opened = Place(str(path)), None
    packed.parts(Path(path), place)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of looks and of menus, which are not read
            opened = openpyxl.load_workbook(path, read_only=True, data_only=False, keep_links=False)
            return book.readings_sheet([_page(sheet, place) for sheet in opened.worksheets], place)
    except RefusedFileError:
        raise
    except Exception:  # whatever a damaged workbook makes the library stumble over
        raise packed.broken(place) from None
    finally:
        if opened:
            opened.close()


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


def _page(sheet, place):
    return book.Page(
        sheet.title,
        partial(_rows, sheet, place),
        sheet.sheet_state != "visible",
        lambda: [first for first, _ in _hidden(sheet, "row", ("r", "r"))],
        lambda: [column for first, last in _hidden(sheet, "col", ("min", "max")) for column in range(first, last + 1)],
    )


def _rows(sheet, place):
    """Yield (row, texts); the sheet's own note of its size is not trusted."""
    sheet.reset_dimensions()
    for row, cells in enumerate(sheet.iter_rows(), 1):
        yield row, [_text(cell, place.at(row=row)) for cell in cells]


def _hidden(sheet, kind, ends):
    """Yield (first, last) of what the file marks as hidden; the library tells it only of sheets that it holds whole."""
    with sheet.parent._archive.open(sheet._worksheet_path) as part:
        for _, one in ElementTree.iterparse(part):
            if one.tag.rpartition("}")[2] == kind and one.get("hidden") in ("1", "true"):
                first, last = (int(one.get(end, 0)) for end in ends)
                yield first, min(last, book.LAST_COLUMN)
            one.clear()


def _text(cell, place):
    """Return what a cell says, as a person would write it into a CSV file."""
    value = cell.value
    if value is None:
        return ""
    if cell.data_type in ("f", "e"):
        raise book.refuse(place, cell.column, f"the formula {value}" if cell.data_type == "f" else value)
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, (int, float)):
        return book.per_cent(value) if _in_per_cent(cell) else book.shortest(value)
    if isinstance(value, datetime.time):
        return value.isoformat("seconds").removesuffix(":00")
    if isinstance(value, datetime.datetime):
        return value.isoformat(" ", "minutes").removesuffix(" 00:00")
    return str(value)


def _in_per_cent(cell):
    """Return whether the cell shows a hundred times its number; a % in quotes or behind a backslash is only a mark."""
    return "%" in re.sub(r'"[^"]*"|\\.', "", cell.number_format or "")
