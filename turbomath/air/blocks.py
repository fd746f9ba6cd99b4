"""One way to run an equation on whatever comes: a number, or arrays of any size and shape.

A number goes through as a Python float, hundreds of times cheaper than as an array of one element. Arrays go through in
pieces that stay in the processor's cache, which is two to three times faster than whole. An equation that works on both
may change what it has made itself in place, and never what it was given.
"""

from collections.abc import Callable
from typing import Any

import numpy as np

SIZE = 16_384  # elements in a piece: 128 KiB


def in_blocks(function: Callable[..., Any], *arguments: Any) -> Any:
    """Return *function* of the arguments: a float if all are numbers, else an array of their broadcast shape.

    *function* is given floats and one-dimensional arrays of one length; nothing is checked. Numbers among arrays stay
    numbers. What is not defined becomes `nan` or infinite without a warning.
    """
    shape = np.broadcast_shapes(*(np.shape(one) for one in arguments))
    with np.errstate(all="ignore"):
        if shape == ():
            return float(function(*map(float, arguments)))
        result = np.empty(shape)
        flat, given = result.reshape(-1), [_flat(one, shape) for one in arguments]
        for start in range(0, flat.size, SIZE):
            piece = slice(start, start + SIZE)
            flat[piece] = function(*(one if isinstance(one, float) else one[piece] for one in given))
    return result


def _flat(argument, shape):
    """A float, or a one-dimensional array that stands for *argument* in the broadcast shape."""
    if np.ndim(argument) == 0:
        return float(argument)
    return np.broadcast_to(argument, shape).reshape(-1)
