"""The numbers behind a variant: drawn from a keyed hash, so that the same seat gets the same on any machine."""

import hashlib
import hmac
import json
import unicodedata
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from turbomath.table.errors import OutOfRangeError

_DRAWS_OF_A_DIGEST = 8  # 32 bytes, four to a draw
_CODE_MARKS = "23456789abcdefghjkmnpqrstuvwxyz"  # no 0, 1, i, l, o: they are misread


def uniform(secret: str | bytes, parts: Sequence[str], count: int, attempts: Sequence[int]) -> NDArray[np.float64]:
    """Return an array (attempts, count) of numbers from 0 up to 1, made by HMAC-SHA256 of the secret.

    Parameters
    ----------
    secret : str or bytes
        The course secret.
    parts : sequence of str
        What the numbers belong to: assignment, seat, question, retry.
    count : int
        How many numbers each attempt needs.
    attempts : sequence of int
        The number of each redraw.
    """
    key, blocks, whose = _key(secret), range(-(-count // _DRAWS_OF_A_DIGEST)), _message(parts)
    made = b"".join(_digest(key, whose + b"%d,%d" % (attempt, block)) for attempt in attempts for block in blocks)
    return np.frombuffer(made, dtype=">u4").reshape(len(attempts), -1)[:, :count] / 2.0**32


def sheet_code(secret: str | bytes, parts: Sequence[str], length: int = 8) -> str:
    """Return a short public code of a sheet, from which neither secret nor answers can be read."""
    digest = int.from_bytes(_digest(_key(secret), _message(("sheet code", *parts))), "big")
    marks = []
    for _ in range(length):
        digest, place = divmod(digest, len(_CODE_MARKS))
        marks.append(_CODE_MARKS[place])
    return "".join(marks[: length // 2]) + "-" + "".join(marks[length // 2 :])


def word(name: str, text: object) -> str:
    """Return a text that names something (a seat, an assignment), the same however it was typed; or refuse it."""
    found = unicodedata.normalize("NFC", str(text)).strip()
    if not found:
        raise OutOfRangeError(f"the {name} is empty; give one, such as 'A07'.")
    if len(found) > 200:
        raise OutOfRangeError(f"the {name} has {len(found)} characters; give at most 200.")
    return found


def _key(secret):
    key = secret if isinstance(secret, bytes) else unicodedata.normalize("NFC", str(secret)).encode()
    if not key.strip():
        raise OutOfRangeError("the course secret is empty; give a sentence that only you know.")
    return key


def _message(parts):
    """Return texts as bytes from which each can be told apart."""
    return json.dumps(list(parts)).encode()


def _digest(key, message):
    return hmac.digest(key, message, hashlib.sha256)
