"""Text for a terminal or a file of any encoding: what it cannot show is said in letters that it can."""

import codecs
import io
import shutil
import textwrap
from typing import TextIO

_SAID = {
    "°": "deg ",
    "±": "+/-",
    "−": "-",
    "–": "-",
    "—": "-",
    "×": "x",
    "÷": "/",
    "·": "*",
    "²": "2",
    "³": "3",
    "½": "1/2",
    "≤": "<=",
    "≥": ">=",
    "≈": "about ",
    "→": "->",
    "…": "...",
    "‘": "'",
    "’": "'",
    "“": '"',
    "”": '"',
    "\u00a0": " ",
    "\u202f": " ",
    "η": "eta",
    "ε": "epsilon",
    "γ": "gamma",
    "Δ": "delta ",
    "√": "root of ",
    "←": "<-",
    "π": "pi",
    "ρ": "rho",
    "λ": "lambda",
    "✓": "ok",
}
MOST_COLUMNS = 100  # of a line that is easy to read
IN_LETTERS = "turbomath.in_letters"


def tell_on(*streams: TextIO | None) -> None:
    """Let what is printed on each stream get through: UTF-8 in a pipe or a file, on a console what it can show."""
    for stream in streams:
        if isinstance(stream, io.TextIOWrapper):  # a closed one is None, a notebook's is another
            stream.reconfigure(encoding=None if stream.isatty() else "utf-8", errors=IN_LETTERS)


def columns() -> int:
    """Return how many letters a line may have: those of the terminal, and never more than are easy to read."""
    return min(MOST_COLUMNS, shutil.get_terminal_size((MOST_COLUMNS, 24)).columns)


def wrapped(text: str, indent: str = "", later: str = "") -> str:
    """Return a line of text as lines that fit, the first behind *indent*, the others behind *later* as well."""
    return textwrap.fill(text, max(columns(), 30), initial_indent=indent, subsequent_indent=indent + later)


def _in_letters(trouble: UnicodeError) -> tuple[str | bytes, int]:
    if not isinstance(trouble, UnicodeEncodeError):
        raise trouble
    return "".join(_SAID.get(one, "?") for one in trouble.object[trouble.start : trouble.end]), trouble.end


codecs.register_error(IN_LETTERS, _in_letters)
