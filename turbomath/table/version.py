"""Which version of the kit this is."""

from importlib.metadata import PackageNotFoundError, version

try:
    __version__ = version("turbomath")
except PackageNotFoundError:  # used from a checkout that was never installed
    __version__ = "0+checkout"
