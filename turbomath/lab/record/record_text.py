"""The text of a record.toml: every question with its words, and behind it the answer, or a blank to fill in."""

import json
import textwrap
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any

from turbomath import units
from turbomath.disk.files import write_whole
from turbomath.disk.plain_files import Place
from turbomath.lab.record.questions import LEAD, NUMBER, PARTS, YES_OR_NO, Box, Column, Question, Row
from turbomath.lab.record.record import FILE, NOT_HERE, answer
from turbomath.lab.run.bench import Bench
from turbomath.lab.run.book import shortest
from turbomath.table.errors import OutOfRangeError

_TYPED = {**dict.fromkeys(("yes", "y"), True), **dict.fromkeys(("no", "n"), False), NOT_HERE: NOT_HERE, "d": NOT_HERE}
_TYPE_YES_OR_NO = f"yes, no, or {NOT_HERE} (y, n or d)"
_HEAD = """\
# The run-up record. Take the # away from a line and put your own answer between the quotes: words; yes or no, or
# {not_here}; a number with its unit, such as 700 rpm. Lesson 08 fills all of it in by itself.
{lead}
"""


def new_record(folder: Path | str) -> Path | None:
    """Write a record.toml to fill in into a run folder, and return its path; None where there is one already."""
    path = Path(folder) / FILE
    if path.exists():
        return None
    write_whole(path, record_text({}, Bench(str(path))))
    return path


def typed(text: str, column: Column, unit: str) -> Any:
    """Return what was typed into a box as record.toml holds it.

    Raises
    ------
    RefusedFileError
        If it is no answer of that kind; `expected` and `action` say which would be.
    """
    place, said = Place(FILE, column=column.words), " ".join(text.split())
    value: Any = said
    if column.kind == YES_OR_NO:
        value = _TYPED.get(said.lower())
        if value is None:
            raise place.refusal(said, _TYPE_YES_OR_NO, "Type one of them.")
    elif column.kind == NUMBER:
        value = _with_unit(said, unit, place)
    answer(value, column, place)
    return value


def _with_unit(said: str, unit: str, place: Place) -> str:
    try:
        return f"{shortest(units.number(said.removesuffix(unit).strip()))} {unit}"
    except OutOfRangeError as refusal:
        raise place.refusal(said, f"a number in {unit}", f"{refusal.action} Read it again.") from None


def record_text(answers: Mapping[Box, Any], bench: Bench, left_out: Collection[str] = ()) -> str:
    """Return the text of a record.toml.

    Parameters
    ----------
    answers : dict
        Box -> True, False or text, as `typed` gives it.
    bench : Bench
        Which engine: how many cylinders, which instruments, which units are shown.
    left_out : collection of str
        What was typed and is no answer, a line each; it stands at the end as a remark.
    """
    from turbomath.paper.page import visible  # pages are slow to import

    lines = _commented(LEAD)
    parts = [_HEAD.format(lead=lines, not_here=NOT_HERE)]
    for part in PARTS:
        parts.append(f"\n[{part.key}]  # {part.words}\n")
        parts += [_question(one, answers, bench) for one in part.questions]
    parts += [_commented(visible(" ".join(one.split()))) + "\n" for one in left_out]
    return "".join(parts)


def _commented(words: str) -> str:
    return textwrap.fill(words, 110, initial_indent="# ", subsequent_indent="# ", break_on_hyphens=False)


def _question(question: Question, answers: Mapping[Box, Any], bench: Bench) -> str:
    head = _commented(question.words) + "\n"
    if not question.is_table:
        column = question.columns[0]
        return head + _line(question.key, _one(answers.get(Box(question.key, "", column.key)), column, bench)) + "\n"
    offered = {row.key: row for row in question.rows(bench)}
    others = {box.row: Row(box.row, "") for box in answers if box.question == question.key and box.row not in offered}
    return head + "".join(_row(question, row, answers, bench) + "\n" for row in (offered | others).values())


def _row(question: Question, row: Row, answers: Mapping[Box, Any], bench: Bench) -> str:
    here = {column: answers.get(Box(question.key, row.key, column.key)) for column in question.columns}
    name = f"{question.key}.{row.key}"
    if len(here) == 1:
        ((column, value),) = here.items()
        return _line(name, _one(value, column, bench))
    given = {column: value for column, value in here.items() if value is not None}
    cells = ", ".join(f"{one.key} = {_one(value, one, bench)[0]}" for one, value in (given or here).items())
    return _line(name, (f"{{ {cells} }}", bool(given)))


def _line(key: str, value: tuple[str, bool]) -> str:
    text, is_given = value
    return f"{'' if is_given else '# '}{key} = {text}"


def _one(value: Any, column: Column, bench: Bench) -> tuple[str, bool]:
    """Return a value as TOML, and whether it was given; else the form of one."""
    from turbomath.paper.page import visible

    if value is None:
        return f'"  {column.unit(bench.run.units)}"' if column.kind == NUMBER else '""', False
    if isinstance(value, bool):
        return '"yes"' if value else '"no"', True
    return json.dumps(visible(" ".join(str(value).split())), ensure_ascii=False), True
