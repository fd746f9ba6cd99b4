"""Checks of the engine round its air path: 13, 16 to 18, 20 and 26 to 28.

Boost, restriction, exhaust, speed, oil and coolant.
"""

from collections.abc import Iterable, Iterator

import numpy as np

from turbomath.lab.checks import fuel_bounds
from turbomath.lab.checks.bounds import BOUNDS, HIGH_LOAD, MOST_AGREE
from turbomath.lab.checks.finding import Finding, judged, spoken
from turbomath.lab.checks.look import Look, number
from turbomath.lab.checks.size import is_large

STOP = "Stop the engine, by the shop's own procedure, and find out why; the maker's manual decides."
HALF = 0.05  # within this share of half, or of double, a speed is one that was counted wrong


def intake_restriction(look: Look) -> Iterable[Finding]:
    """13: what the filter and its hose cost."""
    column = "intake_restriction"
    value, width = look.run[column], look.widths(column)
    nothing = [row for row in look.loaded if -width[row] <= value[row] <= 0]
    high = [row for row in look.at_least_load(HIGH_LOAD) if not -width[row] <= value[row] <= 0]
    action = "Read it again with the line clear and zeroed; then look at the filter, the tap and the sign."
    for rows, bound in ((high, "intake restriction at high load"), (look.others(nothing, high), "intake restriction")):
        yield from judged(
            look, 13, rows, value, width, BOUNDS[bound], (column,), lambda row: look.tell(column, row), action
        )
    for row in nothing:
        reason = f"{look.tell(column, row)} at load; air that flows in loses pressure on the way"
        yield spoken(13, row, "red", (column,), reason, action)


def boost_at_no_load(look: Look) -> Iterable[Finding]:
    """16: without load there is little exhaust to drive the turbine."""
    columns = look.boost_columns
    return judged(
        look,
        16,
        look.idle,
        look.boost,
        look.boost_width,
        BOUNDS["boost at no load"],
        columns,
        lambda row: f"{look.told(row, *columns)} at {look.run.conditions[row] or 'no load'}",
        "Check the zero of the gauge, its unit, and whether the load was really off.",
    )


def boost_at_rated(look: Look) -> Iterable[Finding]:
    """17: boost at rated load against the middle of the band that the maker gives, if he gives one."""
    bands = [look.bench.limits[key] for key in ("boost_load", "boost") if key in look.bench.limits]
    bands = [band for band in bands if np.isfinite(band).all() and min(band) > 0]
    if not bands:
        return ()
    middle = sum(bands[0]) / 2
    return judged(
        look,
        17,
        look.full_load,
        look.run["boost"] / middle,
        look.widths("boost") / middle,
        BOUNDS["boost of maker"],
        look.present("boost", "barometer", "ambient_temperature"),
        lambda row: (
            f"{look.tell('boost', row)} at rated load, {number(look.run['boost'][row] / middle, '%', 'load')} "
            f"of the middle of the maker's band, {look.amount(middle, 'psi', 'boost', 'boost')}"
        ),
        "Allow for a hot or cold day and for height; then look for a leak, the wastegate, fuel.",
    )


def sensor_and_gauge(look: Look) -> Iterable[Finding]:
    """18: a sensor that reads absolute and the boost gauge with the barometer show one pressure."""
    columns = ("manifold_pressure", "boost", "barometer")
    if len(look.present(*columns)) < 3:
        return ()
    apart = look.run["manifold_pressure"] - (look.run["boost"] + look.at.ambient_pressure)
    return judged(
        look,
        18,
        look.steady,
        apart,
        look.widths(*columns),
        BOUNDS["sensor and gauge"],
        columns,
        lambda row: (
            f"{look.told(row, *columns)}: the sensor is {look.amount(apart[row], 'psi', 'boost', *columns)} "
            "from gauge and barometer"
        ),
        "Check which of the two counts from vacuum and which from the barometer.",
    )


def exhaust_before_turbine(look: Look) -> Iterable[Finding]:
    """20: how hot the turbine is at load; its upper end stops the engine, whatever the ± of the thermometer."""
    column = "turbine_inlet_temperature"
    value, width = look.run[column], look.widths(column)
    action = "Check the unit and on which side of the turbine the probe sits; then look for what makes it hot."
    hot = judged(
        look,
        20,
        look.loaded,
        value,
        width,
        fuel_bounds.turbine_inlet_temperature(look.bench.engine),
        (column,),
        lambda row: look.tell(column, row),
        action,
        firm=True,
    )
    yield from stopping(hot)
    yield from judged(
        look,
        20,
        look.full_load,
        value,
        width,
        BOUNDS["turbine inlet temperature at full load"],
        (column,),
        lambda row: look.tell(column, row),
        action,
    )


def idle_speed(look: Look) -> Iterable[Finding]:
    """26: idle speed against the maker's."""
    for condition, usual in (("low idle", "low idle speed"), ("high idle", "")):
        band = look.bench.limits.get(f"{condition.replace(' ', '_')}_speed", (np.nan, np.nan))
        bound, middle = None if is_large(look) else BOUNDS.get(usual), 0.0
        if np.isfinite(band).all():
            bound, middle = BOUNDS[f"{condition} from maker"].at_least_as_wide_as(band), sum(band) / 2
        if bound is not None:
            for finding in judged(
                look,
                26,
                look.named(condition),
                look.run["engine_speed"] - middle,
                look.widths("engine_speed"),
                bound,
                ("engine_speed",),
                lambda row, middle=middle: _speed_words(look, row, middle),
                "Read it again; check what the tachometer counts for each turn, then the governor.",
            ):
                of_no_known_size = not middle and is_large(look) is None and finding.level == "amber"
                yield finding.but(level="note") if of_no_known_size else finding


def _speed_words(look, row, middle):
    words = f"{look.tell('engine_speed', row)} at {look.run.conditions[row]}"
    if middle:
        words += f", where the maker's band is round {number(middle, 'rpm', 'engine_speed')}"
    return words + _miscount(look.run["engine_speed"][row], middle)


def speed_at_load(look: Look) -> Iterable[Finding]:
    """26 again, between points: a speed at load that is half or double that of nearly all others."""
    speed = look.run["engine_speed"]
    rows = [row for row in look.loaded if not np.isnan(speed[row])]
    middle = np.median(speed[rows]) if rows else np.nan
    near = [row for row in rows if abs(speed[row] / middle - 1) <= HALF]
    if len(near) < 2 or len(near) < MOST_AGREE * (len(rows) - 1):
        return
    for row in rows:
        words = _miscount(speed[row], middle)
        reason = f"{look.tell('engine_speed', row)}, while most points at load run at {middle * 60:,.0f} rpm{words}"
        yield spoken(
            26,
            row,
            "amber" if words else "",
            ("engine_speed",),
            reason,
            "Read the speed again; check what the tachometer counts for each turn.",
        )


def _miscount(speed, right):
    """Return words for a speed that is half or double the right one, else nothing."""
    for factor, word in ((0.5, "half"), (2.0, "double")):
        if right and abs(speed / (factor * right) - 1) < HALF:
            return f": this is {word} of it, as a tachometer shows that counts the wrong number of pulses for a turn"
    return ""


def oil_pressure(look: Look) -> Iterable[Finding]:
    """27: oil pressure; here the engine comes before the data, so the stop is not widened by the gauge's ±."""
    column, width = "oil_pressure", look.widths("oil_pressure")
    idle = look.named("low idle")
    groups = (
        (idle, "oil pressure at idle"),
        (look.loaded, "oil pressure at load"),
        (sorted(set(look.running) - {*idle, *look.loaded}), "oil pressure"),
    )
    for rows, bound in groups:
        yield from stopping(
            judged(
                look,
                27,
                rows,
                look.run[column],
                width,
                BOUNDS[bound],
                (column,),
                lambda row: look.tell(column, row),
                "Read it again at once; below the maker's minimum stop the engine.",
                firm=True,
            )
        )


def coolant(look: Look) -> Iterable[Finding]:
    """28: engine coolant; too hot stops the engine, whatever the ±. Not yet warm is a note away from load."""
    column = "engine_coolant_temperature"
    bound = BOUNDS[column.replace("_", " ")]
    found = judged(
        look,
        28,
        look.steady,
        look.run[column],
        look.widths(column),
        bound,
        (column,),
        lambda row: look.tell(column, row),
        "Take readings from a warm engine only; check the unit, then thermostat and coolant.",
        firm=True,
    )
    loaded = set(look.loaded)
    for finding in stopping(found):
        cold = look.run[column][finding.row] < bound.usual_in_si[0]
        quiet = finding.level == "amber" and cold and finding.row not in loaded
        yield finding.but(level="note") if quiet else finding


def stopping(found: Iterable[Finding]) -> Iterator[Finding]:
    """Yield findings; the ones that stop an engine say so first."""
    for finding in found:
        yield finding.but(action=STOP) if finding.stop else finding
