"""What a page unpacks, unpacked here: written anew, so that packing is checked against something else."""

import base64
import gzip
import json
import re

import numpy as np

TEXT, LIST, TABLE, NUMBERS = range(4)


def unpacked(text):
    """Return (head, a function from the number of a frame to the frame)."""
    whole = gzip.decompress(base64.b64decode(text))
    size = int.from_bytes(whole[:4], "little")
    head = json.loads(whole[4 : 4 + size])
    far = list(np.frombuffer(whole, "<i4", head["far"], 4 + size))
    near = np.frombuffer(whole, "i1", -1, 4 + size + 4 * head["far"])
    length, columns = head["count"] - 1, []
    for turn, order in enumerate(head["orders"]):
        moves = near[turn * length : (turn + 1) * length].astype(int)
        moves = np.array([far.pop(0) if one == -128 else one for one in moves], int)
        columns.append(np.concatenate([[0], np.cumsum(moves if order == 1 else np.cumsum(moves))]))

    def number(source, turn):
        return source if isinstance(source, int) else int(columns[source[0]][turn]) + source[1]

    def at(node, turn):
        kind, *rest = node
        if kind == TEXT:
            numbers = iter([number(one, turn) for one in rest[1]])
            said = re.sub(
                "\x01(.)", lambda found: decimal(next(numbers), int(found[1])), head["sentences"][number(rest[0], turn)]
            )
            return said[1:] if said[0] == "s" else json.loads(said[1:])
        if kind == LIST:
            return [at(one, turn) for one in rest[1][: number(rest[0], turn)]]
        if kind == TABLE:
            return {name: at(one, turn) for name, one in rest[0].items()}
        if kind == NUMBERS:
            values = list(rest[1])
            for place, source in rest[2]:
                values[place] = number(source, turn)
            return values[: number(rest[0], turn)]
        return rest[0]

    return head, lambda turn: at(head["frame"], turn)


def decimal(value, places):
    digits = str(value).rjust(places + 1, "0")
    return f"{digits[: len(digits) - places]}.{digits[len(digits) - places :]}" if places else digits


def plain(content):
    """Return content with its arrays as lists, as a page has it."""
    if isinstance(content, dict):
        return {name: plain(one) for name, one in content.items()}
    if isinstance(content, np.ndarray | list | tuple):
        return [plain(one) for one in content]
    return content.item() if isinstance(content, np.generic) else content
