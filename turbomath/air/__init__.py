"""Models of the working gas behind one shape of call: pressure and temperature in, one property out."""

from typing import Any

from turbomath.table.doors import door_of_room, opened_at
from turbomath.table.errors import OutOfRangeError, short
from turbomath.table.formulas import choice

__all__ = ["choose", "chosen"]
__getattr__, __dir__ = door_of_room(__name__, __path__[0], __all__)

_MODELS = {
    "perfect": "turbomath.air.perfect:PerfectAir",
    "ideal": "turbomath.air.real:IdealAir",
    "real": "turbomath.air.real:RealAir",
    "moist": "turbomath.air.moist:MoistAir",
    "coolprop": "turbomath.air.coolprop:CoolPropAir",
}
_ASKED_OF_A_MODEL = ("name", "density", "enthalpy", "outlet_temperature", "isentropic_efficiency")


def choose(name: str, *, humidity_ratio: Any = None) -> Any:
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
    model = opened_at(choice("the air model", name, _MODELS))
    if humidity_ratio is None:
        return model()
    if name != "moist":
        raise OutOfRangeError(f"the air model {name!r} is dry; take 'moist' for a humidity ratio.")
    return model(humidity_ratio)


def chosen(air: Any) -> Any:
    """Return the air model that *air* is, or whose name it is; None stays None, for whoever has a model of its own.

    Raises
    ------
    OutOfRangeError
        For anything else, with the valid names listed.
    """
    if air is None or (not isinstance(air, type) and all(hasattr(air, name) for name in _ASKED_OF_A_MODEL)):
        return air
    if isinstance(air, str):
        return choose(air)
    names = ", ".join(map(repr, _MODELS))
    raise OutOfRangeError(f"air must be a model from turbomath.air.choose or one of {names}; found {short(air)!r}.")
