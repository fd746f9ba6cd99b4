"""The report of a run as text for a terminal."""

from collections.abc import Sequence

import numpy as np

from turbomath import units
from turbomath.disk import plain_text
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.shares import GAINS
from turbomath.lab.report import comparison, faults_shown, once, sentences, tables, verdicts_shown
from turbomath.lab.report.consumption import consumption_sentences
from turbomath.lab.report.shaft_shown import terminal_groups
from turbomath.table import cautions, constants
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES
from turbomath.table.version import __version__
from turbomath.units.rounding import NO_VALUE

MACHINES = (
    "pressure_ratio",
    "compressor_efficiency",
    "effectiveness",
    "compressor_outlet_density",
    "manifold_density",
    "mass_flow_gain",
)
FUEL = ("fuel_flow", "power", "air_fuel_ratio", "excess_air_ratio", "specific_fuel_consumption", "corrected_power")


def on_terminal(reduced: Reduced, system: str, baselines: Sequence[Reduced] = ()) -> str:
    """Return the report as text for a terminal."""
    bench = reduced.run.bench
    invented = "   INVENTED: no engine was measured" if bench.run.invented else ""
    flags = once.flags(reduced)
    found, three = sentences.findings(flags), once.verdicts(reduced, baselines, system)
    faults, line = once.faults(reduced, baselines), once.line(reduced, system)
    parts = [
        _wrapped(f"{short(bench.run.title or reduced.run.name, 70)}{invented}"),
        _wrapped(cautions.STANDING),
        _limits(flags, reduced.run),
        _findings(one for one in found if one[0] != "note"),
        _wrapped(reduced.run.log.sentence if reduced.run.log else ""),
        _verdicts(three),
        _wrapped(faults_shown.line(faults), "  "),
        _tables(reduced, system),
        _wrapped(sentences.cannot_judge_sentence(reduced)),
        _wrapped("" if "corrected_power" in reduced.missing else sentences.CORRECTED_POWER),
        _wrapped(sentences.water_sentence(reduced, system)),
        _listed(line.title, [*line.sentences, line.notes[0]]) if line else "",
        _comparison(reduced, system, baselines),
        faults_shown.on_terminal(faults),
        _findings(one for one in found if one[0] == "note"),
        _wrapped(sentences.CONVENTION),
        _wrapped(three.rule),
        _listed("Where the numbers come from", sentences.origin_lines(reduced)),
        _listed("What could not be worked out, and why", sentences.missing_lines(reduced)),
        _wrapped(sentences.unknown_columns_sentence(reduced.run)),
        _wrapped(f"turbomath {__version__}, constants {constants.EDITION}, air: {sentences.AIR_WORDS[reduced.air]}"),
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
    also = f" Also at point{'s' * (len(others) > 1)} {', '.join(point for point, _ in others)}." if others else ""
    return f"{level.upper():<6} {where}{reason}{also} {action}"


def _verdicts(found):
    """The one sentence for all three questions, then each answer, then the rule behind them."""
    answered = [*verdicts_shown.answered(found), *verdicts_shown.shaft_answered(found)]
    lines = [f"{one.question} {answer.upper()}. {one.sentence}" for answer, one in answered]
    return "\n".join([_wrapped(found.overall), "", *(_wrapped(line, "  ") for line in lines)])


def _comparison(reduced, system, baselines):
    if not baselines:
        return ""
    both = (reduced, *baselines)
    return "\n".join(_wrapped(one) for one in (comparison.summary(both, system), *consumption_sentences(both, system)))


def _listed(head, lines):
    return "\n".join([head, *(_wrapped(line, "  ") for line in lines)]) if lines else ""


def _wrapped(text, indent=""):
    return plain_text.wrapped(text, indent, later="  " * bool(indent))


def _tables(reduced, system):
    """Return the tables of a run as text: measured against theoretical gain, what stands behind it, and the fuel."""
    rows = tables.judged_rows(reduced)
    if not rows:
        return _wrapped(sentences.NO_POINT)
    lead = _lead_columns(reduced.run, rows, system)
    gains = [_column(reduced, name, rows, system) for name in GAINS]
    agree = ("agree", "", [reduced.agree[row] or "?" for row in rows])
    machines, fuel = (_known_columns(reduced, names, rows, system) for names in (MACHINES, FUEL))
    shaft = {
        caption: _known_columns(reduced, names, rows, system) for caption, names in terminal_groups(reduced).items()
    }
    return "\n".join(
        [
            _wrapped("Charge gain: how much denser the charge is than the air outside"),
            "",
            *_lines([*lead, *gains, agree]),
            "",
            *(["What stands behind it", "", *_lines([lead[0], *machines])] if machines else []),
            *(line for caption, found in shaft.items() if found for line in _captioned(caption, lead[0], found)),
            *(_captioned("Fuel and power", lead[0], fuel) if fuel else []),
        ]
    )


def _captioned(caption, lead, columns):
    return ["", caption, "", *_lines([lead, *columns])]


def _lead_columns(run, rows, system):
    columns = [
        ("point", "", [short(run.points[row], 24) for row in rows]),
        ("condition", "", [run.conditions[row] for row in rows]),
    ]
    for name in ("load", "boost"):
        if name in run.columns:
            unit = units.display(name, system)
            values = units.from_si(run[name], unit, name)
            columns.append(
                (name, unit, [f"{values[row]:.1f}" if np.isfinite(values[row]) else NO_VALUE for row in rows])
            )
    return columns


def _known_columns(reduced, names, rows, system):
    columns = [_column(reduced, name, rows, system) for name in names]
    return [column for column in columns if any(text != NO_VALUE for text in column[2])]


def _column(reduced, name, rows, system):
    unit = units.display(name, system)
    return QUANTITIES[name].plain_name, unit if unit != "-" else "", tables.result_texts(reduced, name, rows, system)


def _lines(columns):
    """Right-align text columns under heads of several lines; those for which a line has no room follow below."""
    blocks = [[*_broken(head), unit, *texts] for head, unit, texts in columns]
    tallest = max(len(block) for block in blocks)
    lead, *rest = ([""] * (tallest - len(block)) + block for block in blocks)
    heads, lines = tallest - len(columns[0][2]), []
    for shown in _fitting(lead, rest):
        found = ["  ".join(line).rstrip() for line in zip(*map(_right_aligned, shown), strict=True)]
        rule = "-" * max(len(line) for line in found)
        lines += [*([""] if lines else []), *found[:heads], rule, *found[heads:]]
    return lines


def _fitting(lead, rest):
    """Yield as many columns as one line has room for behind the first, until none is left."""
    room, shown = plain_text.columns(), [lead]
    for block in rest:
        if len(shown) > 1 and sum(_wide(one) + 2 for one in (*shown, block)) - 2 > room:
            yield shown
            shown = [lead]
        shown.append(block)
    yield shown


def _right_aligned(block):
    return [text.rjust(_wide(block)) for text in block]


def _wide(block):
    return max(len(text) for text in block)


def _broken(head, width=13):
    lines = [""]
    for word in head.split():
        if lines[-1] and len(lines[-1]) + 1 + len(word) > width:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return lines
