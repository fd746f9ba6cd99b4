"""Checks of air, fuel and power: 22 to 25."""

from collections.abc import Iterable

import numpy as np

from turbomath.lab.checks import fuel_bounds
from turbomath.lab.checks.bounds import BOUNDS, HALF_LOAD
from turbomath.lab.checks.finding import Finding, judged
from turbomath.lab.checks.look import Look, number

AIR = ("air_flow", "air_volume_flow")
CHARGE = ("boost", "manifold_pressure", "manifold_temperature", "barometer", "engine_speed")
FUEL, WEIGHED = "fuel_flow", ("fuel_mass", "fuel_time")


def volumetric_efficiency(look: Look) -> Iterable[Finding]:
    """22: how well the engine fills, from measured air."""
    result, columns = "volumetric_efficiency", look.present(*AIR, *CHARGE)
    return judged(
        look,
        22,
        look.steady,
        look.value(result),
        look.result_width(result),
        BOUNDS["volumetric efficiency"],
        columns,
        lambda row: f"{look.tell_result(result, row)} from {look.told(row, *columns)}",
        "Look for a leak of charge air, check the air meter and its unit, the speed and the displacement.",
    )


def air_fuel_ratio(look: Look) -> Iterable[Finding]:
    """23: air over fuel; the air is measured, or worked out from speed and charge density."""
    fuel, fuel_share, fuel_columns = _fuel(look)
    air = look.value("air_flow")
    ratio = np.where(fuel > 0, air / fuel, np.nan)
    width = ratio * np.hypot(look.result_width("air_flow") / air, fuel_share)
    columns = (*fuel_columns, *look.present("engine_speed", *AIR, *CHARGE[:-1]))
    part_load = sorted(set(look.loaded) - set(look.full_load))
    for rows, full in ((part_load, False), (look.full_load, True)):
        bound = fuel_bounds.air_fuel_ratio(look.bench.engine, full)
        if bound is None:
            return
        yield from judged(
            look,
            23,
            rows,
            ratio,
            width,
            bound,
            columns,
            lambda row: (
                f"air-fuel ratio {ratio[row]:.1f} from {look.amount(air[row], 'lb/min', 'air_flow', *AIR)} of air and "
                f"{look.told(row, *fuel_columns, 'engine_speed')}"
            ),
            "Check the unit of the fuel, the time it was taken over, and the speed that the air was worked out from.",
        )


def specific_fuel_consumption(look: Look) -> Iterable[Finding]:
    """24: fuel for each unit of work."""
    fuel, fuel_share, fuel_columns = _fuel(look)
    power, power_share, power_columns = _power(look)
    used, bound = np.where(power > 0, fuel / power, np.nan), fuel_bounds.consumption(look.bench.engine)
    if bound is None:
        return ()
    return judged(
        look,
        24,
        look.at_least_load(HALF_LOAD),
        used,
        used * np.hypot(fuel_share, power_share),
        bound,
        (*fuel_columns, *power_columns),
        lambda row: (
            f"specific fuel consumption {look.amount(used[row], 'lb/hp·h', 'specific_fuel_consumption')} from "
            f"{look.told(row, *fuel_columns, *power_columns)}"
        ),
        "Check the time of the fuel reading, and the units of fuel, torque and power.",
    )


def power_from_torque(look: Look) -> Iterable[Finding]:
    """25: power is torque times speed."""
    columns = ("power", "torque", "engine_speed")
    if len(look.present(*columns)) < 3:
        return ()
    worked_out = 2 * np.pi * look.run["torque"] * look.run["engine_speed"]
    apart = np.where(worked_out > 0, look.run["power"] / worked_out - 1, np.nan)
    return judged(
        look,
        25,
        look.loaded,
        apart,
        np.sqrt(sum(_share(look, column) ** 2 for column in columns)),
        BOUNDS["power"],
        columns,
        lambda row: (
            f"{look.told(row, *columns)}: torque times speed is "
            f"{look.amount(worked_out[row], 'kW', 'power', 'power')}, "
            f"{number(apart[row], '%', 'load')} from that"
        ),
        "Read the three again and check their units: one was written down wrong.",
    )


def _fuel(look):
    """Return fuel flow, its ± as a share, and the columns behind it."""
    if look.run.has(FUEL) or len(look.present(*WEIGHED)) < 2:
        return look.run[FUEL], _share(look, FUEL), look.present(FUEL)
    mass, time = (look.run[column] for column in WEIGHED)
    return np.where(time > 0, mass / time, np.nan), np.hypot(*(_share(look, column) for column in WEIGHED)), WEIGHED


def _power(look):
    if look.run.has("power") or len(look.present("torque", "engine_speed")) < 2:
        return look.run["power"], _share(look, "power"), look.present("power")
    columns = ("torque", "engine_speed")
    return (
        2 * np.pi * look.run["torque"] * look.run["engine_speed"],
        np.hypot(*(_share(look, column) for column in columns)),
        columns,
    )


def _share(look, column):
    """Return the ± of a reading as a share of it."""
    reading = look.run[column]
    return look.widths(column) / np.where(reading > 0, reading, np.nan)
