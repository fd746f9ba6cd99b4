"""The blank sheet for the clipboard: what to settle before the start, the limits, and boxes for every reading."""

from dataclasses import dataclass
from pathlib import Path

from turbomath import units
from turbomath.disk.files import write_whole
from turbomath.lab.checks.limits import limit_words
from turbomath.lab.record import questions
from turbomath.lab.run.bench import Bench, read_bench
from turbomath.lab.run.blank import sheet_columns
from turbomath.lab.run.instrument_words import accuracy_words, amount_words
from turbomath.lab.run.readings import run_folder
from turbomath.paper.page import page
from turbomath.paper.parts import Head, Table
from turbomath.table import cautions, constants, prose
from turbomath.table.errors import RefusedFileError, short
from turbomath.table.quantities import QUANTITIES
from turbomath.table.version import __version__

ROWS = ("zero", "low idle", "high idle", *("load",) * 7, "cool down", "zero after")
MOST_COLUMNS = 7  # number boxes side by side that a gloved hand can still write in; large print has two fewer

_WORDS = prose.read(__file__, "blank_sheet.toml")
HEADER = _WORDS.texts("header")
YES_OR_NO = _WORDS.text("yes_or_no")
_WORDS.finished()


@dataclass(frozen=True)
class Box:
    """The head of a column of boxes: its name, its unit, and to which step it is read ("" where that is not known)."""

    name: str
    unit: str = ""
    step: str = ""


def write(folder: Path | str, out: Path | str | None = None, *, large: bool = False) -> Path:
    """Write the blank sheet of the bench in *folder* whole, and return its path.

    Parameters
    ----------
    folder : path
        A run folder, or the name of a shipped run; bench.toml is enough.
    out : path, optional
        The page to write; by default ``<folder>-sheet.html`` where you are.
    large : bool
        Large print: fewer boxes side by side, bigger letters.

    Raises
    ------
    RefusedFileError
        If bench.toml is not there or cannot be, or *out* is a folder.
    """
    folder = run_folder(folder)
    path = Path(out) if out else Path.cwd() / f"{folder.resolve().name}-sheet.html"
    if path.is_dir():
        raise RefusedFileError(path, "a folder", "the name of a page, such as sheet.html", "Give it with --out FILE.")
    write_whole(path, sheet(read_bench(folder / "bench.toml"), large=large))
    return path


def sheet(bench: Bench, *, large: bool = False) -> str:
    """Return the blank sheet of a bench as HTML."""
    names = sheet_columns(bench)
    return page(
        "readings_sheet.html",
        title=f"Readings sheet: {short(bench.run.title, 70) or 'engine on a stand'}",
        invented=bench.run.invented,
        large=large,
        header=HEADER,
        barometer=bench.site.barometer,
        record_lead=questions.LEAD,
        record=[_part(one, bench) for one in questions.PARTS],
        limits=[limit_words(bench, key) for key in bench.limits],
        shop_cautions=cautions.SHOP_CAUTIONS,
        instruments=_instruments(bench, names),
        grids=_grids(bench, names, large),
        rows=ROWS,
        colophon=f"turbomath {__version__}, constants {constants.EDITION}",
    )


def _part(part, bench):
    """A part of the run-up record as the sheet asks it: questions of one box, then tables (words, heads, rows)."""
    system = bench.run.units
    plain = [(one.words, _box_of(one.columns[0], system)) for one in part.questions if not one.is_table]
    tables = [
        (one.words, ["", *(_head(column, system) for column in one.columns)], [row.words for row in one.rows(bench)])
        for one in part.questions
        if one.is_table
    ]
    return {"key": part.key, "words": part.words, "plain": plain, "tables": tables}


def _box_of(column, system):
    return YES_OR_NO if column.kind == questions.YES_OR_NO else column.unit(system)


def _head(column, system):
    return f"{column.words} [{column.unit(system)}]" if column.unit(system) else column.words


def _grids(bench, names, large):
    """The boxes of each reading, so many side by side as can be written in."""
    most = MOST_COLUMNS - 2 * large
    parts = -(-len(names) // most)
    size = -(-len(names) // parts)
    return [[_box(bench, name) for name in names[at : at + size]] for at in range(0, len(names), size)]


def _box(bench, name):
    return Box(QUANTITIES[name].plain_name, units.display(name, bench.run.units), _step(bench, name))


def _step(bench, name):
    """To which step the gauge is read, in words; where the step differs along the scale, the finest."""
    steps = [size for _, size in bench.instrument(name).resolution or ()]
    return amount_words(name, min(steps), bench.run.units) if steps else ""


def _instruments(bench, names):
    assumed = bench.assumed_instruments(names)
    rows = []
    for name in names:
        instrument = bench.instrument(name)
        kind = short(instrument.kind or "not stated", 30) + (" (assumed)" if name in assumed else "")
        accuracy = accuracy_words(name, instrument, bench.run.units)
        rows.append((QUANTITIES[name].plain_name, kind, accuracy, str(instrument.calibrated or ""), ""))
    heads = ("reading", "instrument", "accuracy", "calibrated", "shop number; remark")
    caption = (
        "Instruments. Assumed: bench.toml does not state it, so the usual one of a shop is taken (common practice)"
    )
    return Table(caption, tuple(Head(head) for head in heads), tuple(rows), style="words")
