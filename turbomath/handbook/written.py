"""The handbook or the formula sheet on disk, and what it took to make it."""

import time
from pathlib import Path

from turbomath.handbook import book
from turbomath.handbook import sheet as formula_sheet
from turbomath.handbook.subjects import numbered

_MEGABYTE = 1e6


def written(folder: Path | str, *, sheet: bool = False) -> tuple[str, ...]:
    """Write a page into a folder and return what to say of it, line by line."""
    start = time.perf_counter()
    path = formula_sheet.write(folder) if sheet else book.write(folder)
    count = len(formula_sheet.FORMULAS if sheet else numbered())
    cost = f"{count} formulas, {path.stat().st_size / _MEGABYTE:.2f} MB, made in {time.perf_counter() - start:.1f} s"
    return f"Written: {path} ({cost})", "Open it in a browser; it prints on Letter and A4."
