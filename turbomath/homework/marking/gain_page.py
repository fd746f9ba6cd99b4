"""A class before and after a course on a page: its gain, which misconception was kept, and what that does not say."""

from turbomath.homework.marking.class_page import Section, class_page, plain
from turbomath.homework.marking.gain import FEWEST, HIGH, LOW, Gain
from turbomath.paper.parts import Head, Table
from turbomath.table import prose
from turbomath.working.writing import fixed

WORDS = prose.read(__file__, "gain_page.toml")
_QUESTIONS = tuple(map(Head, ("question", "right before", "right after", "change")))
_KEPT = tuple(map(Head, ("misconception", "code", "before", "after", "in both")))


def gain_page(found: Gain, title: str) -> str:
    """Return the page of a class that answered twice as HTML; *title* is that of the questions."""
    sections = (
        Section("The class", sentences(found)),
        Section("What this does not say", (WORDS.text("no_claim"),)),
        Section("Misconceptions", (survived(found), WORDS.text("how_to_read")), (_kept_table(found),)),
        Section("Question by question", (), (_questions_table(found),)),
    )
    return class_page(f"Before and after: {title}", WORDS.text("counted", seats=found.seats), sections)


def sentences(found: Gain) -> tuple[str, ...]:
    """Return what the class answered, in sentences."""
    before, after = found.shares
    said = [WORDS.text("shares", before=_per_cent(before), after=_per_cent(after))]
    if found.normalised is None:
        small = found.seats < FEWEST
        return (*said, WORDS.text("too_small", fewest=FEWEST) if small else WORDS.text("nothing_to_gain"))
    gain, half = found.normalised
    size = WORDS.text("low" if gain < LOW else "medium" if gain < HIGH else "high")
    numbers = {"gain": fixed(gain, 2), "half": fixed(half, 2), "gain_share": _per_cent(gain)}
    said.append(WORDS.text("gain", size=size, **numbers))
    return (*said, WORDS.text("not_sure")) if abs(gain) <= half else tuple(said)


def survived(found: Gain) -> str:
    """Return which misconception was kept most."""
    one = found.survived
    if one is None:
        return WORDS.text("none_survived")
    return WORDS.text("survived", words=one.words, code=one.code, before=one.before, after=one.after)


def _kept_table(found):
    rows = tuple((one.words, one.code, *map(str, (one.before, one.after, one.both))) for one in found.kept)
    return Table("In how many answers each stood", _KEPT, rows, "words")


def _questions_table(found):
    rows = tuple(
        (plain(name), _per_cent(before), _per_cent(after), f"{fixed(100 * (after - before), 0)} points")
        for name, (before, after) in found.questions.items()
    )
    return Table("Share of the seats that were right", _QUESTIONS, rows, "words")


def _per_cent(share):
    return f"{fixed(100 * share, 0)} %"
