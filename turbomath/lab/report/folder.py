"""The folder of a report: where it goes, and what is written into it."""

from collections.abc import Sequence
from pathlib import Path

from turbomath.disk.files import write_whole
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.report import once, tables, verdicts_shown
from turbomath.lab.run.readings import Run
from turbomath.lab.run.workbook import workbook
from turbomath.table.errors import TurbomathError

MOST_BASELINES = 2


def folder_for(run: Run, out: Path | str | None = None, baselines: Sequence[Run] = ()) -> Path:
    """Return the folder a report goes to: *out*, or ``./<run>-report``; never inside a run's own folder."""
    if len(baselines) > MOST_BASELINES:
        raise TurbomathError(
            f"--baseline: found {len(baselines)} runs to set beside this one, expected at most {MOST_BASELINES}. "
            "Leave some out."
        )
    folder = Path(out) if out else Path.cwd() / f"{run.name}-report"
    if any(folder.resolve().is_relative_to(Path(one.folder).resolve()) for one in (run, *baselines)):
        raise TurbomathError(
            f"{folder}: found a folder inside the run itself, expected one outside it. Give another with --out DIR."
        )
    return folder


def write(
    reduced: Reduced,
    folder: Path | str,
    system: str,
    baselines: Sequence[Reduced] = (),
    *,
    xlsx: bool = False,
    reader: str = "",
) -> list[Path]:
    """Write report.html and reduced.csv, and reduced.xlsx if asked for, whole into *folder*; return their paths.

    *baselines* are one or two other runs, reduced, that the page sets beside this one; *reader* is "student",
    "instructor" or "", for what the page has besides the results.
    """
    from turbomath.lab.report.page import report_page  # draws pictures, so it is slow to import

    found = once.verdicts(reduced, baselines, system)
    verdicts = verdicts_shown.columns(found, reduced.run, system)
    texts: dict[str, str | bytes] = {
        "report.html": report_page(reduced, system, once.flags(reduced), baselines, reader),
        "reduced.csv": tables.reduced_csv(reduced, system, verdicts),
    }
    if xlsx:
        rows = tables.reduced_rows(reduced, system, verdicts)
        words = (
            "point",
            "condition",
            "expected boost from",
            *verdicts_shown.ANSWER_HEADS,
            verdicts_shown.SHAFT_HEAD,
            "agree",
        )
        texts["reduced.xlsx"] = workbook(rows, "reduced", words)
    paths = [Path(folder) / name for name in texts]
    for path, text in zip(paths, texts.values(), strict=True):
        write_whole(path, text)
    return paths
