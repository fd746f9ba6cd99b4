"""Workbooks of the open standard ISO/IEC 26300 (ODS): looked at from outside first, then read cell by cell.

Formulas are refused, as in any workbook. A cell or row that says it is repeated is counted before it is repeated.
"""

import datetime
import re
from functools import partial
from pathlib import Path

from turbomath.disk.plain_files import Place
from turbomath.lab.run import book, packed
from turbomath.lab.run.cells import MOST_ROWS, Sheet
from turbomath.table.errors import RefusedFileError

_CELLS = "table:table-cell|table:covered-table-cell"
_MOST_TAGS = 20  # of rows for each reading; a spreadsheet program writes blank rows as one
_CLOCK = re.compile(r"PT(\d+)H(\d+)M(\d+)(?:[.,]\d*)?S")


def read_opendocument(path: Path | str) -> Sheet:
    """Return the `Sheet` of an ODS workbook: its only sheet, or the one named "readings".

    Raises
    ------
    RefusedFileError
        If the file is too large, holds what could run, or cannot be read whole.
    """
    import odfdo

    place = Place(str(path))
    parts = packed.parts(Path(path), place)
    if parts.get("content.xml", b"").count(b"table-row") > _MOST_TAGS * MOST_ROWS:
        raise place.refusal("more rows", f"at most {MOST_ROWS:,} readings", "Split the run into several folders.")
    try:
        document = odfdo.Document(Path(path))
        return book.readings_sheet([_page(sheet, document, place) for sheet in document.body.tables], place)
    except RefusedFileError:
        raise
    except Exception:  # whatever a damaged workbook makes the library stumble over
        raise packed.broken(place) from None


def _page(sheet, document, place):
    style = document.content.get_style("table", sheet.style) if sheet.style else None
    shown = ((style.get_properties("table") if style else None) or {}).get("table:display", "true")
    return book.Page(
        sheet.name,
        partial(_rows, sheet, place),
        shown == "false",
        partial(_hidden, sheet, "row"),
        partial(_hidden, sheet, "column"),
    )


def _rows(sheet, place):
    """Yield (row, texts) of the rows of a sheet that are not blank."""
    row = 0
    for element in sheet.get_elements("descendant::table:table-row"):
        times = _times(element, "row")
        texts = _texts(element, place.at(row=row + 1))
        filled = any(text.strip() for text in texts)
        for again in range(times) if filled else ():
            yield row + again + 1, texts
        row += times


def _texts(element, place):
    """Return the texts of a row up to its last cell that is not blank."""
    found = []
    for cell in element.get_elements(_CELLS):
        text, times = _text(cell, place, len(found) + 1), _times(cell, "column")
        if len(found) + times >= book.LAST_COLUMN and not text:
            break
        if len(found) + times > book.LAST_COLUMN:
            raise place.refusal("more columns", f"at most {book.LAST_COLUMN:,}", packed.SAVE_AGAIN)
        found += [text] * times
    return found


def _times(element, kind):
    """Return how many rows or columns in a row are alike."""
    return max(1, int(element.get_attribute(f"table:number-{kind}s-repeated") or 1))


def _hidden(sheet, kind):
    """Yield the numbers of the rows or columns that are not shown, also those left out by a filter."""
    first = 1
    for element in sheet.get_elements(f"descendant::table:table-{kind}"):
        after = min(first + _times(element, kind), book.LAST_ROW + 1)
        if element.get_attribute("table:visibility") in ("collapse", "filter"):
            yield from range(first, after)
        first = after


def _text(cell, place, column):
    """Return what a cell says, as a person would write it into a CSV file."""
    kind, formula = cell.get_attribute("office:value-type"), cell.get_attribute("table:formula")
    words = "\n".join(paragraph.inner_text for paragraph in cell.get_elements("text:p"))
    if formula is not None:
        raise book.refuse(place, column, f"the formula {formula.partition(':')[2] or formula}")
    if cell.get_attribute("calcext:value-type") == "error":
        raise book.refuse(place, column, words)
    if kind in ("float", "currency", "percentage"):
        number = float(cell.get_attribute("office:value"))
        return book.per_cent(number) if kind == "percentage" else book.shortest(number)
    if kind == "date":
        return _day(cell.get_attribute("office:date-value"))
    if kind == "time":
        return _clock(cell.get_attribute("office:time-value"))
    return str(cell.get_attribute("office:boolean-value")).upper() if kind == "boolean" else words


def _day(text):
    return datetime.datetime.fromisoformat(text).isoformat(" ", "minutes").removesuffix(" 00:00")


def _clock(text):
    """Return a time of the form PT08H05M00S as 08:05, and one in another form as it is."""
    found = _CLOCK.fullmatch(text)
    return ":".join(f"{int(part):02d}" for part in found.groups()).removesuffix(":00") if found else text
