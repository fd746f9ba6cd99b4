"""turbomath: turbocharging, charge density and aftercooling, taught beside an engine's own readings."""

import typing as _typing

from turbomath.table import doors as _doors

if _typing.TYPE_CHECKING:
    from turbomath import (
        air,
        engine,
        homework,
        lab,
        panels,
        paper,
        physics,
        pictures,
        table,
        uncertainty,
        units,
        widgets,
        working,
    )
    from turbomath.engine import balance
    from turbomath.engine.path import charge_path
    from turbomath.lab.reduction.reduce import reduce_run
    from turbomath.lab.run.readings import read_run
    from turbomath.table.errors import OutOfRangeError as OutOfRangeError
    from turbomath.table.errors import RangeWarning as RangeWarning
    from turbomath.table.errors import RefusedFileError as RefusedFileError
    from turbomath.table.errors import TurbomathError as TurbomathError
    from turbomath.table.errors import UnitError as UnitError
    from turbomath.table.quantities import QUANTITIES
    from turbomath.table.version import __version__ as __version__
    from turbomath.units import from_si, to_si

# Completion shows the rooms that a user may want, and the names used most.
__all__ = [
    "QUANTITIES",
    "air",
    "balance",
    "charge_path",
    "engine",
    "from_si",
    "homework",
    "lab",
    "panels",
    "paper",
    "physics",
    "pictures",
    "read_run",
    "reduce_run",
    "table",
    "to_si",
    "uncertainty",
    "units",
    "widgets",
    "working",
]
# How the kit works inside, and the refusals: there when they are asked for, and not in the way.
_UNSEEN_ROOMS = ["classroom", "cli", "disk", "handbook", "handouts", "offline", "pocket"]
_ERRORS = ["OutOfRangeError", "RangeWarning", "RefusedFileError", "TurbomathError", "UnitError"]
_PLACES = {
    **{room: f"turbomath.{room}" for room in [*__all__, *_UNSEEN_ROOMS]},
    **{error: f"turbomath.table.errors:{error}" for error in _ERRORS},
    "QUANTITIES": "turbomath.table.quantities:QUANTITIES",
    "balance": "turbomath.engine.balance",
    "charge_path": "turbomath.engine.path:charge_path",
    "from_si": "turbomath.units:from_si",
    "read_run": "turbomath.lab.run.readings:read_run",
    "reduce_run": "turbomath.lab.reduction.reduce:reduce_run",
    "to_si": "turbomath.units:to_si",
    "__version__": "turbomath.table.version:__version__",
}
if not _typing.TYPE_CHECKING:  # a checker would take any name from a door, also a wrong one
    __getattr__, __dir__ = _doors.door(__name__, _PLACES, __all__)

# Units are opened above most floors: records are shown in a reader's, and an odd value is told which it may be in.
# A run is read there too, also where an engine is fitted to it.
_doors.ABOVE["records"] = "turbomath.paper.records"
_doors.ABOVE["sheet of a run"] = "turbomath.lab.reduction.fit_points:sheet_of_run"
_doors.ABOVE["units meant"] = "turbomath.units.meant:units_meant"
