"""Pocket lessons on the disk: a file a lesson, and an index page where all are written."""

from collections.abc import Iterable, Iterator
from pathlib import Path

from turbomath.disk.files import write_whole
from turbomath.pocket.page import index_page, pocket_page
from turbomath.widgets.lesson import Lesson

INDEX = "index.html"


def write(lessons: Iterable[Lesson], folder: Path | str) -> Iterator[Path]:
    """Write lessons into a folder, which is made if need be, and yield each path; several get a page that leads to them."""
    found = list(lessons)
    together = found if len(found) > 1 else []
    for lesson in found:
        path = Path(folder) / f"{lesson.notebook}.html"
        write_whole(path, pocket_page(lesson, together))
        yield path
    if together:
        path = Path(folder) / INDEX
        write_whole(path, index_page(together))
        yield path
