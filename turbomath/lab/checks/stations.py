"""Checks of the air path, station by station: 5 to 11, 19 and 36."""

from collections.abc import Iterable

import numpy as np

from turbomath.lab.checks.bounds import (
    BOUNDS,
    HOT_ENOUGH_TO_COOL,
    LEAST_BOOST,
    LIKE_COOLANT,
    NARROW_EFFICIENCY,
    in_si,
)
from turbomath.lab.checks.finding import Finding, judged, spoken
from turbomath.lab.checks.look import Look, number
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
)
EFFICIENCY = "compressor_efficiency"
TOO_LITTLE_BOOST = "too little boost to judge the compressor from these gauges"


def compressor_rise(look: Look) -> Iterable[Finding]:
    """5: squeezed air leaves the compressor hotter than it came in."""
    inlet = _inlet(look)
    rows = [row for row in look.steady if look.boost[row] > in_si(LEAST_BOOST_TO_HEAT)]
    rise = look.at.compressor_outlet_temperature - look.at.compressor_inlet_temperature
    return judged(
        5,
        rows,
        rise,
        look.widths(OUTLET, inlet),
        BOUNDS["compressor rise"],
        look.present(OUTLET, inlet),
        lambda row: f"{look.told(row, 'boost', inlet, OUTLET)}: a rise of {_difference(rise[row])} in the compressor",
        "Check whether the two probes or the two cells are swapped, and whether the outlet probe works.",
    )


def compressor_efficiency(look: Look) -> Iterable[Finding]:
    """6: the efficiency that the readings imply, where boost and gauges are enough to judge it."""
    columns, width = look.present(OUTLET, *PRESSURES[:3], _inlet(look), *PRESSURES[3:]), look.result_width(EFFICIENCY)

    def told(row):
        return f"{look.tell_result(EFFICIENCY, row)} from {look.told(row, *PRESSURES[:3], _inlet(look), OUTLET)}"

    everywhere = judged(
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
        if look.boost[row] >= in_si(LEAST_BOOST) or (finding.level == "red" and width[row] <= NARROW_EFFICIENCY):
            yield finding
        else:
            yield spoken(
                6,
                row,
                "note",
                columns,
                f"{told(row)}: {TOO_LITTLE_BOOST}",
                "Judge the compressor at load, from 10 psi of boost up.",
            )


def manifold_against_medium(look: Look) -> Iterable[Finding]:
    """7: the charge leaves the aftercooler between its inlet and the medium, whichever is hotter."""
    outlet, manifold, medium = _cooler_temperatures(look)
    columns, above = _cooler_columns(look), manifold - medium
    action = "Read the manifold and the medium again at a steady point; check that the medium is the right one."

    def told(row):
        return f"{look.told(row, *columns)}{_coolant_words(look, row, MEDIUM)}"

    with_something_to_cool = [row for row in look.steady if outlet[row] > medium[row] + in_si(HOT_ENOUGH_TO_COOL)]
    yield from judged(
        7,
        with_something_to_cool,
        above,
        look.widths(MANIFOLD, _medium(look)),
        BOUNDS["above medium"],
        columns,
        told,
        action,
    )
    past = np.maximum(np.minimum(outlet, medium) - manifold, manifold - np.maximum(outlet, medium))
    yield from judged(
        7,
        look.others(with_something_to_cool),
        past,
        look.widths(*columns),
        BOUNDS["between inlet and medium"],
        columns,
        told,
        action,
    )


def cooling_of_the_charge(look: Look) -> Iterable[Finding]:
    """8: an aftercooler cools the charge, unless its medium is hotter than what comes in."""
    outlet, manifold, medium = _cooler_temperatures(look)
    medium = np.where(
        np.isnan(medium) & (look.bench.engine.aftercooler == "air-to-air"), look.at.ambient_temperature, medium
    )
    width, drop = look.widths(OUTLET, MANIFOLD), outlet - manifold
    much = [row for row in look.loaded if outlet[row] > medium[row] + in_si(HOT_ENOUGH_TO_COOL)]
    some = [row for row in look.others(much) if outlet[row] > medium[row] + width[row]]
    for rows, bound in ((much, "aftercooler drop"), (some, "aftercooler drop, little to cool")):
        yield from judged(
            8,
            rows,
            drop,
            width,
            BOUNDS[bound],
            look.present(MANIFOLD, OUTLET),
            lambda row: f"{look.told(row, OUTLET, MANIFOLD)}: a drop of {_difference(drop[row])}",
            "Check whether the two probes or the two cells are swapped, and that the engine was steady.",
        )


def effectiveness(look: Look) -> Iterable[Finding]:
    """9: the effectiveness that the readings imply; where inlet and medium hardly differ its own ± is wide."""
    kind = look.bench.engine.aftercooler
    if kind in ("none", None):
        return ()
    bound = BOUNDS["effectiveness air-to-air" if kind == "air-to-air" else "effectiveness liquid"]
    columns = _cooler_columns(look)
    return judged(
        9,
        look.steady,
        look.value("effectiveness"),
        look.result_width("effectiveness"),
        bound.expecting(look.bench.design.effectiveness),
        columns,
        lambda row: f"{look.tell_result('effectiveness', row)} from {look.told(row, *columns)}",
        "Read the three temperatures again; then look for a fouled core, a fan that is off, a leak.",
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
        return f"{look.told(row, outlet, manifold)}: the manifold is {number(over[row], 'psi', 'boost')} higher"

    yield from judged(
        10, rows, over, look.widths(outlet, manifold), BOUNDS["manifold over outlet"], columns, told, action
    )
    level_within_error = [row for row in rows if 0 < over[row] <= look.widths(outlet, manifold)[row]]
    for row in level_within_error:
        yield spoken(10, row, "amber", columns, f"{told(row)}, though no more than the gauges allow", action)
    if look.run.has("cooler_pressure_loss"):
        apart = -over - look.run["cooler_pressure_loss"]
        yield from judged(
            10,
            rows,
            apart,
            look.widths(outlet, manifold, "cooler_pressure_loss"),
            BOUNDS["two losses"],
            (*columns, "cooler_pressure_loss"),
            lambda row: (
                f"{look.told(row, outlet, manifold, 'cooler_pressure_loss')}: the two gauges and the "
                f"differential gauge are {number(apart[row], 'psi', 'boost')} apart"
            ),
            action,
        )


def cooler_pressure_loss(look: Look) -> Iterable[Finding]:
    """11: what the charge loses in the aftercooler."""
    gauges = look.present("cooler_pressure_loss") or look.present("compressor_outlet_pressure", "boost")
    bound = BOUNDS["cooler pressure loss"].expecting(look.bench.design.cooler_pressure_loss)
    return judged(
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
    """19: what the compressor can do in one stage, and that it does something at load."""
    columns = look.present(*PRESSURES)
    for rows, bound in ((look.loaded, "pressure ratio at load"), (look.others(look.loaded), "pressure ratio")):
        yield from judged(
            19,
            rows,
            look.value("pressure_ratio"),
            look.result_width("pressure_ratio"),
            BOUNDS[bound],
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
        36,
        look.steady,
        over,
        look.widths(place, AMBIENT),
        BOUNDS["inlet rise"],
        look.present(place, AMBIENT),
        lambda row: (
            f"{look.told(row, place, AMBIENT)}: {_difference(over[row])} from ambient{_coolant_words(look, row, place)}"
        ),
        "Read both at the engine, shaded: a weather station does not read the air that the engine breathes.",
    )


def _inlet(look):
    return INLET if look.run.has(INLET) else AMBIENT


def _medium(look):
    fallback = {"air-to-air": AMBIENT, "jacket-water": COOLANT}.get(look.bench.engine.aftercooler, MEDIUM)
    return MEDIUM if look.run.has(MEDIUM) else fallback


def _cooler_columns(look):
    return look.present(MANIFOLD, OUTLET, _medium(look))


def _cooler_temperatures(look):
    """Temperatures into the aftercooler, out of it and of its medium; all missing where there is no aftercooler."""
    present, at = 0.0 if look.bench.engine.aftercooler != "none" else np.nan, look.at
    return tuple(
        np.asarray(temperature) + present
        for temperature in (at.compressor_outlet_temperature, at.manifold_temperature, at.medium_temperature)
    )


def _coolant_words(look, row, place):
    """Return what is to be said where the medium of an air-to-air aftercooler is too hot to be air."""
    hot = look.run[MEDIUM][row] - look.at.ambient_temperature[row] > in_si(LIKE_COOLANT)
    if place != MEDIUM or look.bench.engine.aftercooler != "air-to-air" or not hot:
        return ""
    return " (the medium of an air-to-air aftercooler is the air at its core face; so hot it looks like engine coolant)"


def _difference(kelvin):
    return number(kelvin, "F°", "temperature_rise")
