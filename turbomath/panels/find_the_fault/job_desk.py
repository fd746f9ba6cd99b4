"""Lesson 09: a desk with a bill. Nothing is paid for before a guess and a reason."""

from typing import Any

from turbomath.panels.find_the_fault.told import ANSWER, BECAUSE, MINUTES, PRICES, SUSPECTS, WORDS
from turbomath.widgets.answers import Answer
from turbomath.widgets.controls import record_type
from turbomath.widgets.desk import Desk, Sheet

ASKED = ("buy", "guess", "because")
ALOUD = "aloud"


class JobDesk(Desk):
    """The desk of a job: `bought` holds (what was paid for, the guess before it, its reason), in their order."""

    remembers = True  # what was paid for

    def __init__(self, sheet: Sheet) -> None:
        super().__init__(sheet)
        self._record = record_type(*(one.name for one in sheet.controls), "bought", "held")

    def reset(self) -> None:
        """Begin the job again with an empty bill."""
        super().reset()
        self.bought: tuple[tuple[str, str, str], ...] = ()

    @property
    def named(self) -> bool:
        """Whether the answer is open."""
        return any(item == ANSWER for item, *_ in self.bought)

    def pick(self, name: str, key: str) -> None:
        """Pick one option; what was to be bought is paid for as soon as guess and reason stand beside it.

        Before a class the reason is said aloud: the wall has room for two lists.
        """
        super().pick(name, key)
        if self.wall and self.values["buy"] and self.values["guess"]:
            self.values["because"] = self.values["because"] or ALOUD
        line = tuple(self.values[one] for one in ASKED)
        if all(line) and not self.named:
            if line[0] not in [item for item, *_ in self.bought]:
                self.bought += (line,)
            self.values |= dict.fromkeys(ASKED, "")

    def record(self) -> Any:
        """Return the controls and the bill as one frozen record."""
        return self._record(**self.values, bought=self.bought, held=frozenset())

    def printed(self, system: str, case: str = "") -> Answer:
        """Return what paper shows: what would be paid for next, or else every reading, and the answer."""
        items = [self.values["buy"]] if self.values["buy"] else [*PRICES, ANSWER]
        record = self.record()._replace(bought=tuple((one, "", "") for one in items), **dict.fromkeys(ASKED, ""))
        return self.sheet.answer(record, system)

    def state(self) -> dict[str, Any]:
        """Return what is worth keeping, with the bill."""
        return {**super().state(), "bought": [list(one) for one in self.bought]}

    def take_up(self, state: dict[str, Any]) -> None:
        """Take up what was kept, as far as there are still such tests and suspects."""
        super().take_up(state)
        kept = state.get("bought")
        known = MINUTES, SUSPECTS, BECAUSE
        for one in kept if isinstance(kept, list) else ():
            if isinstance(one, list) and len(one) == len(known) and all(map(_is_in, one, known)):
                self.bought += (tuple(one),)

    def frame(self) -> dict[str, Any]:
        """Return all that is shown now; which guess was right stays behind until the answer is open."""
        frame = super().frame()
        if not self.named:
            frame["asked"] = [{**one, "right": []} for one in frame["asked"]]
        return frame

    def _line(self, control):
        """Return a list; what is paid for is no longer on it."""
        line = super()._line(control)
        if control.name == "buy":
            paid = {item for item, *_ in self.bought}
            left = [one for one in line["options"] if one[0] not in paid]
            line["options"] = [["", WORDS["opened"]]] if self.named else left
        return line


def _is_in(text, table):
    return isinstance(text, str) and text in table
