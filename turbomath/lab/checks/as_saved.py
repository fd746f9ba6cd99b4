"""What a reader of the file of readings should know of how it was saved: 50."""

from collections.abc import Iterable

from turbomath.lab.checks.finding import Finding, spoken
from turbomath.lab.checks.look import Look


def notes(look: Look) -> Iterable[Finding]:
    """50: marks of another encoding, and what a spreadsheet hides: read, and said."""
    for note in look.run.notes:
        yield spoken(50, None, "note", ("",), f"In {look.run.file} {note.reason}.", note.action)
