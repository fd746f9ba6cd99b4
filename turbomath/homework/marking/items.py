"""The item report: per cent right for each question, and which mistakes to teach again."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from turbomath.homework.marking.class_marks import SeatMarks

FIRST_TO_TEACH = 5
# What each code stands for, for the instructor who plans the next lesson
MISCONCEPTIONS = {
    "M1": "gauge pressure taken as absolute",
    "M2": "sea-level barometer taken for the station's",
    "M3": "°F or °C in a ratio",
    "M4": "boost taken for airflow",
    "M5": "effectiveness taken for another ratio",
    "M6": "efficiency multiplied, or the ideal taken for the real",
    "M7": "intake restriction left out or added",
    "M8": "pressure loss of the aftercooler left out",
    "M9": "slip between units",
    "M10": "32 in a difference of temperatures",
    "M11": "factor 2 of the four-stroke engine forgotten",
    "M12": "wrong reference temperature",
    "M13": "per cent of span taken for per cent of reading",
    "M14": "per cent up and per cent down mixed, or a ratio upside down",
    "M15": "wrong exponent",
    "M16": "wrong base of a ratio or density",
    "M17": "power taken to follow air without fuel",
    "M18": "false precision, or averaging over a bad reading",
    "C1": "a reading that can be, taken for one that cannot",
    "C2": "readings matched to a fault that would show others",
    "C3": "stations in the wrong order",
    "C4": "pressure at a station misjudged",
}


@dataclass(frozen=True)
class Item:
    """One question in the class: parts answered, parts right, and finding -> count of those answered."""

    question: str
    answered: int
    right: int
    findings: dict[str, int]

    @property
    def per_cent(self) -> float | None:
        """Per cent right of those answered; None where nobody answered."""
        return 100 * self.right / self.answered if self.answered else None


def items(marks: Iterable[SeatMarks]) -> tuple[Item, ...]:
    """Return the `Item` of each question of a marked class, in the order of the assignment."""
    found: dict[str, Counter[str]] = {}
    for one in marks:
        for part in one.parts:
            found.setdefault(part.question, Counter()).update([part.finding] if part.said and not part.waits else [])
    return tuple(
        Item(name, counts.total(), counts["right"], dict(counts.most_common())) for name, counts in found.items()
    )


def to_teach_again(marks: Iterable[SeatMarks]) -> list[str]:
    """Return the lines of the item report: each question with its per cent right, then the commonest mistakes."""
    marks = tuple(marks)
    if not any(part.said for one in marks for part in one.parts):
        return ["Nothing is answered yet. Put each answers file into its seat's folder, or fill in answers_grid.csv."]
    lines = [f"  {item.question:<36} {_shown(item):>8} of {item.answered} answers" for item in items(marks)]
    again = [f"  {line}" for line in mistakes(marks)] or ["  no usual mistake was found"]
    return ["Right, question by question:", *lines, "What to teach again:", *again]


def mistakes(marks: Iterable[SeatMarks]) -> list[str]:
    """Return a line for each of the commonest usual mistakes, those made most often first."""
    made: Counter[str] = Counter()
    for item in items(marks):
        made.update({finding: count for finding, count in item.findings.items() if finding in MISCONCEPTIONS})
    return [f"{count:>3} x {code:<3} {MISCONCEPTIONS[code]}" for code, count in made.most_common(FIRST_TO_TEACH)]


def _shown(item):
    return "-" if item.per_cent is None else f"{item.per_cent:.0f} %"
