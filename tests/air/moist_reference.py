"""Reference for moist air: CoolProp's own enthalpy and volume, integrated along an entropy that they agree with.

CoolProp 8.0.0 takes the virial model of Herrmann et al. (2009). Its entropy of humid air is a formula of its own, up
to 5e-5 of the outlet temperature away from its enthalpy and volume; dT/dln p = T p (dv/dT)_p / cp needs neither.
"""

import numpy as np
from CoolProp.CoolProp import HAPropsSI

STEP = 0.05  # K, of the central differences


def slope(log_pressure, temperature, humidity_ratio):
    """dT/dln p at constant entropy [K], from differences of CoolProp's volume and enthalpy."""
    pressure = float(np.exp(log_pressure))
    volume, enthalpy = (
        [HAPropsSI(name, "T", temperature + d, "P", pressure, "W", humidity_ratio) for d in (-STEP, STEP)]
        for name in ("Vda", "Hda")
    )
    return temperature * pressure * (volume[1] - volume[0]) / (enthalpy[1] - enthalpy[0])


def ideal_outlet(inlet_pressure, inlet_temperature, outlet_pressure, humidity_ratio, steps=24):
    """Outlet temperature [K] of a compressor without losses, by the classical fourth-order rule in ln p."""
    place, temperature = np.log(inlet_pressure), inlet_temperature
    step = (np.log(outlet_pressure) - place) / steps
    for _ in range(steps):
        first = slope(place, temperature, humidity_ratio)
        second = slope(place + step / 2, temperature + step / 2 * first, humidity_ratio)
        third = slope(place + step / 2, temperature + step / 2 * second, humidity_ratio)
        fourth = slope(place + step, temperature + step * third, humidity_ratio)
        temperature += step * (first + 2 * second + 2 * third + fourth) / 6
        place += step
    return temperature


def outlet(inlet_pressure, inlet_temperature, outlet_pressure, efficiency, humidity_ratio):
    """Outlet temperature [K] of a compressor with losses: the enthalpy over the efficiency, at CoolProp's enthalpy."""
    ideal = ideal_outlet(inlet_pressure, inlet_temperature, outlet_pressure, humidity_ratio)

    def enthalpy(pressure, temperature):
        return HAPropsSI("Hda", "T", temperature, "P", pressure, "W", humidity_ratio)

    start = enthalpy(inlet_pressure, inlet_temperature)
    wanted = start + (enthalpy(outlet_pressure, ideal) - start) / efficiency
    temperature = inlet_temperature + (ideal - inlet_temperature) / efficiency
    for _ in range(4):
        heat = (enthalpy(outlet_pressure, temperature + 1) - enthalpy(outlet_pressure, temperature - 1)) / 2
        temperature += (wanted - enthalpy(outlet_pressure, temperature)) / heat
    return temperature


def by_its_entropy(inlet_pressure, inlet_temperature, outlet_pressure, efficiency, humidity_ratio):
    """The same by CoolProp's entropy: what a user of HAPropsSI would write."""
    entropy = HAPropsSI("S", "T", inlet_temperature, "P", inlet_pressure, "W", humidity_ratio)
    ideal = HAPropsSI("Hda", "S", entropy, "P", outlet_pressure, "W", humidity_ratio)
    start = HAPropsSI("Hda", "T", inlet_temperature, "P", inlet_pressure, "W", humidity_ratio)
    wanted = start + (ideal - start) / efficiency
    return HAPropsSI("T", "Hda", wanted, "P", outlet_pressure, "W", humidity_ratio)
