"""The next steps of a slider, worked out while nobody waits, so that the next press of a key is answered at once."""

import asyncio
import math
from collections.abc import Callable, Iterator
from typing import Any

PAUSE = 0.01  # seconds after a picture: who drags a slider or holds a key down is answered first


class Ahead:
    """Works out, after one step of a slider, what a desk would show one step to either side of it.

    Parameters
    ----------
    desk : Desk
        It is asked what it would show, and stays as it is.
    tell : function of one dict
        Takes each case that was worked out, with the turn of the frame that it follows.
    """

    def __init__(self, desk: Any, tell: Callable[[dict[str, Any]], None]) -> None:
        self._desk, self._tell = desk, tell
        self._waiting: asyncio.TimerHandle | None = None

    def stop(self) -> None:
        """Leave what is not worked out yet: the reader has done something."""
        if self._waiting:
            self._waiting.cancel()
            self._waiting = None

    def heading(self, name: str, text: str) -> int:
        """Return 1 or -1 where a slider would go one step up or down, as by a key; 0 for farther, as by a hand."""
        try:
            place = float(text)
        except ValueError:
            return 0
        near = self._desk.beside(name).items()
        return next((way for way, one in near if math.isclose(place, float(one), rel_tol=1e-9)), 0)

    def start(self, name: str, heading: int, turn: str) -> None:
        """Begin, the same way first, once Python has nothing else to do; where it runs no loop nobody waits for it."""
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            return
        near = sorted(self._desk.beside(name).items(), reverse=heading > 0)
        self._next(loop, turn, iter([(name, text) for _, text in near]))

    def _next(self, loop: asyncio.AbstractEventLoop, turn: str, left: Iterator[tuple[str, str]]) -> None:
        def work() -> None:
            if place := next(left, None):
                if seen := self._desk.foreseen(*place):
                    self._tell({"turn": turn, **seen})
                self._next(loop, turn, left)

        self._waiting = loop.call_later(PAUSE, work)
