"""turbomath: turbocharging, charge density and aftercooling, taught beside an engine's own readings."""

from importlib.metadata import PackageNotFoundError, version

from turbomath.table.errors import OutOfRangeError, RangeWarning, TurbomathError

try:
    __version__ = version("turbomath")
except PackageNotFoundError:  # used from a checkout that was never installed
    __version__ = "0+checkout"

__all__ = ["OutOfRangeError", "RangeWarning", "TurbomathError", "__version__"]
