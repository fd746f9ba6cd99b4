"""What a report says in words; the terminal and the page say the same."""

from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from turbomath import units
from turbomath.lab.checks import limits
from turbomath.lab.checks.flags import LEVELS, Flag
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.shares import GAINS
from turbomath.lab.reduction.stations import CHANNELS
from turbomath.lab.report import tables
from turbomath.lab.report.next_gauges import next_gauges_sentence
from turbomath.lab.run.readings import Run
from turbomath.table import prose
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import Estimate

_WORDS = prose.read(__file__, "sentences.toml")
CONVENTION = _WORDS.text("convention")
WORN_COMPRESSOR = _WORDS.text("worn_compressor")
CORRECTED_POWER = _WORDS.text("corrected_power")
NO_POINT = _WORDS.text("no_point")
NO_SECOND_WAY = _WORDS.text("no_second_way")
OWN_LIMITS = _WORDS.texts("own_limits")
_AIR = _WORDS.table("air")
AIR_WORDS = {name: _AIR.text(name) for name in _AIR.names()}
_WORDS.finished()


def limit_sentences(found: Sequence[Flag], run: Run) -> tuple[list[str], list[str], str]:
    """Return (the limits that were passed, those without a reading), or that none was passed or stated."""
    passed = passed_limits(found)
    unread = [as_sentence(flag) for flag in found if flag.level == "note" and flag.check == limits.CHECK]
    return passed, unread, "" if passed else _no_limit_passed(run)


def passed_limits(found: Iterable[Flag]) -> list[str]:
    """Return a sentence for each limit that was passed."""
    return [f"{_where(flag)}{as_sentence(flag)}" for flag in found if flag.level == "limit"]


def _where(flag):
    return f"point {short(flag.point)}: " if flag.point else ""


def _no_limit_passed(run):
    if not run.bench.limits:
        return "No limit is stated in bench.toml: none was judged. The maker's manual has them."
    return "No stated limit was passed."


def findings(found: Iterable[Flag]) -> tuple[tuple[str, tuple[tuple[str, str], ...], str], ...]:
    """Return what the checks found beside the limits, the worst first: (level, ((point, reason), ...), what to do).

    Findings of one check with one remedy are told together.
    """
    groups: dict[tuple, list[tuple[str, str]]] = {}
    for flag in sorted(found, key=lambda flag: LEVELS.index(flag.level)):
        if flag.level != "limit" and flag.check != limits.CHECK:
            key = flag.level, flag.check, flag.column, flag.action, flag.fits_unit
            groups.setdefault(key, []).append((short(flag.point), f"{flag.reason.rstrip('.')}."))
    return tuple(
        (level, tuple(told), f"The value would fit {fits}. {action}".strip() if fits else action)
        for (level, _, _, action, fits), told in groups.items()
    )


def as_sentence(flag: Flag) -> str:
    """Return what a flag of a limit found and what to do about it."""
    return f"{flag.reason.rstrip('.')}. {flag.action}".strip()


def cannot_judge_sentence(reduced: Reduced) -> str:
    """Say where the gauges are too coarse to judge the compressor or the aftercooler, or return ""."""
    found = []
    for name, width in tables.CANNOT_JUDGE.items():
        unsure = zip(reduced.run.points, tables.cannot_judge(reduced, name), strict=True)
        points = ", ".join(short(point) for point, coarse in unsure if coarse)
        if points:
            found.append(f"{QUANTITIES[name].plain_name} at point {points} (± {width:g} or more)")
    return f"These gauges cannot tell: {'; '.join(found)}. reduced.csv has the bare numbers." if found else ""


def water_sentence(reduced: Reduced, system: str) -> str:
    """Say what the weather does: the highest dew point at boost pressure, and how much water forms; "" if not known."""
    dew, water = reduced["dew_point"], reduced["condensate_flow"]
    if not np.isfinite(dew.value).any():
        return ""
    wettest = int(np.nanargmax(dew.value))
    said = (
        f"Water: the dew point at boost pressure is highest at point {short(reduced.run.points[wettest])}, "
        f"{_amount(reduced, 'dew_point', wettest, system)}."
    )
    if not np.isfinite(water.value).any():
        return said
    most = int(np.nanargmax(water.value))
    if not water.value[most] > 0:
        return f"{said} The charge stays above its dew point at every point, so no water forms."
    return (
        f"{said} Water forms in the aftercooler, most of it at point {short(reduced.run.points[most])}: "
        f"{_amount(reduced, 'condensate_flow', most, system)}. Drain the aftercooler."
    )


def _amount(reduced, name, row, system):
    return f"{tables.result_texts(reduced, name, [row], system)[0]} {units.display(name, system)}"


def methods_sentence(linear: Mapping[str, Estimate] | Reduced, sobol: Mapping[str, Estimate] | Reduced) -> str:
    """Say whether the ± of a run hold when worked out a second way.

    *linear* and *sobol* are the run reduced with each method of `uncertainty.propagate`. They agree if
    both ends of the interval lie within half a unit of the first figure of the uncertainty (JCGM 101, section 8).
    """
    apart = [QUANTITIES[name].plain_name for name in GAINS if not _methods_agree(linear[name], sobol[name])]
    way = "a second way, with 4,096 points of the joint distribution of all gauges (JCGM 101)"
    if not apart:
        return f"The ± of the three gains were worked out {way}; they are the same to the figure that counts."
    return (
        f"The ± were worked out {way}. It differs for {', '.join(apart)}: a gauge is so coarse there that the ± "
        "shown is only a rough one."
    )


def _methods_agree(linear, sobol):
    with np.errstate(invalid="ignore", divide="ignore"):
        tolerance = 0.5 * 10.0 ** np.floor(np.log10(linear.standard_uncertainty))
        apart = [
            np.abs(linear.value - sobol.value + sign * (linear.plus_or_minus - sobol.plus_or_minus)) for sign in (-1, 1)
        ]
        return not np.any(np.maximum(*apart) > tolerance)


def origin_lines(reduced: Reduced) -> list[str]:
    """Return, in words, which reading or assumption stands behind each station, and which instruments are assumed."""
    lines = []
    for quantity, used in reduced.sources.items():
        name = QUANTITIES[quantity].plain_name
        if used and set(used) != {name}:
            lines.append(f"{name}: {'; '.join(used)}")
    assumed = reduced.run.bench.assumed_instruments([name for name in reduced.run.columns if name in CHANNELS])
    if assumed:
        names = ", ".join(QUANTITIES[name].plain_name for name in assumed)
        lines.append(f"instruments not stated, usual shop ones assumed: {names}")
    return lines


def missing_lines(reduced: Reduced) -> list[str]:
    """Return the results that no row allows, those with one reason together; first what to read next, if it helps."""
    together: dict[str, list[str]] = {}
    for name, reason in reduced.missing.items():
        together.setdefault(reason, []).append(QUANTITIES[name].plain_name)
    lines = [f"{', '.join(names)}: {reason}" for reason, names in together.items()]
    first = next_gauges_sentence(reduced.wanting)
    return [first, *lines] if first else lines


def unknown_columns_sentence(run: Run) -> str:
    """Name the columns that the kit does not know, or return ""."""
    names = ", ".join(f"'{short(name)}'" for name in run.unknown_columns)
    return f"Columns kept but used for nothing, as the kit does not know them: {names}." if names else ""
