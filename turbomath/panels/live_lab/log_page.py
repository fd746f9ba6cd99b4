"""A logger's file followed in the live lab: its last row on the screen, its steady stretches offered to be taken."""

import os
from typing import Any

from turbomath.disk.files import work_folder
from turbomath.lab.entry.live_log import LiveLog, Offer, beside
from turbomath.table.errors import TurbomathError, refused, short
from turbomath.table.quantities import QUANTITIES
from turbomath.widgets.asking import sentence

TELLING = ("engine_speed", "load", "boost", "manifold_temperature")  # which point it is
NO_FILE = "type the path of the logger's file, such as C:/logs/today.csv."
WAITING = "{} is followed. No row has come yet."
ROWS = "{} is followed: {:,} rows. Now {}."
NOTHING = "No steady stretch yet: hold the load until the temperatures rest, at least two minutes."


class LogPage:
    """The file that a desk follows, `followed`, if any. What goes wrong is said, and following goes on."""

    def __init__(self, desk: Any) -> None:
        self.followed: LiveLog | None = None
        self._desk, self.fault, self._typed = desk, "", ""
        self.heard = {"follow file": self.follow, "look at file": self.look, "take": self.take}

    def follow(self, path: str) -> None:
        """Follow the file of that path from its start; an empty one is followed no more."""
        self._typed, self.followed, self.fault = path, None, ""
        name = path.strip().strip("\"'")
        if name and not name.isprintable():
            self.fault = sentence(NO_FILE)
        elif name and self._desk.entries:
            self.followed = LiveLog(work_folder().absolute() / os.path.expanduser(name), self._desk.entries.bench)
            self.look()

    def look(self) -> None:
        """Take up what has come."""
        if self.followed:
            self.fault = ""
            try:
                self.followed.look()
            except (OSError, TurbomathError) as trouble:
                self.fault = sentence(refused(trouble))

    def take(self, number: int, point: str = "") -> None:
        """Enter a stretch as the next point or beside another, and work everything out anew."""
        if self.followed and self._desk.entries:
            self._desk.said = self.followed.take(number, self._desk.entries, self._desk.reader, point).sentence
            self._desk.work_out()

    def line(self, *only: str) -> str:
        """Return what is followed and its last row, in a sentence, of some columns or all; "" where nothing is."""
        log = self.followed
        if log is None:
            return ""
        name = f"{short(log.path.name)}{' (INVENTED)' if log.invented else ''}"
        if not log.rows:
            return WAITING.format(name)
        last = (one for one in log.last if not only or one[0] in only)
        now = ", ".join(f"{QUANTITIES[column].plain_name} {text} {unit}" for column, text, unit in last)
        return " ".join(part for part in (ROWS.format(name, log.rows, now), log.said) if part)

    def frame(self) -> dict[str, Any]:
        """Return what is shown: the file, its last row, and each stretch that may be taken, in words."""
        log = self.followed
        offers = log.offers() if log else ()
        return {
            "typed": self._typed,
            "on": self.followed is not None,
            "fault": self.fault,
            "line": self.line(),
            "nothing": NOTHING if self.followed and not offers else "",
            "beside": beside(self._desk.entries) if offers and self._desk.entries else [],
            "offers": [[one.number, self._words(one, log)] for one in offers] if log else [],
        }

    def _words(self, offer: Offer, log: LiveLog) -> str:
        units = {name: unit for name, _, unit in log.last}
        told = [one for one in TELLING if one in offer.means]
        means = (f"{QUANTITIES[one].plain_name} {offer.means[one]:.4g} {units.get(one, '')}" for one in told)
        taken = f" (taken as point {log.taken[offer.first]})" if offer.first in log.taken else ""
        return f"{offer.first} to {offer.last}: {', '.join(means)}{taken}"
