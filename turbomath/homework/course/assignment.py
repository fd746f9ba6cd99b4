"""An assignment: which questions of the bank, for how many points, in which units, until when."""

import re
from dataclasses import dataclass
from datetime import date
from pathlib import Path, PurePosixPath

from turbomath.disk.plain_files import Place, text, toml
from turbomath.homework import bank
from turbomath.homework.asking import own_questions
from turbomath.homework.bank.question import Choice, Question
from turbomath.homework.bank.strict_table import StrictTable
from turbomath.table.errors import TurbomathError

MOST_QUESTIONS, MOST_OWN = 100, 100
MOST_POINTS = 1_000
LONGEST_NAME, LONGEST_TITLE = 60, 120
MOST_BYTES = 100_000
_CORRECT = "Correct it in the assignment file."
_OF_THE_BANK = "the name of a question of the bank"
_INSIDE = re.compile(r"[^/\\:][^\\:]*\.toml")  # a path below a folder
_KEYS = ("name", "title", "units", "due", "hints", "worked", "own", "questions")


@dataclass(frozen=True)
class AskedQuestion:
    """A question by its name in the bank, and the points it brings."""

    question: str
    points: float


@dataclass(frozen=True)
class OwnQuestion:
    """A question that the instructor wrote: its file beside the assignment, the text of that file, the question."""

    file: str
    text: str
    question: Question


@dataclass(frozen=True)
class Assignment:
    """What the instructor set; its questions are numbered from 1 in their order.

    The numbers of every seat follow from `name`, `units` and the names of the questions, and from nothing else
    that is written here. `due` is None where no day is set. `hints` says whether hints go to the students, `worked`
    whether feedback may show the worked solution.
    """

    name: str
    title: str
    units: str
    due: date | None
    hints: bool
    worked: bool
    questions: tuple[AskedQuestion, ...]
    own: tuple[OwnQuestion, ...] = ()

    def find(self, name: str) -> Question | Choice:
        """Return one of its questions by name: the instructor's own, or one of the bank."""
        return next((one.question for one in self.own if one.question.name == name), None) or bank.find(name)

    @property
    def points(self) -> float:
        """All its points together."""
        return sum(one.points for one in self.questions)


def read_assignment(path: Path | str) -> Assignment:
    """Return the `Assignment` of a TOML file, with the questions of one's own that lie beside it.

    Raises
    ------
    RefusedFileError
        With the key, what was found, what was expected and what to do.
    """
    said = StrictTable(path, toml(text(path, most_bytes=MOST_BYTES), Place(str(path)), 'units = "us"'), _KEYS)
    name = said.words("name", LONGEST_NAME)
    own = _own_questions(said, Path(path))
    return Assignment(
        name=name,
        title=said.words("title", LONGEST_TITLE) if "title" in said else name,
        units=said.one_of("units", ("us", "si"), "us"),
        due=said.day("due"),
        hints=said.yes_or_no("hints"),
        worked=said.yes_or_no("worked"),
        questions=_questions(said, own),
        own=own,
    )


def _questions(said, own):
    tables = said.tables("questions", ("question", "points"), MOST_QUESTIONS, "question")
    found = tuple(_asked(one, own) for one in tables)
    for number, one in enumerate(found, 1):
        if one.question in {earlier.question for earlier in found[: number - 1]}:
            raise said.refusal(f"question {number}", one.question, "each question once")
    return found


def _asked(said, own):
    name = said.words("question", LONGEST_TITLE)
    if name not in {one.question.name for one in own}:
        try:
            bank.find(name)
        except TurbomathError as refusal:
            action = str(refusal).rpartition("bank. ")[2]
            whose = "the name of a question of the bank, or of one of your own" if own else _OF_THE_BANK
            raise said.refusal("question", name, whose, f"{action} {_CORRECT}") from None
    expected = f"a number above 0, at most {MOST_POINTS:,}"
    return AskedQuestion(name, said.number("points", 0, MOST_POINTS, expected, 1.0))


def _own_questions(said, path):
    """Return the questions of one's own, from files beside the assignment."""
    found, taken = [], {path.name, "assignment.toml"}
    for file in said.texts("own", 0, MOST_OWN, LONGEST_TITLE):
        inside = _INSIDE.fullmatch(file) and ".." not in PurePosixPath(file).parts
        if not inside or file in taken:
            raise said.refusal("own", file, "the name of a TOML file beside this one, such as own_question.toml")
        found.append(OwnQuestion(file, *own_questions.read(path.parent / file)))
    names = [one.question.name for one in found]
    for name in names:
        if names.count(name) > 1:
            raise said.refusal("own", name, "each name of a question once")
    return tuple(found)
