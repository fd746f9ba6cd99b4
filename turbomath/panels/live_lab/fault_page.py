"""What faults would show the readings of the live lab: worked out when it is asked for, behind a guess of one's own."""

import os
from pathlib import Path
from typing import Any

from turbomath.disk.files import work_folder
from turbomath.lab.faults import held_against, told
from turbomath.lab.report import faults_shown
from turbomath.lab.run.readings import read_run
from turbomath.table.errors import TurbomathError, refused, short
from turbomath.widgets.asking import sentence

LONGEST = 200
GUESS_FIRST = "Write your own guess first, and what speaks for it. Any guess is welcome."
NOT_YET = "It cannot say yet. "
NO_NUMBER = "found no number so far, expected readings at two loads or more."
ITSELF = "found this very run to hold it against, expected an earlier run or another engine's. Choose another, or none."
CHANGED = "Readings have changed since you asked. Look again when you have the next point."
INVENTED = " INVENTED: no engine was measured."
SAID = "You guessed: {}"
ALOUD = "said aloud"


class FaultPage:
    """The fault finder beside a desk: a guess, what the run is held against, and the answer to the readings as asked.

    Readings that change take the answer away; nothing is worked out while they are typed.
    """

    _section: dict[str, Any] | None
    _asked: Any

    def __init__(self, desk: Any) -> None:
        self._desk, self._beside, self._own = desk, "", True
        self.forget()
        self.heard = {"look for faults": self.look, "faults on the wall": self.look_aloud}

    def forget(self) -> None:
        """Take guess and answer back, as another run is open."""
        self._guess, self._fault, self._section, self._asked = "", "", None, None

    def look(self, guess: str, beside: str = "", *, own: bool = True) -> None:
        """Say what would show the readings, held against a run folder, the engine's *own* or another of its type."""
        self.forget()
        self._guess, self._beside, self._own = guess.strip()[:LONGEST], beside.strip(), own
        if not self._guess:
            self._fault = GUESS_FIRST
            return
        try:
            found = held_against.found_in(self._run(), self._earlier(), own=own)
        except (OSError, TurbomathError) as trouble:
            self._fault = f"{NOT_YET}{sentence(refused(trouble))}"
        else:
            invented = INVENTED if found.run.bench.run.invented else ""
            head = f"{told.head(found)}{invented}"
            self._section, self._asked = {**(faults_shown.section(found) or {}), "head": head}, self._readings()

    def look_aloud(self) -> None:
        """Say it before a class that has guessed aloud, held against what was chosen before."""
        guess = self._guess
        self.look(guess or ALOUD, self._beside, own=self._own)
        self._guess = guess

    def state(self) -> dict[str, Any]:
        """Return what is worth keeping: the guess, and what the run is held against."""
        return {"guess": self._guess, "beside": self._beside, "own": self._own}

    def take_up(self, state: Any) -> None:
        """Take up what was kept; the answer is asked for anew."""
        state = state if isinstance(state, dict) else {}
        self._guess, self._beside = (str(state.get(name, ""))[:LONGEST] for name in ("guess", "beside"))
        self._own = bool(state.get("own", True))

    def frame(self) -> dict[str, Any]:
        """Return what is shown: the form as it was filled in, and the answer as long as the readings are the same."""
        changed = self._section is not None and self._asked != self._readings()
        answered = self._section is not None and not changed
        return {
            **self.state(),
            "fault": CHANGED if changed else self._fault,
            "said": SAID.format(self._guess) if answered else "",
            "answer": self._section if answered else None,
        }

    def _readings(self):
        """Return all that the answer rests on."""
        return self._desk.entries and (self._desk.entries.folder, self._desk.entries.entries)

    def _run(self):
        if self._desk.results is None:
            raise TurbomathError(NO_NUMBER)
        return self._desk.results.run

    def _earlier(self):
        """Return the run that was named, in the work folder or a shipped one; `None` where none was."""
        name = self._beside.strip("\"'")
        if not name:
            return None
        if not name.isprintable():
            raise TurbomathError(f"found {short(name)!r}, expected the folder of an earlier run.")
        own = work_folder().absolute() / Path(os.path.expanduser(name))
        if own.resolve() == self._desk.entries.folder.resolve():
            raise TurbomathError(ITSELF)
        return read_run(own if own.is_dir() else name)
