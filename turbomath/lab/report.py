"""The report of a run: limits and cautions first, then what was measured, what theory says, and what is missing."""

import textwrap
from pathlib import Path

from turbomath import __version__, cautions, constants
from turbomath.errors import TurbomathError
from turbomath.files import write_whole
from turbomath.lab import limits, tables
from turbomath.quantities import QUANTITIES

CONVENTION = (
    "Each ± has coverage factor 2: a tolerance is a rectangular half-width, u = a/√3. Measured and theoretical come "
    "from the same gauges, so the difference has its own ±; they agree when the difference is no greater than that."
)


def folder_for(run, out=None):
    """Return the folder a report goes to: *out*, or ``./<run>-report``; never inside the run's own folder."""
    folder = Path(out) if out else Path.cwd() / f"{run.name}-report"
    if folder.resolve().is_relative_to(Path(run.folder).resolve()):
        raise TurbomathError(
            f"{folder}: found a folder inside the run itself, expected one outside it. Give another with --out DIR."
        )
    return folder


def write(reduced, folder, system):
    """Write reduced.csv whole into *folder* and return the paths written."""
    path = Path(folder) / "reduced.csv"
    write_whole(path, tables.reduced_csv(reduced, system))
    return [path]


def on_terminal(reduced, system):
    """Return the report as text for a terminal."""
    bench = reduced.run.bench
    invented = "   INVENTED: no engine was measured" if bench.run.invented else ""
    parts = [
        f"{bench.run.title or reduced.run.name}{invented}",
        _wrapped(cautions.STANDING),
        "\n".join(limit_sentences(reduced.run)),
        tables.terminal(reduced, system),
        _wrapped(agreement_sentence(reduced)),
        _wrapped(CONVENTION),
        "\n".join(["Where the numbers come from", *(_wrapped(line, "  ") for line in origin_lines(reduced))]),
    ]
    if reduced.missing:
        parts.append("\n".join(["What could not be worked out, and why",
                                *(_wrapped(line, "  ") for line in missing_lines(reduced))]))  # fmt: skip
    parts.append(f"turbomath {__version__}, constants {constants.EDITION}, air: {reduced.air} gas")
    return "\n\n".join(parts)


def limit_sentences(run):
    """Return the maker's limits first: each one passed, each one not judged, or that none was passed."""
    flags = limits.limit_flags(run)
    passed = [f"LIMIT  point {flag.point}: {flag.reason}. {flag.action}" for flag in flags if flag.level == "limit"]
    unread = [f"       {flag.reason}" for flag in flags if flag.level == "note"]
    if not run.bench.limits:
        return ["No limit is stated in bench.toml: none was judged. The maker's manual has them."]
    return (passed or ["No stated limit was passed."]) + unread


def agreement_sentence(reduced):
    """Return one sentence: at how many points measured and theoretical gain agree."""
    judged = [answer for answer in reduced.agree if answer]
    if not judged:
        return "Measured and theoretical gain cannot be compared: see below for what is missing."
    apart = [point for point, answer in zip(reduced.run.points, reduced.agree, strict=True) if answer == "no"]
    if not apart:
        return f"Measured and theoretical charge gain agree at all {len(judged)} points, as far as these gauges tell."
    return (
        f"Measured and theoretical charge gain agree at {len(judged) - len(apart)} of {len(judged)} points; they "
        f"differ by more than their own ± at point {', '.join(apart)}."
    )


def origin_lines(reduced):
    """Return, in words, which reading or assumption stands behind each station, and which instruments are assumed."""
    lines = []
    for quantity, used in reduced.sources.items():
        name = QUANTITIES[quantity].plain_name
        if used and set(used) != {name}:
            lines.append(f"{name}: {'; '.join(used)}")
    assumed = reduced.run.bench.assumed_instruments(reduced.run.columns)
    if assumed:
        names = ", ".join(QUANTITIES[name].plain_name for name in assumed)
        lines.append(f"instruments not stated, usual shop ones assumed: {names}")
    return lines


def missing_lines(reduced):
    """Return each result that no row allows, with the reason."""
    return [f"{QUANTITIES[name].plain_name}: {reason}" for name, reason in reduced.missing.items()]


def _wrapped(text, indent=""):
    return textwrap.fill(text, 100, initial_indent=indent, subsequent_indent=indent + "  " * bool(indent))
