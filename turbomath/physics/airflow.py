"""Air flow: how much air the engine draws from the manifold."""

from turbomath.table.formulas import choice, defined, formula
from turbomath.table.kinds_of_value import Values

_CYCLES_PER_TURN = {2: 1.0, 4: 0.5}  # strokes of a working cycle -> fillings for each turn of the crankshaft


@formula(
    result="mass_flow",
    equation=r"\dot m = \rho \, V_\mathrm{d} \, N \, \eta_\mathrm{v} \, \frac{2}{n_\mathrm{strokes}}",
    source="Heywood",
    conditions="density and volumetric efficiency taken at the same place",
)
def mass_flow(
    density: Values, displacement: Values, engine_speed: Values, volumetric_efficiency: Values, strokes: int = 4
) -> Values:
    """Mass of air that an engine draws in each second.

    Parameters
    ----------
    density : float or array [kg/m^3]
        Density of the air in the manifold.
    displacement : float or array [m^3]
        Volume swept by all pistons.
    engine_speed : float or array [rev/s]
        Turns of the crankshaft.
    volumetric_efficiency : float or array [-]
        Air drawn in over what the swept volume would hold at manifold density.
    strokes : int [-]
        Strokes of one working cycle, 2 or 4.

    Returns
    -------
    float or array of the broadcast shape [kg/s]
        Mass flow.

    Raises
    ------
    OutOfRangeError
        If a density, displacement or volumetric efficiency is not above zero, the engine speed is
        below zero, or the strokes are neither 2 nor 4.

    Notes
    -----
    A four-stroke engine fills its cylinders once in two turns.

    Examples
    --------
    >>> round(mass_flow(2.643, 0.0127, 30.0, 0.92), 4)
    0.4632

    References
    ----------
    Heywood, section 2.10, eq. 2.27a.
    """
    return density * displacement * engine_speed * volumetric_efficiency * choice("strokes", strokes, _CYCLES_PER_TURN)


@formula(
    result="volumetric_efficiency",
    equation=r"\eta_\mathrm{v} = \frac{\dot m \, n_\mathrm{strokes}}{2 \, \rho \, V_\mathrm{d} \, N}",
    source="Heywood",
    conditions="on the density that is given, usually that of the manifold",
)
def volumetric_efficiency(
    mass_flow: Values, density: Values, displacement: Values, engine_speed: Values, strokes: int = 4
) -> Values:
    """Volumetric efficiency from a measured air flow.

    Parameters
    ----------
    mass_flow : float or array [kg/s]
        Air drawn in by the engine.
    density : float or array [kg/m^3]
        Density of the air in the manifold.
    displacement : float or array [m^3]
        Volume swept by all pistons.
    engine_speed : float or array [rev/s]
        Turns of the crankshaft.
    strokes : int [-]
        Strokes of one working cycle, 2 or 4.

    Returns
    -------
    float or array of the broadcast shape [-]
        Volumetric efficiency; `nan` for an engine that stands still.

    Raises
    ------
    OutOfRangeError
        If a density or displacement is not above zero, a flow or speed is below zero, or the strokes
        are neither 2 nor 4.

    Notes
    -----
    With the density of ambient air instead, a boosted engine shows more than 1, even more than 2.

    Examples
    --------
    >>> round(volumetric_efficiency(0.4385, 2.643, 0.0127, 30.0), 3)
    0.871

    References
    ----------
    Heywood, section 2.10, eq. 2.27a.
    """
    filling = density * displacement * engine_speed * choice("strokes", strokes, _CYCLES_PER_TURN)
    return defined(filling > 0, mass_flow / filling)


@formula(
    result="volume_flow",
    equation=r"\dot V = \frac{\dot m}{\rho}",
    source="Heywood",
    conditions="density at the place where the volume is wanted",
)
def volume_flow(mass_flow: Values, density: Values) -> Values:
    """Volume that a mass flow of air takes up each second.

    Parameters
    ----------
    mass_flow : float or array [kg/s]
        Air drawn in by the engine.
    density : float or array [kg/m^3]
        Density of the air where the volume is wanted: ambient for a filter, manifold for a cylinder.

    Returns
    -------
    float or array of the broadcast shape [m^3/s]
        Volume flow.

    Raises
    ------
    OutOfRangeError
        If a density is not above zero or a mass flow is below zero.

    Notes
    -----
    A volume flow means nothing without the place whose density was taken.

    Examples
    --------
    >>> round(volume_flow(0.4632, 1.115), 4)
    0.4154

    References
    ----------
    Heywood, section 2.10.
    """
    return mass_flow / density
