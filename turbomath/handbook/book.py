"""The handbook as one page: every formula by subject, glossary, constants, references, index."""

from pathlib import Path
from types import ModuleType

from turbomath.disk.files import write_whole
from turbomath.handbook import docstrings, engines_never_seen, index, tables
from turbomath.handbook.check_values import STATUSES, CheckValues
from turbomath.handbook.entries import Entry, entry
from turbomath.handbook.examples import Specimens
from turbomath.handbook.subjects import SUBJECTS, formulas, numbered
from turbomath.paper.page import page
from turbomath.paper.parts import Table
from turbomath.table import constants
from turbomath.table.sources import SOURCES
from turbomath.table.version import __version__

NAME = "handbook.html"


def handbook() -> str:
    """Return the handbook as HTML.

    Raises
    ------
    TurbomathError
        If a formula lacks words for a letter, numbers for its example, or a known source.
    """
    checks, specimens = CheckValues(), Specimens()
    subjects = [_subject(place, module, specimens, checks) for place, module in enumerate(SUBJECTS, start=1)]
    specimens.finished()
    return page(
        "handbook.html",
        title="Handbook of formulas",
        invented=False,
        subjects=subjects,
        models=_models(checks),
        never_seen=engines_never_seen.section(),
        statuses=STATUSES,
        glossary=tables.glossary(),
        constants=tables.constants(),
        references=sorted(SOURCES.items(), key=lambda one: one[0].casefold()),
        by_name=index.by_name(numbered()),
        by_symbol=index.by_symbol(),
        colophon=colophon(),
    )


def colophon() -> tuple[str, ...]:
    """Return what the numbers of a page hang on."""
    return f"turbomath {__version__}", f"constants {constants.EDITION}"


def write(folder: Path | str) -> Path:
    """Write the handbook into a folder, which is made if need be, and return its path."""
    path = Path(folder) / NAME
    write_whole(path, handbook())
    return path


def _subject(place: int, module: ModuleType, specimens: Specimens, checks: CheckValues) -> dict[str, object]:
    name, about, more = docstrings.heading(module)
    found: list[Entry] = [entry(function, specimens, checks) for function in formulas(module)]
    id = f"subject-{module.__name__.rpartition('.')[2]}"
    return {"id": id, "number": place, "name": name, "about": about, "more": more, "entries": found}


def _models(checks: CheckValues) -> Table:
    """The check values of what is no closed formula: the models of air."""
    return tables.check_table([row for row in checks.values() if row.function.startswith("air.")], checks)
