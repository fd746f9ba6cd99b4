"""An equation of the kit, read from its LaTeX: written again in other letters or in numbers, and worked out.

The LaTeX that the kit's formulas are written in is a small one: sums, products, fractions, powers, roots,
`max`, and values looked up at a temperature such as p_sat(T). What is not in it cannot be read, and says so.
"""

import functools
import math
import re
from collections.abc import Callable
from dataclasses import dataclass

from turbomath.table.quantities import QUANTITIES

# Letters that stand for a table when a bracket follows
LOOKED_UP = (r"p_\mathrm{sat}", r"T_\mathrm{sat}", r"w_\mathrm{sat}")
GROUPS = (r"(\gamma-1)/\gamma", r"\gamma/(\gamma-1)", r"g / (R L)", r"R L / g")  # constants that go together
CONSTANT_LETTERS = (
    "R",
    r"R_\mathrm{v}",
    "c_p",
    "L",
    "g",
    r"T_\mathrm{std}",
    r"p_\mathrm{std}",
    r"T_\mathrm{ice}",
    r"\rho_\mathrm{coolant}",
    r"c_\mathrm{coolant}",
    r"c_\mathrm{exhaust}",
    r"k_\mathrm{P}",
    r"k_\mathrm{u}",
)
_MARKS = (r"\frac", r"\sqrt", r"\max", r"\min", r"\left", r"\right", *"()[]{}+-/^,=")
_SPACE = re.compile(r"(?:\s|\\[,;! ]|\\quad)+")
_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_CLOSING = {"(": ")", "[": "]", "{": "}"}


@dataclass(frozen=True)
class Node:
    """One part of an equation: its sort ("number", "letter", "look up", "+", "*", "/", "^", "root", "max", "min")."""

    sort: str
    parts: tuple["Node", ...] = ()
    text: str = ""
    signs: tuple[int, ...] = ()  # of the terms of a sum: 1 or -1


@functools.cache
def read(latex: str, letters: tuple[str, ...] = ()) -> tuple[str, Node] | None:
    """Return (letter on the left, `Node` on the right) of an equation, or None if it is not in the small LaTeX.

    *letters* are those of the equation that are not in the table of quantities.
    """
    try:
        reader = _Reader(latex, letters)
        left, _, right = reader.take(), reader.take("="), reader.sum()
    except _NotRead:
        return None
    return (left, right) if reader.at_end else None


def letters_of(node: Node) -> tuple[str, ...]:
    """Return the letters in a part of an equation, those in looked-up values too, in order."""
    if node.sort == "letter":
        return (node.text,)
    return tuple(dict.fromkeys(letter for part in node.parts for letter in letters_of(part)))


def look_ups(node: Node) -> tuple[Node, ...]:
    """Return the looked-up values in a part of an equation."""
    mine = (node,) if node.sort == "look up" else ()
    return mine + tuple(found for part in node.parts for found in look_ups(part))


def worked_out(node: Node, value: Callable[[Node], float]) -> float:
    """Return the number a part of an equation comes to, or `nan`; *value* gives it for a letter or a look-up."""
    if node.sort == "number":
        return float(node.text)
    if node.sort in ("letter", "look up"):
        return value(node)
    parts = [worked_out(part, value) for part in node.parts]
    if node.sort == "+":
        return sum(sign * part for sign, part in zip(node.signs, parts, strict=True))
    try:
        found = _WORK[node.sort](*parts)
    except ArithmeticError:
        return math.nan
    return math.nan if isinstance(found, complex) else found


_WORK: dict[str, Callable[..., float]] = {
    "*": lambda *factors: math.prod(factors),
    "/": lambda above, below: above / below,
    "^": lambda base, exponent: base**exponent,
    "root": lambda inner: inner**0.5,
    "max": max,
    "min": min,
}


class _NotRead(Exception):
    pass


class _Reader:
    """Reads one equation from left to right."""

    def __init__(self, latex, letters):
        known = {row.symbol for row in QUANTITIES.values()} | {*CONSTANT_LETTERS, *GROUPS, *LOOKED_UP, *letters}
        self.letters = tuple(sorted(known, key=len, reverse=True))
        self.tokens, self.place = tuple(self._split(latex)), 0

    def _split(self, latex):
        at = 0
        while at < len(latex):
            space, number = _SPACE.match(latex, at), _NUMBER.match(latex, at)
            if space:
                at = space.end()
                continue
            token = number[0] if number else self._known(latex, at)
            at += len(token)
            yield token

    def _known(self, latex, at):
        for token in self.letters:
            if latex.startswith(token, at):
                return token
        for token in _MARKS:
            if latex.startswith(token, at):
                return token
        raise _NotRead

    @property
    def at_end(self):
        return self.place == len(self.tokens)

    @property
    def next(self):
        return "" if self.at_end else self.tokens[self.place]

    def take(self, *wanted):
        token = self.next
        if not token or (wanted and token not in wanted):
            raise _NotRead
        self.place += 1
        return token

    def sum(self):
        signs, terms = [-1 if self.next == "-" and self.take() else 1], [self.product()]
        while self.next in ("+", "-"):
            signs.append(-1 if self.take() == "-" else 1)
            terms.append(self.product())
        return terms[0] if len(terms) == 1 and signs == [1] else Node("+", tuple(terms), signs=tuple(signs))

    def product(self):
        factors = [self.power()]
        while self.next and self.next not in ("+", "-", ",", "=", ")", "]", "}", r"\right"):
            if self.next == "/":
                self.take()
                above = factors[0] if len(factors) == 1 else Node("*", tuple(factors))
                factors = [Node("/", (above, self.power()))]
            else:
                factors.append(self.power())
        return factors[0] if len(factors) == 1 else Node("*", tuple(factors))

    def power(self):
        base = self.atom()
        if self.next != "^":
            return base
        self.take()
        return Node("^", (base, self.bracket() if self.next == "{" else self.atom()))

    def atom(self):
        token = self.next
        if token in ("(", "[", "{", r"\left"):
            return self.bracket()
        self.take()
        if token == r"\frac":
            return Node("/", (self.bracket(), self.bracket()))
        if token == r"\sqrt":
            return Node("root", (self.bracket(),))
        if token in (r"\max", r"\min"):
            return Node(token[1:], self.arguments())
        if token in LOOKED_UP and self.next in ("(", r"\left"):
            return Node("look up", self.arguments(), token)
        if _NUMBER.fullmatch(token):
            return Node("number", text=token)
        if token in self.letters:
            return Node("letter", text=token)
        raise _NotRead

    def bracket(self):
        (inner,) = self.arguments(one=True)
        return inner

    def arguments(self, one=False):
        if self.next == r"\left":
            self.take()
        closing, found = _CLOSING[self.take("(", "[", "{")], [self.sum()]
        while self.next == "," and not one:
            self.take()
            found.append(self.sum())
        if self.next == r"\right":
            self.take()
        self.take(closing)
        return tuple(found)
