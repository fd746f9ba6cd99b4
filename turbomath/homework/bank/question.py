"""What a question is: plain data, ten to twenty lines of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import QUANTITIES
from turbomath.working import Step

SYSTEMS = ("us", "si")


@dataclass(frozen=True)
class Tolerance:
    """How far an answer may lie from the key: the greater of a share of the key and an SI amount for each system."""

    share: float = 0.0
    us: float = 0.0
    si: float = 0.0

    def width(self, key: Values, system: str) -> Values:
        """Return the half-width round a key (float or array), in SI."""
        return np.maximum(np.abs(key) * self.share, getattr(self, system))


_PRESSURE = Tolerance(0.005, us=34.5, si=50.0)  # 0.005 psi or 0.05 kPa: half of the last digit to write
TOLERANCES = {  # by kind of quantity
    **dict.fromkeys(("pressure", "absolute pressure", "gauge pressure", "pressure difference"), _PRESSURE),
    "ratio": Tolerance(0.007),
    **dict.fromkeys(("temperature", "temperature difference"), Tolerance(us=5 / 3, si=2.0)),  # K: 3 F° or 2 C°
    **dict.fromkeys(("density", "mass flow", "volume flow", "specific energy", "humidity ratio"), Tolerance(0.01)),
    **dict.fromkeys(("efficiency", "effectiveness"), Tolerance(us=0.01, si=0.01)),
    **dict.fromkeys(("share", "gain"), Tolerance(us=0.005, si=0.005)),
    **dict.fromkeys(("power", "specific fuel consumption", "fuel flow"), Tolerance(0.015)),
}


def tolerance_of(quantity: str) -> Tolerance:
    """Return the tolerance that answers of a quantity have where the question does not say another."""
    return TOLERANCES[QUANTITIES[quantity].kind]


@dataclass(frozen=True)
class Given:
    """A value on the sheet. `source` is its name among what is drawn; `us` and `si` are (unit, step of the gauge)."""

    name: str
    us: tuple[str, float]
    si: tuple[str, float]
    quantity: str = ""
    source: str = ""
    symbol: str = ""

    @property
    def row(self) -> str:
        """The name of its row in the table of quantities."""
        return self.quantity or self.name


@dataclass(frozen=True)
class Asked:
    """A value that is asked for: its name in the chain, and the unit to offer first in each system."""

    name: str
    us: str
    si: str
    quantity: str = ""
    tolerance: Tolerance | None = None

    @property
    def row(self) -> str:
        """The name of its row in the table of quantities."""
        return self.quantity or self.name

    @property
    def allowed(self) -> Tolerance:
        """Its tolerance."""
        return self.tolerance or tolerance_of(self.row)

    def unit(self, system: str) -> str:
        """Return the unit to offer first."""
        return self.us if system == "us" else self.si


@dataclass(frozen=True)
class Mistake:
    """A usual mistake: its name, its code, what it changes in the chain, and what to tell the student who made it.

    `changes` sets names of the chain to another name, a number, or a function of the values known by then.
    `only` is the unit system in which it can be made at all ("" for both). `message` is found by the name.
    """

    name: str
    code: str
    changes: Mapping[str, Any]
    only: str = ""
    message: str = ""


@dataclass(frozen=True)
class Question:
    """A question with numbers of its own for each seat.

    `givens` are shown; `steps` lead from them to what is `asked`, whose last is the answer. `ranges` narrows or adds
    what is drawn (name -> (low, high, unit)); `narrowed` says why. `also` makes further values from what is drawn
    (called with the system too), `where` says which draws will do. `verdict` says what follows from the answer, or
    why it makes sense: words, or a function of the values. The wording has a place in braces for each given.
    """

    name: str
    number: int
    objective: str
    difficulty: int
    wording: str
    givens: tuple[Given, ...]
    steps: tuple[Step, ...]
    asked: tuple[Asked, ...]
    mistakes: tuple[Mistake, ...]
    hints: tuple[str, ...]
    ranges: Mapping[str, tuple[float, float, str]] = field(default_factory=dict)
    narrowed: str = ""
    also: Callable | None = None
    where: Callable | None = None
    verdict: Callable | str = ""

    def mistakes_in(self, system: str) -> tuple[Mistake, ...]:
        """Return the mistakes that can be made in a unit system."""
        return tuple(one for one in self.mistakes if one.only in ("", system))

    def verdict_on(self, values: Any) -> str:
        """Return in words what follows from the values of a chain."""
        return self.verdict(values) if callable(self.verdict) else self.verdict


@dataclass(frozen=True)
class Option:
    """One answer to choose from: its words, the reply to it, and the code of the mistake behind it ("" if none)."""

    words: str
    reply: str
    code: str = ""


@dataclass(frozen=True)
class Case:
    """One form of a question to choose in; the first option is the right one, and all are shuffled on the sheet."""

    text: str
    options: tuple[Option, ...]


@dataclass(frozen=True)
class Choice:
    """A question without a number to work out: each seat gets one of its cases, with the options in its own order.

    `cases` is a tuple, or a function (draws, system) -> tuple for cases that hold readings.
    """

    name: str
    number: int
    objective: str
    difficulty: int
    cases: tuple[Case, ...] | Callable
    hints: tuple[str, ...]
    ranges: Mapping[str, tuple[float, float, str]] = field(default_factory=dict)
