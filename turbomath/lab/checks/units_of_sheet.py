"""The units in which a sheet is spoken of: those that its reader chose, and no others."""

from collections.abc import Iterable
from functools import cache

from turbomath import units
from turbomath.lab.run.readings import Run
from turbomath.table.quantities import QUANTITIES
from turbomath.units.rounding import rounded
from turbomath.units.spellings import FAMILIES, bare, by_spelling

US = {"psi", "inHg", "inH2O", "°F", "°R", "lb/min", "lb/h", "cfm", "US gal/min", "US gal/h", "lbf·ft", "hp", "lb"}
NEUTRAL = {"rpm", "rev/s", "s", "min", "-", "fraction", "%", ""}
DIFFERENCES = {"°F": "F°", "°R": "F°", "°C": "K", "K": "K"}
MOST_OFF = 0.04  # what a range may lose when it is rounded to two figures


def unit_told(run: Run, quantity: str, usual: str, columns: Iterable[str]) -> str:
    """Return the unit in which to tell an amount of *quantity*, found from *columns*.

    It is the unit of the first of them that measures such a thing; else *usual*, the shop's own in US units, or
    the display unit of a sheet in SI. A difference of temperatures goes with the scale of its thermometers.
    """
    wanted = _family(QUANTITIES[quantity].kind)
    if wanted in ("fraction", "rotational speed", "time"):
        return usual
    there = [_plain(run.units[name]) for name in columns if _measures(run, name, wanted)]
    if there:
        return DIFFERENCES[there[0]] if wanted == "temperature difference" else there[0]
    if system(run) == "us":
        return usual
    return units.display(quantity, "si").removesuffix(" abs").removesuffix(" gauge")


def system(run: Run) -> str:
    """Return "us" or "si": the system of most heads of the sheet, else that of bench.toml."""
    told = [unit for name in run.columns if (unit := _plain(run.units.get(name, ""))) not in NEUTRAL]
    american = sum(unit in US for unit in told)
    if 2 * american == len(told):
        return run.bench.run.units
    return "us" if 2 * american > len(told) else "si"


def range_end(number: float) -> str:
    """Return an end of a range that was converted, as a person would round it.

    Examples
    --------
    >>> [range_end(end) for end in (20.68, 676.7, 104.4, -2.03)]
    ['21', '680', '104', '−2']
    """
    two = float(f"{number:.2g}")
    return rounded(two if abs(two - number) <= MOST_OFF * abs(number) else float(f"{number:.3g}"))


def _measures(run, name, wanted):
    kind = _family(QUANTITIES[name].kind) if name in QUANTITIES else ""
    return run.has(name) and (kind == wanted or (kind, wanted) == ("temperature", "temperature difference"))


def _family(kind):
    return FAMILIES.get(kind, kind)


@cache
def _plain(unit):
    """Return a unit in the spelling to show, without what a pressure counts from."""
    key = bare(unit)
    found = [table[key] for table in by_spelling().values() if key in table]
    return found[0].shown.removesuffix(" gauge").removesuffix(" abs") if found else unit
