"""The equation of Lemmon et al. (2000), solved to rounding: CoolProp's own p, h and s of density and temperature.

CoolProp's flash stops at about 1e-9. Here density and temperature are found by Newton's rule on functions that CoolProp
gives without iteration, from the perfect gas as the first guess.
"""

from CoolProp import CoolProp

_air = CoolProp.AbstractState("HEOS", "Air")
GAS_CONSTANT = _air.gas_constant() / _air.molar_mass()
STEPS, NEAR = 12, 1e-9  # the error after a step is about the square of the step
P, T, D, H, S = CoolProp.iP, CoolProp.iT, CoolProp.iDmass, CoolProp.iHmass, CoolProp.iSmass


def _newton(pressure, temperature, wanted, name):
    """Leave the library at the state of a pressure and another property; return its temperature."""
    density = pressure / (GAS_CONSTANT * temperature)
    for _ in range(STEPS):
        _air.update(CoolProp.DmassT_INPUTS, density, temperature)
        p, other = pressure - _air.p(), wanted - _air.keyed_output(name)
        p_d, p_t = _air.first_partial_deriv(P, D, T), _air.first_partial_deriv(P, T, D)
        other_d, other_t = _air.first_partial_deriv(name, D, T), _air.first_partial_deriv(name, T, D)
        both = p_d * other_t - p_t * other_d
        more, warmer = (p * other_t - p_t * other) / both, (p_d * other - p * other_d) / both
        density, temperature = density + more, temperature + warmer
        if abs(more / density) + abs(warmer / temperature) < NEAR:
            break
    _air.update(CoolProp.DmassT_INPUTS, density, temperature)
    return temperature


def at(pressure, temperature):
    """Density, enthalpy, entropy and specific heat at one state (SI units)."""
    density = pressure / (GAS_CONSTANT * temperature)
    for _ in range(STEPS):
        _air.update(CoolProp.DmassT_INPUTS, density, temperature)
        more = (pressure - _air.p()) / _air.first_partial_deriv(P, D, T)
        density += more
        if abs(more / density) < NEAR:
            break
    _air.update(CoolProp.DmassT_INPUTS, density, temperature)
    return density, _air.hmass(), _air.smass(), _air.cpmass()


def outlet_temperature(inlet_pressure, inlet_temperature, outlet_pressure, isentropic_efficiency):
    """Outlet temperature of a compressor [K]."""
    _, inlet, entropy, _ = at(inlet_pressure, inlet_temperature)
    guess = inlet_temperature * (outlet_pressure / inlet_pressure) ** (2 / 7)
    guess = _newton(outlet_pressure, guess, entropy, S)
    outlet = inlet + (_air.hmass() - inlet) / isentropic_efficiency
    guess = inlet_temperature + (guess - inlet_temperature) / isentropic_efficiency
    return _newton(outlet_pressure, guess, outlet, H)
