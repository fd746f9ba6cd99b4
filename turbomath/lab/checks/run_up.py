"""The run-up record against the maker's limits: idle speed, oil pressure, and each cylinder's drop against the mean.

What bench.toml states no limit for is kept and not judged.
"""

from collections.abc import Iterator

import numpy as np

from turbomath import uncertainty, units
from turbomath.lab.checks.flags import Flag
from turbomath.lab.checks.limits import STOP, limit_words
from turbomath.lab.record.questions import ANSWER, QUESTIONS, Box, Column, Row, boxes
from turbomath.lab.record.record import Record
from turbomath.lab.run.bench import LIMITED_COLUMNS, Bench

CHECK = 46
OF_RECORD = "run-up record, "
CUT_OUT, APART, ALLOWED = "cut_out", "cut_out_apart", Box("cut_out_allowed", "", ANSWER)
_LOOK_AGAIN = "Read it again. If it stays, look at this cylinder; the maker's manual says how."
_NOT_ALLOWED = "run-up record: one cylinder was cut out, and the record says that the maker does not allow it"
_LEAVE_IT = "Leave it, and ask the maker. On common-rail lines it is never done."
_FOUND = "It is kept as found. What was adjusted, and how it was left, stand beside it."


def run_up_flags(record: Record, bench: Bench) -> dict[Box, Flag]:
    """Return {box: its flag} of what in a record passes a limit, in the order of the record."""
    found = {}
    for box, _, row, column in boxes(bench):
        if column.level and box in record.answers:
            passed = [key for key in _stated(row, bench) if _passes(record.answers[box].value, key, row, bench)]
            if passed:
                found[box] = _flag(row, column, record.answers[box].text, passed[0], bench)
    if record.of(CUT_OUT) and ALLOWED in record.answers and record.answers[ALLOWED].value is not True:
        found[ALLOWED] = Flag("amber", "", QUESTIONS[CUT_OUT].columns[0].quantity, CHECK, _NOT_ALLOWED, _LEAVE_IT)
    return found | dict(_odd_cylinders(record, bench))


def judged_limits(record: Record, bench: Bench) -> frozenset[str]:
    """Return the keys of the limits that an answer of a record was judged by."""
    return frozenset(
        key
        for box, _, row, column in boxes(bench)
        if column.level == "limit" and box in record.answers
        for key in _stated(row, bench)
    )


def drops(record: Record) -> dict[str, float]:
    """Return {cylinder: how far its drop is from the mean of all [1/s]}; none where fewer than two were read."""
    read = {box.row: float(found.value) for box, found in record.of(CUT_OUT).items()}
    mean = np.mean(list(read.values())) if len(read) > 1 else np.nan
    return {row: drop - float(mean) for row, drop in read.items() if np.isfinite(mean)}


def _stated(row: Row, bench: Bench) -> list[str]:
    return [key for key in row.limits if key in bench.limits]


def _passes(value: float, key: str, row: Row, bench: Bench) -> bool:
    low, high = bench.limits[key]
    return value < low or (value > high and not row.lowest_only)


def _flag(row: Row, column: Column, text: str, key: str, bench: Bench) -> Flag:
    reason = f"{OF_RECORD}{row.words}: {column.words} {text} passes the limit {limit_words(bench, key)}"
    return Flag(column.level, "", LIMITED_COLUMNS[key], CHECK, reason, STOP if column.level == "limit" else _FOUND)


def _odd_cylinders(record: Record, bench: Bench) -> Iterator[tuple[Box, Flag]]:
    """Yield a flag for each cylinder whose drop is further from the mean than the maker lets it be."""
    most, column = record.number(APART), QUESTIONS[CUT_OUT].columns[0]
    if most is None:
        return
    step = float(uncertainty.resolution_step(bench.instrument(column.quantity), 0.0))
    for row, apart in drops(record).items():
        if abs(apart) > most + step:
            unit = column.unit(bench.run.units)
            off, told, coarse = (f"{units.from_si(one, unit, column.quantity):.0f}" for one in (abs(apart), most, step))
            reason = (
                f"{OF_RECORD}cylinder {row} cut out: the speed drops {off} {unit} {'more' if apart > 0 else 'less'}"
                f" than the mean of all; the maker allows {told} {unit}, and the gauge is read to {coarse} {unit}"
            )
            yield Box(CUT_OUT, row, column.key), Flag("amber", "", column.quantity, CHECK, reason, _LOOK_AGAIN)
