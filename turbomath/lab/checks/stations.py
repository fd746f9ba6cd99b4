"""Checks of the air path, station by station: 5, 6, 10, 11, 19 and 36; those of the cooling are in `cooler`."""

from collections.abc import Iterable

import numpy as np

from turbomath.lab.checks.bound import amount_of
from turbomath.lab.checks.bounds import (
    BOUNDS,
    LEAST_BOOST,
    LIKE_COOLANT,
    NARROW_EFFICIENCY,
    in_si,
)
from turbomath.lab.checks.finding import Finding, judged, spoken
from turbomath.lab.checks.look import Look
from turbomath.lab.reduction.against_design import LEAST_BOOST_TO_HEAT

OUTLET, INLET, MANIFOLD = "compressor_outlet_temperature", "compressor_inlet_temperature", "manifold_temperature"
MEDIUM, COOLANT, AMBIENT = "cooling_medium_temperature", "engine_coolant_temperature", "ambient_temperature"
PRESSURES = (
    "boost",
    "compressor_outlet_pressure",
    "manifold_pressure",
    "cooler_pressure_loss",
    "intake_restriction",
    "barometer",
    "throttle_inlet_pressure",
)
BEFORE_A_THROTTLE = ("throttle_inlet_pressure", "cooler_pressure_loss")  # of these comes the compressor's pressure
EFFICIENCY = "compressor_efficiency"
COOLED_BETWEEN = "; an intercooler between the stages takes out heat, so one efficiency says nothing of both"
READ_BETWEEN = "Read pressure and temperature between the stages, and judge each stage by itself."
TOO_LITTLE_BOOST = "too little boost to judge the compressor from these gauges"


def compressor_rise(look: Look) -> Iterable[Finding]:
    """5: squeezed air leaves the compressor hotter than it came in."""
    inlet = _inlet(look)
    rows = [row for row in look.steady if look.outlet_boost[row] > in_si(LEAST_BOOST_TO_HEAT)]
    rise = look.at.compressor_outlet_temperature - look.at.compressor_inlet_temperature
    return judged(
        look,
        5,
        rows,
        rise,
        look.widths(OUTLET, inlet),
        BOUNDS["compressor rise"],
        look.present(OUTLET, inlet),
        lambda row: (
            f"{look.told(row, 'boost', inlet, OUTLET)}: a rise of {difference(look, rise[row], OUTLET)} "
            "in the compressor"
        ),
        "Check whether the two probes or the two cells are swapped, and whether the outlet probe works.",
    )


def compressor_efficiency(look: Look) -> Iterable[Finding]:
    """6: the efficiency that the readings imply, where boost and gauges are enough to judge it."""
    columns, width = look.present(OUTLET, *PRESSURES[:3], _inlet(look), *PRESSURES[3:]), look.result_width(EFFICIENCY)

    behind = look.present("compressor_outlet_pressure") or BEFORE_A_THROTTLE
    pressures = behind if look.bench.engine.throttle else PRESSURES[:3]

    def told(row):
        return f"{look.tell_result(EFFICIENCY, row)} from {look.told(row, *pressures, _inlet(look), OUTLET)}"

    if cooled_between(look):
        shown = (row for row in look.steady if not np.isnan(look.value(EFFICIENCY)[row]))
        yield from (spoken(6, row, "note", columns, told(row) + COOLED_BETWEEN, READ_BETWEEN) for row in shown)
        return
    enough = amount_of(LEAST_BOOST, look.unit("boost", LEAST_BOOST[2], look.present(*PRESSURES)))
    everywhere = judged(
        look,
        6,
        look.steady,
        look.value(EFFICIENCY),
        width,
        BOUNDS["compressor efficiency"].expecting(look.bench.design.compressor_efficiency),
        columns,
        told,
        "Read the pressures, the outlet temperature and the barometer again; then look at the compressor.",
    )
    for finding in everywhere:
        row = finding.row
        if look.outlet_boost[row] >= in_si(LEAST_BOOST) or (finding.level == "red" and width[row] <= NARROW_EFFICIENCY):
            yield finding
        else:
            yield spoken(
                6,
                row,
                "note",
                columns,
                f"{told(row)}: {TOO_LITTLE_BOOST}",
                f"Judge the compressor at load, from {enough} of boost up.",
            )


def pressures_of_the_aftercooler(look: Look) -> Iterable[Finding]:
    """10: the compressor outlet is above the manifold, by as much as the differential gauge says if there is one."""
    outlet, manifold = "compressor_outlet_pressure", "boost" if look.run.has("boost") else "manifold_pressure"
    if len(look.present(outlet, manifold)) < 2 or look.bench.engine.aftercooler == "none":
        return
    rows = [row for row in look.steady if look.is_read(outlet, row) and look.is_read(manifold, row)]
    over = look.at.manifold_pressure - look.at.compressor_outlet_pressure
    columns = (outlet, manifold, *look.present("barometer"))
    action = "Check whether the two lines, gauges or cells are swapped; trust one differential gauge before two others."

    def told(row):
        higher = look.amount(over[row], "psi", "boost", *columns)
        return f"{look.told(row, outlet, manifold)}: the manifold is {higher} higher"

    yield from judged(
        look, 10, rows, over, look.widths(outlet, manifold), BOUNDS["manifold over outlet"], columns, told, action
    )
    level_within_error = [row for row in rows if 0 < over[row] <= look.widths(outlet, manifold)[row]]
    for row in level_within_error:
        yield spoken(10, row, "amber", columns, f"{told(row)}, though no more than the gauges allow", action)
    if look.run.has("cooler_pressure_loss") and not look.bench.engine.throttle:
        apart = -over - look.run["cooler_pressure_loss"]
        yield from judged(
            look,
            10,
            rows,
            apart,
            look.widths(outlet, manifold, "cooler_pressure_loss"),
            BOUNDS["two losses"],
            (*columns, "cooler_pressure_loss"),
            lambda row: (
                f"{look.told(row, outlet, manifold, 'cooler_pressure_loss')}: the two gauges and the "
                f"differential gauge are {look.amount(apart[row], 'psi', 'boost', *columns)} apart"
            ),
            action,
        )


def cooler_pressure_loss(look: Look) -> Iterable[Finding]:
    """11: what the charge loses in the aftercooler."""
    behind = "throttle_inlet_pressure" if look.bench.engine.throttle else "boost"
    gauges = look.present("cooler_pressure_loss") or look.present("compressor_outlet_pressure", behind)
    bound = BOUNDS["cooler pressure loss"].expecting(look.bench.design.cooler_pressure_loss)
    return judged(
        look,
        11,
        [] if look.bench.engine.aftercooler == "none" else look.loaded,
        look.at.cooler_pressure_loss,
        look.widths(*gauges),
        bound,
        gauges,
        lambda row: look.told(row, *gauges),
        "Read it again with one differential gauge, both lines clear; then look for a plugged or a missing core.",
    )


def pressure_ratio(look: Look) -> Iterable[Finding]:
    """19: what one stage can do, or two where bench.toml says so, and that it does something at load."""
    columns, two = look.present(*PRESSURES), ", two stages" if look.bench.engine.stages == 2 else ""
    for rows, bound in ((look.loaded, "pressure ratio at load"), (look.others(look.loaded), "pressure ratio")):
        yield from judged(
            look,
            19,
            rows,
            look.value("pressure_ratio"),
            look.result_width("pressure_ratio"),
            BOUNDS[bound + two],
            columns,
            lambda row: f"{look.tell_result('pressure_ratio', row)} from {look.told(row, *columns)}",
            "Check the units of these readings, and gauge against absolute.",
        )


def inlet_against_ambient(look: Look) -> Iterable[Finding]:
    """36: the air at the compressor, and at the core face of an air-to-air aftercooler, is near that in the room."""
    yield from _against_ambient(look, INLET)
    if look.bench.engine.aftercooler == "air-to-air":
        yield from _against_ambient(look, MEDIUM)


def _against_ambient(look, place):
    over = look.run[place] - look.at.ambient_temperature
    return judged(
        look,
        36,
        look.steady,
        over,
        look.widths(place, AMBIENT),
        BOUNDS["inlet rise"],
        look.present(place, AMBIENT),
        lambda row: (
            f"{look.told(row, place, AMBIENT)}: {difference(look, over[row], place)} from ambient"
            f"{coolant_words(look, row, place)}"
        ),
        "Read both at the engine, shaded: a weather station does not read the air that the engine breathes.",
    )


def cooled_between(look: Look) -> bool:
    """Return whether the air is cooled between two stages."""
    return look.bench.engine.stages == 2 and look.bench.engine.intercooler


def _inlet(look):
    return INLET if look.run.has(INLET) else AMBIENT


def coolant_words(look: Look, row: int, place: str) -> str:
    """Return what is to be said where the medium of an air-to-air aftercooler is too hot to be air."""
    hot = look.run[MEDIUM][row] - look.at.ambient_temperature[row] > in_si(LIKE_COOLANT)
    if place != MEDIUM or look.bench.engine.aftercooler != "air-to-air" or not hot:
        return ""
    return " (the medium of an air-to-air aftercooler is the air at its core face; so hot it looks like engine coolant)"


def difference(look: Look, kelvin: float, column: str) -> str:
    """Return a difference of temperatures in words, in the scale of a thermometer's column."""
    return look.amount(kelvin, "F°", "temperature_rise", column)
