"""From a file to its cells: the whole file or a refusal, and no cell is guessed at."""

import csv
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from turbomath.disk.plain_files import SAVE_AS_CSV, Place, decoded

MOST_BYTES = 40_000_000
MOST_ROWS, MOST_LOGGED = 5_000, 200_000  # readings by hand or in a workbook, and rows that a logger wrote
MOST_COLUMNS = 200


@dataclass(frozen=True)
class Sheet:
    """The cells of a sheet as text: its header, and each row that is not blank with its spreadsheet row number."""

    place: Place
    separator: str
    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


def plain_text(path: Path | str, most_bytes: int) -> str:
    """Return the text of a file: UTF-8 with or without a byte-order mark, or else cp1252."""
    place, path = Place(str(path)), Path(path)
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
    return decoded(raw, place)


def read_sheet(path: Path | str) -> Sheet:
    """Return the `Sheet` of a CSV file; its separator is the one mark that stands between the names of its header."""
    text, place = plain_text(path, MOST_BYTES), Place(str(path))
    separator = _separator(text, place)
    return table(_records(text, separator, place), separator, place)


def table(records: Sequence[tuple[int, list[str]]], separator: str, place: Place) -> Sheet:
    """Return the `Sheet` of (spreadsheet row, cells) of every row that is not blank, the header first."""
    if not records:
        raise place.refusal("an empty file", "a header row and one row for each reading", SAVE_AS_CSV)
    (header_row, names), *rows = records
    names, rows = _without_blank_columns(_without_blank_end(names), rows, place)
    if len(names) > MOST_COLUMNS:
        raise place.at(row=header_row).refusal(
            f"{len(names)} columns", f"at most {MOST_COLUMNS}", "Leave out the columns that are not needed."
        )
    return Sheet(place.at(row=header_row), separator, tuple(names), tuple((row, tuple(cells)) for row, cells in rows))


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
