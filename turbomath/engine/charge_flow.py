"""What flows through one engine whose charge took a known path: air, water, power and heat."""

from dataclasses import dataclass
from typing import Any

from turbomath.physics import airflow
from turbomath.table.kinds_of_value import Values
from turbomath.table.records import Record


@dataclass(frozen=True, repr=False)
class ChargeFlow(Record):
    """What flows through one engine; each field is a quantity of the table."""

    HEADLINE = ("mass_flow", "compressor_power", "heat_rejected")

    mass_flow: Values
    dry_air_mass_flow: Values
    volume_flow_at_ambient: Values
    compressor_power: Values
    heat_rejected: Values
    condensate_flow: Values


def charge_flow(
    path: Any, *, displacement: Values, engine_speed: Values, volumetric_efficiency: Values, strokes: int = 4
) -> ChargeFlow:
    """What flows through one engine whose charge took the given path.

    Parameters
    ----------
    path : ChargePath
        From `charge_path`.
    displacement, engine_speed, volumetric_efficiency : float or array [m^3], [rev/s], [-]
        Swept volume, crankshaft speed, and volumetric efficiency on manifold density.
    strokes : int
        2 or 4.

    Returns
    -------
    ChargeFlow
        Flows [kg/s, m^3/s] and powers [W]. Compressor and aftercooler pass the vapour that condenses after them too.

    Raises
    ------
    OutOfRangeError
        For impossible input, naming the argument.
    """
    engine: dict[str, Any] = dict(
        displacement=displacement,
        engine_speed=engine_speed,
        volumetric_efficiency=volumetric_efficiency,
        strokes=strokes,
    )
    dry = airflow.mass_flow(path.manifold_dry_air_density, **engine)
    drawn_in = dry * (1 + path.humidity_ratio)
    return ChargeFlow(
        mass_flow=airflow.mass_flow(path.manifold_density, **engine),
        dry_air_mass_flow=dry,
        volume_flow_at_ambient=drawn_in / path.ambient_density,
        compressor_power=drawn_in * path.specific_compressor_work,
        heat_rejected=drawn_in * path.specific_heat_rejected,
        condensate_flow=dry * path.condensate,
    )
