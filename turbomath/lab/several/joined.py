"""One run from what several groups entered at one engine: each reading in its reader's name, nothing averaged."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from turbomath.disk import files
from turbomath.lab.entry.entry_run import EntryRun
from turbomath.lab.entry.grid import CONDITION, PASSES, point_of
from turbomath.lab.entry.readings_file import BENCH
from turbomath.table.errors import RefusedFileError, TurbomathError, short

FEWEST = 2
SIDE_BY_SIDE = "Set runs that differ in it side by side instead: turbomath pool RUN RUN."


def join(folders: Sequence[Path | str], into: Path | str) -> list[str]:
    """Write a new run folder with what the groups entered in the live lab; return sentences on it.

    A row that two groups have read stands as the two passes of its point. A third reading of it is left out, and said.

    Parameters
    ----------
    folders : sequence of paths
        A run folder of each group, with the journal of its readings and one and the same bench.toml.
    into : path
        The folder to make.

    Raises
    ------
    OSError, TurbomathError
        If a folder has no entries, another bench.toml or other rows, *into* is not empty, or the disk refuses.
    """
    groups, into = [EntryRun(one) for one in folders], Path(into)
    _refuse(groups, into)
    conditions, units = _conditions(groups), _units(groups)
    with files.whole_folder(into) as place:
        files.write_whole(place / BENCH, (groups[0].folder / BENCH).read_bytes())
        whole = EntryRun(place, conditions, units)
        said = [words for group in groups for words in _taken_up(whole, group)]
        written = whole.write()
        if not written.saved:
            raise TurbomathError(written.sentence)
    return [f"{len(whole.texts)} readings of {len(groups)} groups stand in {into / written.path.name}.", *said]


def _refuse(groups, into):
    if len(groups) < FEWEST:
        raise TurbomathError(f"found {len(groups)} run, expected the runs of two groups or more. Name them one by one.")
    if into.exists() and (not into.is_dir() or any(into.iterdir())):
        raise RefusedFileError(into, "something there already", "a new folder", "Give another after --into.")
    first = groups[0]
    for group in groups:
        if not any(group.texts.values()):
            wanted = "readings entered in lesson 08"
            raise RefusedFileError(group.folder, "no reading", wanted, "Enter some, or leave that run out.")
        if replace(group.bench, run=first.bench.run, file=first.bench.file) != first.bench:
            wanted = f"what {first.folder / BENCH} says of engine and gauges"
            raise RefusedFileError(group.folder / BENCH, "something else", wanted, SIDE_BY_SIDE)


def _conditions(groups):
    """Return the condition of each point; the groups that have the point must agree on it."""
    every = [[one.condition for one in group.grid.rows if one.reading_pass != PASSES[1]] for group in groups]
    longest = max(every, key=len)
    for group, own in zip(groups, every, strict=True):
        for here, there in zip(own, longest, strict=False):
            if here != there:
                raise RefusedFileError(
                    group.folder, f"a row of {here}", f"a row of {there}, as elsewhere", SIDE_BY_SIDE
                )
    return longest


def _units(groups):
    """Return column -> unit; the groups that have the column must agree on it."""
    found: dict[str, str] = {}
    for group in groups:
        for one in group.grid.columns:
            if one.unit and found.setdefault(one.name, one.unit) != one.unit:
                words = one.name.replace("_", " ")
                wanted = f"{found[one.name]}, as elsewhere"
                raise RefusedFileError(group.folder, f"{words} in {one.unit}", wanted, SIDE_BY_SIDE)
    return found


def _taken_up(whole, group):
    """Enter what a group has, row by row, into the whole run; return sentences on rows that another has read too."""
    said, name = [], group.folder.name
    for row in dict.fromkeys(row for row, _ in group.texts):
        read = {
            column: text
            for (where, column), text in group.texts.items()
            if where == row and column != CONDITION and text.strip()
        }
        place = next((one for one in _places(row) if not any(whole.texts.get((one, column)) for column in read)), "")
        if not place:
            said.append(f"{short(name, 30)}, row {row}: left out, since others have read it. It is in {group.folder}.")
            continue
        if place != row:
            said.append(f"{short(name, 30)}, row {row}: another group has read it too. This reading stands as {place}.")
        for column, text in read.items():
            told = whole.enter(
                place, column, text, f"{name} {group.history(row, column)[-1].reader}".strip(), look=False
            )
            if not told.saved:
                raise TurbomathError(told.sentence)
    return said


def _places(row):
    """Return where a row may stand: as it is, or as the other pass of its point."""
    point = point_of(row)
    return [row, *(f"{point}{one}" for one in PASSES if f"{point}{one}" != row)] if point else [row]
