"""What stands in for a reading that nobody took, where physics and usual practice bound it: each with its own ±."""

from functools import cache

import numpy as np

from turbomath import units
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.bench import STANDARD_ATMOSPHERE, Bench
from turbomath.lab.run.readings import Run
from turbomath.units.rounding import rounded, with_plus_or_minus

# What a maker usually allows; common practice
USUAL_LIMITS = {"intake_restriction": (25.0, "inH2O"), "exhaust_back_pressure": (3.0, "inHg")}
BAROMETER, RESTRICTION = "barometer_not_read", "intake_restriction_not_read"  # their names among the readings
BACK_PRESSURE = "exhaust_back_pressure_not_read"
SHOP_UNITS = {"us": "inH2O", "si": "kPa"}  # of a restriction
WEATHER = 2_000.0  # Pa: how far a barometer stands from the standard atmosphere of its place; common practice


def stand_ins(run: Run) -> dict[str, Stated]:
    """Return what stands in for a reading that some row lacks, by its name among the readings."""
    site = Stated(run.bench.pressure_without_barometer, WEATHER)
    return {
        BAROMETER: site if _lacks(run, "barometer") and np.isfinite(site.value) else Stated(np.nan),
        RESTRICTION: _up_to_the_limit(run, "intake_restriction"),
        BACK_PRESSURE: _up_to_the_limit(run, "exhaust_back_pressure", beside="turbine_inlet_pressure"),
    }


def words(bench: Bench, column: str) -> str:
    """Return in words what a barometer or an intake restriction that nobody read may be."""
    if column == "barometer":
        return f"not read: {_site_pressure(bench)} (assumed)" if np.isfinite(bench.pressure_without_barometer) else ""
    whence = "the limit in bench.toml" if _stated_limit(bench, column) else "what a maker usually allows"
    unit = SHOP_UNITS[bench.run.units]
    most = units.from_si(_most(bench, column), unit, column)
    if not _stated_limit(bench, column):
        most = float(f"{most:.2g}")  # converted from the shop's own 25 inH2O, so as a person would say it
    return f"not read: 0 to {rounded(most)} {unit}, {whence}"


def barometer_offer(run: Run) -> str:
    """Return the sentence that offers a barometer from the elevation, or "" where it is not wanted or not known."""
    bench = run.bench
    if bench.site.elevation is None or not np.isnan(run["barometer"]).all():
        return ""
    if np.isfinite(bench.pressure_without_barometer):
        return ""
    return (
        f'no reading of it; [site] barometer = "{STANDARD_ATMOSPHERE}" in bench.toml would take {_site_pressure(bench)}'
    )


def _site_pressure(bench):
    unit = units.display("barometer", bench.run.units)
    value, width = (units.from_si(one, unit, "barometer") for one in (bench.standard_pressure, WEATHER))
    return f"{with_plus_or_minus(value, width)} {unit}, the standard atmosphere at the site's elevation"


def _lacks(run, column):
    return np.isnan(run[column]).any()


def _up_to_the_limit(run, column, beside=None):
    """Return what stands in for a column with gaps; nothing where the column it is read *beside* is not there."""
    half = _most(run.bench, column) / 2
    wanted = _lacks(run, column) and (beside is None or run.has(beside))
    return Stated(half, half) if wanted else Stated(np.nan)


def _stated_limit(bench, column):
    most = bench.limits.get(column, (0.0, np.inf))[1]
    return most if 0 < most < np.inf else None


def _most(bench, column):
    return _stated_limit(bench, column) or _usual_limit(column)


@cache
def _usual_limit(column):
    number, unit = USUAL_LIMITS[column]
    return units.to_si(number, unit, column)
