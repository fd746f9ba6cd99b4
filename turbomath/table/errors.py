"""The refusals and the one warning of the kit, each a plain sentence."""

import os
import sys
import warnings
from collections.abc import Iterator
from contextlib import contextmanager

PACKAGE = os.path.dirname(os.path.dirname(os.path.abspath(__file__))) + os.sep


class TurbomathError(Exception):
    """Any refusal of the kit; its text is one sentence that a user can act on."""


class OutOfRangeError(TurbomathError, ValueError):
    """A value that cannot be: a pressure of zero, an efficiency above 1, text."""

    expected = action = ""  # the parts of the sentence, where a unit or a number was read


class UnitError(TurbomathError, ValueError):
    """A unit that the kit does not know, or one of the wrong kind."""

    expected = action = ""


class RefusedFileError(TurbomathError, ValueError):
    """A file that is not read, with where, what was found, what was expected and what to do.

    Attributes are the parts of the sentence, so that a lesson can point at the cell.
    """

    def __init__(
        self,
        file: object,
        found: object,
        expected: str,
        action: str,
        *,
        row: int | None = None,
        column: str | None = None,
    ) -> None:
        self.file, self.row, self.column = str(file), row, column
        self.found, self.expected, self.action = short(found), expected, action
        place = self.file
        if row is not None:
            place += f", row {row}"
        if column is not None:
            place += f", column '{short(column)}'"
        super().__init__(f"{place}: found {self.found!r}, expected {expected}. {action}")


class RangeWarning(UserWarning):
    """A reading that gives a number no healthy machine shows, or a rule used outside its limits."""


def refused(trouble: BaseException) -> str:
    """Return what the disk refused as a sentence."""
    words = getattr(trouble, "strerror", None) or str(trouble)
    return words if words.endswith(".") else f"{words}."


def short(text: object, length: int = 40) -> str:
    """Return *text* on one line, cut at *length* characters."""
    line = "".join(mark if mark.isprintable() else " " for mark in str(text))
    return line if len(line) <= length else line[: length - 1] + "…"


@contextmanager
def unwarned() -> Iterator[None]:
    """Within it no `RangeWarning` is shown: of readings that cannot be, the checks speak in words."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RangeWarning)
        yield


def warn_at_caller(message: str) -> None:
    """Give a `RangeWarning` that points at the first line outside this package."""
    frame, level = sys._getframe(1), 2
    while frame.f_back is not None and frame.f_code.co_filename.startswith(PACKAGE):
        frame, level = frame.f_back, level + 1
    warnings.warn(message, RangeWarning, stacklevel=level)
