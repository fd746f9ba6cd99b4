"""Prose that is data: sentences in a TOML file beside their subject, each taken once, and none left over.

Logic stays Python and asks for its words by name. What is misspelt, missing, empty or unused is refused where the
words are taken, so that a wrong file stops the tests and never a reader.
"""

import string
import tomllib
from pathlib import Path

from turbomath.table.errors import TurbomathError


class ProseError(TurbomathError):
    """A file of words that does not fit what is asked of it; the sentence names the file and the place."""


class Prose:
    """A table of words, from which each name is taken.

    Parameters
    ----------
    words : dict
        Texts, lists and tables, as TOML gives them.
    place : str
        Where they stand, for refusals: the file, then the names down to this table.
    """

    def __init__(self, words: dict, place: str) -> None:
        self._words, self.place = words, place
        self._left = dict.fromkeys(words)
        self._inner: list = []

    def __contains__(self, name: str) -> bool:
        return name in self._words

    def names(self) -> tuple[str, ...]:
        """Return the names of this table, in the order of the file."""
        return tuple(self._words)

    def text(self, name: str, /, **places: object) -> str:
        """Return a sentence with each of its {places} filled.

        Raises
        ------
        ProseError
            If there is no such sentence, or its places are not exactly those given.
        """
        text = self._taken(name, str)
        asked = {field for _, field, _, _ in string.Formatter().parse(text) if field is not None}
        if asked != set(places):
            found, given = (", ".join(sorted(group)) or "none" for group in (asked, set(places)))
            raise ProseError(f"{self.place}: the places in {name!r} must be {given}; found {found}.")
        return text.format(**places)

    def raw(self, name: str, /, default: str | None = None) -> str:
        """Return a sentence whose {places} are filled later, by whoever takes it."""
        return default if default is not None and name not in self._words else self._taken(name, str)

    def value(self, name: str, /, kind: type | tuple[type, ...], default: object = None) -> object:
        """Return what is no sentence, such as a number or true; *default* where it is not there."""
        return default if name not in self._words and default is not None else self._taken(name, kind)

    def texts(self, name: str) -> tuple[str, ...]:
        """Return a list of sentences."""
        found = self._taken(name, list)
        for number, one in enumerate(found, start=1):
            _refuse_empty(one, f"{self.place}: {name} {number}")
        return tuple(found)

    def table(self, name: str) -> "Prose":
        """Return a table within this one."""
        return self._opened(self._taken(name, dict), f"{self.place}: {name}")

    def tables(self, name: str) -> tuple["Prose", ...]:
        """Return a list of tables within this one, in their order; an empty one where there is none."""
        found = self._taken(name, list) if name in self._words else []
        return tuple(self._opened(one, f"{self.place}: {name} {number}") for number, one in enumerate(found, start=1))

    def unused(self) -> list[str]:
        """Return the place of each name that nobody has taken, here and in the tables taken from here."""
        return [f"{self.place}: {name}" for name in self._left] + [one for part in self._inner for one in part.unused()]

    def finished(self) -> None:
        """Refuse what is left over.

        Raises
        ------
        ProseError
            If a name was never taken: it is misspelt, or its sentence is used nowhere.
        """
        if left := self.unused():
            raise ProseError(f"{left[0]} is used nowhere. Correct its name, or take it out. Such names: {len(left)}.")

    def _taken(self, name, kind):
        if name not in self._words:
            raise ProseError(f"{self.place}: {name!r} is missing; found {', '.join(self._words) or 'nothing'}.")
        self._left.pop(name, None)
        found = self._words[name]
        if not isinstance(found, kind) or (isinstance(found, bool) and kind is not bool):
            kinds = " or ".join(one.__name__ for one in (kind if isinstance(kind, tuple) else (kind,)))
            raise ProseError(f"{self.place}: {name!r} must be of the kind {kinds}; found {found!r}.")
        if kind is str:
            _refuse_empty(found, f"{self.place}: {name}")
        return found

    def _opened(self, words, place):
        if not isinstance(words, dict):
            raise ProseError(f"{place} must be a table; found {words!r}.")
        self._inner.append(Prose(words, place))
        return self._inner[-1]


def read(beside: str, name: str) -> Prose:
    """Return the words of the file *name* in the folder of the module file *beside*.

    Raises
    ------
    ProseError
        If the file is not there, is no TOML, or is not UTF-8.
    """
    path = Path(beside).with_name(name)
    try:
        return Prose(tomllib.loads(path.read_text(encoding="utf-8")), f"{path.parent.name}/{name}")
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as trouble:
        raise ProseError(f"{path}: the words cannot be read: {trouble}") from None


def _refuse_empty(text, place):
    if not isinstance(text, str) or not text.strip() or text != text.strip():
        raise ProseError(f"{place} must be a sentence without space at its ends; found {text!r}.")
