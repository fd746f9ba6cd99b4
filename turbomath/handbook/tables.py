"""The tables of the handbook: letters, check values, glossary, constants."""

from collections.abc import Iterable

from turbomath.handbook.check_values import STATUSES, CheckValue, CheckValues, function
from turbomath.handbook.letters import Letter, unit
from turbomath.paper.equations import mathml
from turbomath.paper.links import joined, link, target
from turbomath.paper.parts import Head, Table
from turbomath.table.errors import TurbomathError
from turbomath.table.letters import CONSTANTS, Constant
from turbomath.table.quantities import QUANTITIES, Quantity
from turbomath.table.sources import SOURCES
from turbomath.working import coherent
from turbomath.working.writing import figures, with_unit

NONE = "–"
_RANGE_FIGURES, _RESULT_FIGURES = 3, 6
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
_PLAIN, _MOST_FIGURES = (-4, 8), 10  # powers of ten that are written out, and to how many figures


def letter_table(letters: Iterable[Letter]) -> Table:
    """Return what each letter of an equation is, and its units."""
    rows = tuple((mathml(one.latex), _said(one), one.us or NONE, one.si or NONE) for one in letters)
    heads = (Head("Letter"), Head("What it is"), Head("US unit"), Head("SI unit"))
    return Table("What the letters stand for", heads, rows, style="letters")


def _said(one: Letter) -> str:
    name = link(f"quantity-{one.quantity}", one.name) if one.quantity else one.name
    return joined([name, one.meaning], ": ") if one.meaning and one.meaning != one.name else name


def check_table(rows: Iterable[CheckValue], checks: CheckValues) -> Table:
    """Return check values: where they are printed, what goes in, what is printed, what the kit makes of it."""
    heads = (Head("Printed in"), Head("What goes in"), Head("Printed"), Head("Here"), Head("May differ by, and why"))
    return Table("Held against", heads, tuple(_check_row(row, checks) for row in rows), style="checks")


def _check_row(row: CheckValue, checks: CheckValues) -> tuple[str, ...]:
    measured_in = _si_unit(row)
    expected = f"{_number(row.expected)} {measured_in}".strip()
    here = f"{figures(checks.result(row.case), _RESULT_FIGURES)} {measured_in}".strip()
    where = target(f"check-{row.case}", "") + joined([source_link(row.source), row.place])
    return (
        where + f" ({STATUSES[row.status][0]})",
        joined([*map(_put_in, row.pairs.items()), *map(_times, row.times.split())]),
        expected,
        here,
        f"{_width(row, measured_in)}: {row.reason}" + (f"; {row.note}" if row.note else ""),
    )


def case_link(case: str) -> str:
    """Return a link to a check value."""
    return link(f"check-{case}", case)


def source_link(source: str, *, in_full: bool = False) -> str:
    """Return a link to a source in the list of references: its key there, or all that is said of it.

    Raises
    ------
    TurbomathError
        If the list does not have it.
    """
    if source not in SOURCES:
        raise TurbomathError(f"found the source {source!r}, expected one of the reference list. Add it there.")
    return link(f"source-{source}", SOURCES[source].rstrip(".") if in_full else source)


def _width(row: CheckValue, measured_in: str) -> str:
    if row.tolerance_kind == "relative":
        return f"{_number(f'{float(row.tolerance) * 100:g}')} %"
    return f"{_number(row.tolerance)} {measured_in}".strip()


def _put_in(pair: tuple[str, str]) -> str:
    name, text = pair
    words = name.replace("_", " ")
    if text.startswith("row:"):
        return joined([words, case_link(text.removeprefix("row:"))], " of ")
    unit = _raised(QUANTITIES[name].unit) if name in QUANTITIES else ""
    return " ".join(f"{words} {_number(text.replace('_', ' '))} {unit}".split())


def _number(text: str) -> str:
    """A number of the file with a real minus and no computer's exponent; a word as it is."""
    digits, mark, power = text.partition("e")
    if not mark or not power.lstrip("-+").isdigit():
        return f"−{text[1:]}" if text.startswith("-") else text
    if _PLAIN[0] <= int(power) <= _PLAIN[1]:
        return figures(float(text), _MOST_FIGURES)
    return f"{digits} × 10{str(int(power)).translate(_RAISED)}"


def _times(text: str) -> str:
    if text.startswith("row:"):
        return joined(["times the result of ", case_link(text.removeprefix("row:"))], "")
    return f"times {_number(text)}"


def _si_unit(row: CheckValue) -> str:
    """The unit of what is printed; none where the result is multiplied by something, since the note then says it."""
    result = getattr(function(row.function), "formula", None)
    return "" if row.times or result is None else _raised(QUANTITIES[result.result].unit)


def _raised(unit: str) -> str:
    base, mark, power = unit.partition("^")
    return (base + power[:1].translate(_RAISED) + power[1:] if mark else unit).replace("-", "")


def glossary() -> Table:
    """Return every quantity of the table, in the order of its name."""
    heads = ("Name", "What it is", "Symbol", "Usual in US units", "Usual in SI units")
    rows = tuple(map(_glossary_row, sorted(QUANTITIES.values(), key=lambda row: row.plain_name)))
    return Table("Every quantity, and the range in which a shop meets it", tuple(map(Head, heads)), rows, "glossary")


def _glossary_row(row: Quantity) -> tuple[str, ...]:
    name = target(f"quantity-{row.name}", row.plain_name)
    return name, row.meaning, mathml(row.symbol), _range(row, unit(row.name, "us")), _range(row, unit(row.name, "si"))


def _range(row: Quantity, unit: str) -> str:
    low, high = (figures(coherent.from_si(end, unit, row.name), _RANGE_FIGURES) for end in row.sensible)
    return f"{low} to {with_unit(high, unit)}"


def constants() -> Table:
    """Return the constants with their values, how they are known, and where they are printed."""
    heads = ("Constant", "Letter", "SI value", "US value", "How it is known", "Printed in")
    rows = tuple((*_constant_row(one), source_link(one.source)) for one in CONSTANTS)
    return Table("Constants", tuple(map(Head, heads)), rows, style="words")


def _constant_row(one: Constant) -> tuple[str, ...]:
    return one.meaning, mathml(one.letter), f"{one.value:.9g} {one.unit}".strip(), _in_us_units(one), one.known


def _in_us_units(one: Constant) -> str:
    try:
        return with_unit(*coherent.constant(one.letter, "us")) if one.unit else NONE
    except KeyError:  # no equation that is worked out has it
        return NONE
