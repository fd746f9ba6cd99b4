"""Which reading stands behind each station: the first source that has a value, row by row.

A measured value goes before an assumed one, and one differential gauge before the difference of two gauges.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turbomath import uncertainty
from turbomath.lab.reduction import meter_inputs, not_read
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.readings import Run
from turbomath.physics import humidity
from turbomath.table.errors import unwarned

ROUNDING = 1e-9
ENGINE_OFF = ("zero", "zero after")

CHANNELS = (
    "barometer",
    "ambient_temperature",
    "relative_humidity",
    "wet_bulb_temperature",
    "intake_restriction",
    "compressor_inlet_temperature",
    "compressor_outlet_pressure",
    "compressor_outlet_temperature",
    "boost",
    "manifold_pressure",
    "cooler_outlet_temperature",
    "manifold_temperature",
    "cooling_medium_temperature",
    "engine_coolant_temperature",
    "cooler_pressure_loss",
    "throttle_inlet_pressure",
    "engine_speed",
    "air_meter_pressure_drop",
    "air_flow",
    "air_volume_flow",
    "fuel_flow",
    "fuel_mass",
    "fuel_time",
    "torque",
    "power",
    "cooling_medium_outlet_temperature",
    "cooling_medium_flow",
    "turbine_inlet_temperature",
    "turbine_outlet_temperature",
    "turbine_inlet_pressure",
    "exhaust_back_pressure",
)


@dataclass(frozen=True)
class AtStations:
    """What is known at each station [SI, absolute], and `sources`: quantity -> {source in words: rows it serves}."""

    ambient_pressure: np.ndarray
    ambient_temperature: np.ndarray
    humidity_ratio: np.ndarray
    relative_humidity: np.ndarray
    humidity_known: np.ndarray
    intake_restriction: np.ndarray
    compressor_inlet_pressure: np.ndarray
    compressor_inlet_temperature: np.ndarray
    compressor_outlet_pressure: np.ndarray
    compressor_outlet_temperature: np.ndarray
    cooler_pressure_loss: np.ndarray
    expected_pressure_loss: np.ndarray  # by the design; behind a throttle, which is no design, as it was read
    manifold_pressure: np.ndarray
    manifold_temperature: np.ndarray
    medium_temperature: np.ndarray
    sources: dict[str, dict[str, np.ndarray]]


def gauge_readings(run: Run) -> tuple[dict[str, Any], dict[str, Any]]:
    """Return (values, standard uncertainties) of every channel and stated number, as each instrument shows it.

    Rows with the engine off and missing readings are `nan`. A gauge that reads above the barometer is kept as
    it reads, so that the barometer's error reaches it only once.
    """
    running = np.array([condition not in ENGINE_OFF for condition in run.conditions])
    values, uncertainties = {}, {}
    for channel in CHANNELS:
        reading = run[channel]
        if channel in run.gauge_columns:
            reading = reading - run.station_pressure
        values[channel] = np.where(running, reading, np.nan)
        uncertainties[channel] = uncertainty.standard(run.bench.instrument(channel), values[channel])
        if run.log is not None:  # the mean of a stretch is as sure as the gauge, and as the engine was steady
            uncertainties[channel] = np.hypot(uncertainties[channel], run.log.scatter.get(channel, 0.0))
    values["wet_bulb_temperature"] = np.where(impossible_wet_bulb(run), np.nan, values["wet_bulb_temperature"])
    for name, stated in _stated_numbers(run).items():
        values[name], uncertainties[name] = stated.value, stated.tolerance / np.sqrt(3)
    return values, {name: np.nan_to_num(u) for name, u in uncertainties.items()}


@unwarned()
def at_stations(run: Run, read: Mapping[str, Any]) -> AtStations:
    """Return `AtStations` from the readings of each gauge; *read* holds arrays that broadcast together."""
    bench, choice = run.bench, Choice()
    none = bench.engine.aftercooler == "none"
    ambient = choice.first(
        "barometer",
        ("barometer", above_zero(bench.station_pressure(read["barometer"]))),
        (not_read.words(bench, "barometer"), read[not_read.BAROMETER]),
    )
    absolute = 0.0 if "compressor_outlet_pressure" not in run.gauge_columns else ambient
    outlet_reading = read["compressor_outlet_pressure"] + absolute
    loss_reading = read["cooler_pressure_loss"]
    throttle = bench.engine.throttle
    gauge = ambient if "throttle_inlet_pressure" in run.gauge_columns else 0.0
    open_way = np.nan if throttle else 0.0  # behind a throttle the manifold says nothing of the pressure before it
    manifold = choice.first(
        "manifold_pressure",
        ("boost and barometer", ambient + read["boost"]),
        ("manifold pressure (absolute)", read["manifold_pressure"]),
        ("compressor outlet pressure, no aftercooler", outlet_reading + open_way if none else np.nan),
        ("compressor outlet pressure less cooler pressure loss", outlet_reading - loss_reading + open_way),
        (
            "compressor outlet pressure less the design cooler pressure loss (assumed)",
            outlet_reading - read["design_cooler_pressure_loss"] + open_way,
        ),
    )
    behind_cooler = read["throttle_inlet_pressure"] + gauge if throttle else manifold
    behind_words = "throttle inlet pressure" if throttle else "manifold pressure"
    outlet = choice.first(
        "compressor_outlet_pressure",
        ("compressor outlet pressure", outlet_reading),
        (f"{behind_words}, no aftercooler", behind_cooler if none else np.nan),
        (f"{behind_words} and cooler pressure loss", behind_cooler + loss_reading),
        (
            f"{behind_words} and the design cooler pressure loss (assumed)",
            behind_cooler + read["design_cooler_pressure_loss"],
        ),
    )
    loss = choice.first(
        "cooler_pressure_loss",
        ("one differential gauge", loss_reading),
        ("difference of two gauges", np.nan if none else outlet_reading - behind_cooler),
    )
    inlet_temperature = choice.first(
        "compressor_inlet_temperature",
        ("compressor inlet temperature", read["compressor_inlet_temperature"]),
        ("ambient temperature", read["ambient_temperature"]),
    )
    manifold_reading = np.nan * read["manifold_temperature"] if bench.engine.egr else read["manifold_temperature"]
    outlet_temperature = choice.first(
        "compressor_outlet_temperature",
        ("compressor outlet temperature", read["compressor_outlet_temperature"]),
        ("manifold temperature, no aftercooler", manifold_reading if none else np.nan),
    )
    manifold_temperature = choice.first(
        "manifold_temperature",
        ("manifold temperature", manifold_reading),
        ("cooler outlet temperature, before any exhaust gas mixes in", read["cooler_outlet_temperature"]),
        ("compressor outlet temperature, no aftercooler", outlet_temperature if none else np.nan),
    )
    medium = choice.first("medium_temperature", *_medium_sources(bench.engine.aftercooler, read))
    outside = ambient, read["ambient_temperature"]
    known_outside, wet = (
        0.0 * ambient * read["ambient_temperature"],
        _from_wet_bulb(*outside, read["wet_bulb_temperature"]),
    )
    relative = choice.first(
        "relative_humidity",
        ("relative humidity", np.clip(read["relative_humidity"], 0.0, 1.0) + known_outside),
        ("wet bulb temperature", wet),
        ("none: the air is taken as dry", known_outside),
        ("no barometer or ambient temperature with it: the air is taken as dry", 0.0 * manifold),
    )
    restriction = choice.first(
        "intake_restriction",
        ("intake restriction", read["intake_restriction"]),
        (not_read.words(bench, "intake_restriction"), read[not_read.RESTRICTION] + 0.0 * ambient),
    )
    return AtStations(
        ambient_pressure=ambient,
        ambient_temperature=read["ambient_temperature"],
        humidity_ratio=np.where(np.isnan(known_outside), 0.0 * relative, humidity.humidity_ratio(*outside, relative)),
        relative_humidity=relative,
        humidity_known=~np.isnan(_first(read["relative_humidity"], wet) + known_outside),
        intake_restriction=np.where(restriction < ambient, restriction, np.nan),
        compressor_inlet_pressure=above_zero(ambient - restriction),
        compressor_inlet_temperature=inlet_temperature,
        compressor_outlet_pressure=above_zero(outlet),
        compressor_outlet_temperature=outlet_temperature,
        cooler_pressure_loss=loss,
        expected_pressure_loss=outlet - manifold if throttle else read["design_cooler_pressure_loss"],
        manifold_pressure=above_zero(manifold),
        manifold_temperature=manifold_temperature,
        medium_temperature=medium,
        sources=choice.sources,
    )


def _stated_numbers(run):
    """What bench.toml promises or assumes; without an aftercooler its effectiveness and loss are zero.

    What stands in for a reading is left out where it stands for nothing.
    """
    bench = run.bench
    absent = Stated(0.0) if bench.engine.aftercooler == "none" else Stated(np.nan)
    return {
        "design_compressor_efficiency": bench.design.compressor_efficiency or Stated(np.nan),
        "design_effectiveness": bench.design.effectiveness or absent,
        "design_cooler_pressure_loss": bench.design.cooler_pressure_loss or absent,
        "volumetric_efficiency": bench.engine.volumetric_efficiency or Stated(np.nan),
        **not_read.stand_ins(run),
        **meter_inputs.stated(bench.air_meter),
    }


def _medium_sources(aftercooler, read):
    reading = ("cooling medium temperature", read["cooling_medium_temperature"])
    ambient = ("ambient temperature (no reading at the core face)", read["ambient_temperature"])
    coolant = ("engine coolant temperature", read["engine_coolant_temperature"])
    return {"air-to-air": (reading, ambient), "jacket-water": (reading, coolant), "none": (ambient,)}.get(
        aftercooler, (reading,)
    )


@unwarned()
def impossible_wet_bulb(run: Run) -> NDArray[np.bool_]:
    """Return the rows whose wet thermometer is above the dry one, or lower than the driest air makes it."""
    readings = run.station_pressure, run["ambient_temperature"], run["wet_bulb_temperature"]
    shown = humidity.relative_humidity_from_wet_bulb(*readings)
    return (shown < 0) | (shown > 1 + ROUNDING)


def _from_wet_bulb(ambient, temperature, wet):
    return np.clip(humidity.relative_humidity_from_wet_bulb(ambient, temperature, wet), 0.0, 1.0)


def above_zero(values: ArrayLike) -> NDArray:
    """A reading of the wrong unit or sign can make a pressure or a flow that cannot be: nothing comes of it."""
    return np.where(np.asarray(values) > 0, values, np.nan)


class Choice:
    """Takes the first source that has a value, element by element, and remembers which."""

    def __init__(self) -> None:
        self.sources: dict[str, dict[str, NDArray]] = {}

    def first(self, quantity: str, *candidates: tuple[str, Any]) -> Any:
        """Return the values of the first of (words, values) that has one, element by element."""
        chosen, self.sources[quantity] = np.nan, {}
        for label, values in candidates:
            taken = np.isnan(chosen) & ~np.isnan(values)
            chosen = np.where(taken, values, chosen)
            if taken.any():
                self.sources[quantity][label] = taken
        return chosen


def _first(value, otherwise):
    return np.where(np.isnan(value), otherwise, value)
