"""Models of the working gas behind one shape of call: pressure and temperature in, one property out."""

from turbomath.air import perfect
from turbomath.formulas import choice


def _coolprop():
    from turbomath.air import coolprop

    return coolprop.CoolPropAir()


_MODELS = {"perfect": perfect.PerfectAir, "coolprop": _coolprop}


def choose(name):
    """Return the air model *name*: "perfect" (hand work) or "coolprop" (the reference).

    Every model has `density`, `enthalpy`, `entropy`, `specific_heat` of (pressure, temperature),
    `outlet_temperature(inlet_pressure, inlet_temperature, outlet_pressure, isentropic_efficiency)` and
    `isentropic_efficiency(inlet_pressure, inlet_temperature, outlet_pressure, outlet_temperature)`.
    Enthalpy and entropy are meaningful as differences only.

    Raises
    ------
    OutOfRangeError
        For an unknown name, with the valid ones listed.
    """
    return choice("the air model", name, _MODELS)()
