"""What a report shows of the run-up record: what was answered, what was left open, and nothing where there is none."""

from dataclasses import dataclass
from pathlib import Path

from turbomath import units
from turbomath.lab.checks.run_up import CUT_OUT, drops
from turbomath.lab.record.questions import LEAD, PARTS, UNSTATED, Box, Part, Question
from turbomath.lab.record.record import Record, read_record
from turbomath.lab.run.bench import Bench
from turbomath.lab.run.readings import Run
from turbomath.paper.parts import Head, Table
from turbomath.units.rounding import NO_VALUE, fixed

FROM_THE_MEAN = "from the mean"


@dataclass(frozen=True)
class RecordShown:
    """What the record is, its tables, and which questions nobody answered."""

    lead: str
    tables: tuple[Table, ...]
    left_open: str
    unstated: str


def record_shown(run: Run) -> RecordShown | None:
    """Return what is shown of the record of a run, or None where there is none."""
    record = read_record(Path(run.folder), run.bench)
    if not record.answers:
        return None
    answered = {box.question for box in record.answers}
    asked = [one for part in PARTS for one in part.questions]
    left = [one.words for one in asked if one.key not in answered]
    told = f"Left open, {len(left)} of {len(asked)} questions: {'; '.join(left)}." if left else ""
    tables = [table for part in PARTS for table in _tables(part, record, run.bench)]
    return RecordShown(LEAD, tuple(tables), told, UNSTATED)


def _tables(part: Part, record: Record, bench: Bench) -> list[Table]:
    """The answers of a part: those of one box together, then each table."""
    plain = [(one.words, _text(record, Box(one.key, "", one.columns[0].key))) for one in part.questions]
    told = tuple(row for row in plain if row[1] != NO_VALUE)
    first = [Table(part.words, (Head("asked"), Head("answer")), told, style="free")] if told else []
    return first + [_table(one, record, bench) for one in part.questions if one.is_table and record.of(one.key)]


def _table(question: Question, record: Record, bench: Bench) -> Table:
    answered = dict.fromkeys(box.row for box in record.of(question.key))
    words = {row.key: row.words for row in question.rows(bench)}
    rows = [
        (words.get(key, key), *(_text(record, Box(question.key, key, one.key)) for one in question.columns))
        for key in answered
    ]
    heads = [Head(""), *(Head(one.words) for one in question.columns)]
    if question.key == CUT_OUT and (apart := drops(record)):
        column = question.columns[0]
        unit = column.unit(bench.run.units)
        heads.append(Head(FROM_THE_MEAN, unit))
        rows = [
            (*row, fixed(units.from_si(apart[key], unit, column.quantity), 0))
            for key, row in zip(answered, rows, strict=True)
        ]
    return Table(question.words, tuple(heads), tuple(rows), style="free")


def _text(record: Record, box: Box) -> str:
    return record.answers[box].text if box in record.answers else NO_VALUE
