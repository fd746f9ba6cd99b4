"""A whole class marked: every part of every question of every seat, with the points and what there is to say."""

from collections.abc import Mapping
from dataclasses import dataclass

from turbomath.homework.asking.variant import Variant
from turbomath.homework.bank.question import Choice
from turbomath.homework.marking import handed_in, marking, overrides
from turbomath.homework.marking.answer_files import Entry, parts_of
from turbomath.homework.marking.class_folder import ClassFolder
from turbomath.table.errors import TurbomathError, short

NO_ANSWER, NOTHING_IN = "No answer.", "Nothing was handed in."
UNANSWERED, NOT_HANDED_IN, NOT_READ = "unanswered", "not handed in", "not read"


@dataclass(frozen=True)
class PartMark:
    """One part of one question of one seat: `said` and `remark` as written, what was found, the points it brings.

    `finding` is that of a `Mark`, or "unanswered", "not handed in" or "not read". `message` is the marker's;
    `decisions` are all the instructor's, the last of which counts; `waits` says that the instructor is to decide, as
    it cannot be read, its file was refused, or two answers differ. `value` and `half_digit` are those of the `Mark`.
    """

    question: str
    part: str
    said: str
    finding: str
    points: float
    of: float
    message: str
    decisions: tuple[overrides.Override, ...] = ()
    waits: bool = False
    remark: str = ""
    value: float | None = None
    half_digit: float = 0.0

    @property
    def words(self) -> str:
        """All there is to say about it, on one line."""
        return " ".join([self.message, *map(str, self.decisions)])


@dataclass(frozen=True)
class SeatMarks:
    """One seat: its public sheet code, a `PartMark` for each part, and what is to be said about its files."""

    seat: str
    code: str
    variants: Mapping[str, Variant]
    parts: tuple[PartMark, ...]
    refused: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def points(self) -> float:
        """All its points together."""
        return sum(one.points for one in self.parts)

    @property
    def waiting(self) -> tuple[PartMark, ...]:
        """The parts that wait for the instructor."""
        return tuple(one for one in self.parts if one.waits)

    def parts_of(self, question: str) -> list[PartMark]:
        """Return the marks of one question."""
        return [one for one in self.parts if one.question == question]


def state(marks: SeatMarks) -> str:
    """Return whether a seat is "marked", "waiting" in part, "not read" or "not handed in"."""
    findings = {part.finding for part in marks.parts}
    for one in (NOT_HANDED_IN, NOT_READ):
        if findings == {one}:
            return one
    return "waiting" if marks.waiting else "marked"


def class_marks(course: ClassFolder) -> tuple[SeatMarks, ...]:
    """Return the `SeatMarks` of every seat of the roster, in its order.

    Raises
    ------
    TurbomathError
        If what the instructor wrote (assignment, roster, grid, overrides) cannot be read. What a student sent
        never raises.
    """
    points = {one.question: one.points for one in course.assignment.questions}
    questions = {name: course.assignment.find(name) for name in points}
    most = {
        (name, part): points[name] / len(parts_of(questions[name])[0])
        for name in points
        for part in parts_of(questions[name])[0]
    }
    grid = handed_in.grid_of(course, questions)
    decided = overrides.read(course, questions, most)
    roster, variants = _roster(course), course.all_variants()
    found = {seat: handed_in.handed_in(course, seat, grid, questions) for seat in roster}
    found = handed_in.given_back(found, roster)
    return tuple(
        _seat_marks(course, seat, code, variants[seat], found[seat], most, decided) for seat, code in roster.items()
    )


def _roster(course):
    """Return seat -> sheet code, or refuse a secret or an assignment that is not the one of the sheets."""
    codes = {seat: code for seat, (_, code) in course.roster().items()}
    for seat, code in codes.items():
        if code != course.sheet_code(seat):
            raise TurbomathError(
                f"{course.roster_file}: found the code {short(code)!r} for seat {seat}, expected "
                f"{course.sheet_code(seat)}, as secret and assignment give it. Put all three back from one copy."
            )
    return codes


def _seat_marks(course, seat, code, variants, hand_in, most, decided):
    parts = tuple(
        _part_mark(variants[name], part, hand_in, of, decided.get((seat, name, part), ()))
        for (name, part), of in most.items()
    )
    return SeatMarks(seat, code, variants, parts, hand_in.refused, (*hand_in.notes, *_lateness(course, hand_in)))


def _part_mark(variant, part, hand_in, of, decisions):
    name = variant.question.name
    entry, value, half_digit = hand_in.answers.get((name, part)), None, 0.0
    if entry:
        found = marked(variant, part, hand_in.answers)
        said, remark, finding, share, message = entry.said, entry.remark, found.finding, found.points, found.message
        value, half_digit = found.value, found.half_digit
    else:
        said, remark, share = hand_in.written.get((name, part), ""), "", 0.0
        finding, message = _without_answer(name, hand_in)
    waits = finding in (marking.WAITING, NOT_READ) and not decisions
    points = decisions[-1].points if decisions else share * of
    return PartMark(name, part, said, finding, points, of, message, tuple(decisions), waits, remark, value, half_digit)


def _without_answer(name, hand_in):
    """Return (finding, sentence) of a part for which no answer can be taken."""
    if name in hand_in.waiting:
        return marking.WAITING, hand_in.waiting[name]
    if hand_in.refused:
        return NOT_READ, " ".join(hand_in.refused)
    return (UNANSWERED, NO_ANSWER) if hand_in.answers or hand_in.waiting else (NOT_HANDED_IN, NOTHING_IN)


def marked(variant: Variant, part: str, answers: Mapping[tuple[str, str], Entry]) -> marking.Mark:
    """Return the `Mark` of one part, with the student's own values of the steps before it.

    Parameters
    ----------
    variant : Variant
        The seat's own.
    part : str
        Which of the values asked for.
    answers : dict
        (question, part) -> `Entry` of all that the seat wrote.
    """
    name = variant.question.name
    entry = answers[name, part]
    if isinstance(variant.question, Choice):
        return marking.mark(variant, entry.said)
    earlier = {step: answers[name, step].said for step in _before(variant, part) if (name, step) in answers}
    return marking.mark(variant, entry.answer, entry.unit, earlier=earlier, part=part, decimal=entry.decimal)


def _before(variant, part):
    steps = [step.result for step in variant.question.steps]
    return steps[: steps.index(part)] if part in steps else ()


def _lateness(course, hand_in):
    due = course.assignment.due
    if due is None or hand_in.dated is None or hand_in.dated <= due:
        return ()
    return (f"Late: the file is of {hand_in.dated.isoformat()}, due was {due.isoformat()}. No points were taken off.",)
