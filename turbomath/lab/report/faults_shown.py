"""What a report says of faults: only beside a run or a fitted engine of its own, and only where one is likely."""

from collections.abc import Sequence

from turbomath.lab.faults import held_against, told
from turbomath.lab.faults.held_against import Found
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.run.readings import Run
from turbomath.lab.verdicts.fitted_boost import fitted_to
from turbomath.lab.verdicts.known_boost import same_engine
from turbomath.table.errors import TurbomathError


def faults_found(reduced: Reduced, baselines: Sequence[Reduced]) -> Found | None:
    """Return what would show the readings; `None` for a sound engine, and where nothing of its own is beside it."""
    run = reduced.run
    earlier = next((one.run for one in baselines if same_engine(run, one.run)), None)
    try:
        if earlier is None and fitted_to(run) is None:
            return None
        found = held_against.found_in(run, earlier)
    except TurbomathError:
        return None  # too little was read to tell one fault from another
    return None if told.is_sound(found) else found


def pooled_faults(reduced: Sequence[Reduced], earlier: Run | None, *, own: bool) -> Found | str:
    """Return what would show the pooled readings of several groups, or the sentence that says why nothing is said."""
    first, *others = (one.run for one in reduced)
    try:
        return held_against.found_in(first, earlier, own=own, others=others)
    except TurbomathError as refusal:
        return str(refusal)


def line(found: Found | None) -> str:
    """Return the answer in a line, "" where there is none."""
    return "" if found is None else told.answer(found)


def section(found: Found | None) -> dict | None:
    """Return the section of the page: what is asked, the answer, the likeliest, the next test, and what it is worth.

    Of a sound engine there is neither a list nor a test.
    """
    if found is None:
        return None
    sound = told.is_sound(found)
    return {
        "head": told.head(found),
        "answer": told.answer(found),
        "likely": [] if sound else told.likely(found),
        "test": [] if sound else told.test_told(told.test_asked(found)),
        "worth": told.worth(found),
    }


def on_terminal(found: Found | None) -> str:
    """Return the same for a terminal, "" where there is none."""
    return "" if found is None else told.body(found)
