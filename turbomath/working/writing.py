"""Equations and numbers written for a terminal or in LaTeX."""

import math
import re
import unicodedata
from collections.abc import Callable

from turbomath.working.equations import Node

_GREEK = {
    "rho": "ρ",
    "eta": "η",
    "varepsilon": "ε",
    "varphi": "φ",
    "gamma": "γ",
    "pi": "π",
    "Delta": "Δ",
    "lambda": "λ",
    "alpha": "α",
    "beta": "β",
}
NO_VALUE = "–"
FIGURES = 5  # of a number on the way; what is asked is shown to fewer


def figures(value: float, count: int = FIGURES) -> str:
    """Return a number to so many figures, without noughts at the end, with a real minus, never with an exponent.

    Examples
    --------
    >>> figures(539.6700001), figures(0.0361273), figures(-25.0), figures(287052.87)
    ('539.67', '0.036127', '−25', '287053')
    """
    if not math.isfinite(value):
        return NO_VALUE
    places = 0 if value == 0 else max(0, count - 1 - math.floor(math.log10(abs(value))))
    return _without_noughts(fixed(value, places))


def fixed(value: float, places: int) -> str:
    """Return a number with so many decimals, a real minus, and no minus before a nought."""
    if not math.isfinite(value):
        return NO_VALUE
    text = f"{value:.{places}f}"
    return text.lstrip("-") if float(text) == 0 else text.replace("-", "−")


def plain_number(text: str) -> float:
    """Return the number that a text of `figures` or `fixed` shows; `nan` where there is none."""
    return math.nan if text == NO_VALUE else float(text.replace("−", "-"))


def _without_noughts(text):
    return text.rstrip("0").rstrip(".") if "." in text else text


def with_unit(text: str, unit: str) -> str:
    """Return a number and its unit as words; a pure number has none."""
    return text if unit == "-" else f"{text} {unit}"


def letter(latex: str) -> str:
    """Return a letter of an equation for a terminal.

    Examples
    --------
    >>> letter(r"\\Delta p_\\mathrm{cooler}"), letter(r"T_{2s}"), letter(r"\\rho_3")
    ('Δp_cooler', 'T_2s', 'ρ_3')
    """
    text = re.sub(r"\\mathrm\{([^{}]*)\}", r"\1", latex)
    text = re.sub(r"\\dot\s*([A-Za-z])", lambda found: unicodedata.normalize("NFC", found[1] + "\u0307"), text)
    text = re.sub(r"\\([A-Za-z]+) ?", lambda found: _GREEK.get(found[1], found[1]), text)
    return text.replace("{", "").replace("}", "").replace("\\", "")


class Terminal:
    """How equations are written on a terminal: 539.67 °R × (37.85 psi abs / 13.4 psi abs)^0.28571."""

    times = spaced_times = " × "
    minus = "−"

    @staticmethod
    def letter(latex: str) -> str:
        """Write a letter."""
        return letter(latex)

    @staticmethod
    def number(text: str, unit: str = "-") -> str:
        """Write a number with its unit."""
        return with_unit(text, unit)

    @staticmethod
    def group(text: str) -> str:
        """Put brackets around."""
        return f"({text})"

    @staticmethod
    def quotient(above: str, below: str) -> str:
        """Write a fraction on one line."""
        return f"{above} / {below}"

    @staticmethod
    def power(base: str, exponent: str) -> str:
        """Write a power."""
        return f"{base}^{exponent}"

    @staticmethod
    def exponent(text: str) -> str:
        """Write constants that go together, as an exponent."""
        return f"({text})".replace("-", "−")

    @staticmethod
    def root(inner: str) -> str:
        """Write a square root."""
        return f"√({inner})"

    @staticmethod
    def extreme(name: str, inner: str) -> str:
        """Write the largest or the smallest of several."""
        return f"{name}({inner})"


class Latex:
    """How equations are written in LaTeX, for a notebook or, through the room `paper`, as MathML."""

    times, spaced_times = r" \times ", r" \, "
    minus = "-"

    @staticmethod
    def letter(latex: str) -> str:
        """Write a letter."""
        return latex

    @staticmethod
    def number(text: str, unit: str = "-") -> str:
        """Write a number with its unit."""
        text = text.replace("−", "-")
        if unit in ("-", "%"):
            return text if unit == "-" else rf"{text}\,\%"
        return rf"{text}\,\text{{{unit}}}"

    @staticmethod
    def group(text: str) -> str:
        """Put brackets around."""
        return rf"\left({text}\right)"

    @staticmethod
    def quotient(above: str, below: str) -> str:
        """Write a fraction."""
        return rf"\frac{{{above}}}{{{below}}}"

    @staticmethod
    def power(base: str, exponent: str) -> str:
        """Write a power."""
        return f"{base}^{{{exponent}}}"

    @staticmethod
    def exponent(text: str) -> str:
        """Write constants that go together, as an exponent."""
        return text

    @staticmethod
    def root(inner: str) -> str:
        """Write a square root."""
        return rf"\sqrt{{{inner}}}"

    @staticmethod
    def extreme(name: str, inner: str) -> str:
        """Write the largest or the smallest of several."""
        return rf"\{name}\left({inner}\right)"


Style = type[Terminal] | type[Latex]


def written(node: Node, style: Style, leaf: Callable[[Node], str], times: str | None = None) -> str:
    """Return a part of an equation as text; *leaf* writes a letter or a looked-up value."""
    return _Writer(style, leaf, times or style.times).write(node)


class _Writer:
    def __init__(self, style, leaf, times):
        self.style, self.leaf, self.times = style, leaf, times
        self.in_line = style is Terminal

    def write(self, node):
        if node.sort == "number":
            return node.text
        if node.sort in ("letter", "look up"):
            return self.leaf(node)
        return getattr(self, _WRITERS[node.sort])(*((node,) if node.sort in _WHOLE else node.parts))

    def sum(self, node):
        words = []
        for place, (sign, part) in enumerate(zip(node.signs, node.parts, strict=True)):
            mark = self.style.minus
            words.append((f" {mark} " if place else mark) if sign < 0 else (" + " if place else ""))
            text = self.inside(part, "+") if sign < 0 else self.write(part)
            words.append(self.style.group(text) if place and text.startswith(("−", "-")) else text)
        return "".join(words)

    def product(self, *factors):
        sorts = ("+", "/") if self.in_line else ("+",)
        return self.times.join(self.inside(part, *sorts[: 1 + (place > 0)]) for place, part in enumerate(factors))

    def quotient(self, above, below):
        if not self.in_line:
            return self.style.quotient(self.write(above), self.write(below))
        return self.style.quotient(self.inside(above, "+"), self.inside(below, "+", "*", "/"))

    def power(self, base, exponent):
        below = self.inside(base, "+", "*", "/", "^")
        if base.sort == "letter" and (" " in below or r"\," in below or below.startswith(("−", "-"))):
            below = self.style.group(below)  # a number with its unit
        return self.style.power(below, self.inside(exponent, "+", "*", "/") if self.in_line else self.write(exponent))

    def root(self, inner):
        return self.style.root(self.write(inner))

    def extreme(self, node):
        return self.style.extreme(node.sort, ", ".join(self.write(part) for part in node.parts))

    def inside(self, node, *sorts):
        """Write a part, in brackets if it is one of these sorts or a negative number."""
        text = self.write(node)
        return self.style.group(text) if node.sort in sorts or text.startswith(("−", "-")) else text


_WRITERS = {
    "+": "sum",
    "*": "product",
    "/": "quotient",
    "^": "power",
    "root": "root",
    "max": "extreme",
    "min": "extreme",
}
_WHOLE = ("+", "max", "min")  # sorts whose writer needs the node itself
