"""The kinds of quantity: the SI unit of each, the units a shop shows, and what is possible at all."""

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Kind:
    """What sort of quantity it is: its SI unit, the units a shop shows, and what is possible at all.

    A value more than `far` times outside the range of its quantity may be in another unit. That is said only where a
    shop's number cannot be taken for one in SI: air flows, powers and ratios of large machines can be that large.
    """

    unit: str
    us: str
    si: str
    low: float = -math.inf
    high: float = math.inf
    low_allowed: bool = True
    needed: str = "a finite number"
    far: float = math.inf


def _above_zero(unit, us, si, needed="above 0", far=math.inf):
    return Kind(unit, us, si, low=0.0, low_allowed=False, needed=needed, far=far)


def _not_negative(unit, us, si, far=math.inf):
    return Kind(unit, us, si, low=0.0, needed="0 or more", far=far)


KINDS = {
    "pressure": _above_zero("Pa", "psi abs", "kPa abs", "an absolute pressure above 0 Pa", far=10),
    "absolute pressure": _above_zero("Pa", "inHg", "kPa", "an absolute pressure above 0 Pa", far=10),
    "gauge pressure": Kind("Pa", "psi", "kPa"),
    "pressure difference": Kind("Pa", "psi", "kPa"),
    "temperature": _above_zero("K", "°F", "°C", "an absolute temperature above 0 K", far=2),
    "temperature difference": Kind("K", "F°", "K"),
    "density": _above_zero("kg/m^3", "lb/ft³", "kg/m³", far=3),
    "vapour pressure": _not_negative("Pa", "inHg", "kPa"),
    "ratio": _above_zero("-", "-", "-"),
    "number": _not_negative("-", "-", "-"),
    "efficiency": Kind("-", "-", "-", 0.0, 1.0, False, "a fraction above 0 and at most 1"),
    "effectiveness": Kind("-", "-", "-", 0.0, 1.0, True, "a fraction from 0 to 1"),
    "share": Kind("-", "%", "%", 0.0, 1.0, True, "a fraction from 0 to 1"),
    "load": _not_negative("-", "%", "%"),
    "gain": Kind("-", "%", "%"),
    "humidity ratio": _not_negative("kg/kg", "g/kg", "g/kg"),
    "mass flow": _not_negative("kg/s", "lb/min", "kg/s"),
    "fuel flow": _not_negative("kg/s", "lb/h", "kg/h", far=1000),
    "water flow": _not_negative("kg/s", "g/min", "g/min"),
    "volume flow": _not_negative("m^3/s", "cfm", "m³/min", far=100),
    "coolant flow": _not_negative("m^3/s", "US gal/min", "L/min"),
    "rotational speed": _not_negative("rev/s", "rpm", "rpm", far=10),
    "elevation": Kind("m", "ft", "m", -5000.0, 11_000.0, needed="a height from -5000 to 11000"),
    "length": _above_zero("m", "in", "mm"),
    "velocity": _not_negative("m/s", "ft/min", "m/s"),
    "volume": _above_zero("m^3", "L", "L", far=100),
    "mass": _not_negative("kg", "lb", "kg"),
    "time": _not_negative("s", "s", "s"),
    "power": Kind("W", "hp", "kW"),
    "specific fuel consumption": _not_negative("kg/J", "lb/hp·h", "g/kW·h", far=10),
    "torque": Kind("N m", "lbf·ft", "N·m"),
    "energy": Kind("J", "Btu", "kJ"),
    "moment of inertia": _above_zero("kg m^2", "lb·ft²", "kg·m²", far=1000),
    "specific energy": Kind("J/kg", "Btu/lb", "kJ/kg"),
    "heating value": _above_zero("J/kg", "Btu/lb", "MJ/kg", far=10),
    "heat capacity rate": _above_zero("W/K", "Btu/(h·°F)", "W/K"),
    "viscosity": _above_zero("Pa s", "cP", "cP"),
    "flow for each drop": _above_zero("m^3/(s Pa)", "cfm per inH2O", "m³/h per kPa"),
    "gas constant": _above_zero("J/(kg K)", "J/(kg K)", "J/(kg K)"),
    "specific entropy": Kind("J/(kg K)", "J/(kg K)", "J/(kg K)"),
}
