"""How the kit does on engines it never saw, for the handbook; the words, and the figures in them, are in a file."""

from dataclasses import dataclass

from turbomath.paper.parts import Head, Table
from turbomath.table import prose

COLUMNS = {"name": "Engine", "read": "What was read", "found": "What was found", "untold": "What could not be told"}


@dataclass(frozen=True)
class Section:
    """A section of the handbook: its title, a sentence about it, and its table."""

    title: str
    about: str
    table: Table


def section() -> Section:
    """Return the section of engines that the kit never saw."""
    words = prose.read(__file__, "engines_never_seen.toml")
    rows = tuple(tuple(one.text(name) for name in COLUMNS) for one in words.tables("engine"))
    table = Table(words.text("caption"), tuple(map(Head, COLUMNS.values())), rows, style="words")
    found = Section(words.text("title"), words.text("about"), table)
    words.finished()
    return found
