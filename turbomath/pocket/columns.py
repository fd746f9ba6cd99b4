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
_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_FAR = -128  # in the place of a difference that does not fit into a byte


class Packing:
    """Columns while they are collected."""

    def __init__(self, count: int) -> None:
        self._count = count
        self._columns: list[NDArray] = []
        self._known: dict[bytes, int] = {}
        self._sentences: dict[str, int] = {}

    def node(self, values: Sequence[Any], rows: NDArray | None = None) -> list[Any]:
        """Return the template of what stands at one place in each frame; *rows* numbers the frames that have it."""
        rows = np.arange(self._count) if rows is None else rows
        first = values[0]
        if all(one is first for one in values) and not _holds_numbers(first):
            return [SAME, first]
        if isinstance(first, np.ndarray):
            return self._numbers(values, rows)
        if isinstance(first, dict):
            if not _holds_numbers(first) and all(one == first for one in values):
                return [SAME, first]
            if any(one.keys() != first.keys() for one in values):
                raise ValueError(f"frames are of one shape; found other names than {', '.join(first)} in some of them.")
            return [TABLE, {name: self.node([one[name] for one in values], rows) for name in first}]
        if isinstance(first, list):
            return self._list(values, rows)
        return self._text(values, rows)

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

    def column(self, values: Any, rows: NDArray) -> Any:
        """Return where a whole number comes from: itself where it is always the same, else [column, first value].

        A frame that has none has that of the one before, or the first there is.
        """
        before = np.maximum(np.searchsorted(rows, np.arange(self._count), side="right") - 1, 0)
        found = np.asarray(values, dtype=np.int64)[before]
        if (found == found[0]).all():
            return int(found[0])
        moves = np.diff(found)
        number = self._known.setdefault(moves.tobytes(), len(self._columns))
        if number == len(self._columns):
            self._columns.append(moves)
        return [number, int(found[0])]

    def _list(self, values, rows):
        lengths = np.array([len(one) for one in values])
        if not lengths.any():
            return [SAME, []]
        items = []
        for turn in range(lengths.max()):
            has = lengths > turn
            items.append(self.node([one[turn] for one in values if len(one) > turn], rows[has]))
        return [LIST, self.column(lengths, rows), items]

    def _numbers(self, values, rows):
        lengths = np.array([len(one) for one in values])
        longest = max(values, key=len)
        sizes = self.column(lengths, rows)
        has = np.arange(len(longest)) < lengths[:, None]
        table = np.tile(longest, (len(values), 1))
        table[has] = np.concatenate(values)
        if (table == longest).all():
            return [NUMBERS, sizes, longest.tolist(), []]
        found = [self.column(table[has[:, turn], turn], rows[has[:, turn]]) for turn in range(len(longest))]
        moving = [[turn, one] for turn, one in enumerate(found) if isinstance(one, list)]
        return [NUMBERS, sizes, [one if isinstance(one, int) else 0 for one in found], moving]

    def _text(self, values, rows):
        known = {}
        turns = np.array([known.setdefault((type(one), one), len(known)) for one in values])
        if len(known) == 1:
            return [SAME, values[0]]
        read = [self._apart(one) for _, one in known]
        sentence = self.column(np.array([number for number, _ in read])[turns], rows)
        slots = []
        for place in range(max(len(numbers) for _, numbers in read)):
            has = np.array([len(numbers) > place for _, numbers in read])[turns]
            number = np.array([(numbers[place] if len(numbers) > place else 0) for _, numbers in read])[turns]
            slots.append(self.column(number[has], rows[has]))
        return [TEXT, sentence, slots]

    def _apart(self, value):
        """Return the number of the sentence that a text is without its numbers, and these."""
        text = f"s{value}" if isinstance(value, str) else f"j{json.dumps(value)}"
        numbers = []
        bare = _NUMBER.sub(lambda found: _taken(found[0], numbers), text)
        return self._sentences.setdefault(bare, len(self._sentences)), numbers


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


def _holds_numbers(one):
    """Whether there is an array below, which does not compare as a whole."""
    return isinstance(one, np.ndarray) or (
        any(map(_holds_numbers, one.values() if isinstance(one, dict) else one))
        if isinstance(one, dict | list)
        else False
    )
