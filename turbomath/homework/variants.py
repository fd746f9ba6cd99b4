"""A seat's own numbers for a question.

Individual numbers stop copying, not computing: whoever has this kit can work any sheet out. What they give is
that each student has to work out his or her own, and can be answered on his or her own mistake.
"""

import functools
from dataclasses import dataclass

import numpy as np

from turbomath import units as door
from turbomath.errors import TurbomathError
from turbomath.formulas import choice
from turbomath.homework import draws, plausible
from turbomath.homework.bank import find
from turbomath.homework.question import Choice, Question
from turbomath.homework.sheet import Sheet, solved
from turbomath.working import Amount, Chain, Result
from turbomath.working.coherent import scale
from turbomath.working.writing import fixed, plain_number, with_unit

AT_ONCE = (8, 64, 512, 4096)  # redraws that are looked at together, until one will do
APART_FROM_KEY, APART = 3.0, 1.0  # tolerances between key and distractors, and between distractors


@dataclass(frozen=True)
class Variant:
    """One seat's sheet of one question.

    `givens` holds an `Amount` by name, as the student sees it; `asked` what is asked for, the answer last, or the
    options of a question to choose in; `code` is the public sheet code. The key is not kept: it is worked out.
    """

    question: Question | Choice
    givens: dict
    asked: tuple
    code: str
    units: str
    wording: str

    @property
    def text(self):
        """The question as the sheet prints it."""
        if isinstance(self.question, Choice):
            listed = "\n".join(f"  {'ABCDEFGH'[place]}  {one.words}" for place, one in enumerate(self.asked))
            return f"{self.wording}\n{listed}"
        wanted = [f"{one.name.replace('_', ' ')} in {_words_of(one.unit(self.units))}" for one in self.asked]
        return f"{self.wording}\nGive {' and '.join(wanted)}."

    @property
    def chain(self):
        """The chain that `turbomath.working.solution` prints."""
        if isinstance(self.question, Choice):
            raise TurbomathError(f"{self.question.name}: found a question to choose in, expected one with numbers.")
        asked = tuple(Result(one.name, {system: (one.unit(system), self._decimals(one, system))
                                        for system in ("us", "si")}) for one in self.asked)  # fmt: skip
        verdict = self.question.verdict(self.key) if self.question.verdict else ""
        return Chain(self.givens, self.question.steps, asked, verdict)

    @functools.cached_property
    def key(self):
        """Every value of the chain in SI, by name."""
        return solved(self.question, self.sheet)

    @functools.cached_property
    def outcomes(self):
        """What each mistake of the question leads to: the mistakes, and every value of the chain in SI, by name."""
        mistakes = self.question.mistakes_in(self.units)
        return tuple((mistake, solved(self.question, self.sheet, mistake.changes)) for mistake in mistakes)

    @functools.cached_property
    def sheet(self):
        """The numbers of the sheet, for the chain to work on."""
        return Sheet(self.question, {name: one.value for name, one in self.givens.items()}, self.units)

    def _decimals(self, asked, system):
        """How many decimals the answer deserves: its tolerance shows in the last of them."""
        width = asked.allowed.width(self.key[asked.name], system)
        size = scale(asked.unit(system), asked.row)[1]
        return max(0, int(np.ceil(-np.log10(width / size / 2))))


def make(question, *, secret, assignment, seat, units="us", retry=0):
    """Return a seat's own variant of a question: the same on any machine.

    Parameters
    ----------
    question : str or Question
        A name of the bank, such as "manifold_pressure_from_boost", or the question itself.
    secret : str
        The course secret, known to the teacher only.
    assignment, seat : str
        Which sheet, and whose.
    units : "us" or "si"
        The units of the sheet.
    retry : int
        0 for the sheet itself, 1, 2, ... for fresh numbers after an answer.

    Returns
    -------
    Variant
        Givens rounded to the resolution of a gauge; every usual mistake leads well away from the key.

    Raises
    ------
    TurbomathError
        If there is no such question, or a text is empty.
    """
    question = find(question) if isinstance(question, str) else question
    choice("units", units, {"us": None, "si": None})
    parts = (draws.word("assignment", assignment), draws.word("seat", seat), question.name, int(retry))
    code = draws.sheet_code(secret, parts)
    if isinstance(question, Choice):
        return _choice_variant(question, secret, parts, units, code)
    numbers = _numbers(question, secret, parts, units)
    givens = {one.name: _amount(one, number, units) for one, number in zip(question.givens, numbers, strict=True)}
    shown = {name: with_unit(one.text, one.unit) for name, one in givens.items()}
    return Variant(question, givens, question.asked, code, units, question.words(units).format(**shown))


def _numbers(question, secret, parts, system):
    """Return the givens, in the units shown, of the first draw that will do."""
    first = 0
    for size in AT_ONCE:
        shares = draws.uniform(secret, parts, range(first, first + size), plausible.count(question.ranges))
        values = plausible.engine(question.ranges, shares)
        if question.also:
            values |= question.also(values, system)
        shown = np.array([_rounded(values[one.source or one.name], one, system) for one in question.givens])
        will_do = np.flatnonzero(acceptable(question, shown, values, system))
        if will_do.size:
            return shown[:, will_do[0]]
        first += size
    raise TurbomathError(f"{question.name}: no numbers tell the usual mistakes apart; its ranges are to be narrowed.")


def acceptable(question, shown, values, system):
    """Return which draws will do: a believable engine whose mistakes lead well away from the key and each other.

    *shown* holds the givens, a row each, in the units shown; *values* everything drawn, in SI.
    """
    in_si = {}
    for one, numbers in zip(question.givens, shown, strict=True):
        zero, size = scale(getattr(one, system)[0], one.row)
        in_si[one.name] = zero + numbers * size
    good = plausible.believable(values)
    sheet = Sheet(question, in_si, system)
    key = solved(question, sheet)
    if question.where:
        good = good & question.where(key)
    mistakes = question.mistakes_in(system)
    outcomes = [solved(question, sheet, mistake.changes) for mistake in mistakes]
    for asked in question.asked:
        changing = [place for place, mistake in enumerate(mistakes) if touches(question, mistake, asked.name)]
        good = good & _apart(key[asked.name], [outcomes[place][asked.name] for place in changing],
                             asked.allowed.width(key[asked.name], system))  # fmt: skip
    return good


def touches(question, mistake, name):
    """Whether a mistake changes a value of the chain."""
    changed = set(mistake.changes)
    for step in question.steps:
        if step.result not in changed and changed & {value for value in step.arguments.values() if _is_name(value)}:
            changed.add(step.result)
    return name in changed


def _is_name(value):
    return isinstance(value, str)


def _apart(key, wrong, width):
    good = np.isfinite(key)
    for place, one in enumerate(wrong):
        good = good & np.isfinite(one) & (np.abs(one - key) >= APART_FROM_KEY * width)
        for other in wrong[:place]:
            good = good & (np.abs(one - other) >= APART * width)
    return good


def _rounded(values, given, system):
    """Return SI values in the unit shown, rounded to what the gauge shows."""
    unit, step = getattr(given, system)
    zero, size = scale(unit, given.row)
    return np.round((values - zero) / size / step) * step


def _amount(given, number, system):
    unit, step = getattr(given, system)
    text = fixed(float(number), max(0, len(f"{step:.6f}".rstrip("0").partition(".")[2])))
    value = door.to_si(plain_number(text), unit, given.row)
    return Amount(value, given.row, text, unit, given.symbol)


def _choice_variant(question, secret, parts, system, code):
    needed = 16
    shares = draws.uniform(secret, parts, range(64), plausible.count(question.ranges) + needed)
    cases = question.cases
    if callable(cases):
        values = plausible.engine(question.ranges, shares[:, needed:])
        row = int(np.flatnonzero(plausible.believable(values))[0])
        cases = cases({name: float(value[row]) for name, value in values.items()}, system)
    first = shares[0]
    case = cases[int(first[0] * len(cases))]
    order = sorted(range(len(case.options)), key=lambda place: first[1 + place])
    return Variant(question, {}, tuple(case.options[place] for place in order), code, system, case.text)


def _words_of(unit):
    return "figures, without a unit" if unit == "-" else unit
