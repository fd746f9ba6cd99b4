"""The live lab on a wall: the results of a run while its readings are typed in another window. It only looks."""

from pathlib import Path
from typing import Any

from turbomath.panels.live_lab.log_page import TELLING
from turbomath.panels.live_lab.shown import shown, stops

NOTHING = "No run is open. Begin one at the desk; it is looked for again every moment."
CLOCK = slice(11, 19)  # hours, minutes and seconds of when an entry was made
EMPTY = "Nothing was entered yet."


class Wall:
    """What hangs on the wall: whether it does, how the journal stood when it was last looked at, and what is drawn."""

    def __init__(self, *, on: bool = False) -> None:
        self.on = on
        self._mark: tuple[Any, ...] = ()
        self._drawn: tuple[Any, ...] = (None, [], None)  # of which readings the two behind it were made

    def is_news(self, journal: Path) -> bool:
        """Return whether the journal is another than at the last look."""
        try:
            told = journal.stat()
            mark: tuple[Any, ...] = (journal, told.st_size, told.st_mtime_ns)
        except OSError:
            mark = (journal,)
        before, self._mark = self._mark, mark
        return mark != before

    def frame(self, desk: Any, system: str) -> dict[str, Any]:
        """Return what is shown now: nothing to set, and who is followed since when."""
        found, first, drawing = self._of(desk.readings, system)
        line = f"{_line(desk.entries)} {desk.log.line(*TELLING)}".strip()
        return {
            "asked": [desk.asked.frame(system)],
            "steps": [],
            "error": None,
            "wall": {"line": line, "stops": first, "fault": desk.fault},
            "faults": desk.faults.frame() if desk.asked.open else None,
            "shown": drawing if found and desk.asked.open else None,
        }

    def _of(self, readings, system):
        if self._drawn[0] is not readings:
            new = (stops(readings.notes()), shown(readings, system, wall=True)) if readings else ([], None)
            self._drawn = readings, *new
        return self._drawn


def _line(own):
    """Say what is followed, how much there is of it, and when it was last heard."""
    if own is None:
        return NOTHING
    invented = " (INVENTED)" if own.bench.run.invented else ""
    heard = [one.when for one in own.entries]
    count = sum(bool(text.strip()) for text in own.texts.values())
    last = f"{count} reading{'' if count == 1 else 's'}, last heard at {max(heard)[CLOCK]}." if heard else EMPTY
    return f"Following {own.folder.name}{invented}: {last}"
