"""From a small file that somebody sent to its cells. It is read, never run, and read whole or refused."""

import csv
import io
import os
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from turbomath.disk.files import BYTE_ORDER_MARK, cell
from turbomath.disk.plain_files import MOST_BYTES, Place, text
from turbomath.paper.page import visible

MOST_ROWS = 2_000
LONGEST = 2_000  # characters of one text
_UNPRINTABLE = re.compile("[\0-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff]")
_SEPARATORS = ",;\t"


@dataclass(frozen=True)
class Table:
    """The cells of a table: the names of its head, and a dict (name -> text) for each row that is not blank."""

    place: Place
    separator: str
    head: tuple[str, ...]
    rows: tuple[tuple[Place, dict[str, str]], ...]


def exists(path: Path | str) -> bool:
    """Whether there is anything at a path, be it a link that leads nowhere."""
    return os.path.lexists(path)


def table(
    path: Path | str,
    needed: Sequence[str],
    name: str = "",
    most_bytes: int = MOST_BYTES,
    most_rows: int = MOST_ROWS,
) -> Table:
    """Return the `Table` in a CSV file, whichever of comma, semicolon and tab separates it.

    Parameters
    ----------
    path : Path
        The file.
    needed : sequence of str
        Names that its head must have.
    name : str
        What the refusals call it.

    Raises
    ------
    RefusedFileError
        If it cannot be read whole, with the row and the column where that is known.
    """
    place = Place(name or str(path))
    content = text(path, place.file, most_bytes)
    mark = separator(content)
    records = _records(content, mark, place, most_rows)
    first, head = next(records, (place.at(row=1), []))
    head = [cell.strip().casefold() for cell in head]
    while head and not head[-1]:
        head.pop()
    _check_head(head, needed, first)
    rows = tuple((where, _named(head, cells, where)) for where, cells in records)
    return Table(place, mark, tuple(head), rows)


def separator(content: str) -> str:
    """Return the mark that comes most often in the first line that is not blank."""
    first = next((line for line in content.splitlines() if line.strip(_SEPARATORS + " ")), "")
    return max(_SEPARATORS, key=first.count)


def _records(content, mark, place, most_rows):
    """Yield (its place, cells) of every row that is not blank."""
    reader, row, found = csv.reader(io.StringIO(content, newline=""), delimiter=mark, strict=True), 0, 0
    while True:
        row += 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error:
            expected = "quotes in pairs around a cell, and cells of a sensible length"
            raise place.at(row=row).refusal("a broken cell", expected, "Correct the quotes in this row.") from None
        if any(cell.strip() for cell in cells):
            found += 1
            if found > most_rows + 1:
                raise place.at(row=row).refusal("more rows", f"at most {most_rows:,}", "Hand in the answers only.")
            yield place.at(row=row), cells


def _check_head(head, needed, place):
    wanted = ", ".join(needed)
    for name in needed:
        if name not in head:
            found = ", ".join(head) or "an empty file"
            raise place.refusal(found, f"the names {wanted} in the first row", f"Add the column '{name}'.")
    for name in head:
        if not name or head.count(name) > 1:
            found = f"'{name}' twice" if name else "a column without a name"
            raise place.refusal(found, f"the names {wanted}", "Give every column a name of its own.")


def _named(head, cells, place):
    """Return name -> text of a row."""
    if any(cell.strip() for cell in cells[len(head) :]):
        action = "Put a cell that holds the separator in quotes."
        raise place.refusal(f"{len(cells)} cells", f"at most {len(head)}, as in the first row", action)
    row = dict.fromkeys(head, "") | dict(zip(head, cells, strict=False))
    return {name: checked(cell, place, name) for name, cell in row.items()}


def checked(words: str, place: Place, column: str) -> str:
    """Return a text without the blanks around it, or refuse one that cannot be written down again."""
    if len(words) > LONGEST:
        raise place.at(column=column).refusal(words, f"at most {LONGEST:,} characters", "Write it shorter.")
    if _UNPRINTABLE.search(words):
        expected = "letters, figures and marks that can be printed"
        raise place.at(column=column).refusal(words, expected, "Type it again.")
    return words.strip()


def csv_text(head: Sequence[str], rows: Iterable[Iterable[object]]) -> str:
    """Return the text of a CSV file that every spreadsheet reads, with no cell that a spreadsheet would run."""
    page = io.StringIO(newline="")
    writer = csv.writer(page, lineterminator="\r\n")
    writer.writerow(head)
    writer.writerows([visible(cell(" ".join(str(one).split()))) for one in row] for row in rows)
    return BYTE_ORDER_MARK + page.getvalue()
