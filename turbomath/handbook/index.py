"""The index: where each quantity is given or used, by its name and by its symbol."""

import inspect
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from turbomath.handbook.subjects import key
from turbomath.paper.equations import mathml
from turbomath.paper.links import joined, link
from turbomath.table.formulas import Tied
from turbomath.table.quantities import QUANTITIES
from turbomath.working.writing import letter


@dataclass(frozen=True)
class Line:
    """One line of the index: what it is about, the formulas that give it, those that use it."""

    words: str
    given_by: str
    used_in: str


def by_name(numbers: Mapping[Tied, str]) -> list[Line]:
    """Return a line a quantity, in the order of the names; *numbers* are those of the formulas."""
    given, used = defaultdict(list), defaultdict(list)
    for function, number in numbers.items():
        given[function.formula.result].append(link(key(function), number))
        for name in inspect.signature(function).parameters:
            used[name].append(link(key(function), number))
    names = sorted((name for name in QUANTITIES if name in given or name in used), key=_plain)
    return [Line(_to_quantity(name), joined(given[name]), joined(used[name])) for name in names]


def by_symbol() -> list[tuple[str, str]]:
    """Return each symbol with the names it stands for, in the order of the letters."""
    names = defaultdict(list)
    for row in QUANTITIES.values():
        names[row.symbol].append(_to_quantity(row.name))
    symbols = sorted(names, key=lambda symbol: (letter(symbol).casefold(), symbol))
    return [(mathml(symbol), joined(names[symbol])) for symbol in symbols]


def _to_quantity(name: str) -> str:
    return link(f"quantity-{name}", _plain(name))


def _plain(name: str) -> str:
    return QUANTITIES[name].plain_name
