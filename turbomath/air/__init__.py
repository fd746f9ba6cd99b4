"""Models of the working gas behind one shape of call: pressure and temperature in, one property out."""

import importlib

from turbomath.table.errors import OutOfRangeError
from turbomath.table.formulas import choice

_MODELS = {
    "perfect": ("perfect", "PerfectAir"),
    "ideal": ("real", "IdealAir"),
    "real": ("real", "RealAir"),
    "moist": ("moist", "MoistAir"),
    "coolprop": ("coolprop", "CoolPropAir"),
}


def choose(name, *, humidity_ratio=None):
    """Return the air model *name*.

    - "perfect": R T and constant specific heat, for hand work
    - "ideal": R T, and the specific heat that changes with temperature; 210 to 720 K
    - "real": the equation of Lemmon et al. (2000), to 1e-9; 210 to 720 K, up to 900 kPa, and CoolProp beyond
    - "moist": real air with water vapour, `humidity_ratio` kilograms of it to each kilogram of dry air
    - "coolprop": the equation of Lemmon et al. (2000) solved by CoolProp, the reference

    Every model has `density`, `enthalpy`, `entropy`, `specific_heat` of (pressure, temperature),
    `outlet_temperature(inlet_pressure, inlet_temperature, outlet_pressure, isentropic_efficiency)` and
    `isentropic_efficiency(inlet_pressure, inlet_temperature, outlet_pressure, outlet_temperature)`.
    Enthalpy and entropy are meaningful as differences only.

    Raises
    ------
    OutOfRangeError
        For an unknown name, with the valid ones listed; for a humidity ratio with a model of dry air.
    """
    file, model = choice("the air model", name, _MODELS)
    model = getattr(importlib.import_module(f"turbomath.air.{file}"), model)
    if humidity_ratio is None:
        return model()
    if name != "moist":
        raise OutOfRangeError(f"the air model {name!r} is dry; take 'moist' for a humidity ratio.")
    return model(humidity_ratio)
