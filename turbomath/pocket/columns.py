"""Many frames of one shape as a template and a few columns of whole numbers, packed small.

Along a slider most of a frame stays as it is, and its numbers change by little. So each number becomes a column: where
it never changes it stands in the template; else the column holds what is added from frame to frame. Columns that
change alike are held once. The packed form is for `unpack.js`.
"""

import base64
import gzip
import json
import re
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

TEXT, LIST, TABLE, NUMBERS, SAME = range(5)  # the kinds of a node
PLACE = "\x01"  # in a sentence with its numbers taken out: then a digit, how many decimals stand there
_ABSENT = object()
_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_FAR = -128  # in the place of a difference that does not fit into a byte


class Packing:
    """Columns while they are collected."""

    def __init__(self, count: int) -> None:
        self._count = count
        self._columns: list[NDArray] = []
        self._known: dict[bytes, int] = {}
        self._sentences: dict[str, int] = {}
        self._read: dict[str, tuple[int, list[int]]] = {}

    def node(self, values: Sequence[Any]) -> list[Any]:
        """Return the template of what stands at one place in each frame."""
        there = [one for one in values if one is not _ABSENT]
        first = there[0]
        if isinstance(first, np.ndarray):
            return self._numbers(values)
        if isinstance(first, dict):
            if not _holds_numbers(first) and all(one == first for one in there):
                return [SAME, first]
            return [TABLE, {name: self.node([_at(one, name) for one in values]) for name in first}]
        if isinstance(first, list):
            return self._list(values, there)
        return [SAME, first] if all(one == first for one in there) else self._text(values)

    def packed(self, template: Any) -> str:
        """Return all as text that a page can hold: a JSON head, the far differences, the near ones; gzip, base64."""
        deltas = [_near_and_far(one) for one in self._columns]
        head = {
            "count": self._count,
            "columns": len(self._columns),
            "orders": [order for order, _, _ in deltas],
            "far": sum(len(far) for _, _, far in deltas),
            "sentences": list(self._sentences),
            **template,
        }
        text = json.dumps(head, ensure_ascii=False, separators=(",", ":")).encode()
        text += b" " * (-len(text) % 4)
        far = b"".join(far.astype("<i4").tobytes() for _, _, far in deltas)
        near = b"".join(near.astype("i1").tobytes() for _, near, _ in deltas)
        whole = len(text).to_bytes(4, "little") + text + far + near
        return base64.b64encode(gzip.compress(whole, 9, mtime=0)).decode()

    def column(self, values: Any) -> Any:
        """Return where a whole number comes from: itself where it is always the same, else [column, first value]."""
        found = np.asarray(values, dtype=np.int64)
        if (found == found[0]).all():
            return int(found[0])
        moves = np.diff(found)
        number = self._known.setdefault(moves.tobytes(), len(self._columns))
        if number == len(self._columns):
            self._columns.append(moves)
        return [number, int(found[0])]

    def _list(self, values, there):
        longest = max(map(len, there))
        if not longest:
            return [SAME, []]
        sizes = self.column(_carried([_ABSENT if one is _ABSENT else len(one) for one in values]))
        items = [
            [_ABSENT if one is _ABSENT or len(one) <= turn else one[turn] for one in values] for turn in range(longest)
        ]
        return [LIST, sizes, [self.node(one) for one in items]]

    def _numbers(self, values):
        there = [one for one in values if one is not _ABSENT]
        longest = max(there, key=len)
        sizes = self.column(_carried([_ABSENT if one is _ABSENT else len(one) for one in values]))
        if all(np.array_equal(one, longest[: len(one)]) for one in there):
            return [NUMBERS, sizes, longest.tolist(), []]
        rows = np.zeros((len(values), len(longest)), dtype=np.int64)
        known = np.zeros(rows.shape, dtype=bool)
        for turn, one in enumerate(values):
            if one is not _ABSENT:
                rows[turn, : len(one)], known[turn, : len(one)] = one, True
        rows = _filled(rows, known)
        found = [self.column(rows[:, turn]) for turn in range(len(longest))]
        moving = [[turn, one] for turn, one in enumerate(found) if isinstance(one, list)]
        return [NUMBERS, sizes, [one if isinstance(one, int) else 0 for one in found], moving]

    def _text(self, values):
        read = [_ABSENT if one is _ABSENT else self._apart(one) for one in values]
        most = max(len(numbers) for _, numbers in (one for one in read if one is not _ABSENT))
        sentence = self.column(_carried([_ABSENT if one is _ABSENT else one[0] for one in read]))
        slots = [
            _carried([_ABSENT if one is _ABSENT or len(one[1]) <= turn else one[1][turn] for one in read])
            for turn in range(most)
        ]
        return [TEXT, sentence, [self.column(one) for one in slots]]

    def _apart(self, value):
        """Return the number of the sentence that a text is without its numbers, and these."""
        text = f"s{value}" if isinstance(value, str) else f"j{json.dumps(value)}"
        if text not in self._read:
            numbers: list[int] = []
            bare = _NUMBER.sub(lambda found: _taken(found[0], numbers), text)
            self._read[text] = self._sentences.setdefault(bare, len(self._sentences)), numbers
        return self._read[text]


def _taken(token, numbers):
    """Put a number of at most nine figures aside and return what marks its place; another stays as it is written."""
    whole, _, part = token.partition(".")
    if len(whole + part) > 9 or (len(whole) > 1 and whole[0] == "0"):
        return token
    numbers.append(int(whole + part))
    return f"{PLACE}{len(part)}"


def _near_and_far(moves):
    """Return (order, near, far): first or second differences, whichever are smaller; the far ones stand aside."""
    second = np.diff(moves, prepend=0)
    order, found = (1, moves) if np.abs(moves).sum() <= np.abs(second).sum() else (2, second)
    far = np.abs(found) > 127
    return order, np.where(far, _FAR, found), found[far]


def _carried(values):
    """Return the values with those that are absent as the one before, or as the first that is there."""
    last = next(one for one in values if one is not _ABSENT)
    return [last := (last if one is _ABSENT else one) for one in values]


def _filled(rows, known):
    """The same for the columns of a table."""
    turns = np.where(known, np.arange(len(rows))[:, None], -1)
    before = np.maximum.accumulate(turns, axis=0)
    first = np.argmax(known, axis=0)
    return np.take_along_axis(rows, np.where(before < 0, first, before), axis=0)


def _at(one, name):
    return _ABSENT if one is _ABSENT else one[name]


def _holds_numbers(one):
    """Whether there is an array below, which does not compare as a whole."""
    return isinstance(one, np.ndarray) or (
        any(map(_holds_numbers, one.values() if isinstance(one, dict) else one))
        if isinstance(one, dict | list)
        else False
    )
