"""Checks of the instruments and of the sheet itself: 1 to 4, 29 to 31 and 34."""

from collections.abc import Iterable

import numpy as np

from turbomath.lab.checks.bounds import BOUNDS, CORRECTED_BAROMETER, HIGH_SITE, WARM, in_si
from turbomath.lab.checks.finding import Finding, judged, spoken
from turbomath.lab.checks.look import Look
from turbomath.lab.run.channels import LIQUID_COOLED, NUMBER_COLUMNS
from turbomath.physics import atmosphere
from turbomath.table.constants import STANDARD_PRESSURE
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import accuracy, resolution_step

PRESSURE_KINDS = ("pressure", "gauge pressure", "pressure difference")
AMBIENT = "ambient_temperature"
HEATED_BY_THE_ENGINE = (
    "manifold_temperature",
    "engine_coolant_temperature",
    "turbine_inlet_temperature",
    "turbine_outlet_temperature",
)
THERMOMETERS = (
    AMBIENT,
    "compressor_inlet_temperature",
    "compressor_outlet_temperature",
    "manifold_temperature",
    "cooling_medium_temperature",
    "engine_coolant_temperature",
    "turbine_inlet_temperature",
    "turbine_outlet_temperature",
)


def barometer(look: Look) -> Iterable[Finding]:
    """1: the barometer against the standard atmosphere at the site's elevation."""
    site, reading = look.bench.site, look.run["barometer"]
    rows, action = range(len(look.run)), "Use what an open barometer shows at the engine, and its own unit."
    corrected, elevation = site.barometer == "sea-level", site.elevation or 0.0
    if corrected or site.elevation is not None:
        standard = STANDARD_PRESSURE if corrected else atmosphere.pressure(elevation)
        where = "at sea level, as corrected" if corrected else f"at {look.amount(elevation, 'ft', 'elevation')}"
        found = judged(
            look,
            1,
            rows,
            reading - standard,
            look.widths("barometer"),
            BOUNDS["barometer"],
            ("barometer",),
            lambda row: (
                f"{look.tell('barometer', row)}{_corrected_words(look, row)}, where the standard atmosphere "
                f"{where} has {look.amount(standard, 'inHg', 'barometer', 'barometer')}"
            ),
            action,
        )
        for finding in found:
            high_up = finding.level and _corrected_words(look, finding.row) and elevation > in_si(HIGH_SITE)
            yield finding.but(level="red") if high_up else finding
    else:
        low, high = QUANTITIES["barometer"].sensible
        outside = (reading < low) | (reading > high)
        for row in map(int, np.flatnonzero(~np.isnan(reading))):
            yield spoken(
                1,
                row,
                "red" if outside[row] else "",
                ("barometer",),
                f"{look.tell('barometer', row)}; no place on land has such air pressure",
                action,
            )


def _corrected_words(look, row):
    site, (quantity, low, high, unit) = look.bench.site, CORRECTED_BAROMETER
    near_sea_level = in_si((quantity, low, unit)) <= look.run["barometer"][row] <= in_si((quantity, high, unit))
    if site.barometer == "station" and site.elevation is not None and near_sea_level and site.elevation > 0:
        return ", which looks like weather-report pressure, corrected to sea level"
    return ""


def zeros(look: Look) -> Iterable[Finding]:
    """2: each pressure gauge with the engine off."""
    for column in look.run.columns:
        if column not in NUMBER_COLUMNS or QUANTITIES[column].kind not in PRESSURE_KINDS:
            continue
        instrument, reading = look.bench.instrument(column), look.run[column]
        zero = reading - look.run.station_pressure if QUANTITIES[column].kind == "pressure" else reading
        half_step = resolution_step(instrument, zero) / 2
        span = np.ptp(instrument.span) if instrument.span else np.inf
        amber = np.minimum(half_step, 0.01 * span) + half_step
        red = np.maximum(accuracy(instrument, zero) + half_step, amber)
        for row in look.off:
            if not np.isnan(zero[row]) and not (_absolute(look, column) and not look.is_read("barometer", row)):
                off = abs(zero[row]) * (1 - 1e-9)
                level = "red" if off > red[row] else "amber" if off > amber[row] else ""
                allowed = "its accuracy" if level == "red" else "half a division and what the eye can tell"
                yield spoken(
                    2,
                    row,
                    level,
                    (column,),
                    f"{_at_rest(look, column, row)} by more than {allowed}",
                    "Zero or swap the gauge, and note whether it drifted.",
                )


def _at_rest(look, column, row):
    """Return in words where a gauge at rest is: off zero, or, if it counts from vacuum, off the barometer."""
    if _absolute(look, column):
        return f"{look.told(row, column, 'barometer')} with the engine off; a gauge at rest is off the barometer"
    return f"{look.tell(column, row)} with the engine off; a gauge at rest is off zero"


def _absolute(look, column):
    """Return whether a gauge counts from vacuum: at rest it shows the barometer, and is judged by one that was read."""
    return QUANTITIES[column].kind == "pressure" and column not in look.run.gauge_columns


def cold_thermometers(look: Look) -> Iterable[Finding]:
    """3: all thermometers agree before the start."""
    liquid = look.bench.engine.aftercooler in LIQUID_COOLED
    columns = [name for name in look.present(*THERMOMETERS) if not (liquid and name == "cooling_medium_temperature")]
    for row in look.named("zero"):
        read = {column: look.run[column][row] for column in columns if look.is_read(column, row)}
        if hot := _still_warm(look, row):
            yield from _beside_a_warm_engine(look, row, hot, read)
            continue
        middle = np.median(list(read.values())) if len(read) > 2 else np.nan
        for column in read:
            yield from judged(
                look,
                3,
                [row],
                look.run[column] - middle,
                look.widths(column),
                BOUNDS["cold thermometers"],
                (column,),
                lambda row, column=column, middle=middle: (
                    f"{look.tell(column, row)} before the start, where the "
                    f"middle of all thermometers is {look.amount(middle, '°F', 'temperature', column)}"
                ),
                "Check the type of the probe against its meter, the unit, and swapped leads.",
            )


def _still_warm(look, row):
    """Return the thermometers that show an engine which has run before; none where it is cold.

    At least two stand far above the air outside, and they do not agree: one bad thermometer does neither.
    """
    air = look.run[AMBIENT][row]
    hot = [name for name in look.present(*HEATED_BY_THE_ENGINE) if look.run[name][row] - air > in_si(WARM)]
    shown = [look.run[name][row] for name in hot]
    apart = BOUNDS["cold thermometers"].possible_in_si[1]
    return sorted(hot, key=lambda name: -look.run[name][row]) if len(hot) > 1 and np.ptp(shown) > apart else []


def _beside_a_warm_engine(look, row, hot, read):
    """3 of an engine that still is warm: its thermometers need not agree, yet none shows less than the air outside."""
    yield spoken(
        3,
        row,
        "amber",
        tuple(hot),
        f"{look.told(row, *hot, AMBIENT)} before the start: the engine is still warm, so thermometers need not agree",
        "Read them again after a night at rest: only a cold engine shows which thermometer is out.",
        settled=True,
    )
    for column in (name for name in read if name != AMBIENT):
        above = look.run[column][row] - look.run[AMBIENT][row]
        yield spoken(
            3,
            row,
            BOUNDS["beside a warm engine"].level(above, look.widths(column, AMBIENT)[row]),
            (column, AMBIENT),
            f"{look.told(row, column, AMBIENT)} before the start; beside a warm engine nothing is colder than the air "
            "outside",
            "Hang both side by side in the open air: the one that is out shows itself.",
        )


def spans(look: Look) -> Iterable[Finding]:
    """4: a reading beyond, or at the very end of, what the gauge can show; a span that is assumed convicts none."""
    for column in look.run.columns:
        span = look.bench.instrument(column).span if column in NUMBER_COLUMNS else None
        if span is not None:
            yield from _within_span(look, column, span)


def _within_span(look, column, span):
    shown, width, pegged = look.shown(column), look.widths(column), look.run.pegged[column]
    quantity = "boost" if QUANTITIES[column].kind == "pressure" else column  # a span is as the gauge shows it
    end = look.amount(span[1], QUANTITIES[quantity].us, quantity, column)
    found = look.bench.instruments.get(column)
    stated = found is not None and found.span is not None
    for row in np.flatnonzero(pegged | (stated & ~np.isnan(shown))):
        level, words = _span_level(shown[row], width[row], span, pegged[row])
        yield spoken(
            4,
            int(row),
            level,
            (column,),
            f"{look.tell(column, row)}; the gauge {words} {end}",
            "A gauge at its stop tells only 'at least'. Fit a wider one, or correct the cell.",
            settled=bool(pegged[row]) or level == "amber",
        )


def _span_level(shown, width, span, pegged):
    low, high = span
    if pegged:
        return "red", "was at its stop, so the pressure or temperature is that or more; its span ends at"
    if shown > high * (1 + 1e-9):
        return "red", "cannot show more than the end of its span,"
    if shown < low - width:
        return "red", "cannot show less than the start of its span; it ends at"
    at_the_end = shown >= high * (1 - 1e-9)
    return ("amber", "shows exactly the end of its span, as one at its stop does,") if at_the_end else ("", "")
