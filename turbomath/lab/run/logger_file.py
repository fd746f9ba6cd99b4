"""A logger's file as it comes: its lines before the head skipped, a half line at the end left out and said."""

from collections.abc import Iterator
from pathlib import Path

from turbomath.disk.plain_files import Place
from turbomath.lab.run.book import SEPARATOR
from turbomath.lab.run.cells import MOST_LOGGED, Note, Sheet, sheet_text
from turbomath.lab.run.logger import Logger
from turbomath.lab.run.logger_lines import LogLines

MOST_TOLD, LONGEST_HEAD = 5, 4_000
_LOOK = "Look at the logger and its wires."


def read_log(path: Path | str, logger: Logger) -> Sheet:
    """Return the `Sheet` of a logger's file, its columns named as in readings.csv.

    Raises
    ------
    RefusedFileError
        If no row has the heads that [logger] names, or the file has none of the kit's.
    """
    place = Place(str(path))
    lines = sheet_text(path).replace("\r\n", "\n").replace("\r", "\n").split("\n")
    torn = bool(lines.pop().strip())  # behind the last line end: nobody knows whether it is whole
    log = LogLines(logger, place)
    rows = log.feed(lines)
    log.finished()
    if log.other_unit:
        raise log.other_unit.refusal(place)
    if not rows:
        raise place.refusal("no rows below the head", "a row for each reading", "Look whether it is the right file.")
    if len(rows) > MOST_LOGGED:
        raise place.refusal(f"{len(rows):,} rows", f"at most {MOST_LOGGED:,}", "Split the file.")
    names = tuple(f"{name.replace('_', ' ')} [{unit}]" if unit else name for name, unit in log.columns.items())
    return Sheet(place.at(row=log.head), SEPARATOR, names, tuple(rows), tuple(_notes(log, torn)))


def is_invented(path: Path | str) -> bool:
    """Return whether the first line of a logger's file says that it is INVENTED."""
    with Path(path).open("rb") as stream:
        return b"INVENTED" in stream.readline(LONGEST_HEAD)


def _notes(log: LogLines, torn: bool) -> Iterator[Note]:
    if torn:
        yield Note("the last line was not ended and was left out", "Read the file again when the logger has stopped.")
    for row, count in log.odd[:MOST_TOLD]:
        yield Note(f"row {row} had {count} cells for {log.width} heads and was left out", _LOOK)
    if len(log.odd) > MOST_TOLD:
        yield Note(f"{len(log.odd) - MOST_TOLD} more rows were left out in the same way", _LOOK)
    if log.none_meant:
        told = f"{log.none_meant} cells hold a number by which a logger means none; they count as missing"
        yield Note(told, "Look for a loose thermocouple or a channel that is not wired.")
