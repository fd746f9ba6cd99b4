"""Pocket lessons on the disk: a file a lesson, and an index page where all are written."""

import os
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from turbomath.disk.files import write_whole
from turbomath.pocket.page import index_page, panel_names, pocket_page
from turbomath.pocket.record import recorded_panel
from turbomath.table.errors import TurbomathError
from turbomath.widgets.lesson import Lesson

INDEX = "index.html"
WHICH = "Say which lesson, such as: turbomath lessons 03 --pocket {folder}. For every one: --pocket {folder} --all"


def name_asked(name: str | None, every: bool, folder: str) -> str | None:
    """Return the name of the lesson that is asked for, None for every one.

    Raises
    ------
    TurbomathError
        If neither is asked for: every lesson takes minutes.
    """
    if name is None and not every:
        raise TurbomathError(WHICH.format(folder=folder))
    return None if every else name


def write(lessons: Iterable[Lesson], folder: Path | str) -> Iterator[Path]:
    """Write lessons into a folder, which is made if need be, and yield each path.

    Several get a page that leads to them. Panels are recorded beside each other, as many as there are processors.
    """
    found = list(lessons)
    together = found if len(found) > 1 else []
    Path(folder).mkdir(parents=True, exist_ok=True)  # a folder that cannot be made is refused before the work
    with ProcessPoolExecutor(min(os.cpu_count() or 1, 8)) as pool:
        later = found[::-1]  # the last lessons have the panels that take longest: they begin
        records = {
            one.name: {name: pool.submit(recorded_panel, one.name, name) for name in panel_names(one)} for one in later
        }
        for lesson in later:
            done = {name: one.result() for name, one in records[lesson.name].items()}
            path = Path(folder) / f"{lesson.notebook}.html"
            write_whole(path, pocket_page(lesson, done, together))
            yield path
    if together:
        path = Path(folder) / INDEX
        write_whole(path, index_page(together))
        yield path
