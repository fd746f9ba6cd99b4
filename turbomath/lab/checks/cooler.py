"""Checks of the three temperatures that meet in the aftercooler: 7 to 9."""

from collections.abc import Iterable

import numpy as np

from turbomath.lab.checks.bounds import BOUNDS, HOT_ENOUGH_TO_COOL, SOAKED, in_si
from turbomath.lab.checks.finding import Finding, judged, spoken
from turbomath.lab.checks.look import Look
from turbomath.lab.checks.stations import AMBIENT, COOLANT, MANIFOLD, MEDIUM, OUTLET, coolant_words, difference
from turbomath.lab.run.channels import LIQUID_COOLED

HEATED = "; the medium that enters is hotter than the charge, so here it heats it, and effectiveness says nothing"
# Each its own, as notes with one action are told together, by the reason of the first
AT_LOAD = "Judge the aftercooler at more load."
WITH_MORE_AIR = "Judge the aftercooler where more air flows."
WITH_MORE_TO_COOL = "Judge the aftercooler where there is more to cool."
WARMED_BY_THE_ENGINE = (
    "; the charge leaves hotter than the air and the medium that enter; a hot engine does that where little air flows"
)


def manifold_against_medium(look: Look) -> Iterable[Finding]:
    """7: the charge leaves the aftercooler between its inlet and the medium, whichever is hotter."""
    outlet, manifold, medium = _cooler_temperatures(look)
    columns, above = _cooler_columns(look), manifold - medium
    action = "Read the manifold and the medium again at a steady point; check that the medium is the right one."

    def told(row):
        return f"{look.told(row, *columns)}{coolant_words(look, row, MEDIUM)}"

    with_something_to_cool = [row for row in look.steady if outlet[row] > medium[row] + in_si(HOT_ENOUGH_TO_COOL)]
    yield from judged(
        look,
        7,
        with_something_to_cool,
        above,
        look.widths(MANIFOLD, _medium(look)),
        BOUNDS["above medium"],
        columns,
        told,
        action,
    )
    heated = _heated(look) | _soaked(look)
    past = np.maximum(np.minimum(outlet, medium) - manifold, manifold - np.maximum(outlet, medium))
    for finding in judged(
        look,
        7,
        look.others(with_something_to_cool),
        past,
        look.widths(*columns),
        BOUNDS["between inlet and medium"],
        columns,
        told,
        action,
    ):
        warmed = finding.trouble and heated[finding.row] and manifold[finding.row] > medium[finding.row]
        yield finding.but(level="amber", reason=told(finding.row) + WARMED_BY_THE_ENGINE) if warmed else finding


def cooling_of_the_charge(look: Look) -> Iterable[Finding]:
    """8: an aftercooler cools the charge, unless its medium is hotter than what comes in."""
    outlet, manifold, medium = _cooler_temperatures(look)
    medium = np.where(
        np.isnan(medium) & (look.bench.engine.aftercooler == "air-to-air"), look.at.ambient_temperature, medium
    )
    width, drop = look.widths(OUTLET, MANIFOLD), outlet - manifold
    much = [row for row in look.loaded if outlet[row] > medium[row] + in_si(HOT_ENOUGH_TO_COOL)]
    soaked = _soaked(look)
    some = [row for row in look.others(much) if outlet[row] > medium[row] + width[row] and not soaked[row]]
    for rows, bound in ((much, "aftercooler drop"), (some, "aftercooler drop, little to cool")):
        yield from judged(
            look,
            8,
            rows,
            drop,
            width,
            BOUNDS[bound],
            look.present(MANIFOLD, OUTLET),
            lambda row: f"{look.told(row, OUTLET, MANIFOLD)}: a drop of {difference(look, drop[row], MANIFOLD)}",
            "Check whether the two probes or the two cells are swapped, and that the engine was steady.",
        )


def effectiveness(look: Look) -> Iterable[Finding]:
    """9: the effectiveness that the readings imply; where inlet and medium hardly differ its own ± is wide."""
    kind = look.bench.engine.aftercooler
    if kind in ("none", None):
        return
    bound = BOUNDS[f"effectiveness {kind}"]
    columns, heated = _cooler_columns(look), _heated(look)
    soaked, little = _soaked(look) & ~heated, _little_to_cool(look)
    for row in (row for row in look.steady if heated[row] or soaked[row]):
        words, action = (HEATED, AT_LOAD) if heated[row] else (WARMED_BY_THE_ENGINE, WITH_MORE_AIR)
        yield spoken(9, row, "note", columns, look.told(row, *columns) + words, action)
    for finding in judged(
        look,
        9,
        [row for row in look.steady if not heated[row] and not soaked[row]],
        look.value("effectiveness"),
        look.result_width("effectiveness"),
        bound.expecting(look.bench.design.effectiveness),
        columns,
        lambda row: f"{look.tell_result('effectiveness', row)} from {look.told(row, *columns)}",
        "Read the three temperatures again; then look for a fouled core, a fan that is off, a leak.",
    ):
        hardly_tells = finding.level == "amber" and little[finding.row]
        yield finding.but(level="note", action=WITH_MORE_TO_COOL) if hardly_tells else finding


def _heated(look):
    """Return where the liquid that enters the aftercooler is hotter than the charge, by more than both thermometers."""
    outlet, _, medium = _cooler_temperatures(look)
    liquid = look.bench.engine.aftercooler in LIQUID_COOLED
    return liquid & (medium - outlet > look.widths(OUTLET, _medium(look)))


def _soaked(look):
    """Return where, away from load, the charge leaves a little hotter than both that enter: a hot engine does that."""
    outlet, manifold, medium = _cooler_temperatures(look)
    past = manifold - np.maximum(outlet, medium)
    return (past > 0) & (past <= in_si(SOAKED)) & ~np.isin(np.arange(len(past)), look.loaded)


def _little_to_cool(look):
    """Return where the charge that enters is hardly hotter than the medium, so that a few degrees decide."""
    outlet, _, medium = _cooler_temperatures(look)
    return outlet - medium < in_si(HOT_ENOUGH_TO_COOL)


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
