"""What a run is held against: the engine's own earlier run, the engine fitted to its sheet, or else a ready one."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from turbomath.engine.faults import changes, naming, reference, stand_in
from turbomath.engine.faults.naming import Diagnosis
from turbomath.engine.faults.observed import FUEL, Observed
from turbomath.engine.faults.pairs import Pair, pairs
from turbomath.engine.turbocharged_engine import Wastegate
from turbomath.lab.faults.gauges_of_run import evenly, observed, side_by_side
from turbomath.lab.faults.pooled import pooled
from turbomath.lab.reduction.fit_points import engine_of
from turbomath.lab.run.readings import Run
from turbomath.lab.verdicts import known_boost
from turbomath.lab.verdicts.fitted_boost import fitted_to
from turbomath.table.errors import TurbomathError, short, unwarned

EARLIER, SISTER, FITTED, READY = "earlier run", "sister", "fitted", "ready"
LEAST_HEAT, MOST_HEAT = (
    0.5e6,
    10e6,
)  # J of the fuel for each m^3 swept; 2 to 5 at full load, common practice
PAIR_FITS = 1.2  # chi square for each free row of a pair: less than of one fault, as two fit nearly anything
SOME_GATE = Wastegate(area=1e-4)  # that there is one; a fit brings it to its size


@dataclass(frozen=True)
class Found:
    """The diagnosis of a run, and what it was held against; `gauges` were read, `loads` many points compared.

    `pair` is two faults that explain together what no fault explains alone, if there are such. `groups` have read it.
    """

    diagnosis: Diagnosis
    source: str
    earlier: str
    gauges: tuple[str, ...]
    loads: int
    run: Run
    pair: Pair | None = None
    groups: int = 1


@dataclass(frozen=True)
class Beside:
    """A run beside an earlier one: the readings of both at the same points, and what has changed between them."""

    now: Observed
    before: Observed
    changes: changes.Changes


@unwarned()
def found_in(run: Run, earlier: Run | None = None, *, own: bool = True, others: Sequence[Run] = ()) -> Found:
    """Return what would show the readings of a run.

    The *earlier* run is the engine's *own*, or else of another engine of its make and type. What *others* read of the
    same engine is pooled with the run.

    Raises
    ------
    TurbomathError
        If the run, or what it should be held against, says too little; with what is wanting.
    """
    _refuse_what_the_model_has_not(run)
    if earlier is not None:
        made = beside(run, earlier, own=own, others=others).changes
        return replace(_found(run, made, EARLIER if own else SISTER, earlier.name), groups=1 + len(others))
    now = pooled([_seen(one) for one in (run, *others)])
    now = now.at(evenly(now.read[FUEL] if FUEL in now.read else now.read["power"]))
    fit = fitted_to(run)
    known = stand_in.usual(now, _with_gate(engine_of(run), run)) if fit is None else stand_in.fitted(fit)
    found = _found(run, stand_in.changes_from(known, now), READY if fit is None else FITTED)
    return replace(found, groups=1 + len(others))


@unwarned()
def beside(run: Run, earlier: Run, *, own: bool = True, others: Sequence[Run] = ()) -> Beside:
    """Return what has changed from an earlier run, of the engine's *own* or of another; *others* are pooled with it.

    Raises
    ------
    TurbomathError
        If the two are no runs of one sort of engine, or say too little.
    """
    if not known_boost.same_engine(run, earlier):
        raise TurbomathError(
            f"{short(earlier.name)}: found a run of another engine or another aftercooler, expected an earlier "
            f"run of the engine of {short(run.name)}. Give one, or leave --baseline out."
        )
    now, before = pooled([_seen(one) for one in (run, *others)]), _seen(earlier)
    _refuse_no_common_drive(run, now, earlier, before)
    few = before.at(evenly(before.read[FUEL] if FUEL in before.read else before.read["power"]))
    engine = reference.reference_engine(few, _with_gate(engine_of(earlier), run))
    now, before = side_by_side(now, before)
    return Beside(now, before, changes.changes(engine, now, before, own=own))


def _seen(run):
    """Return the readings of a run; refuse a fuel flow that no engine of this size burns."""
    seen, engine = observed(run), engine_of(run)
    if FUEL in seen.read:
        swept = engine.displacement * seen.site["engine_speed"] / 2
        heat = float(np.max(seen.read[FUEL] * engine.fuel_lower_heating_value / swept))
        if not LEAST_HEAT < heat < MOST_HEAT:
            raise TurbomathError(
                f"{short(run.name)}: found a fuel flow that no engine of this size burns ({heat / 1e6:.3g} MJ in each "
                f"cubic metre swept), expected {LEAST_HEAT / 1e6:g} to {MOST_HEAT / 1e6:g} MJ at the hardest load. "
                "Look at the units of fuel flow, engine speed and displacement."
            )
    return seen


def _found(run, made, source, earlier=""):
    if not np.isfinite(made.change).all():
        raise TurbomathError(
            f"{short(run.name)}: found fuel, speed or weather at which the model has no answer, expected those of an "
            "engine that carries its load. Look at the units of fuel flow, engine speed and barometer."
        )
    diagnosis = naming.diagnosis(made)
    pair = None if diagnosis.fits else pairs(made)[0]
    fits = pair is not None and pair.lack <= PAIR_FITS
    return Found(diagnosis, source, earlier, made.gauges, made.points, run, pair if fits else None)


def _refuse_what_the_model_has_not(run):
    engine = run.bench.engine
    for found, words in (
        (engine.stages != 1, "stages = 2"),
        (engine.throttle, "throttle = true"),
        (engine.aftercooler == "two-part", 'aftercooler = "two-part"'),
    ):
        if found:
            raise TurbomathError(
                f"{short(run.bench.file)}: found {words}, expected an engine with one stage, one aftercooler or none "
                "and no throttle. The model of the fault finder has no other."
            )


def _refuse_no_common_drive(run, now, earlier, before):
    if not any(name in now.read and name in before.read for name in (FUEL, "power")):
        raise TurbomathError(
            f"{short(run.name)}, {short(earlier.name)}: found fuel flow in one run and power in the other, expected "
            "one of them in both. Without it nobody knows whether the engine worked as hard."
        )


def _with_gate(engine, run):
    return replace(engine, wastegate=SOME_GATE) if run.bench.engine.wastegate else engine
