"""The printed report: everything a run says, as one self-contained page."""

from collections.abc import Sequence

import numpy as np

from turbomath import air
from turbomath.lab.checks.flags import Flag
from turbomath.lab.checks.limits import limit_flags
from turbomath.lab.reduction import shares
from turbomath.lab.reduction.reduce import Reduced, gains_a_second_way
from turbomath.lab.report import comparison, faults_shown, once, page_tables, sentences, verdicts_shown
from turbomath.lab.report.consumption import consumption_sentences
from turbomath.lab.report.engine_drawn import engine_of_readings
from turbomath.lab.report.equations import equations
from turbomath.lab.report.for_whom import for_whom
from turbomath.lab.report.log_shown import log_shown
from turbomath.lab.report.page_figure import engine_figure, page_figure
from turbomath.lab.report.record_shown import record_shown
from turbomath.lab.report.records import checksums
from turbomath.paper.page import page
from turbomath.pictures.charge_gain import picture_charge_gain, picture_difference
from turbomath.pictures.densities import picture_densities
from turbomath.table import constants
from turbomath.table.errors import OutOfRangeError, short
from turbomath.table.version import __version__

HIGH, LOW, ENGINE_HIGH = 184, 136, 240  # px: with them the answer of eight points stands on one sheet, the rest on five
BESIDE_SHAFT = 146  # px: of the first, where the answer says of the shaft too
MOST_READINGS_TWICE = 50  # more readings than these are not worked out a second way: it would take minutes


def report_page(
    reduced: Reduced, system: str, flags: Sequence[Flag], baselines: Sequence[Reduced] = (), reader: str = ""
) -> str:
    """Return the report of a run as HTML; *baselines* are one or two other runs, reduced, to set beside it.

    A *reader*, "student" or "instructor", gets boxes to write in or records besides; see `for_whom`.
    """
    run = reduced.run
    passed, unread, none_passed = sentences.limit_sentences(flags, run)
    verdicts, faults = once.verdicts(reduced, baselines, system), once.faults(reduced, baselines)
    return page(
        "report.html",
        title=run.bench.run.title or run.name,
        own=for_whom(reduced, reader, system),
        invented=run.bench.run.invented or any(one.run.bench.run.invented for one in baselines),
        passed=passed,
        unread=unread,
        none_passed=none_passed,
        findings=sentences.findings(flags),
        verdicts=verdicts,
        answers=[*verdicts_shown.answered(verdicts), *verdicts_shown.shaft_answered(verdicts)],
        fault_line=faults_shown.line(faults),
        faults=faults_shown.section(faults),
        no_point=sentences.NO_POINT,
        headline=page_tables.headline_table(reduced, verdicts_shown.boost_due(verdicts, system), system),
        figures=_figures(reduced, system, HIGH if verdicts.shaft is None else BESIDE_SHAFT),
        log=log_shown(run, system),
        record=record_shown(run),
        comparison=_comparison((reduced, *baselines), system) if baselines else None,
        line=once.line(reduced, system),
        cannot_judge=sentences.cannot_judge_sentence(reduced),
        water=sentences.water_sentence(reduced, system),
        results=page_tables.result_tables(reduced, system),
        worn_compressor="" if "measured_aftercooling_density_gain" in reduced.missing else sentences.WORN_COMPRESSOR,
        corrected_power="" if "corrected_power" in reduced.missing else sentences.CORRECTED_POWER,
        shares=_shares(reduced, reader),
        methods=_methods(reduced),
        convention=sentences.CONVENTION,
        readings=page_tables.reading_tables(run),
        same_words=page_tables.same_words(run),
        instruments=page_tables.instrument_table(run, system),
        unknown_columns=sentences.unknown_columns_sentence(run),
        origins=sentences.origin_lines(reduced),
        missing=sentences.missing_lines(reduced),
        equations=equations(reduced),
        own_limits=sentences.OWN_LIMITS,
        colophon=_colophon(reduced, baselines),
    )


def _figures(reduced, system, high):
    def pair(name):
        return reduced[name].value, reduced[name].plus_or_minus

    run, manifold = reduced.run, pair("manifold_density")
    boost = np.where(np.isnan(run["boost"]), run["manifold_pressure"] - run.station_pressure, run["boost"])
    if run.bench.engine.aftercooler == "none":  # the same air as at the compressor outlet
        manifold = (np.nan * boost, np.nan * boost)
    engine = _engine(reduced, boost, system)
    densities = picture_densities(boost, pair("ambient_density"), pair("compressor_outlet_density"), manifold, system)
    pictures = (
        picture_charge_gain(boost, pair("measured_charge_gain"), pair("theoretical_charge_gain"), system),
        picture_difference(boost, *pair("charge_gain_difference"), system),
        *(() if engine else (densities,)),  # the engine's drawing has them at each station
    )
    drawn = [picture for picture in pictures if any(series.x for series in picture.series)]
    first, *others = [page_figure(picture, LOW if turn else high) for turn, picture in enumerate(drawn)] or [None]
    return [one for one in (first, engine, *others) if one]


def _engine(reduced, boost, system):
    """The engine at the point of most boost, where the gauges tell most; None where theory has no state for it."""
    known = np.isfinite(reduced["manifold_density"].value) & np.isfinite(boost)
    if not known.any():
        return None
    drawn = engine_of_readings(reduced, int(np.argmax(np.where(known, boost, -np.inf))), system)
    return drawn and engine_figure(drawn, ENGINE_HIGH)


def _comparison(reduced, system):
    runs = [one.run for one in reduced]
    names = zip(comparison.labels(runs), runs, strict=True)
    passed = [f"{short(run.name)}, {words}" for run in runs[1:] for words in sentences.passed_limits(limit_flags(run))]
    return {
        "passed": passed,
        "runs": [f"{label}: {run.bench.run.title or run.name}" for label, run in names],
        "summary": comparison.summary(reduced, system),
        "held": [*comparison.held_sentences(runs), *consumption_sentences(reduced, system)],
        "table": comparison.compared_table(reduced, system) if comparison.steps(runs) else None,
        "figure": page_figure(comparison.compared_picture(reduced, system)),
    }


def _shares(reduced, reader):
    """What each gauge has in the ± at the point of most gain; for a named reader, what leads at each other point."""
    row = shares.row_of_most_gain(reduced)
    tables = [] if row is None else [page_tables.share_table(reduced, row)]
    tables += [page_tables.share_lines(reduced)] if tables and reader else []
    return [table for table in tables if table]


def _methods(reduced):
    if len(reduced.run) > MOST_READINGS_TWICE:
        return ""
    try:
        second = gains_a_second_way(reduced.run, air.choose(reduced.air))
    except OutOfRangeError:  # a gauge so coarse that its error alone makes states that cannot be
        return sentences.NO_SECOND_WAY
    return sentences.methods_sentence(reduced, second)


def _colophon(reduced, baselines):
    """Return (what, value) of everything needed to get the same report again."""
    run = reduced.run
    return [
        ("run", run.name),
        ("date of the run", run.bench.run.date or "not stated"),
        ("files read", f"{checksums(run)} (first figures of SHA-256)"),
        ("set beside", ", ".join(one.run.name for one in baselines) or "no other run"),
        ("kit", f"turbomath {__version__}"),
        (
            "constants",
            f"edition {constants.EDITION}: R = {constants.AIR_GAS_CONSTANT} J/(kg K), "
            f"heat capacity ratio {constants.AIR_HEAT_CAPACITY_RATIO:g}",
        ),
        ("air", sentences.AIR_WORDS[reduced.air]),
    ]
