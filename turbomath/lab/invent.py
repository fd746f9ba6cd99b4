"""Makes the INVENTED runs: an engine's true state, one fixed error for each instrument, then what its gauge shows.

Everything comes from a seed, so a run can be made again to the last digit. Nothing here was measured.
"""

from dataclasses import dataclass
from zlib import crc32

import numpy as np

from turbomath import air, files, uncertainty, units
from turbomath.engine import path
from turbomath.lab import blank
from turbomath.lab.bench import read_bench

# The true engine at its rated point (INVENTED); below it, shares of the rated value against load
LOADS = np.array([0.0, 0.25, 0.50, 0.75, 1.0, 1.1])
BOOST_SHARE = np.array([0.07, 0.242, 0.475, 0.738, 1.0, 1.10])
EXHAUST_RISE_SHARE = np.array([0.21, 0.544, 0.746, 0.885, 1.0, 1.045])
EFFICIENCY_SHARE = np.array([0.92, 0.97, 0.99, 1.0, 1.0, 0.99])
FUEL_AT_NO_LOAD = 0.094
UNITS = {name: units.display(name, "us") for name in blank.SHEET} | {"power": "kW"}


@dataclass(frozen=True)
class Step:
    """One reading of the run: what the engine does. Boost as a share of that at the rated point."""

    condition: str
    rpm: float
    boost_share: float
    oil_psi: float
    load: float = 0.0
    coolant_f: float = 185.0


def _load_steps(*loads):
    return tuple(Step("load", 1800, float(np.interp(load, LOADS, BOOST_SHARE)), 58, load) for load in loads)


GENERATOR_STEPS = (
    Step("low idle", 700, 0.012, 32),
    *_load_steps(0.25, 0.40, 0.55, 0.70, 0.85, 1.0),
    Step("high idle", 1950, 0.08, 60),
)
RUN_UP_STEPS = (
    Step("low idle", 725, 0.02, 62, coolant_f=90),
    Step("high idle", 2240, 0.27, 112, coolant_f=105),
    Step("low idle", 720, 0.02, 30),
    Step("no load", 1000, 0.05, 38),
    Step("no load", 1400, 0.11, 52),
    Step("no load", 1800, 0.18, 64),
    Step("high idle", 2250, 0.27, 72),
)


@dataclass(frozen=True)
class Recipe:
    """A run to invent; shop units in the names, since these are what an instructor would change."""

    run: str
    seed: int
    steps: tuple = GENERATOR_STEPS
    columns: tuple = blank.SHEET
    rated_rpm: float = 1800.0
    ambient_f: float = 77.0
    barometer_inhg: float = 29.10
    relative_humidity: float = 0.45
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


UNCOOLED = blank.columns("none")
RECIPES = (
    Recipe(run="generator_air_to_air", seed=7),
    Recipe(run="generator_jacket_water", seed=7, effectiveness=0.75, medium_f=185.0, cooler_pressure_loss_psi=0.8,
           rated_restriction_inh2o=9.0, rated_back_pressure_inhg=1.9, rated_exhaust_f=1143.0, rated_fuel_lb_h=122.8,
           rated_power_kw=248.0),
    Recipe(run="generator_no_aftercooler", seed=7, columns=UNCOOLED, rated_restriction_inh2o=7.0,
           rated_back_pressure_inhg=1.6, rated_exhaust_f=1160.0, rated_fuel_lb_h=106.6, rated_power_kw=199.0),
    Recipe(run="stand_unloaded_run_up", seed=7, steps=RUN_UP_STEPS, rated_rpm=2100.0, rated_boost_psi=12.0,
           columns=tuple(name for name in UNCOOLED if name not in ("load", "fuel_flow", "power")),
           compressor_efficiency=0.70, ambient_f=64.0, barometer_inhg=28.87, relative_humidity=0.55,
           rated_restriction_inh2o=10.0, rated_back_pressure_inhg=1.8),
)  # fmt: skip


def readings_csv(recipe, bench):
    """Return the text of readings.csv: what each instrument of *bench* shows along the run of *recipe*."""
    heads = [f"{name.replace('_', ' ')} [{UNITS[name]}]" for name in recipe.columns]
    lines = [["point", "condition", *heads, "remark"]]
    for number, (condition, state) in enumerate(_states(recipe, bench)):
        shown = [_shown(recipe, bench, name, state.get(name)) for name in recipe.columns]
        lines.append([str(number), condition, *shown, "INVENTED"])
    return "".join(",".join(line) + "\n" for line in lines)


def _states(recipe, bench):
    """Yield (condition, true state in SI) for each reading, in the order of a shop's run."""
    ambient = _ambient(recipe)
    cold = ambient["ambient_temperature"]
    temperatures = dict.fromkeys((name for name, unit in UNITS.items() if unit == "°F"), cold)
    pressures = dict.fromkeys((name for name, unit in UNITS.items() if unit in ("psi", "inH2O")), 0.0)
    yield "zero", {**temperatures, **pressures, **ambient, "engine_speed": 0.0, "exhaust_back_pressure": 0.0}
    for step in recipe.steps:
        yield step.condition, _running(recipe, bench, step)


def _ambient(recipe):
    return {
        "barometer": units.to_si(recipe.barometer_inhg, "inHg", "barometer"),
        "ambient_temperature": units.to_si(recipe.ambient_f, "°F", "ambient_temperature"),
        "relative_humidity": recipe.relative_humidity,
    }


def _running(recipe, bench, step):
    """The true state of the running engine. Losses grow with the square of the air flow: go round until it settles."""
    ambient, flow_share = _ambient(recipe), step.boost_share
    medium_f = step.coolant_f if recipe.medium_f else recipe.ambient_f
    rated = _air(recipe, bench, ambient, Step("load", recipe.rated_rpm, 1.0, 0.0, 1.0), 1.0, medium_f)[1]
    for _ in range(20):
        charge, flow = _air(recipe, bench, ambient, step, flow_share, medium_f)
        flow_share = flow / rated
    load = step.load
    exhaust_rise = (recipe.rated_exhaust_f - recipe.ambient_f) * float(np.interp(load, LOADS, EXHAUST_RISE_SHARE))
    fuel_share = FUEL_AT_NO_LOAD + (1 - FUEL_AT_NO_LOAD) * load
    loaded = {"power": recipe.rated_power_kw * 1e3 * load} if load else {}
    return {
        **ambient,
        **loaded,
        "load": load,
        "engine_speed": step.rpm / 60,
        "intake_restriction": charge.ambient_pressure - charge.compressor_inlet_pressure,
        "compressor_inlet_temperature": charge.compressor_inlet_temperature,
        "compressor_outlet_temperature": charge.compressor_outlet_temperature,
        "boost": charge.manifold_pressure - charge.ambient_pressure,
        "manifold_temperature": charge.manifold_temperature,
        "cooling_medium_temperature": units.to_si(medium_f, "°F", "medium_temperature"),
        "cooler_pressure_loss": charge.compressor_outlet_pressure - charge.manifold_pressure,
        "engine_coolant_temperature": units.to_si(step.coolant_f, "°F", "engine_coolant_temperature"),
        "turbine_inlet_temperature": units.to_si(recipe.ambient_f + exhaust_rise, "°F", "temperature"),
        "exhaust_back_pressure": units.to_si(
            recipe.rated_back_pressure_inhg * flow_share**2, "inHg", "exhaust_back_pressure"
        ),
        "oil_pressure": units.to_si(step.oil_psi, "psi", "oil_pressure"),
        "fuel_flow": units.to_si(
            recipe.rated_fuel_lb_h * fuel_share * min(step.rpm / recipe.rated_rpm, 1), "lb/h", "fuel_flow"
        ),
    }


def _air(recipe, bench, ambient, step, flow_share, medium_f):
    """The charge path at this step and the air flow it gives, if the flow is *flow_share* of the rated flow."""
    cooled = bench.engine.aftercooler != "none"
    loss_psi = recipe.cooler_pressure_loss_psi * flow_share**2 / _density_share(step.boost_share) if cooled else 0.0
    effectiveness = recipe.effectiveness + 0.10 * (1 - min(flow_share, 1.1)) if cooled else 0.0
    boost = units.to_si(recipe.rated_boost_psi * step.boost_share, "psi", "boost")
    charge = path.charge_path(
        ambient_pressure=ambient["barometer"],
        ambient_temperature=ambient["ambient_temperature"],
        relative_humidity=recipe.relative_humidity,
        compressor_inlet_temperature=ambient["ambient_temperature"] + 3 / 1.8,
        intake_restriction=units.to_si(recipe.rated_restriction_inh2o, "inH2O", "intake_restriction") * flow_share**2,
        manifold_pressure=ambient["barometer"] + boost,
        isentropic_efficiency=recipe.compressor_efficiency * float(np.interp(step.load, LOADS, EFFICIENCY_SHARE)),
        effectiveness=effectiveness,
        medium_temperature=units.to_si(medium_f, "°F", "medium_temperature"),
        cooler_pressure_loss=units.to_si(loss_psi, "psi", "cooler_pressure_loss"),
        air=air.choose("perfect"),
    )
    flow = path.charge_flow(charge, displacement=bench.engine.displacement, engine_speed=step.rpm / 60,
                            volumetric_efficiency=bench.engine.volumetric_efficiency.value)  # fmt: skip
    return charge, flow.mass_flow


def _density_share(boost_share):
    """Charge density over that at the rated point, near enough for a pressure loss."""
    return (1 + 1.65 * boost_share) / 2.65


def _shown(recipe, bench, name, value):
    """What the instrument shows: the true value, its own fixed error, rounded to its step; empty if not read."""
    if value is None:
        return ""
    instrument = bench.instrument(name)
    share = np.random.default_rng([recipe.seed, crc32(name.encode())]).uniform(-1, 1)
    reading = float(value + share * uncertainty.accuracy(instrument, value))
    if name in ("load", "engine_speed"):
        reading = float(value)
    if instrument.span and reading > instrument.span[1]:
        return f">{units.from_si(instrument.span[1], UNITS[name], name):.0f}"  # the pointer is at its stop
    shown = units.from_si(reading, UNITS[name], name)
    step = uncertainty.resolution_step(instrument, reading)
    step = units.from_si(reading + step, UNITS[name], name) - shown if step else 1.0
    return _rounded(shown, round(step, 6))


def _rounded(value, step):
    decimals = max(0, -int(np.floor(np.log10(step) + 1e-9)))
    return f"{round(value / step) * step + 0.0:.{decimals}f}"


def write_all():
    """Write readings.csv of every recipe beside its bench.toml in the checkout's data folder."""
    for recipe in RECIPES:
        folder = files.shipped("data") / recipe.run
        files.write_whole(folder / "readings.csv", readings_csv(recipe, read_bench(folder / "bench.toml")))


if __name__ == "__main__":
    write_all()
