"""Makes the INVENTED runs: an engine's true state, one fixed error for each instrument, then what its gauge shows.

Everything comes from a seed, so a run can be made again to the last digit. Nothing here was measured.
"""

from dataclasses import dataclass
from zlib import crc32

import numpy as np

from turbomath import files, uncertainty, units
from turbomath.engine import path
from turbomath.lab.bench import read_bench

# The true engine at its rated point (INVENTED); below it, shares of the rated value against load
LOADS = np.array([0.0, 0.25, 0.50, 0.75, 1.0, 1.1])
BOOST_SHARE = np.array([0.07, 0.242, 0.475, 0.738, 1.0, 1.10])
EXHAUST_RISE_SHARE = np.array([0.21, 0.544, 0.746, 0.885, 1.0, 1.045])
EFFICIENCY_SHARE = np.array([0.92, 0.97, 0.99, 1.0, 1.0, 0.99])
FUEL_AT_NO_LOAD = 0.094
COLUMNS = {
    "load": "%", "engine_speed": "rpm", "barometer": "inHg", "ambient_temperature": "°F", "relative_humidity": "%",
    "intake_restriction": "inH2O", "compressor_inlet_temperature": "°F", "compressor_outlet_temperature": "°F",
    "boost": "psi", "manifold_temperature": "°F", "cooling_medium_temperature": "°F", "cooler_pressure_loss": "psi",
    "engine_coolant_temperature": "°F", "turbine_inlet_temperature": "°F", "exhaust_back_pressure": "inHg",
    "oil_pressure": "psi", "fuel_flow": "lb/h", "power": "kW",
}  # fmt: skip
AFTERCOOLER_COLUMNS = ("manifold_temperature", "cooling_medium_temperature", "cooler_pressure_loss")


@dataclass(frozen=True)
class Recipe:
    """A run to invent; shop units in the names, since these are what an instructor would change."""

    run: str
    seed: int
    ambient_f: float = 77.0
    barometer_inhg: float = 29.10
    relative_humidity: float = 0.45
    loads: tuple = (0.25, 0.40, 0.55, 0.70, 0.85, 1.0)
    rated_boost_psi: float = 24.0
    compressor_efficiency: float = 0.74
    effectiveness: float = 0.80
    medium_f: float | None = None  # None: ambient air
    cooler_pressure_loss_psi: float = 1.5
    rated_restriction_inh2o: float = 12.0
    rated_back_pressure_inhg: float = 2.3
    rated_exhaust_f: float = 1000.0
    rated_fuel_lb_h: float = 131.0
    rated_power_kw: float = 291.0


RECIPES = {recipe.run: recipe for recipe in (Recipe(run="generator_air_to_air", seed=7),)}


def readings_csv(recipe, bench):
    """Return the text of readings.csv: what each instrument of *bench* shows along the run of *recipe*."""
    columns = [name for name in COLUMNS if bench.engine.aftercooler != "none" or name not in AFTERCOOLER_COLUMNS]
    heads = [f"{name.replace('_', ' ')} [{COLUMNS[name]}]" for name in columns]
    lines = [["point", "condition", *heads, "remark"]]
    for number, (condition, state) in enumerate(_states(recipe, bench)):
        shown = [_shown(recipe, bench, name, state.get(name)) for name in columns]
        lines.append([str(number), condition, *shown, "INVENTED"])
    return "".join(",".join(line) + "\n" for line in lines)


def _states(recipe, bench):
    """Yield (condition, true state in SI) for each reading, in the order of a shop's run."""
    ambient = _ambient(recipe)
    cold = ambient["ambient_temperature"]
    temperatures = dict.fromkeys((name for name, unit in COLUMNS.items() if unit == "°F"), cold)
    pressures = dict.fromkeys((name for name, unit in COLUMNS.items() if unit in ("psi", "inH2O")), 0.0)
    yield "zero", {**temperatures, **pressures, **ambient, "engine_speed": 0.0, "exhaust_back_pressure": 0.0}
    yield "low idle", _running(recipe, bench, load=0.0, rpm=700, boost_share=0.012, oil_psi=32)
    for load in recipe.loads:
        share = float(np.interp(load, LOADS, BOOST_SHARE))
        yield "load", _running(recipe, bench, load=load, rpm=1800, boost_share=share, oil_psi=58)
    yield "high idle", _running(recipe, bench, load=0.0, rpm=1950, boost_share=0.08, oil_psi=60)


def _ambient(recipe):
    return {
        "barometer": units.to_si(recipe.barometer_inhg, "inHg", "barometer"),
        "ambient_temperature": units.to_si(recipe.ambient_f, "°F", "ambient_temperature"),
        "relative_humidity": recipe.relative_humidity,
    }


def _running(recipe, bench, *, load, rpm, boost_share, oil_psi):
    """The true state of the running engine. Losses grow with the square of the air flow, so solve twice round."""
    ambient, flow_share = _ambient(recipe), boost_share
    medium_f = recipe.ambient_f if recipe.medium_f is None else recipe.medium_f
    for _ in range(20):
        charge = _charge(recipe, bench, ambient, load, boost_share, flow_share, medium_f)
        flow = path.charge_flow(charge, displacement=bench.engine.displacement, engine_speed=rpm / 60,
                                volumetric_efficiency=bench.engine.volumetric_efficiency.value)  # fmt: skip
        flow_share = flow.mass_flow / _rated_flow(recipe, bench, medium_f)
    exhaust_rise = (recipe.rated_exhaust_f - recipe.ambient_f) * float(np.interp(load, LOADS, EXHAUST_RISE_SHARE))
    loaded = {"power": recipe.rated_power_kw * 1e3 * load} if load else {}
    return {
        **ambient,
        **loaded,
        "load": load,
        "engine_speed": rpm / 60,
        "intake_restriction": charge.ambient_pressure - charge.compressor_inlet_pressure,
        "compressor_inlet_temperature": charge.compressor_inlet_temperature,
        "compressor_outlet_temperature": charge.compressor_outlet_temperature,
        "boost": charge.manifold_pressure - charge.ambient_pressure,
        "manifold_temperature": charge.manifold_temperature,
        "cooling_medium_temperature": units.to_si(medium_f, "°F", "medium_temperature"),
        "cooler_pressure_loss": charge.compressor_outlet_pressure - charge.manifold_pressure,
        "engine_coolant_temperature": units.to_si(185.0, "°F", "engine_coolant_temperature"),
        "turbine_inlet_temperature": units.to_si(recipe.ambient_f + exhaust_rise, "°F", "temperature"),
        "exhaust_back_pressure": units.to_si(
            recipe.rated_back_pressure_inhg * flow_share**2, "inHg", "exhaust_back_pressure"
        ),
        "oil_pressure": units.to_si(oil_psi, "psi", "oil_pressure"),
        "fuel_flow": units.to_si(
            recipe.rated_fuel_lb_h * (FUEL_AT_NO_LOAD + (1 - FUEL_AT_NO_LOAD) * load) * min(rpm / 1800, 1), "lb/h",
            "fuel_flow",
        ),
    }  # fmt: skip


def _charge(recipe, bench, ambient, load, boost_share, flow_share, medium_f):
    cooled = bench.engine.aftercooler != "none"
    loss_psi = recipe.cooler_pressure_loss_psi * flow_share**2 / _density_share(boost_share) if cooled else 0.0
    effectiveness = recipe.effectiveness + 0.10 * (1 - min(flow_share, 1.1)) if cooled else 0.0
    boost = units.to_si(recipe.rated_boost_psi * boost_share, "psi", "boost")
    return path.charge_path(
        ambient_pressure=ambient["barometer"],
        ambient_temperature=ambient["ambient_temperature"],
        relative_humidity=recipe.relative_humidity,
        compressor_inlet_temperature=ambient["ambient_temperature"] + 3 / 1.8,
        intake_restriction=units.to_si(recipe.rated_restriction_inh2o, "inH2O", "intake_restriction") * flow_share**2,
        manifold_pressure=ambient["barometer"] + boost,
        isentropic_efficiency=recipe.compressor_efficiency * float(np.interp(load, LOADS, EFFICIENCY_SHARE)),
        effectiveness=effectiveness,
        medium_temperature=units.to_si(medium_f, "°F", "medium_temperature"),
        cooler_pressure_loss=units.to_si(loss_psi, "psi", "cooler_pressure_loss"),
    )


def _density_share(boost_share):
    """Charge density over that at the rated point, near enough for a pressure loss."""
    return (1 + 1.65 * boost_share) / 2.65


def _rated_flow(recipe, bench, medium_f):
    charge = _charge(recipe, bench, _ambient(recipe), 1.0, 1.0, 1.0, medium_f)
    return path.charge_flow(charge, displacement=bench.engine.displacement, engine_speed=30.0,
                            volumetric_efficiency=bench.engine.volumetric_efficiency.value).mass_flow  # fmt: skip


def _shown(recipe, bench, name, value):
    """What the instrument shows: the true value, its own fixed error, rounded to its step; empty if not read."""
    if value is None:
        return ""
    instrument = bench.instrument(name)
    share = np.random.default_rng([recipe.seed, crc32(name.encode())]).uniform(-1, 1)
    reading = float(value + share * uncertainty.accuracy(instrument, value))
    if name in ("load", "engine_speed"):
        reading = float(value)
    shown = units.from_si(reading, COLUMNS[name], name)
    step = uncertainty.resolution_step(instrument, reading)
    step = units.from_si(reading + step, COLUMNS[name], name) - shown if step else 1.0
    return _rounded(shown, round(step, 6))


def _rounded(value, step):
    decimals = max(0, -int(np.floor(np.log10(step) + 1e-9)))
    return f"{round(value / step) * step + 0.0:.{decimals}f}"


def write_all():
    """Write readings.csv of every recipe beside its bench.toml in the checkout's data folder."""
    for run, recipe in RECIPES.items():
        folder = files.shipped("data") / run
        files.write_whole(folder / "readings.csv", readings_csv(recipe, read_bench(folder / "bench.toml")))


if __name__ == "__main__":
    write_all()
