"""A file that another program is still writing: its new whole lines, as they come; half a line waits for its end."""

import os
from dataclasses import dataclass
from pathlib import Path

MOST_AT_ONCE = 4_000_000  # bytes of one look; the rest comes with the next
HEAD = 256  # bytes by which another file of the same name and size is told


@dataclass(frozen=True)
class News:
    """What one look found: whole lines (bytes, without their ends), and whether the file began anew before them."""

    lines: tuple[bytes, ...] = ()
    begun_anew: bool = False


class Growing:
    """The whole lines of a growing file, each given once.

    The file may not be there yet, may be cut short, or be another one under its name: then it is read from its start,
    and `News.begun_anew` says so. It is opened for each look and closed again, so that its writer may rename it.

    Parameters
    ----------
    path : path
        The file.
    """

    def __init__(self, path: Path | str) -> None:
        self.path = Path(path)
        self._at, self._head, self._file, self._seen = 0, b"", None, False

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
        about = os.fstat(stream.fileno())
        anew = self._is_another(stream, (about.st_dev, about.st_ino), about.st_size)
        stream.seek(self._at)
        found = stream.read(MOST_AT_ONCE)
        whole = found.rfind(b"\n") + 1
        if not whole and len(found) == MOST_AT_ONCE:
            raise OSError(f"{self.path.name}: no line ends within {MOST_AT_ONCE:,} bytes.")
        self._at += whole
        if len(self._head) < HEAD:
            stream.seek(0)
            self._head = stream.read(min(HEAD, self._at))
        lines = tuple(line.removesuffix(b"\r") for line in found[:whole].split(b"\n")[:-1])
        return News(lines, anew)

    def _is_another(self, stream, file, size):
        """Return whether what was read is no longer the start of this file; then begin with it anew."""
        another = self._seen and (file != self._file or size < self._at or stream.read(len(self._head)) != self._head)
        self._file, self._seen = file, True
        if another:
            self._at, self._head = 0, b""
        return another
