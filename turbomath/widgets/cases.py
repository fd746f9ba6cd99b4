"""What a panel works out for a case, kept for the last few, and many cases at once for who asks for all of them."""

from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import Any

import numpy as np

from turbomath.table.errors import TurbomathError
from turbomath.table.kinds_of_value import Values

KEPT = 16


def in_columns(cases: Sequence[Sequence[float]]) -> list[Values]:
    """Return the numbers of each place over all cases; those of one case single, as is quickest."""
    return list(cases[0]) if len(cases) == 1 else list(np.array(cases, dtype=float).T)


def alike(work: Callable[[Any, Sequence[Any]], Sequence[Any]]) -> Callable[[Sequence[Any]], list[Any]]:
    """Return the work of cases that begin with what cannot stand in an array, such as a choice.

    *work* is asked for each such beginning, with the rest of every case that begins so.
    """

    def worked(cases: Sequence[Any]) -> list[Any]:
        found: dict[Any, Any] = {}
        for first in dict.fromkeys(case[0] for case in cases):
            same = [case for case in cases if case[0] == first]
            found |= zip(same, work(first, [case[1:] for case in same]), strict=True)
        return [found[case] for case in cases]

    return worked


class Cases:
    """What follows from a record of controls, asked for one by one, or together before.

    Parameters
    ----------
    case : function of a record of controls
        It returns all that the answer follows from, as something that compares, or refuses what cannot be.
    work : function of a list of such cases
        It returns what each comes to, or the error that refuses it. Where it refuses a list, each is asked alone.
    """

    def __init__(self, case: Callable[[Any], Hashable], work: Callable[[Sequence[Any]], Sequence[Any]]) -> None:
        self._case, self._work, self._room = case, work, KEPT
        self._known: dict[Hashable, Any] = {}

    def __call__(self, controls: Any) -> Any:
        """Return what a record of controls comes to, or raise what refuses it."""
        case = self._case(controls)
        self._keep([case])
        found = self._known[case]
        if isinstance(found, TurbomathError):
            raise found.with_traceback(None)
        return found

    def together(self, rows: Iterable[Any]) -> None:
        """Work out many records of controls at once, which are then asked for; what cannot be waits until it is."""
        cases = []
        for controls in rows:
            try:
                cases.append(self._case(controls))
            except TurbomathError:
                continue
        self._room = max(self._room, KEPT + len(cases))
        self._keep(cases)

    def _keep(self, cases):
        """See that cases are known, and last forgotten."""
        again = {one: self._known.pop(one) for one in dict.fromkeys(cases) if one in self._known}
        new = [one for one in dict.fromkeys(cases) if one not in again]
        self._known |= again | dict(zip(new, self._worked(new), strict=True))
        for one in list(self._known)[: max(0, len(self._known) - self._room)]:
            del self._known[one]

    def _worked(self, cases):
        try:
            return self._work(cases) if cases else []
        except TurbomathError as refusal:
            return [refusal] if len(cases) == 1 else [found for one in cases for found in self._worked([one])]
