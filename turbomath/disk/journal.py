"""A journal: records added at the end of a file, each on the disk before the writer goes on, none ever changed."""

import errno
import json
import os
import stat
import zlib
from contextlib import suppress
from pathlib import Path
from typing import Any

from turbomath.disk.files import keep_names
from turbomath.table.errors import RefusedFileError

fcntl: Any = None
msvcrt: Any = None
if os.name == "nt":
    import msvcrt
else:
    import fcntl

_OPEN = os.O_RDWR | os.O_CREAT | os.O_APPEND
_SAFE = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
_FAR = 0x7FFF_FFF0  # the byte that is locked on Windows, where no journal ends: what is locked there cannot be read
_SUM = 8  # hexadecimal figures of CRC-32 before each record


class Journal:
    """Records in one file: a line each, with a checksum, so that half a line is known for what it is.

    Parameters
    ----------
    path : str or Path
        The file. It and its folder are made by the first `append`.
    """

    def __init__(self, path: Path | str) -> None:
        self.path = Path(path)

    def append(self, record: dict, *, sure: bool = True) -> None:
        """Put *record*, a dict of what JSON can hold, on the disk; when this returns, it is there to stay.

        One that need not be *sure* is handed to the system, which survives the end of this program, not a power cut.

        Raises
        ------
        OSError
            If the disk refuses; what was in the journal before is as it was.
        RefusedFileError
            If the path is no ordinary file.
        TypeError, ValueError
            If JSON cannot hold the record; nothing is written then.
        """
        line = _line(record)
        self.path.parent.mkdir(parents=True, exist_ok=True)
        is_new = not self.path.exists()
        handle = os.open(self.path, _OPEN | _SAFE, 0o600)
        try:
            self._refuse_strange(handle)
            alone = _lock(handle)
            _write(handle, line, alone)
            if sure:
                os.fsync(handle)
        finally:
            _let_go(handle)
            os.close(handle)
        if is_new:
            keep_names(self.path.parent)

    def read(self) -> tuple[list[dict], str]:
        """Return (records, note): every whole record in order, and a sentence on what is not whole, or "".

        Raises
        ------
        OSError
            If the file is there and cannot be read.
        RefusedFileError
            If the path is no ordinary file.
        """
        try:
            handle = os.open(self.path, os.O_RDONLY | _SAFE)
        except FileNotFoundError:
            return [], ""
        with os.fdopen(handle, "rb") as stream:
            self._refuse_strange(handle)
            lines = stream.read().split(b"\n")
        found = [_record(line) for line in lines]
        torn = [row for row, (line, record) in enumerate(zip(lines, found, strict=True), 1) if line and record is None]
        return [record for record in found if record is not None], self._note(torn)

    def _refuse_strange(self, handle):
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise RefusedFileError(self.path, "a folder or a device", "an ordinary file", "Move it out of the way.")

    def _note(self, torn):
        if not torn:
            return ""
        rows = ", ".join(map(str, torn[:5])) + (" and more" if len(torn) > 5 else "")
        which = f"lines {rows} are" if len(torn) > 1 else f"line {rows} is"
        return f"{self.path.name}: {which} not whole, as after a power cut, and left out. All other lines are whole."


def _line(record):
    """Return a record as its line: checksum, a space, JSON in ASCII, which holds no line end of its own."""
    if not isinstance(record, dict):
        raise TypeError(f"a record is a dict; found {type(record).__name__}.")
    text = json.dumps(record, allow_nan=False, separators=(",", ":")).encode()
    return b"%0*x %s\n" % (_SUM, zlib.crc32(text), text)


def _record(line):
    """Return the record of a line, or None where the line is not whole."""
    head, text = line[: _SUM + 1], line[_SUM + 1 :]
    if head != b"%0*x " % (_SUM, zlib.crc32(text)):
        return None
    try:
        record = json.loads(text)
    except (ValueError, RecursionError):
        return None
    return record if isinstance(record, dict) else None


def _write(handle, line, alone):
    """Write a line whole at the end, on a line of its own; what fails half way is cut off again."""
    end = os.lseek(handle, 0, os.SEEK_END)
    if end:
        os.lseek(handle, end - 1, os.SEEK_SET)
        line = line if os.read(handle, 1) == b"\n" else b"\n" + line  # after half a line that a crash left
    if os.write(handle, line) == len(line):
        return
    if alone:  # another writer's line may stand behind it otherwise
        with suppress(OSError):
            os.ftruncate(handle, end)
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def _lock(handle):
    """Wait until no other writer is at it; return whether that is sure, since some shared folders know no locks."""
    try:
        if fcntl:
            fcntl.flock(handle, fcntl.LOCK_EX)
        elif msvcrt:
            _wait_for_far_byte(handle)
    except OSError:
        return False
    return bool(fcntl or msvcrt)


def _wait_for_far_byte(handle):
    while True:
        os.lseek(handle, _FAR, os.SEEK_SET)
        try:
            return msvcrt.locking(handle, msvcrt.LK_LOCK, 1)
        except OSError as trouble:
            if trouble.errno != errno.EDEADLK:  # it gives up after ten seconds: wait again
                raise


def _let_go(handle):
    """Let the lock go; closing the file does so as well, on Windows not at once."""
    if msvcrt and not fcntl:
        with suppress(OSError):
            os.lseek(handle, _FAR, os.SEEK_SET)
            msvcrt.locking(handle, msvcrt.LK_UNLCK, 1)
