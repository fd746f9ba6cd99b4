"""The report of a run: on the terminal, and as a page and a table in a folder."""

import textwrap
from pathlib import Path

from turbomath import __version__, cautions, constants
from turbomath.errors import TurbomathError, short
from turbomath.files import write_whole
from turbomath.lab import sentences, tables
from turbomath.lab import limits
from turbomath.lab.flags import LEVELS
from turbomath.lab.limits import CHECK

MOST_BASELINES = 2


def folder_for(run, out=None):
    """Return the folder a report goes to: *out*, or ``./<run>-report``; never inside the run's own folder."""
    folder = Path(out) if out else Path.cwd() / f"{run.name}-report"
    if folder.resolve().is_relative_to(Path(run.folder).resolve()):
        raise TurbomathError(
            f"{folder}: found a folder inside the run itself, expected one outside it. Give another with --out DIR."
        )
    return folder


def write(reduced, folder, system, baselines=()):
    """Write report.html and reduced.csv whole into *folder* and return the paths written.

    *baselines* are one or two other runs, reduced, that the page sets beside this one.
    """
    from turbomath.lab.report_page import report_page  # draws pictures, so it is slow to import

    if len(baselines) > MOST_BASELINES:
        raise TurbomathError(f"found {len(baselines)} runs to set beside this one, expected at most {MOST_BASELINES}.")
    texts = {
        "report.html": report_page(reduced, system, check_run(reduced.run), baselines),
        "reduced.csv": tables.reduced_csv(reduced, system),
    }
    paths = [Path(folder) / name for name in texts]
    for path, text in zip(paths, texts.values(), strict=True):
        write_whole(path, text)
    return paths


def on_terminal(reduced, system, baselines=()):
    """Return the report as text for a terminal."""
    bench = reduced.run.bench
    invented = "   INVENTED: no engine was measured" if bench.run.invented else ""
    flags = check_run(reduced.run)
    parts = [
        f"{short(bench.run.title or reduced.run.name, 70)}{invented}",
        _wrapped(cautions.STANDING),
        _limits(flags, reduced.run),
        _findings(flags),
        tables.terminal(reduced, system),
        _wrapped(sentences.agreement_sentence(reduced)),
        _wrapped(sentences.cannot_judge_sentence(reduced)),
        _comparison(reduced, system, baselines),
        _wrapped(sentences.CONVENTION),
        _listed("Where the numbers come from", sentences.origin_lines(reduced)),
        _listed("What could not be worked out, and why", sentences.missing_lines(reduced)),
        _wrapped(sentences.unknown_columns_sentence(reduced.run)),
        f"turbomath {__version__}, constants {constants.EDITION}, air: {reduced.air} gas",
    ]
    return "\n\n".join(part for part in parts if part)


def check_run(run):
    """TEMPORARY"""
    try:
        from turbomath.lab.checks import check_run
    except ImportError:
        return limits.limit_flags(run)
    return check_run(run)


def _limits(flags, run):
    """The maker's limits first: each one passed, each one not judged, or that none was passed."""
    passed, unread, none_passed = sentences.limit_sentences(flags, run)
    lines = [*(_wrapped(f"LIMIT  {line}") for line in passed), none_passed, *(_wrapped(line, "  ") for line in unread)]
    return "\n".join(line for line in lines if line)


def _findings(flags):
    """What the checks found, the worst first; the limits are told before."""
    found = [flag for flag in flags if flag.level != "limit" and flag.check != CHECK]
    found.sort(key=lambda flag: LEVELS.index(flag.level))
    return "\n".join(_wrapped(f"{flag.level.upper():<6} {_at(flag)}{sentences.as_sentence(flag)}") for flag in found)


def _at(flag):
    return f"point {short(flag.point)}: " if flag.point else ""


def _comparison(reduced, system, baselines):
    if not baselines:
        return ""
    from turbomath.lab import comparison

    return _wrapped(comparison.summary((reduced, *baselines), system))


def _listed(head, lines):
    return "\n".join([head, *(_wrapped(line, "  ") for line in lines)]) if lines else ""


def _wrapped(text, indent=""):
    return textwrap.fill(text, 100, initial_indent=indent, subsequent_indent=indent + "  " * bool(indent))
