"""turbomath: turbocharging, charge density and aftercooling, taught beside an engine's own readings."""

from importlib.metadata import PackageNotFoundError, version

from turbomath.table import unusual as _unusual
from turbomath.table.errors import OutOfRangeError, RangeWarning, TurbomathError

try:
    __version__ = version("turbomath")
except PackageNotFoundError:  # used from a checkout that was never installed
    __version__ = "0+checkout"

__all__ = ["OutOfRangeError", "RangeWarning", "TurbomathError", "__version__"]


def _units_meant(name: str, value: float) -> tuple[str, ...]:
    """Open the units only when a value is odd."""
    from turbomath.units.meant import units_meant

    return units_meant(name, value)


_unusual.units_meant = _units_meant
