"""The first page of the live lab: the run-up record, entered like readings, each answer on the disk at once."""

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from turbomath.lab.checks.run_up import OF_RECORD
from turbomath.lab.entry.entry_record import EntryRecord, Looked
from turbomath.lab.record.questions import ANSWER, LEAD, PARTS, UNSTATED, YES_OR_NO, Box, Column, Question
from turbomath.lab.record.record import NOT_HERE
from turbomath.lab.run.bench import Bench

LEVELS = {"limit": "Over the limit.", "amber": "Look again.", "note": "To know."}
WIDE, NARROW = 36, 9  # letters that a box shows
HOW = f'Type y or n for yes and no, d for "{NOT_HERE}". Enter goes on to the next question.'
_STAYS = "Your text stays in its box. Press save again."


class RecordPage:
    """The record of the run that is open: its answers, and what they come to.

    Parameters
    ----------
    folder : path
        The run folder.
    bench : Bench
        What its bench.toml says.
    """

    def __init__(self, folder: Path | str, bench: Bench) -> None:
        self._record, self._bench, self._fresh = EntryRecord(folder, bench), bench, set[Box]()
        self._said = ""
        self._looked: Looked = self._record.looked()

    @property
    def unsaved(self) -> dict[Box, str]:
        """{box: why it is not on the disk}."""
        return self._record.unsaved

    def settle(self, row: str, column: str, text: str, reader: str) -> None:
        """Keep what was typed into one box; it is looked at when the record is looked over."""
        question, _, inner = row.partition(".")
        box = Box(question, inner, column)
        self._record.enter(box, text, reader)
        self._fresh.add(box)

    def save_again(self) -> None:
        """Save what the disk refused before."""
        self._record.again()

    def look_over(self) -> None:
        """Take up what another window answered, judge all, and write record.toml."""
        wrote = self._record.write()
        self._looked, self._fresh = self._record.looked(), set()
        self._said = wrote.sentence if self._looked.values or self._looked.refusals else ""

    def stops(self) -> list[str]:
        """Return a line for each limit of the maker's that an answer passes."""
        flags = self._looked.flags.values()
        return [f"LIMIT {flag.reason}. {flag.action}" for flag in flags if flag.level == "limit"]

    def frame(self) -> dict[str, Any]:
        """Return the grids of the record, each box with what is said of it, and how far it is."""
        texts, unsaved = self._record.texts, self._record.unsaved
        answered = {box.question for box, text in texts.items() if text.strip()}
        asked = sum(len(part.questions) for part in PARTS)
        return {
            "key": f"{self._record.folder} record",
            "head": f"First page: the run-up record. {len(answered)} of {asked} questions answered.",
            "lead": f"{LEAD} {UNSTATED} {HOW}",
            "said": " ".join(part for part in (self._record.note, self._said) if part),
            "unsaved": len(unsaved),
            "saved": sum(bool(text.strip()) for box, text in texts.items() if box not in unsaved),
            "grids": [grid for part in PARTS for grid in self._grids(part.words, part.questions, texts, unsaved)],
        }

    def _grids(self, title: str, questions: Iterable[Question], texts: dict, unsaved: dict) -> list[dict]:
        """The questions of one box in a grid of their own, then each table."""
        plain = [one for one in questions if not one.is_table]
        tables = [one for one in questions if one.is_table]
        grids = [self._grid(title, plain, texts, unsaved)] if plain else []
        return grids + [self._grid(one.words if plain else title, [one], texts, unsaved) for one in tables]

    def _grid(self, title: str, questions: list[Question], texts: dict, unsaved: dict) -> dict:
        first, system = questions[0], self._bench.run.units
        columns = [[one.key, _head(one, system), _size(one)] for one in first.columns]
        columns = columns if first.is_table else [[ANSWER, ANSWER, WIDE]]
        boxes: dict[str, list] = {}
        rows: list[list[str]] = []
        for question in questions:
            hazard = question.caution.hazard if question.caution else ""
            for row in question.rows(self._bench):
                name = f"{question.key}.{row.key}" if row.key else question.key
                words = row.words or _asked(question, system)
                rows.append([name, words, "", hazard])
                boxes[name] = [
                    self._box(Box(question.key, row.key, one.key), texts, unsaved) for one in question.columns
                ]
        return {"title": title, "rows": rows, "columns": columns, "boxes": boxes}

    def _box(self, box: Box, texts: dict, unsaved: dict) -> list:
        """One box: its text, whether it is kept, how bad it is, and what is to be said of it."""
        text = texts.get(box, "")
        if box in unsaved:
            return [text, False, "fault", f"{unsaved[box]} {_STAYS}"]
        if not text.strip():
            return [text, True, "", ""]
        if box not in self._fresh and box in self._looked.refusals:
            refusal = self._looked.refusals[box]
            said = f"Saved as typed. It is no answer yet: {refusal.expected}. {refusal.action}"
            return [text, True, "red", said]
        if box not in self._fresh and box in self._looked.flags:
            flag = self._looked.flags[box]
            return [
                text,
                True,
                flag.level,
                f"Saved. {LEVELS[flag.level]} {flag.reason.removeprefix(OF_RECORD)}. {flag.action}",
            ]
        return [text, True, "", "Saved."]


def _asked(question: Question, system: str) -> str:
    column = question.columns[0]
    ending = " (yes or no)" if column.kind == YES_OR_NO else f" [{unit}]" if (unit := column.unit(system)) else ""
    return f"{question.words}{ending}"


def _head(column: Column, system: str) -> str:
    return f"{column.words} [{unit}]" if (unit := column.unit(system)) else column.words


def _size(column: Column) -> int:
    return WIDE if column.kind == "words" else NARROW
