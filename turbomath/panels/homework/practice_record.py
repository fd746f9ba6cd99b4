"""A record of one's own practice, for those who want one."""

from typing import Any

from turbomath.disk import files
from turbomath.disk.journal import Journal
from turbomath.table.errors import TurbomathError, refused

RECORD = "practice.journal"


class Record:
    """A record of the reader's own practice, kept in the work folder from the moment it is wanted."""

    def __init__(self) -> None:
        self.on, self.note, self.fault = False, "", ""

    def switch(self, on: bool) -> None:
        """Begin to keep a record, or keep no more."""
        self.on, self.fault = bool(on), ""
        self.note = f"What you check from now on is kept in {self._journal().path}." if on else ""

    def keep(self, told: dict[str, Any]) -> None:
        """Put one try on the disk, if that is wanted; where the disk refuses, say so."""
        if not self.on:
            return
        try:
            self._journal().append(told)
        except (OSError, TurbomathError) as trouble:
            self.note, self.fault = "", f"Not kept: {refused(trouble)} Your practice goes on without a record."
        else:
            self.note, self.fault = f"Kept in {self._journal().path}.", ""

    @staticmethod
    def _journal():
        return Journal(files.work_folder().absolute() / RECORD)
