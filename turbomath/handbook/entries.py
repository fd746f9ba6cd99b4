"""What the handbook says of one formula, as plain data for the page."""

from dataclasses import dataclass

from turbomath.handbook import docstrings, tables
from turbomath.handbook.check_values import CheckValues
from turbomath.handbook.examples import Example, Specimens, examples
from turbomath.handbook.letters import Letter, letters
from turbomath.handbook.subjects import key, numbered
from turbomath.paper.links import joined
from turbomath.paper.parts import Table
from turbomath.table.formulas import Tied


@dataclass(frozen=True)
class Entry:
    """One formula: how it is called, its equation and letters, what it holds for, examples, and its check values."""

    id: str
    number: str
    title: str
    equations: list[str]
    letters: tuple[Letter, ...]
    conditions: str
    notes: str
    sources: list[str]
    examples: tuple[Example, ...]
    checks: Table | None
    leads_to: str

    @property
    def letter_table(self) -> Table:
        """The letters as a table."""
        return tables.letter_table(self.letters)


def entry(function: Tied, specimens: Specimens, checks: CheckValues) -> Entry:
    """Return what the handbook says of a formula.

    Raises
    ------
    TurbomathError
        If its source is not in the list of references, a letter has no words, or its example has no number.
    """
    rows = checks.of(function)
    return Entry(
        key(function),
        numbered()[function],
        docstrings.title(function),
        function.formula.equation.split(r", \quad "),
        letters(function),
        function.formula.conditions,
        docstrings.notes(function),
        [_reference(words) for words in _references(function)],
        examples(function, specimens),
        tables.check_table(rows, checks) if rows else None,
        joined(tables.case_link(row.case) for row in checks.through(function)),
    )


def _references(function: Tied) -> list[str]:
    """Return the references of a docstring, or the formula's own source where it has none."""
    said = " ".join(docstrings.sections(function).get("References", function.formula.source).split())
    return [one.strip() for one in said.rstrip(".").split(";")]


def _reference(words: str) -> str:
    source, _, place = words.partition(",")
    return tables.source_link(source, in_full=True) + (f",{place}" if place else "")
