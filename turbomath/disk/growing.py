"""A file that another program is still writing: its new whole lines, as they come; half a line waits for its end."""

import os
from dataclasses import dataclass
from pathlib import Path

MOST_AT_ONCE = 4_000_000  # bytes of one look; the rest comes with the next
HEAD = 256  # bytes by which another file of the same name and size is told


@dataclass(frozen=True)
class News:
    """What one look found: whole lines (bytes, without their ends), and whether the file began anew before them.

    `moved` says that the file before was only given another name, and that all its whole lines were read.
    """

    lines: tuple[bytes, ...] = ()
    begun_anew: bool = False
    moved: bool = False


class Growing:
    """The whole lines of a growing file, each given once.

    The file may not be there yet, may be cut short, or be another one under its name: then it is read from its start,
    and `News.begun_anew` says so. It is opened for each look and closed again, so that its writer may rename it; what
    was written until then is read first, wherever in the folder the file now is.

    Parameters
    ----------
    path : path
        The file.
    """

    def __init__(self, path: Path | str) -> None:
        self.path = Path(path)
        self._at, self._head, self._file = 0, b"", None

    def look(self) -> News:
        """Return what is new since the last look; nothing where the file is not there, or another holds it shut.

        Raises
        ------
        OSError
            If it is there and cannot be read for another reason, such as a folder of that name.
        """
        try:
            with self.path.open("rb") as stream:
                return self._news(stream)
        except (FileNotFoundError, PermissionError):  # between two files, or locked by its writer as on Windows
            return News()

    def _news(self, stream):
        file, before = _identity(os.fstat(stream.fileno())), self._file
        if before is None or (file == before and self._goes_on(stream)):
            self._file = file
            return News(self._whole_lines(stream))
        moved = self._moved(before)
        if moved:
            with moved.open("rb") as rest:
                lines = self._whole_lines(rest)
            if lines:
                return News(lines)  # the new file's turn comes with the next look
        self._file, self._at, self._head = file, 0, b""
        return News(self._whole_lines(stream), begun_anew=True, moved=moved is not None)

    def _whole_lines(self, stream):
        stream.seek(self._at)
        found = stream.read(MOST_AT_ONCE)
        whole = found.rfind(b"\n") + 1
        if not whole and len(found) == MOST_AT_ONCE:
            raise OSError(f"{self.path.name}: no line ends within {MOST_AT_ONCE:,} bytes.")
        self._at += whole
        if len(self._head) < HEAD:
            stream.seek(0)
            self._head = stream.read(min(HEAD, self._at))
        return tuple(line.removesuffix(b"\r") for line in found[:whole].split(b"\n")[:-1])

    def _goes_on(self, stream):
        """Return whether what was read is still the start of this file."""
        return os.fstat(stream.fileno()).st_size >= self._at and stream.read(len(self._head)) == self._head

    def _moved(self, file):
        """Return the path in this folder that the file which was read has now, if it has one."""
        for one in self.path.parent.iterdir():
            try:
                if one != self.path and one.is_file() and _identity(one.stat()) == file:
                    with one.open("rb") as stream:
                        return one if self._goes_on(stream) else None
            except OSError:  # gone in between, or shut
                continue
        return None


def _identity(about: os.stat_result) -> tuple[int, int]:
    return about.st_dev, about.st_ino
