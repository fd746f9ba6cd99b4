"""A logger on a serial port: its whole lines written to a file, as they come, through unplugging and back.

Half a line is never written: what comes before the first line end of a line that had begun before the port was open is
left out, and what a pulled plug cut off too.
"""

import importlib.util
import re
import time
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from turbomath.lab.run.logger import SEPARATORS, TIME
from turbomath.table.errors import RefusedFileError, TurbomathError, short

USUAL_SPEED = 9600  # bits a second: what most loggers are set to (common practice)
QUIET, AGAIN = 0.05, 0.5  # s without a byte before a line begins, and between two tries to open the port
LONGEST = 4_000  # bytes of a line; what is longer is no text at this speed
_ENDS = re.compile(rb"\r\n|\n|\r(?!\Z)")  # a return at the very end may be the first half of the two
_MISSING = (
    "A serial port needs one more package, and it is not there. Install it with: pip install turbomath[serial]. "
    "Or let the logger's own program write a file, and follow that."
)
GONE = "{} is gone. Is the plug in? It is looked for again every moment; nothing that was written is lost."
BACK = "{} is back. Going on."
NO_TEXT = "{} sends no line ends. Is --speed {} the one that the logger is set to?"


class WholeLines:
    """Whole lines out of bytes as they come, without their ends."""

    def __init__(self) -> None:
        self._rest, self._whole = b"", False

    def feed(self, found: bytes) -> list[bytes]:
        """Return the lines that *found* ends; nothing found means that it was quiet, so that a line may begin."""
        if not found:
            self._whole = self._whole or not self._rest
            return []
        *lines, self._rest = _ENDS.split(self._rest + found)
        if lines and not self._whole:
            lines, self._whole = lines[1:], True
        return [line for line in lines if line.strip()]

    @property
    def is_text(self) -> bool:
        """Whether line ends come at all."""
        return len(self._rest) <= LONGEST

    def begin_anew(self) -> None:
        """Forget half a line; the next one may have begun already."""
        self._rest, self._whole = b"", False


def ports() -> list[tuple[str, str]]:
    """Return (name, what it is) of each serial port of this computer.

    Raises
    ------
    TurbomathError
        If the package for it is not installed.
    """
    _refuse_missing()
    from serial.tools import list_ports

    return sorted((one.device, one.description) for one in list_ports.comports())


def log(
    port: str,
    path: Path | str,
    *,
    speed: int = USUAL_SPEED,
    clock: bool = False,
    tell: Callable[[str], object] = print,
) -> None:
    """Write each whole line that a port sends to a file, until Ctrl+C.

    Parameters
    ----------
    port : str
        Its name, such as "COM3" or "/dev/ttyUSB0".
    path : path
        The file to write; never over an existing one.
    speed : int
        Bits a second.
    clock : bool
        Whether this computer's time goes before each line, for a logger that sends none.
    tell : function
        Takes each sentence on what happens.

    Raises
    ------
    RefusedFileError
        If the file is there already.
    TurbomathError
        If the package for serial ports is not installed, or the port is not there at the start.
    """
    _refuse_missing()
    opened, path, count = _opened(port, speed), Path(path), 0
    try:
        stream = path.open("xb")
    except FileExistsError:
        opened.close()
        raise RefusedFileError(
            path, "a file of that name", "none yet", "It was left as it is. Give another name."
        ) from None
    tell(f"{short(port)} is written to {path}, line by line. Stop with Ctrl+C.")
    with stream:
        try:
            for line in _lines(opened, port, speed, tell):
                stream.write((_stamped(line) if clock else line) + b"\n")
                stream.flush()
                count += 1
        finally:
            tell(f"{count:,} lines in {path}, every one whole.")


def _lines(opened: Any, port: str, speed: int, tell: Callable[[str], object]) -> Iterator[bytes]:
    lines = WholeLines()
    while True:
        try:
            found = opened.read(max(1, opened.in_waiting))
        except OSError:
            opened.close()
            tell(GONE.format(short(port)))
            opened = _opened_again(port, speed)
            lines.begin_anew()
            tell(BACK.format(short(port)))
            continue
        yield from lines.feed(found)
        if not lines.is_text:
            lines.begin_anew()
            tell(NO_TEXT.format(short(port), speed))


def _stamped(line: bytes) -> bytes:
    """Return a line with the time before it; one that begins with no number is a head, and gets the word."""
    mark = max((one.encode() for one in SEPARATORS.values()), key=line.count)
    is_row = line.lstrip(b" \"'+-.,")[:1].isdigit()
    first = datetime.now().astimezone().isoformat(timespec="milliseconds") if is_row else TIME
    return first.encode() + mark + line


def _opened(port, speed):
    import serial

    try:
        return serial.Serial(port, speed, timeout=QUIET)
    except (OSError, ValueError):
        known = ", ".join(name for name, _ in ports()) or "none"
        raise TurbomathError(
            f"{short(port)}: found no serial port that opens, expected one of: {known}. Is the plug in, and does no "
            "other program read it?"
        ) from None


def _opened_again(port, speed):
    while True:
        time.sleep(AGAIN)
        try:
            return _opened(port, speed)
        except TurbomathError:
            continue


def _refuse_missing():
    if importlib.util.find_spec("serial") is None:
        raise TurbomathError(_MISSING)
