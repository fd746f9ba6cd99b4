"""What a report says in words; the terminal and the page say the same."""

import numpy as np

from turbomath import units
from turbomath.lab.checks import limits
from turbomath.lab.checks.flags import LEVELS
from turbomath.lab.reduction.stations import CHANNELS
from turbomath.lab.report import tables
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES

CONVENTION = (
    "Each ± has coverage factor 2: a tolerance is a rectangular half-width, u = a/√3. Measured and theoretical come "
    "from the same gauges, so the difference has its own ±; they agree when the difference is no greater than that. "
    "An instrument's error is one and the same at all points of a run."
)
WORN_COMPRESSOR = (
    "Take care with the aftercooling density gain: a worn compressor makes hotter air, which leaves the aftercooler "
    "more to cool, so this number gets bigger while the engine gets less air. Judge by the charge gain."
)
AIR_WORDS = {
    "perfect": "a perfect gas",
    "ideal": "an ideal gas",
    "real": "real dry air",
    "moist": "real air with its humidity",
    "coolprop": "real dry air, by CoolProp",
}
CORRECTED_POWER = (
    "Corrected power is what the engine would give on the day of ISO 1585 (99 kPa dry, 25 °C). It is worked out at "
    "full load only, and only within the standard's own limits: 10 to 40 °C, 80 to 110 kPa dry, a factor of 0.9 to "
    "1.1. An engine whose controls measure its own air corrects itself; for such an engine leave this number alone."
)
NO_SECOND_WAY = (
    "The ± could not be worked out a second way: a gauge is so coarse at some point that its own error gives states "
    "of the air that cannot be. Take the ± there as a rough one."
)
OWN_LIMITS = (
    "A thermometer in a moving stream reads close to the temperature of the air brought to rest, while a tap in the "
    "wall reads the pressure of the moving air: at 60 m/s the two are 1.8 K apart, and no correction is made.",
    "Heat from the turbine side warms the air in the compressor. At light load this makes the compressor look worse "
    "than it is.",
    "Boost rises and falls with every cylinder; the gauge shows some middle of it.",
    "Unless the air flow was measured, it rests on the volumetric efficiency stated in bench.toml: one per cent of "
    "error there is one per cent of air flow, of heat and of power.",
    "The conductance (UA) takes the aftercooler for a crossflow core with both sides unmixed, and the excess air takes "
    "diesel fuel to have 1.8 hydrogen atoms for each carbon atom; both are the usual case (common practice).",
    "The error of an instrument is common to all points. Differences between points are better known than the points.",
    "Where boost is small, a small error of a gauge is a large part of the temperature rise and of the pressure "
    "ratio: the report then says that it cannot tell, and gives no number to trust.",
    "The numbers say how dense the charge is. They do not say why, and they do not say that the engine is sound.",
)


def limit_sentences(found, run):
    """Return (the limits that were passed, those without a reading), or that none was passed or stated."""
    passed = passed_limits(found)
    unread = [as_sentence(flag) for flag in found if flag.level == "note" and flag.check == limits.CHECK]
    return passed, unread, "" if passed else _no_limit_passed(run)


def passed_limits(found):
    """Return a sentence for each limit that was passed."""
    return [f"point {short(flag.point)}: {as_sentence(flag)}" for flag in found if flag.level == "limit"]


def _no_limit_passed(run):
    if not run.bench.limits:
        return "No limit is stated in bench.toml: none was judged. The maker's manual has them."
    return "No stated limit was passed."


def findings(found):
    """Return what the checks found beside the limits, the worst first: (level, ((point, reason), ...), what to do).

    Findings of one check with one remedy are told together.
    """
    groups = {}
    for flag in sorted(found, key=lambda flag: LEVELS.index(flag.level)):
        if flag.level != "limit" and flag.check != limits.CHECK:
            key = flag.level, flag.check, flag.column, flag.action, flag.fits_unit
            groups.setdefault(key, []).append((short(flag.point), f"{flag.reason.rstrip('.')}."))
    return tuple(
        (level, tuple(told), f"The value would fit {fits}. {action}".strip() if fits else action)
        for (level, _, _, action, fits), told in groups.items()
    )


def as_sentence(flag):
    """Return what a flag of a limit found and what to do about it."""
    return f"{flag.reason.rstrip('.')}. {flag.action}".strip()


def agreement_sentence(reduced):
    """Return one sentence: at how many points measured and theoretical gain agree."""
    judged = [answer for answer in reduced.agree if answer]
    if not judged:
        return "Measured and theoretical gain cannot be compared: see below for what is missing."
    apart = [short(point) for point, answer in zip(reduced.run.points, reduced.agree, strict=True) if answer == "no"]
    if not apart:
        points = "the one point" if len(judged) == 1 else f"all {len(judged)} points"
        return f"Measured and theoretical charge gain agree at {points}, as far as these gauges tell."
    return (
        f"Measured and theoretical charge gain agree at {len(judged) - len(apart)} of {len(judged)} points; they "
        f"differ by more than their own ± at point {', '.join(apart)}."
    )


def cannot_judge_sentence(reduced):
    """Say where the gauges are too coarse to judge the compressor or the aftercooler, or return ""."""
    found = []
    for name, width in tables.CANNOT_JUDGE.items():
        unsure = zip(reduced.run.points, tables.cannot_judge(reduced, name), strict=True)
        points = ", ".join(short(point) for point, coarse in unsure if coarse)
        if points:
            found.append(f"{QUANTITIES[name].plain_name} at point {points} (± {width:g} or more)")
    return f"These gauges cannot tell: {'; '.join(found)}. reduced.csv has the bare numbers." if found else ""


def water_sentence(reduced, system):
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


def methods_sentence(linear, sobol):
    """Say whether the ± of a run hold when worked out a second way.

    *linear* and *sobol* are the run reduced with each method of `uncertainty.propagate`. They agree if
    both ends of the interval lie within half a unit of the first figure of the uncertainty (JCGM 101, section 8).
    """
    apart = [QUANTITIES[name].plain_name for name in tables.GAINS if not _methods_agree(linear[name], sobol[name])]
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


def origin_lines(reduced):
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


def missing_lines(reduced):
    """Return each result that no row allows, with the reason."""
    return [f"{QUANTITIES[name].plain_name}: {reason}" for name, reason in reduced.missing.items()]


def unknown_columns_sentence(run):
    """Name the columns that the kit does not know, or return ""."""
    names = ", ".join(f"'{short(name)}'" for name in run.unknown_columns)
    return f"Columns kept but used for nothing, as the kit does not know them: {names}." if names else ""
