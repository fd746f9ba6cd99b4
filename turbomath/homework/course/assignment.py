"""An assignment: which questions of the bank, for how many points, in which units, until when."""

from dataclasses import dataclass
from datetime import date, datetime
from difflib import get_close_matches
from pathlib import Path

from turbomath.disk.plain_files import Place, toml
from turbomath.homework import bank
from turbomath.homework.marking import tables
from turbomath.table.errors import RefusedFileError, TurbomathError

MOST_QUESTIONS = 100
MOST_POINTS = 1_000
LONGEST_NAME, LONGEST_TITLE = 60, 120
MOST_BYTES = 100_000
_CORRECT = "Correct it in the assignment file."
_KEYS = ("name", "title", "units", "due", "hints", "worked", "questions")


@dataclass(frozen=True)
class AskedQuestion:
    """A question by its name in the bank, and the points it brings."""

    question: str
    points: float


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

    @property
    def points(self) -> float:
        """All its points together."""
        return sum(one.points for one in self.questions)


def read_assignment(path: Path | str) -> Assignment:
    """Return the `Assignment` of a TOML file.

    Raises
    ------
    RefusedFileError
        With the key, what was found, what was expected and what to do.
    """
    said = _Table(path, toml(tables.text(path, most_bytes=MOST_BYTES), Place(str(path)), 'units = "us"'), _KEYS)
    name = said.words("name", LONGEST_NAME)
    return Assignment(
        name=name,
        title=said.words("title", LONGEST_TITLE) if "title" in said.table else name,
        units=said.one_of("units", ("us", "si"), "us"),
        due=said.day("due"),
        hints=said.yes_or_no("hints"),
        worked=said.yes_or_no("worked"),
        questions=_questions(said, path),
    )


def _questions(said, path):
    tables = said.table.get("questions", [])
    if not isinstance(tables, list) or not 1 <= len(tables) <= MOST_QUESTIONS:
        found = f"{len(tables)} questions" if isinstance(tables, list) else tables
        raise said.refusal("questions", found, f"1 to {MOST_QUESTIONS} tables, each headed [[questions]]")
    found = [
        _asked(_Table(path, table, ("question", "points"), f"question {number} "))
        for number, table in enumerate(tables, 1)
    ]
    for number, one in enumerate(found, 1):
        if one.question in {earlier.question for earlier in found[: number - 1]}:
            raise said.refusal(f"question {number}", one.question, "each question once")
    return tuple(found)


def _asked(said):
    name = said.words("question", LONGEST_TITLE)
    try:
        bank.find(name)
    except TurbomathError as refusal:
        action = str(refusal).rpartition("bank. ")[2]
        raise said.refusal("question", name, "the name of a question of the bank", f"{action} {_CORRECT}") from None
    return AskedQuestion(name, said.points("points"))


class _Table:
    """One table of the file, whose keys are all known; each method takes one key out of it, or refuses it."""

    def __init__(self, path, table, keys, place=""):
        self.path, self.table, self.place = path, table, place
        if not isinstance(table, dict):
            raise self.refusal("questions", table, "tables, each headed [[questions]]")
        for key in table:
            if key not in keys:
                near = get_close_matches(key, keys, 1)
                closest = f"; the nearest is '{near[0]}'" if near else ""
                raise self.refusal(key, key, f"one of the keys {', '.join(keys)}{closest}")

    def refusal(self, key, found, expected, action=_CORRECT):
        """Return (not raise) the refusal of a key."""
        shown = str(found).lower() if isinstance(found, bool) else found
        return RefusedFileError(self.path, shown, expected, action, column=f"{self.place}{key}")

    def words(self, key, longest):
        """Return a short text of one line."""
        value = self.table.get(key, "nothing")
        good = key in self.table and isinstance(value, str) and value.isprintable() and value.strip()
        if not good or len(value) > longest:
            raise self.refusal(key, value, f"1 to {longest} letters in quotes, on one line")
        return value.strip()

    def one_of(self, key, options, usual):
        """Return one of a few words."""
        value = self.table.get(key, usual)
        if value not in options:
            raise self.refusal(key, value, f"one of {', '.join(options)}, in quotes")
        return value

    def yes_or_no(self, key):
        """Return True or False; False where nothing is said."""
        value = self.table.get(key, False)
        if not isinstance(value, bool):
            raise self.refusal(key, value, "true or false, without quotes")
        return value

    def day(self, key):
        """Return a date, or None where nothing is said."""
        value = self.table.get(key)
        if value is None or (isinstance(value, date) and not isinstance(value, datetime)):
            return value
        try:
            return date.fromisoformat(value)
        except (TypeError, ValueError):
            raise self.refusal(key, value, "a day such as 2026-03-12, without quotes") from None

    def points(self, key):
        """Return a number above 0; 1 where nothing is said."""
        value = self.table.get(key, 1)
        is_number = isinstance(value, int | float) and not isinstance(value, bool)
        if not is_number or not 0 < value <= MOST_POINTS:
            raise self.refusal(key, value, f"a number above 0, at most {MOST_POINTS:,}, without quotes")
        return float(value)
