"""`@formula`: a plain numpy function that knows its own equation, source and conditions.

The decorator refuses impossible input by the table of quantities, so that the functions themselves
hold nothing but their equation.
"""

import functools
import inspect
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from turbomath.table.errors import OutOfRangeError
from turbomath.table.quantities import QUANTITIES, possible


@dataclass(frozen=True)
class Formula:
    """What a formula says of itself: the quantity it gives, its equation (LaTeX), source key, conditions.

    `where` says of each letter that is no parameter and no constant what it stands for, in words or as the name of a
    quantity.
    """

    result: str
    equation: str
    source: str
    conditions: str
    where: Mapping[str, str] = field(default_factory=dict, hash=False)


def formula(*, result, equation, source, conditions, where=None):
    """Tie a function to its equation; its parameters that are quantities are checked on every call.

    The wrapped function takes scalars, lists or arrays that broadcast together, and returns a float
    for scalar input. The record is its attribute ``formula``; the equation is shown in its docstring.
    """

    def tie(function):
        signature = inspect.signature(function)
        quantities = [name for name in signature.parameters if name in QUANTITIES]

        @functools.wraps(function)
        def checked(*args, **kwargs):
            call = signature.bind(*args, **kwargs)
            for name in quantities:
                if name in call.arguments and not _left_out(signature, name, call.arguments[name]):
                    call.arguments[name] = possible(name, call.arguments[name])
            check_shapes({name: call.arguments[name] for name in quantities if name in call.arguments})
            with np.errstate(divide="ignore", invalid="ignore", over="ignore", under="ignore"):
                return plain(function(*call.args, **call.kwargs))

        checked.formula = Formula(result, equation, source, conditions, where or {})
        checked.__doc__ = _with_equation(function.__doc__, equation)
        return checked

    return tie


def plain(value):
    """Return a float for a scalar, an array for an array."""
    return float(value) if np.ndim(value) == 0 else np.asarray(value)


def defined(condition, value):
    """Return *value* where *condition* holds, `nan` elsewhere."""
    return np.where(condition, value, np.nan)


def check_shapes(arguments):
    """Refuse arrays that do not broadcast together, naming each shape."""
    shapes = {name: np.shape(value) for name, value in arguments.items()}
    try:
        return np.broadcast_shapes(*shapes.values())
    except ValueError:
        listed = ", ".join(f"{name} {shape}" for name, shape in shapes.items() if shape)
        raise OutOfRangeError(f"the shapes of the arguments must fit together; found {listed}.") from None


def choice(name, value, options):
    """Return what *options* holds for *value*, or refuse it with the valid ones listed."""
    try:
        return options[value]
    except (KeyError, TypeError):
        listed = ", ".join(repr(option) for option in options)
        raise OutOfRangeError(f"{name} must be one of {listed}; found {str(value)[:40]!r}.") from None


def _left_out(signature, name, value):
    """Whether an argument that may be left out is given as None."""
    return value is None and signature.parameters[name].default is None


def _with_equation(docstring, equation):
    if docstring is None:  # python -OO
        return None
    summary, rest = docstring.split("\n", 1) if "\n" in docstring else (docstring, "")
    return f"{summary}\n\n    .. math:: {equation}\n{rest}"
