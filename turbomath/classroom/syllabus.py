"""The lessons as a list for the home page: what each asks, how long it takes, what is done; all from the notebooks."""

import re
from dataclasses import dataclass
from pathlib import Path

from turbomath.classroom import digests
from turbomath.disk import files, kept


@dataclass(frozen=True)
class Entry:
    """One lesson: `name` is that of its notebook, `takes` its time in words, `answers` how many were given in it."""

    name: str
    title: str
    question: str
    takes: str
    answers: int
    done: bool
    notes: bool

    @property
    def number(self) -> str:
        """The number before its title, or nothing."""
        return self.name.partition("_")[0] if self.name[0].isdigit() else ""

    @property
    def state(self) -> str:
        """How far the reader is, in words."""
        if self.done:
            return "done"
        return f"begun, {self.answers} answered" if self.answers else ""


def entries() -> list[Entry]:
    """Return every shipped lesson in its order. A lesson is done once its exit ticket was answered."""
    return [_entry(name, digests.contents(master) or []) for name, master in digests.lessons().items()]


def go_on(found: list[Entry]) -> Entry | None:
    """Return the lesson to go on with: the first that is begun, else the first that is not done."""
    begun = [one for one in found if one.answers and not one.done]
    return next(iter([*begun, *(one for one in found if not one.done)]), None)


def teaching_notes() -> dict[str, Path]:
    """Return the teaching notes: name -> file."""
    return {one.stem: one for one in (files.shipped("lessons") / "teaching_notes").glob("*.md")}


def _entry(name, cells):
    words = "\n\n".join(source for kind, source in cells if kind == "markdown")
    answered = kept.answered(name)
    return Entry(
        name,
        title=_found(r"^# (.+)$", words) or name,
        question=_found(r"^# .+\n\n\*\*(.+)\*\*$", words),
        takes=_found(r"^\*\*(?:Lesson \d+\. )?(.+?)\. Tasks?: .+\*\*$", words),
        answers=sum(map(len, answered.values())),
        done=bool(answered["ticket"]),
        notes=name in teaching_notes(),
    )


def _found(pattern, words):
    match = re.search(pattern, words, re.MULTILINE)
    return match[1] if match else ""
