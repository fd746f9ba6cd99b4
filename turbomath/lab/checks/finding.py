"""What one check says of one reading: also that it looked and found nothing, so that the looks can be counted."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from turbomath.lab.checks.bounds import Bound
from turbomath.lab.checks.look import Look


@dataclass(frozen=True)
class Finding:
    """One look at one reading.

    `level` is "" (nothing found), "note", "amber" or "red". `row` is the index of the reading, None for the run.
    `columns` are those that the look leans on, the first the one named; `distance` is how far the result is from
    a typical one (1 = the end of the usual range). `stop` marks what stops an engine, `settled` what needs no
    other explanation.
    """

    check: int
    row: Any  # int; None for the run
    level: str
    columns: tuple[str, ...]
    reason: str = ""
    action: str = ""
    fits_unit: str = ""
    distance: float = 0.0
    stop: bool = False
    settled: bool = False

    @property
    def trouble(self) -> bool:
        """Whether it is amber or red."""
        return self.level in ("amber", "red")

    def but(self, **changes: Any) -> "Finding":
        """Return the same finding with other words or another level."""
        return replace(self, **changes)


def judged(
    look: Look,
    check: int,
    rows: Iterable[int],
    values: ArrayLike,
    widths: ArrayLike,
    bound: Bound,
    columns: Iterable[str],
    found: Callable[..., str],
    action: str,
    *,
    firm: bool = False,
) -> Iterator[Finding]:
    """Yield a `Finding` for each of *rows* that has a value, by a `Bound` widened by the row's own ±.

    The range is told in the unit of the columns. *found* gives the words for a row. *firm* keeps the ± out of red,
    where red stops the engine.
    """
    columns = tuple(columns)
    unit = look.unit(bound.quantity, bound.unit, columns)
    values, widths = np.broadcast_arrays(np.asarray(values, dtype=float), np.nan_to_num(widths))
    for row in rows:
        value = float(values[row])
        if np.isnan(value):
            continue
        level = bound.level(value, float(widths[row]), firm)
        reason = f"{found(row)}; {bound.words(level, unit)}" if level else ""
        yield Finding(
            check,
            int(row),
            level,
            columns,
            reason,
            action if level else "",
            distance=bound.distance(value),
            stop=firm and level == "red",
        )


def spoken(
    check: int, row: int | None, level: str, columns: Iterable[str], reason: str = "", action: str = "", **more: Any
) -> Finding:
    """Return a `Finding` whose words are kept only if it has something to say."""
    return Finding(check, row, level, tuple(columns), reason if level else "", action if level else "", **more)
