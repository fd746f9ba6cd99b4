"""`@formula`: a plain numpy function that knows its own equation, source and conditions.

The decorator refuses impossible input by the table of quantities, so that the functions themselves
hold nothing but their equation.
"""

import functools
import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, ParamSpec, Protocol, cast

import numpy as np

from turbomath.table.errors import OutOfRangeError
from turbomath.table.quantities import QUANTITIES, possible
from turbomath.table.unusual import warn_of_unusual

P = ParamSpec("P")  # the arguments of a formula


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


class Tied(Protocol[P]):
    """A function that knows its own equation, called with the arguments it was written with."""

    __name__: str
    formula: Formula

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> Any:
        """Return what the function gives."""


def formula(
    *,
    result: str,
    equation: str,
    source: str,
    conditions: str,
    of_any_size: tuple[str, ...] = (),
    where: Mapping[str, str] | None = None,
) -> Callable[[Callable[P, Any]], Tied[P]]:
    """Tie a function to its equation; its parameters that are quantities are checked on every call.

    The wrapped function takes scalars, lists or arrays that broadcast together, and returns a float
    for scalar input. The record is its attribute ``formula``; the equation is shown in its docstring. The unit of an
    argument `of_any_size` is never doubted.
    """

    def tie(function: Callable[P, Any]) -> Tied[P]:
        signature, asked = inspect.signature(function), cast(Callable[..., Any], function)
        quantities = [name for name in signature.parameters if name in QUANTITIES]
        doubted = [name for name in quantities if name not in of_any_size]
        by_place = [one.name for one in signature.parameters.values() if one.kind is not one.KEYWORD_ONLY]
        needed = {one.name for one in signature.parameters.values() if one.default is one.empty}

        @functools.wraps(function)
        def checked(*args: P.args, **kwargs: P.kwargs) -> Any:
            call: dict[str, Any] = dict(zip(by_place, args, strict=False))  # far quicker than to bind the signature
            fits = len(args) <= len(by_place) and call.keys().isdisjoint(kwargs)
            call |= kwargs
            if not (fits and needed <= call.keys() <= signature.parameters.keys()):
                raise _misfit(function.__name__, signature, args, kwargs)
            for name in quantities:
                if name in call and not _left_out(signature, name, call[name]):
                    call[name] = possible(name, call[name])
            given = {name: call[name] for name in quantities if call.get(name) is not None}
            if not all(isinstance(one, float) for one in given.values()):
                check_shapes(given)
            warn_of_unusual(function.__name__, {name: given[name] for name in doubted if name in given})
            with np.errstate(divide="ignore", invalid="ignore", over="ignore", under="ignore"):
                return plain(asked(**call))

        vars(checked)["formula"] = Formula(result, equation, source, conditions, where or {})
        checked.__doc__ = _with_equation(function.__doc__, equation)
        return cast(Tied[P], checked)

    return tie


def plain(value: Any) -> Any:
    """Return a float for a scalar, an array for an array."""
    return float(value) if isinstance(value, float) or np.ndim(value) == 0 else np.asarray(value)


def defined(condition: Any, value: Any) -> Any:
    """Return *value* where *condition* holds, `nan` elsewhere."""
    return np.where(condition, value, np.nan)


def check_shapes(arguments: Mapping[str, Any]) -> tuple[int, ...]:
    """Refuse arrays that do not broadcast together, naming each shape."""
    shapes = {name: np.shape(value) for name, value in arguments.items()}
    try:
        return np.broadcast_shapes(*shapes.values())
    except ValueError:
        listed = ", ".join(f"{name} {shape}" for name, shape in shapes.items() if shape)
        raise OutOfRangeError(f"the shapes of the arguments must fit together; found {listed}.") from None


def choice(name: str, value: Any, options: Mapping[Any, Any]) -> Any:
    """Return what *options* holds for *value*, or refuse it with the valid ones listed."""
    try:
        return options[value]
    except (KeyError, TypeError):
        listed = ", ".join(repr(option) for option in options)
        raise OutOfRangeError(f"{name} must be one of {listed}; found {str(value)[:40]!r}.") from None


def _left_out(signature, name, value):
    """Whether an argument that may be left out is given as None."""
    return value is None and signature.parameters[name].default is None


def _misfit(name, signature, args, kwargs):
    """Return an error that says what a function takes, and which argument is missing, doubled or unknown."""
    parameters = signature.parameters.values()
    by_place = [one.name for one in parameters if one.kind is not one.KEYWORD_ONLY]
    filled = [*by_place[: len(args)], *kwargs]
    found = {
        "given twice": [one for one in by_place[: len(args)] if one in kwargs],
        "not among them": [one for one in kwargs if one not in signature.parameters],
        "missing": [one.name for one in parameters if one.default is one.empty and one.name not in filled],
    }
    said = [f"{trouble}: {', '.join(names)}" for trouble, names in found.items() if names]
    if len(args) > len(by_place):
        said.append(f"too many: {len(args)} values for {len(by_place)} places")
    return TypeError(f"{name} takes {', '.join(map(_shown, parameters))}; {'; '.join(said)}.")


def _shown(parameter):
    """A parameter as a call may write it: `strokes=4` where it may be left out, `strokes=...` where only by name."""
    if parameter.default is not parameter.empty:
        return f"{parameter.name}={parameter.default!r}"
    return f"{parameter.name}=..." if parameter.kind is parameter.KEYWORD_ONLY else parameter.name


def _with_equation(docstring, equation):
    if docstring is None:  # python -OO
        return None
    summary, rest = docstring.split("\n", 1) if "\n" in docstring else (docstring, "")
    return f"{summary}\n\n    .. math:: {equation}\n{rest}"
