"""What the engine of a run breathes, in and out, as plain volumes: for the exhaust hose, and for the safety talk.

To understand, and never a procedure: trained people and local codes decide.
"""

import numpy as np

from turbomath.lab.reduction.reduce import Reduced
from turbomath.physics import airflow, charge
from turbomath.physics.room_gas import CARBON_DIOXIDE_MOLAR_MASS
from turbomath.table import prose
from turbomath.table.constants import MOLAR_GAS_CONSTANT
from turbomath.table.errors import short, unwarned
from turbomath.units import shown, to_si

BOTTLE = (10.0, "lb", "gas_mass")  # of CO2 in an extinguisher
_WORDS = prose.read(__file__, "breathing.toml")
_HOSE, _BOTTLE = _WORDS.raw("hose"), _WORDS.raw("bottle")
_WORDS.finished()


def breathing_words(reduced: Reduced, system: str) -> tuple[str, ...]:
    """Return what the exhaust hose has to carry at most, and for how long a bottle of CO2 would last the engine."""
    return tuple(one for one in (_hose(reduced, system), _bottle(reduced, system)) if one)


@unwarned()
def _hose(reduced, system):
    run, flow = reduced.run, reduced["exhaust_mass_flow"].value
    hot, back = run["turbine_outlet_temperature"], np.nan_to_num(run["exhaust_back_pressure"])
    volume = airflow.volume_flow(flow, charge.density(run.station_pressure + back, hot))
    if not np.isfinite(volume).any():
        return ""
    row = int(np.nanargmax(volume))
    return _HOSE.format(
        point=short(run.points[row], 12),
        volume=shown.words("volume_flow", volume[row], system),
        temperature=shown.words("turbine_outlet_temperature", hot[row], system),
        mass=shown.words("exhaust_mass_flow", flow[row], system),
    )


@unwarned()
def _bottle(reduced, system):
    run = reduced.run
    drawn_in = airflow.volume_flow(reduced["air_flow"].value, reduced["ambient_density"].value)
    if not np.isfinite(drawn_in).any():
        return ""
    row, mass = int(np.nanargmax(drawn_in)), to_si(*BOTTLE)
    pressure, temperature = run.station_pressure[row], run["ambient_temperature"][row]
    gas = mass / CARBON_DIOXIDE_MOLAR_MASS * MOLAR_GAS_CONSTANT * temperature / pressure
    return _BOTTLE.format(
        point=short(run.points[row], 12),
        volume=shown.words("volume_flow", drawn_in[row], system),
        mass=shown.words("gas_mass", mass, system),
        seconds=f"{gas / drawn_in[row]:.0f}",
    )
