"""What the live lab shows of the entries: each box with what is said of it, limits first, and what comes of them."""

from typing import Any

from turbomath import units
from turbomath.lab.checks import zero_drift
from turbomath.lab.entry.cell_flags import left_out_flag
from turbomath.lab.entry.entry_run import Results
from turbomath.lab.entry.grid import PASSES
from turbomath.lab.entry.readings_file import READINGS
from turbomath.lab.report import tables
from turbomath.lab.report.engine_drawn import engine_of_readings
from turbomath.lab.run.channels import CONDITIONS
from turbomath.pictures.charge_gain import picture_charge_gain
from turbomath.table.quantities import QUANTITIES
from turbomath.units.rounding import fixed
from turbomath.widgets import own_run, readings_told
from turbomath.widgets.answers import Answer, Table, drawn
from turbomath.widgets.run_desk import Chosen

LEVELS = {"limit": "Over the limit.", "red": "Cannot be.", "amber": "Look again."}
KEPT = "Your text stays in its box. Make room, or let your instructor help; then press save again."


def sheet_frame(desk: Any) -> dict[str, Any]:
    """Return the grid of an open run: its heads, its rows, each box with what is said of it, and the state in words."""
    own, grid, wrote = desk.entries, desk.entries.grid, desk.wrote
    judge = desk.asked.open and bool(desk.readings and desk.readings.rows)
    notes = desk.readings.notes(whole_run=judge) if desk.readings else []
    texts, unsaved, twice = own.texts, own.unsaved, _twice(desk)
    rows = [row for row in grid.rows if row.reading_pass != PASSES[1] or row.point in twice]
    saved = sum(bool(text.strip()) for box, text in texts.items() if box not in unsaved)
    return {
        "key": str(own.folder),
        "title": own.bench.run.title or own.folder.name,
        "folder": str(own.folder),
        "invented": own.bench.run.invented,
        "note": _note(own),
        "said": desk.said,
        "unsaved": len(unsaved),
        "fault": "" if wrote is None or wrote.saved else wrote.sentence,
        "beside": wrote.sentence if wrote and wrote.saved and wrote.path.name != READINGS else "",
        "saved": saved,
        "line": _line(saved, len(unsaved)),
        "conditions": [*CONDITIONS],
        "columns": [[one.name, one.head] for one in grid.columns],
        "rows": [
            [row.key, _head(row), row.point if row.reading_pass and row.point not in twice else ""] for row in rows
        ],
        "boxes": {row.key: [_box(desk, row, one.name, texts, unsaved) for one in grid.columns] for row in rows},
        "undo": bool(own.entries),
        "notes": notes,
        "stops": stops(notes) or desk.record.stops(),
    }


def stops(notes: list[tuple[str, list[str]]]) -> list[str]:
    """Return the lines of the notes that must not wait: limits passed, and readings that stop the engine."""
    return [line for _, lines in notes for line in lines if line.startswith("LIMIT") or "Stop the engine" in line]


def readings_of(results: Results) -> own_run.Readings:
    """Return the `Readings` that lessons show, of what was entered so far."""
    rows = tuple(tables.judged_rows(results.reduced))
    return own_run.Readings(results.run, results.reduced, results.flags, rows, own_run.boost_of(results.run))


def shown(readings: own_run.Readings, system: str, *, wall: bool = False) -> dict[str, Any]:
    """Return what the page draws of the readings."""
    return drawn(answer(readings, system), wall=wall)


def answer(readings: own_run.Readings, system: str) -> Answer:
    """Return what the readings come to: the picture, the last point that can be judged in words, tables."""
    reduced, row = readings.reduced, (readings.rows[-1] if readings.rows else None)
    chosen, rows = Chosen(readings, row), list(readings.rows)
    measured, theory = (
        (reduced[name].value[rows], reduced[name].plus_or_minus[rows])
        for name in ("measured_charge_gain", "theoretical_charge_gain")
    )
    picture = picture_charge_gain(readings.boost[rows], measured, theory, system)
    twins = (readings_told.table(chosen, system), *_drift_table(readings.run, system))
    engine = engine_of_readings(reduced, row, system) if row is not None else None
    said, readouts = readings_told.sentence(chosen, system), readings_told.readouts(chosen, system)
    return Answer((picture,), said, readouts, twins, engines=(engine,) if engine else ())


def _line(saved, unsaved):
    if unsaved:
        return f"{unsaved} NOT SAVED, {saved} saved."
    return f"{saved} saved. All is on the disk." if saved else "Nothing entered yet. Begin with the zeros, engine off."


def _note(own):
    restored = f"{own.restored} readings were found on the disk and stand in their boxes again. "
    return f"{restored if own.restored else ''}{own.note}".strip()


def _head(row):
    if not row.reading_pass:
        return row.condition
    return f"{row.point} {row.condition}" + (", second pass" if row.reading_pass == PASSES[1] else "")


def _twice(desk):
    """The points of which a second pass is shown: asked for, or entered before."""
    seconds = {row.key: row.point for row in desk.entries.grid.rows if row.reading_pass == PASSES[1]}
    entered = {seconds[row] for (row, _), text in desk.entries.texts.items() if row in seconds and text.strip()}
    return desk.twice | entered


def _box(desk, row, column, texts, unsaved):
    """One box: its text, whether it is kept, how bad it is, and the worst that is to be said of it."""
    box = row.key, column
    text = texts.get(box, "")
    if box in unsaved:
        return [text, False, "fault", f"{unsaved[box]} {KEPT}"]
    if not text.strip():
        return [text, True, "", ""]
    for level, words in LEVELS.items():
        for flag in _flags(desk, row, column):
            if flag.level == level:
                return [text, True, level, f"Saved. {words} {flag.reason}. {flag.action}"]
    return [text, True, "", "Saved."]


def _flags(desk, row, column):
    """The flags of a box, once it has been looked at."""
    found = desk.results
    if not found or (row.key, column) in desk.fresh:
        return ()
    left_out = [one for one in found.left_out if (one.row, one.column) == (row.key, column)]
    if left_out:
        return (left_out_flag(left_out[0], row.point),)
    return [one for one in found.flags if one.column == column and one.point == row.point]


def _drift_table(run, system):
    """The zeros before and after, if there are both."""
    found = zero_drift.drifts(run)
    if not found:
        return ()
    rows = []
    for one in found:
        unit = units.display(one.column, system).split()[0]
        quantity = "boost" if QUANTITIES[one.column].kind == "pressure" else one.column
        before, after, moved, allowed = (
            fixed(units.from_si(value, unit, quantity), 2) for value in (one.before, one.after, one.moved, one.allowed)
        )
        verdict = "steady" if one.steady else "moved: check the gauge"
        rows.append((f"{QUANTITIES[one.column].plain_name} [{unit}]", before, after, moved, allowed, verdict))
    heads = ("gauge", "zero before", "zero after", "moved", "may move", "")
    return (Table("Zeros before and after the run", heads, tuple(rows)),)
