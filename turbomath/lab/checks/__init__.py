"""The checks: what in a run cannot be, or may not be, and what to do about it. No reading is ever changed.

Each check is a small function of a `Look` that yields a `Finding` for every reading it could judge. Its number is
its key in the two tables. Limits of the maker (35) come from `turbomath.lab.checks.limits`, before everything else.
"""

from collections.abc import Collection
from dataclasses import replace
from pathlib import Path

import numpy as np

from turbomath.lab.checks import (
    as_saved,
    banks,
    cooler,
    engine,
    forbidden,
    fuel,
    instruments,
    limits,
    run_up,
    shaft,
    size,
    stations,
    trends,
    unit_slips,
    water,
)
from turbomath.lab.checks.finding import Finding
from turbomath.lab.checks.flags import LEVELS, Flag
from turbomath.lab.checks.look import full_look
from turbomath.lab.record.record import read_record
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.run.readings import Run, as_run
from turbomath.table.doors import door_of_room

__all__ = ["check_run", "evaluated", "findings"]
__getattr__, __dir__ = door_of_room(__name__, __path__[0], __all__)

# Judge each reading by itself and by the others of its row; 21 would need a second run, 35 is in limits.py, 40 in
# forbidden.py and 46 in run_up.py
POINTWISE = {
    1: instruments.barometer,
    2: instruments.zeros,
    3: instruments.cold_thermometers,
    4: instruments.spans,
    5: stations.compressor_rise,
    6: stations.compressor_efficiency,
    7: cooler.manifold_against_medium,
    8: cooler.cooling_of_the_charge,
    9: cooler.effectiveness,
    10: stations.pressures_of_the_aftercooler,
    11: stations.cooler_pressure_loss,
    13: engine.intake_restriction,
    16: engine.boost_at_no_load,
    17: engine.boost_at_rated,
    18: engine.sensor_and_gauge,
    19: stations.pressure_ratio,
    20: engine.exhaust_before_turbine,
    22: fuel.volumetric_efficiency,
    23: fuel.air_fuel_ratio,
    24: fuel.specific_fuel_consumption,
    25: fuel.power_from_torque,
    26: engine.idle_speed,
    27: engine.oil_pressure,
    28: engine.coolant,
    32: unit_slips.outside_the_sensible,
    33: water.dew_point,
    36: stations.inlet_against_ambient,
    37: water.wet_bulb,
    38: size.mean_effective_pressure,
    39: size.piston_speed,
    41: banks.turbochargers,
    44: shaft.turbine,
}
# Judge the points of a run against each other
BETWEEN_POINTS = {
    12: trends.loss_against_flow,
    14: trends.restriction_against_flow,
    15: trends.boost_against_load,
    26: engine.speed_at_load,
    29: trends.repeated_passes,
    30: trends.steadiness,
    31: trends.copies,
    34: trends.order_and_gaps,
    41: banks.banks_read,
    43: shaft.both_ends,
    45: shaft.turbine_efficiency,
    50: as_saved.notes,
}


def check_run(run: Run | Path | str, reduced: Reduced | None = None) -> tuple[Flag, ...]:
    """Return all flags of a run.

    Parameters
    ----------
    run : Run, its folder, or the name of a shipped run
        What `turbomath.lab.run.readings.read_run` gives or takes.
    reduced : Reduced, optional
        The results of the run, if they are at hand, so that they are not worked out again.

    Returns
    -------
    tuple of Flag
        Limits passed first, then red (what stops an engine before the rest), amber, notes; each in the order of
        the rows.
    """
    run = as_run(run)
    found = sorted(
        findings(run, reduced), key=lambda finding: (-1 if finding.row is None else finding.row, finding.check)
    )
    fits = {(finding.row, finding.columns[0]): finding.fits_unit for finding in found if finding.fits_unit}
    stops = [_flag(run, finding) for finding in found if finding.stop]
    others = [_flag(run, finding) for finding in found if finding.level and not finding.stop]
    record = read_record(run.folder, run.bench)
    in_record = run_up.run_up_flags(record, run.bench).values()
    flags = [*in_record, *_limit_flags(run, fits, run_up.judged_limits(record, run.bench)), *stops, *others]
    return tuple(sorted(dict.fromkeys(flags), key=lambda flag: LEVELS.index(flag.level)))


def findings(run: Run | Path | str, reduced: Reduced | None = None) -> list[Finding]:
    """Return every look that the columns of a run allow, also those that found nothing, as a list of `Finding`."""
    with np.errstate(all="ignore"):
        look = full_look(as_run(run), reduced)
        found = _pointwise(look)
        if any(finding.trouble for finding in found):
            found = unit_slips.explained(look, found, _pointwise)
        doubtful = frozenset(finding.row for finding in found if finding.level == "red")
        return found + _all(replace(look, doubtful=doubtful), BETWEEN_POINTS)


def evaluated(run: Run | Path | str, rows: Collection[int] | None = None) -> dict[tuple[int, int], str]:
    """Return {(check, row): worst level} of all pairs that could be judged, in *rows* (all rows if not given)."""
    pairs: dict[tuple[int, int], str] = {}
    for finding in findings(run):
        if finding.row is not None and (rows is None or finding.row in rows):
            pair = finding.check, finding.row
            pairs[pair] = max(pairs.get(pair, ""), finding.level, key=("", *reversed(LEVELS)).index)
    return pairs


def _pointwise(look):
    return forbidden.with_the_forbidden(look, _all(look, POINTWISE))


def _all(look, checks):
    return [finding for check in checks.values() for finding in check(look)]


def _limit_flags(run, fits, in_record):
    """The maker's limits in the order of the rows, with the unit that a reading would fit if a check found one."""
    order = {point: row for row, point in reversed(list(enumerate(run.points)))}
    flags = sorted(limits.limit_flags(run, in_record), key=lambda flag: order.get(flag.point, -1))
    return [replace(flag, fits_unit=fits.get((order.get(flag.point, -1), flag.column), "")) for flag in flags]


def _flag(run, finding):
    point = "" if finding.row is None else run.points[finding.row]
    return Flag(
        finding.level, point, finding.columns[0], finding.check, finding.reason, finding.action, finding.fits_unit
    )
