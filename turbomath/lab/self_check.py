"""Does this installation work? Each part is tried on its own, on this machine and without a network."""

import importlib.metadata
import platform
import sys
import tempfile
from pathlib import Path
from typing import Any

import numpy as np

from turbomath import air, units
from turbomath.disk import files
from turbomath.lab.reduction import reduce
from turbomath.lab.run import blank, readings
from turbomath.table.version import __version__

_LIBRARIES = ("numpy", "Pint", "CoolProp", "pandas", "Jinja2", "latex2mathml")


def self_check() -> dict[str, Any]:
    """Return {"version", "passed", "checks": [{"name", "passed", "detail"}]}."""
    checks = [_tried(check) for check in (_python, _libraries, _shipped_runs, _units, _real_gas, _reference, _writing)]
    return {"version": __version__, "passed": all(check["passed"] for check in checks), "checks": checks}


def _tried(check):
    name = check.__doc__.rstrip(".")
    try:
        passed, detail = check()
    except Exception as trouble:  # whatever breaks is the finding
        passed, detail = False, f"{type(trouble).__name__}: {trouble}"
    return {"name": name, "passed": bool(passed), "detail": detail}


def _python():
    """Python is new enough."""
    return sys.version_info >= (3, 11), f"{platform.python_version()} on {platform.system()}"


def _libraries():
    """The libraries are installed."""
    return True, ", ".join(f"{name} {importlib.metadata.version(name)}" for name in _LIBRARIES)


def _shipped_runs():
    """The shipped runs are there and can be reduced."""
    names = files.shipped_runs()
    judged = {name: reduce.reduce_run(readings.read_run(name)).agree for name in names}
    return len(names) > 0 and all(any(answers) for answers in judged.values()), ", ".join(names)


def _units():
    """Shop units convert as printed in NIST SP 811."""
    found = units.to_si(24.0, "psi", "boost")
    return np.isclose(found, 24 * 6894.757, rtol=1e-7), f"24 psi is {found:.0f} Pa"


def _real_gas():
    """The real-gas reference gives the printed density (Lemmon et al. 2000, 500 K and 0.2 MPa)."""
    found = air.choose("coolprop").density(200e3, 500.0)
    return np.isclose(found, 48.077 * 0.02896546, rtol=2e-5), f"{found:.4f} kg/m³"


def _reference():
    """The air-to-air generator gains about 140 % of charge at full load."""
    reduced = reduce.reduce_run(readings.read_run("generator_air_to_air"))
    gain = np.nanmax(reduced["measured_charge_gain"].value)
    return 1.3 < gain < 1.6, f"{100 * gain:.0f} %"


def _writing():
    """A new run folder can be written and read back."""
    with tempfile.TemporaryDirectory() as folder:
        written = blank.new_run(Path(folder) / "run")
        return all(path.stat().st_size for path in written), f"in {tempfile.gettempdir()}"
