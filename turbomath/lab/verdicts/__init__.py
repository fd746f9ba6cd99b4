"""Three questions to a run, each with its verdict: the boost, the machines, and the charge at that boost.

That the charge fits its boost says nothing of the boost: half of it would fit as well. So the boost is set beside what
this engine should make, the machines beside their design, and only then the charge beside both.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from turbomath.engine.expected import START
from turbomath.lab.reduction.against_design import CHARGE
from turbomath.lab.reduction.design_here import stated_design
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.shaft import CLOSING
from turbomath.lab.reduction.stations import at_stations, gauge_readings
from turbomath.lab.run.readings import Run
from turbomath.lab.verdicts import boost as boosts
from turbomath.lab.verdicts import known_boost, told
from turbomath.lab.verdicts.fitted_boost import drive_of_fit, fitted_to
from turbomath.lab.verdicts.verdict import FAILS, HOLDS, UNKNOWN, AtPoint, judged
from turbomath.table.errors import short

__all__ = ["FAILS", "HOLDS", "UNKNOWN", "AtPoint", "Verdict", "Verdicts", "judge_run"]


@dataclass(frozen=True)
class Verdict:
    """The answer to one question, for all points of a run together.

    `answer` is "holds", "does not hold" or "cannot tell"; `source` says in words where the expectation comes from (""
    where there is none); `points` holds the numbers, each with its joint ±, SI; `factor` is how many standard
    uncertainties that ± is wide.
    """

    question: str
    answer: str
    source: str
    points: tuple[AtPoint, ...]
    factor: float
    sentence: str


@dataclass(frozen=True)
class Verdicts:
    """The three verdicts of a run, one sentence for all of them, and the rule by which they are made.

    `shaft` says whether the two ends of the turbocharger's shaft agree; None where nothing was read after the turbine.
    """

    boost: Verdict
    machines: Verdict
    charge: Verdict
    overall: str
    rule: str
    shaft: Verdict | None = None


def judge_run(
    reduced: Reduced,
    earlier: Run | None = None,
    *,
    system: str = "us",
    doubtful: Mapping[str, Sequence[str]] | None = None,
) -> Verdicts:
    """Return the three verdicts of a run.

    Parameters
    ----------
    reduced : Reduced
        The run; its bench.toml may state the maker's boost under [rated] and the design under [design].
    earlier : Run, optional
        Of the same engine, when it was sound.
    system : "us" or "si"
        The units of the sentences.
    doubtful : mapping of str to sequence of str, optional
        What to look at first, as `turbomath.lab.checks.flags.doubtful_points` gives it.
    """
    cooled = reduced.run.bench.engine.aftercooler != "none"
    asked = ("compressor_efficiency", "effectiveness") if cooled else ("compressor_efficiency",)
    no_machine = _why_no_machine(reduced, asked)
    by_design, labels = reduced.against_design, reduced.run.points
    boost = judged(boosts.comparisons(reduced.run, earlier), labels, (boosts.BOOST,))
    machines = judged(tuple(one for one in by_design if one.quantity != CHARGE), labels, asked)
    charge = judged(tuple(one for one in by_design if one.quantity == CHARGE), labels, (CHARGE,))
    reason, earlier_name = _why_no_boost(reduced, earlier), "" if earlier is None else earlier.name
    sources = told.sources_of_boost(boost, earlier_name), _design(reduced.run, machines), told.source_of_charge(charge)
    sentences = (
        told.boost_sentence(boost, reason, earlier_name, system)
        + told.outside_sentences(boosts.outside_of_models(reduced.run, boost), system),
        told.machines_sentence(machines, asked, no_machine, system),
        told.charge_sentence(charge, reduced.missing.get("charge_gain_difference"), system),
    )
    shaft = _shaft(reduced)
    closes = UNKNOWN if shaft is None else shaft.answer
    first = {what: _in_order(names, labels) for what, names in (doubtful or {}).items()}
    overall = told.overall_sentence(boost, machines, charge, reason, first, closes, no_machine)
    rule = told.rule(boost, machines, charge)
    parts = zip(told.QUESTIONS.values(), (boost, machines, charge), sources, sentences, strict=True)
    of_boost, of_machines, of_charge = (_verdict(*part) for part in parts)
    return Verdicts(of_boost, of_machines, of_charge, overall, rule, shaft)


def _verdict(question, found, source, sentence):
    return Verdict(question, found.answer, source, found.points, found.factor, sentence)


def _shaft(reduced):
    """Return whether the shaft closes; None where nothing was read after the turbine."""
    if not reduced.run.has("turbine_outlet_temperature"):
        return None
    found = judged(() if reduced.shaft is None else (reduced.shaft,), reduced.run.points, (CLOSING,))
    ratios = reduced[CLOSING], reduced[f"usual_{CLOSING}"]
    sentence = told.shaft_sentence(found, *ratios, reduced.missing.get(CLOSING))
    return _verdict(told.SHAFT_QUESTION, found, told.source_of_shaft(found), sentence)


def _in_order(names: Sequence[str], labels: Sequence[str]) -> list[str]:
    """Return names of points in the order of the run, neighbours as one; other words stay as they are, behind them."""
    rows = {labels.index(name): short(name, 12) for name in names if name in labels}
    return told.stretches(rows) + [name for name in names if name not in labels]


def _why_no_machine(reduced, asked):
    """Return why nothing is known of the machines: no design is stated, or nothing was read; "" where something is."""
    stated = [name for name in stated_design(reduced.run.bench) if name in asked]
    if not stated:
        return "none"
    return "" if any(np.isfinite(reduced[name].value).any() for name in stated) else "unread"


def _design(run, found):
    stated = stated_design(run.bench)
    usual = [name for name in stated if not getattr(run.bench.design, name).tolerance]
    return told.source_of_design(usual) if found.points else ""


def _why_no_boost(reduced, earlier):
    """Return why there is no boost to compare with, as the name of a sentence."""
    run, rated = reduced.run, reduced.run.bench.rated.boost is not None
    drives = [known_boost.drive_of_rated(run)] if rated else []
    if earlier is not None and known_boost.same_engine(run, earlier):
        drives.append(known_boost.drive_of_earlier_run(run, earlier))
    own = fitted_to(run)
    if own is not None:
        drives.append(drive_of_fit(run, own))
    if not drives and run.bench.engine.model is not None:
        return "own_fit"
    if not drives:
        return "nothing" if earlier is None else "other_engine"
    if run.bench.engine.aftercooler not in START or run.bench.engine.displacement is None:
        return "no_size"
    if "ambient_pressure" not in (known := _stations(reduced)):
        return "no_barometer"
    if "manifold_pressure" not in known:
        return "no_boost"
    return "no_work" if drives == [None] * len(drives) else "no_point"


def _stations(reduced):
    values, _ = gauge_readings(reduced.run)
    at = at_stations(reduced.run, values)
    return {name for name in ("ambient_pressure", "manifold_pressure") if np.isfinite(getattr(at, name)).any()}
