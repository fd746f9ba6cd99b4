"""From a file to its cells: the whole file or a refusal, and no cell is guessed at."""

import csv
import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from turbomath.disk.plain_files import SAVE_AS_CSV, Place, decoded
from turbomath.lab.run.misread import as_meant
from turbomath.table.errors import short

MOST_BYTES = 40_000_000
MOST_ROWS, MOST_LOGGED = 5_000, 200_000  # readings by hand or in a workbook, and rows that a logger wrote
MOST_COLUMNS = 200
_UTF_16 = (b"\xff\xfe", b"\xfe\xff")
_OPEN_AS_UTF_8 = "Choose UTF-8 when the spreadsheet asks, or keep the readings as a workbook (XLSX or ODS)."


class Note(NamedTuple):
    """Something of the file that a reader of it should know, and what to do about it."""

    reason: str
    action: str


@dataclass(frozen=True)
class Sheet:
    """The cells of a sheet as text: its header, and each row that is not blank with its spreadsheet row number."""

    place: Place
    separator: str
    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    notes: tuple[Note, ...] = ()


def plain_text(path: Path | str, most_bytes: int) -> str:
    """Return the text of a file: UTF-8 with or without a byte-order mark, or else cp1252."""
    place = Place(str(path))
    return decoded(_content(Path(path), most_bytes, place), place)


def _content(path, most_bytes, place):
    if not path.is_file():
        raise place.refusal("no such file", f"a file named {path.name}", "Put it in the run folder.")
    try:
        with path.open("rb") as stream:
            raw = stream.read(most_bytes + 1)
    except OSError as error:
        raise place.refusal(
            error.strerror, "a file that opens", "Close it elsewhere and check who may read it."
        ) from None
    if len(raw) > most_bytes:
        most = f"at most {most_bytes:,} bytes"
        raise place.refusal("a larger file", most, "Split the run, or look whether it is the right file.")
    return raw


def read_sheet(path: Path | str) -> Sheet:
    """Return the `Sheet` of a CSV file; its separator is the one mark that stands between the names of its header."""
    place = Place(str(path))
    text = sheet_text(path)
    separator = _separator(text, place)
    return table(_records(text, separator, place), separator, place)


def sheet_text(path: Path | str) -> str:
    """Return the text of a CSV file, also of one saved as "Unicode text" (UTF-16)."""
    place = Place(str(path))
    return _sheet_text(_content(Path(path), MOST_BYTES, place), place)


def table(records: Sequence[tuple[int, list[str]]], separator: str, place: Place, notes: Iterable[Note] = ()) -> Sheet:
    """Return the `Sheet` of (spreadsheet row, cells) of every row that is not blank, the header first.

    Marks of another encoding are read as what they were, and a note says so.
    """
    records, misread = _as_meant(records)
    if not records:
        raise place.refusal("an empty file", "a header row and one row for each reading", SAVE_AS_CSV)
    (header_row, names), *rows = records
    names, rows = _without_blank_columns(_without_blank_end(names), rows, place)
    if len(names) > MOST_COLUMNS:
        raise place.at(row=header_row).refusal(
            f"{len(names)} columns", f"at most {MOST_COLUMNS}", "Leave out the columns that are not needed."
        )
    rows = tuple((row, tuple(cells)) for row, cells in rows)
    return Sheet(place.at(row=header_row), separator, tuple(names), rows, (*notes, *misread))


def _sheet_text(raw, place):
    """Return the text of a CSV file, also of one that a spreadsheet saved as "Unicode text" (UTF-16)."""
    if not raw.startswith(_UTF_16):
        return decoded(raw, place)
    try:
        return raw.decode("utf-16")
    except UnicodeDecodeError:
        raise place.refusal("half a letter of UTF-16", "the whole file", SAVE_AS_CSV) from None


def _as_meant(records):
    """Return the records without marks of another encoding, and the one note that says which were there."""
    meant = [(row, [as_meant(cell) for cell in cells]) for row, cells in records]
    changed = [
        (one, other)
        for (_, was), (_, now) in zip(records, meant, strict=True)
        for one, other in zip(was, now, strict=True)
        if one != other
    ]
    if not changed:
        return records, ()
    count, (was, now) = len(changed), next((pair for pair in changed if not pair[1].isascii()), changed[0])
    more = f", and {count - 1} more cell{'s' * (count > 2)} in the same way" if count > 1 else ""
    reason = f"'{short(was)}' was read as '{short(now)}'{more}: a program had taken UTF-8 for another encoding"
    return meant, (Note(reason, _OPEN_AS_UTF_8),)


def _separator(text, place):
    """Return the separator of the header, the first line that is not blank; a mark inside quotes is none."""
    bare = re.sub(r'"(?:[^"]|"")*"', "x", text[:20_000])
    header = next((line for line in re.split(r"[\r\n]+", bare) if line.strip(" ,;\t")), "")
    marks = [mark for mark in ",;\t" if mark in header]
    if len(marks) > 1:
        raise place.refusal(
            header, "one separator: comma, semicolon or tab", "Put names that hold such a mark in quotes."
        )
    return marks[0] if marks else ","


def _records(text, separator, place):
    """Return (spreadsheet row, cells) of every row that is not blank."""
    lines = io.StringIO(text, newline="").readlines()
    reader, records, row, start = csv.reader(iter(lines), delimiter=separator, strict=True), [], 0, 0
    while True:
        row, start = row + 1, reader.line_num
        try:
            cells = next(reader)
        except StopIteration:
            return records
        except csv.Error:
            expected = "quotes in pairs around a cell, and cells of a sensible length"
            raise place.at(row=row).refusal(lines[start].strip(), expected, "Correct the quotes in this row.") from None
        if any("\0" in cell for cell in cells):
            raise place.at(row=row).refusal(lines[start].strip(), "text without NUL bytes", SAVE_AS_CSV)
        if any(cell.strip() for cell in cells):
            records.append((row, cells))
        if len(records) > MOST_ROWS + 2 and len(records) > _most(records[0][1]) + 2:
            most = f"at most {_most(records[0][1]):,} readings"
            raise place.at(row=row).refusal("more rows", most, "Split the run into several folders.")


def _most(names):
    """Return how many rows a sheet may have; one with a column of time may be a logger's."""
    return MOST_LOGGED if any(name.strip().lower().startswith("time") for name in names) else MOST_ROWS


def _without_blank_end(cells):
    while cells and not cells[-1].strip():
        cells = cells[:-1]
    return cells


def _without_blank_columns(names, rows, place):
    """Check that every row fits the header, and leave out columns that have neither name nor cells."""
    keep = [index for index, name in enumerate(names) if name.strip()]
    for row, cells in rows:
        if len(cells) < len(names) or len(_without_blank_end(cells)) > len(names):
            expected = f"{len(names)} cells, one for each name of the header"
            raise place.at(row=row).refusal(
                f"{len(cells)} cells", expected, "Add or remove cells; '-' stands for no reading."
            )
        for index, cell in enumerate(cells[: len(names)]):
            if cell.strip() and not names[index].strip():
                raise place.at(row=row).refusal(cell, "a name above this cell in the header", "Give the column a name.")
    return [names[i] for i in keep], [(row, [cells[i] for i in keep]) for row, cells in rows]
