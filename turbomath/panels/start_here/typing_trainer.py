"""How to type a reading: what the kit makes of it, or the plain sentence with which it refuses."""

import re
from dataclasses import dataclass

from turbomath import units
from turbomath.table.errors import OutOfRangeError
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES, possible
from turbomath.units.spellings import LONGEST
from turbomath.widgets.asking import Question
from turbomath.widgets.panel import Ticket

AT_STOP = ">"
_NUMBER_FIRST = re.compile(r"\s*([-+−–]?\s*[\d.,](?:[\d.,\s]*[\d.,])?(?:[eE][-+−]?\d{1,2})?)\s*(.*?)\s*", re.DOTALL)


@dataclass(frozen=True)
class Typed(Question):
    """A box for one reading of `quantity`, number and unit as the shop writes them."""

    quantity: str = ""
    stays: bool = True

    def said(self, text: str) -> str:
        """Return the text as it was typed, or refuse what is no reading of the quantity."""
        reading(text, self.quantity)
        return text.strip()

    def reply(self, said: str) -> str:
        """Return how the kit reads an accepted text, in the units of the shop."""
        return told(said, self.quantity) if said else ""


def reading(text: str, quantity: str) -> float:
    """Return the SI value of one reading typed with its unit.

    Raises
    ------
    OutOfRangeError, UnitError
        With a plain sentence: what was found, what was expected, what to do.
    """
    if len(text) > LONGEST:
        raise OutOfRangeError(f"that is {len(text)} characters, expected one reading such as {_example(quantity)}.")
    found = _NUMBER_FIRST.fullmatch(text.strip().removeprefix(AT_STOP))
    if not found:
        raise OutOfRangeError(
            f"found {text.strip()!r}, expected a number, then its unit, such as {_example(quantity)}."
        )
    number, unit = units.number(found[1]), found[2]
    if not unit:
        raise OutOfRangeError(
            f"found {text.strip()!r} without a unit. Write it with its unit, such as "
            f"{_example(quantity)}: the kit never guesses one."
        )
    value = float(units.to_si(number, unit, quantity))
    try:
        possible(quantity, value)
    except OutOfRangeError:
        row = QUANTITIES[quantity]
        raise OutOfRangeError(f"{text.strip()} cannot be: {row.plain_name} must be {KINDS[row.kind].needed}.") from None
    return value


def told(text: str, quantity: str) -> str:
    """Return the sentence that says how the kit reads an accepted text."""
    value, row = reading(text, quantity), QUANTITIES[quantity]
    shown = dict.fromkeys(_words(value, one, quantity) for one in (row.us, row.si))
    low, high = row.sensible
    odd = "" if low <= value <= high else " That is rare: check the number and the unit."
    stop = " at least" if said_at_stop(text) else ""
    return f"Read as {row.plain_name}{stop} {' = '.join(shown)}.{odd}"


def said_at_stop(text: str) -> bool:
    """Return whether a text says that the pointer stood at its stop."""
    return text.strip().startswith(AT_STOP)


def trainer() -> Ticket:
    """Return the boxes to try."""
    return Ticket(BOXES, title="Type it as you write it on the sheet")


def _words(value, unit, quantity):
    return f"{units.from_si(value, unit, quantity):.5g} {unit}".replace("-", "−")


def _example(quantity):
    return f"“{_EXAMPLES[quantity]}”"


_EXAMPLES = {
    "boost": "24.5 psi",
    "ambient_temperature": "77 °F",
    "intake_restriction": "12 inH2O",
    "barometer": "29.10 inHg",
}
BOXES = tuple(
    Typed(text, entry=f"{QUANTITIES[quantity].plain_name}, as you would write it", quantity=quantity)
    for quantity, text in (
        ("boost", "The boost gauge. Try: 24,5 psi and 1.7 bar. Then try: >60 psi, 24.5 and 24.5 pis."),
        ("ambient_temperature", "The thermometer beside the engine. Try: 77 F and 25 °C. Then try: 77 degrees."),
        ("intake_restriction", "The restriction gauge. Try: 12 in H2O and 3 kPa. Then try: 12 F."),
        ("barometer", "The barometer in the shop. Try: 29.10 inHg and 985 hPa. Then try: 1,013 hPa."),
    )
)
