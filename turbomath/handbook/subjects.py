"""The subjects of the handbook in the order in which a class meets them, and the formulas of each."""

from types import ModuleType

from turbomath.physics import (
    airflow,
    arrangements,
    atmosphere,
    charge,
    combustion_air,
    compression,
    compressor_work,
    condensing,
    cooling,
    correction,
    crossflow,
    exchanger,
    exhaust_readings,
    flow_meters,
    fouling_and_flow,
    fuel,
    fuel_burnt,
    humidity,
    mixture,
    orifice,
    polytropic,
    real_humidity,
    room_gas,
    shaft,
    site_power,
    turbine,
    turbine_flow,
    turbine_work,
    water,
    wheel,
)
from turbomath.table.formulas import Tied
from turbomath.working import sums

SUBJECTS: tuple[ModuleType, ...] = (
    sums,
    charge,
    compression,
    compressor_work,
    cooling,
    polytropic,
    airflow,
    combustion_air,
    fuel,
    fuel_burnt,
    atmosphere,
    correction,
    site_power,
    mixture,
    humidity,
    condensing,
    water,
    real_humidity,
    exchanger,
    arrangements,
    crossflow,
    fouling_and_flow,
    turbine,
    turbine_work,
    exhaust_readings,
    shaft,
    wheel,
    turbine_flow,
    orifice,
    flow_meters,
    room_gas,
)


def formulas(module: ModuleType) -> tuple[Tied, ...]:
    """Return the formulas that a module itself holds, in the order in which they stand there."""
    return tuple(one for one in vars(module).values() if hasattr(one, "formula") and one.__module__ == module.__name__)


def room(function: Tied) -> str:
    """Return the name of the module that holds a formula, without the house."""
    return function.__module__.rpartition(".")[2]


def key(function: Tied) -> str:
    """Return the name of a formula that no other has."""
    return f"{room(function)}.{function.__name__}"


def numbered() -> dict[Tied, str]:
    """Return each formula with its number in the handbook, such as "3.2"."""
    return {
        function: f"{subject}.{place}"
        for subject, module in enumerate(SUBJECTS, start=1)
        for place, function in enumerate(formulas(module), start=1)
    }
