"""The report of a run: on the terminal, and as a page and a table in a folder."""

import textwrap
from pathlib import Path

from turbomath import __version__
from turbomath.disk.files import write_whole
from turbomath.lab.checks import check_run
from turbomath.lab.report import sentences, tables
from turbomath.lab.run.workbook import workbook
from turbomath.table import cautions, constants
from turbomath.table.errors import TurbomathError, short

MOST_BASELINES = 2


def folder_for(run, out=None, baselines=()):
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


def write(reduced, folder, system, baselines=(), *, xlsx=False, reader=""):
    """Write report.html and reduced.csv, and reduced.xlsx if asked for, whole into *folder*; return their paths.

    *baselines* are one or two other runs, reduced, that the page sets beside this one; *reader* is "student",
    "instructor" or "", for what the page has besides the results.
    """
    from turbomath.lab.report.written_page import report_page  # draws pictures, so it is slow to import

    texts = {
        "report.html": report_page(reduced, system, check_run(reduced.run), baselines, reader),
        "reduced.csv": tables.reduced_csv(reduced, system),
    }
    if xlsx:
        rows = tables.reduced_rows(reduced, system)
        texts["reduced.xlsx"] = workbook(rows, "reduced", ("point", "condition", "agree"))
    paths = [Path(folder) / name for name in texts]
    for path, text in zip(paths, texts.values(), strict=True):
        write_whole(path, text)
    return paths


def on_terminal(reduced, system, baselines=()):
    """Return the report as text for a terminal."""
    bench = reduced.run.bench
    invented = "   INVENTED: no engine was measured" if bench.run.invented else ""
    flags = check_run(reduced.run)
    found = sentences.findings(flags)
    parts = [
        f"{short(bench.run.title or reduced.run.name, 70)}{invented}",
        _wrapped(cautions.STANDING),
        _limits(flags, reduced.run),
        _findings(one for one in found if one[0] != "note"),
        tables.terminal(reduced, system),
        _wrapped(sentences.agreement_sentence(reduced)),
        _wrapped(sentences.cannot_judge_sentence(reduced)),
        _wrapped("" if "corrected_power" in reduced.missing else sentences.CORRECTED_POWER),
        _wrapped(sentences.water_sentence(reduced, system)),
        _comparison(reduced, system, baselines),
        _findings(one for one in found if one[0] == "note"),
        _wrapped(sentences.CONVENTION),
        _listed("Where the numbers come from", sentences.origin_lines(reduced)),
        _listed("What could not be worked out, and why", sentences.missing_lines(reduced)),
        _wrapped(sentences.unknown_columns_sentence(reduced.run)),
        f"turbomath {__version__}, constants {constants.EDITION}, air: {sentences.AIR_WORDS[reduced.air]}",
    ]
    return "\n\n".join(part for part in parts if part)


def _limits(flags, run):
    """The maker's limits first: each one passed, each one not judged, or that none was passed."""
    passed, unread, none_passed = sentences.limit_sentences(flags, run)
    lines = [*(_wrapped(f"LIMIT  {line}") for line in passed), none_passed, *(_wrapped(line, "  ") for line in unread)]
    return "\n".join(line for line in lines if line)


def _findings(found):
    """What the checks found: of each kind the first in full, and the points of the others."""
    return "\n".join(_wrapped(_finding(*one)) for one in found)


def _finding(level, told, action):
    (point, reason), *others = told
    where = f"point {point}: " if point else ""
    also = f" Also at point {', '.join(point for point, _ in others)}." if others else ""
    return f"{level.upper():<6} {where}{reason}{also} {action}"


def _comparison(reduced, system, baselines):
    if not baselines:
        return ""
    from turbomath.lab.report import comparison

    return _wrapped(comparison.summary((reduced, *baselines), system))


def _listed(head, lines):
    return "\n".join([head, *(_wrapped(line, "  ") for line in lines)]) if lines else ""


def _wrapped(text, indent=""):
    return textwrap.fill(text, 100, initial_indent=indent, subsequent_indent=indent + "  " * bool(indent))
