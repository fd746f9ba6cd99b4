"""What a lesson's notebook and its teaching notes say, cut at their headings and tables."""

import re

from turbomath.classroom import digests, syllabus
from turbomath.table.prose import ProseError
from turbomath.widgets.lesson import Lesson

ABOUT = "<details>\n<summary>About this lesson"
OF_THE_SCREEN = ("By the turbomath contributors", "**Lesson")  # how a part begins that paper has no use for
_KEYS = re.compile(
    r" ?(?:The arrow keys move|The key \*\*t\*\* shows|You can try again)[^.]*\.|; the reply says which one"
)
_FOLD = re.compile(r"</?details>|<summary>.*?</summary>")
_HEADING = re.compile(r"^#{2,3} (.+)$", re.MULTILINE)
_CELL = re.compile(r"(?<!\\)\|")

Row = tuple[str, ...]


def cells(lesson: Lesson, *, title: bool = False) -> list[tuple[str, str]]:
    """Return (kind, source) of each cell of the notebook, "markdown" or "code"; those behind its title, or it too."""
    found = digests.contents(digests.lessons()[lesson.notebook]) or []
    return [(kind, source) for kind, source in found if kind in ("markdown", "code")][0 if title else 1 :]


def called(code: str) -> str:
    """Return the name of the function that a code cell calls."""
    return re.findall(r"^(\w+)\(", code, re.MULTILINE)[-1]


def on_paper(source: str) -> str:
    """Return the words of a cell unfolded, without what speaks of keys and of the lesson's parts."""
    parts = _KEYS.sub("", _FOLD.sub("", source)).strip().split("\n\n")
    return "\n\n".join(part for part in parts if not part.startswith(OF_THE_SCREEN))


def notes(lesson: Lesson) -> dict[str, str]:
    """Return the teaching notes of a lesson: heading -> the text below it."""
    return sections(syllabus.teaching_notes()[lesson.notebook].read_text(encoding="utf-8"))


def sections(text: str) -> dict[str, str]:
    """Return heading -> the text below it, up to the next heading.

    Examples
    --------
    >>> sections("## Before\\none\\n\\n### After\\ntwo")
    {'Before': 'one', 'After': 'two'}
    """
    _, *parts = _HEADING.split(text)
    return {head: words.strip() for head, words in zip(parts[::2], parts[1::2], strict=True)}


def beginning(parts: dict[str, str], *heads: str) -> str:
    """Return the text below the first heading that begins with one of these; nothing where there is none."""
    return next((text for name, text in parts.items() if name.startswith(heads)), "")


def tables(text: str) -> list[tuple[Row, list[Row]]]:
    """Return (heads, rows) of each table in a text.

    Examples
    --------
    >>> tables("| a | b |\\n|---|---|\\n| 1 | 2 |")
    [(('a', 'b'), [('1', '2')])]
    """
    blocks = re.findall(r"(?:^\|.*\|[ ]*(?:\n|\Z))+", text, re.MULTILINE)
    cut = [[tuple(cell.strip() for cell in _CELL.split(line)[1:-1]) for line in block.splitlines()] for block in blocks]
    return [(heads, rows) for heads, _, *rows in cut]


def table(text: str, head: str, where: str) -> tuple[Row, list[Row]]:
    """Return the table whose first head is this one.

    Raises
    ------
    ProseError
        If there is none; *where* says in which text.
    """
    found = next((one for one in tables(text) if one[0][0] == head), None)
    if found is None:
        raise ProseError(f"{where}: a table is missing that begins with {head!r}.")
    return found


def without_tables(text: str) -> str:
    """Return a text without its tables."""
    return re.sub(r"(?:^\|.*\|[ ]*(?:\n|\Z))+", "", text, flags=re.MULTILINE).strip()
