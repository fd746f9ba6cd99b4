"""The steps of one reading's reduction, as far as its readings allow."""

import math

from turbomath.lab.reduction.fuel_and_core import stoichiometric
from turbomath.lab.reduction.stations import at_stations, gauge_readings
from turbomath.physics import airflow, charge, compression, cooling, fuel, humidity, mixture
from turbomath.table.errors import OutOfRangeError, unwarned
from turbomath.working import Amount, Step, sums
from turbomath.working.coherent import from_si
from turbomath.working.writing import figures


class ReadingSteps:
    """Collects what is given and the steps that it allows, in the order of the report; `values` has what each comes to.

    A step that comes to nothing, or that its formula refuses, is left out, and what would be built on it.
    """

    def __init__(self, run, row):
        self.run, self.row, self.engine = run, row, run.bench.engine
        values, _ = gauge_readings(run)
        self.read = {name: _one(value, row) for name, value in values.items()}
        self.at = at_stations(run, values)
        self.given, self.steps, self.values = {}, [], {}
        self.wet = bool(self.at.humidity_known[row])

    def has(self, *names):
        return all(name in self.values for name in names)

    def take(self, name, value=None, column=None):
        """Put a value on the sheet as given: as it was written, where it is a reading."""
        value = _one(getattr(self.at, name), self.row) if value is None else value
        if not math.isfinite(value):
            return
        text, unit = self._as_written(column, name, value)
        self.given[name] = Amount(value, name, text, unit)
        self.values[name] = value

    def _as_written(self, column, name, value):
        unit = self.run.units.get(column)
        if not unit or column in self.run.gauge_columns:
            return "", ""
        shown = figures(from_si(value, unit, name), 6)
        return shown, unit

    def step(self, result, formula, symbol="", **arguments):
        """Add a step if all it needs is there, and something comes of it."""
        if self.has(*(name for name in arguments.values() if isinstance(name, str))):
            self._add(Step(result, formula, arguments, symbol=symbol))

    def _add(self, step):
        value = self._outcome(step)
        if math.isfinite(value):
            self.steps.append(step)
            self.values[step.result] = value

    def _outcome(self, step):
        with unwarned():
            try:
                return step.call(self.values)
            except OutOfRangeError:
                return math.nan

    def source(self, quantity):
        """Return in words where this reading's value of a station comes from."""
        found = self.at.sources[quantity].items()
        return next((label for label, rows in found if rows[self.row]), "")

    def stations(self):
        self._ambient()
        self.take("intake_restriction", self.read["intake_restriction"], "intake_restriction")
        self.step(
            "compressor_inlet_pressure",
            sums.inlet_pressure,
            barometer="ambient_pressure",
            intake_restriction="intake_restriction",
        )
        if self.source("manifold_pressure") == "boost and barometer":
            self.take("boost", self.read["boost"], "boost")
            self.step("manifold_pressure", sums.absolute_pressure, barometer="ambient_pressure", boost="boost")
        else:
            self.take("manifold_pressure")
        if self.source("compressor_outlet_pressure") == "manifold pressure and cooler pressure loss":
            self.take("cooler_pressure_loss", self.read["cooler_pressure_loss"], "cooler_pressure_loss")
            self.step(
                "compressor_outlet_pressure",
                sums.outlet_pressure,
                manifold_pressure="manifold_pressure",
                cooler_pressure_loss="cooler_pressure_loss",
            )
        else:
            self.take("compressor_outlet_pressure")
        for name in ("compressor_inlet_temperature", "compressor_outlet_temperature", "manifold_temperature"):
            self.take(name, column=name if self.source(name) == name.replace("_", " ") else None)
        if self.engine.aftercooler != "none":
            self.take("medium_temperature", column="cooling_medium_temperature")

    def _ambient(self):
        plain = self.run.bench.site.barometer == "station"
        self.take("ambient_pressure", column="barometer" if plain else None)
        self.take("ambient_temperature", column="ambient_temperature")
        if self.wet:
            self.take("relative_humidity", column="relative_humidity")
            self.step(
                "humidity_ratio",
                humidity.humidity_ratio,
                pressure="ambient_pressure",
                temperature="ambient_temperature",
                relative_humidity="relative_humidity",
            )
        self.density("ambient_density", "ambient_pressure", "ambient_temperature")

    def density(self, result, pressure, temperature, vapour="humidity_ratio", symbol=""):
        """Add the step to a density, of moist air where its humidity is known."""
        if self.wet:
            self.step(
                result, mixture.density, symbol, pressure=pressure, temperature=temperature, humidity_ratio=vapour
            )
        else:
            self.step(result, charge.density, symbol, pressure=pressure, temperature=temperature)

    def left_as_vapour(self, pressure, temperature, mark):
        """Return the name of the vapour left at a station, after a step for the water that formed, if any did."""
        water, left = f"water_at_{temperature}", f"vapour_at_{temperature}"
        put = {"pressure": pressure, "temperature": temperature, "humidity_ratio": "humidity_ratio"}
        formed = Step(water, humidity.condensate, put, symbol=rf"w_\mathrm{{water,{mark}}}")
        if not self.has(*put.values()) or not self._outcome(formed) > 0:
            return "humidity_ratio"
        self._add(formed)
        self.step(
            left, sums.vapour_left, rf"w_\mathrm{{left,{mark}}}", humidity_ratio="humidity_ratio", condensate=water
        )
        return left

    def measured(self):
        p1, t1 = "compressor_inlet_pressure", "compressor_inlet_temperature"
        p2, t2 = "compressor_outlet_pressure", "compressor_outlet_temperature"
        p3, t3 = "manifold_pressure", "manifold_temperature"
        self.step("pressure_ratio", compression.pressure_ratio, inlet_pressure=p1, outlet_pressure=p2)
        self.step(
            "ideal_outlet_temperature",
            compression.ideal_outlet_temperature,
            inlet_pressure=p1,
            inlet_temperature=t1,
            outlet_pressure=p2,
        )
        self.step(
            "compressor_efficiency",
            compression.isentropic_efficiency,
            inlet_pressure=p1,
            inlet_temperature=t1,
            outlet_pressure=p2,
            outlet_temperature=t2,
        )
        self.step(
            "effectiveness",
            cooling.effectiveness,
            inlet_temperature=t2,
            outlet_temperature=t3,
            medium_temperature="medium_temperature",
        )
        self.density("compressor_outlet_density", p2, t2)
        left = self.left_as_vapour(p3, t3, "3")
        self.density("manifold_density", p3, t3, left)
        self.step("measured_charge_gain", sums.gain_between, density_a="ambient_density", density_b="manifold_density")
        if self.engine.aftercooler != "none":
            self.step(
                "measured_aftercooling_density_gain",
                sums.gain_between,
                density_a="compressor_outlet_density",
                density_b="manifold_density",
            )
            self._mass_flow_gain(left)
        self._flows(left)
        self._fuel()

    def _mass_flow_gain(self, left):
        """What the same engine would breathe without aftercooler, at the same manifold pressure."""
        self.step(
            "uncooled_temperature",
            compression.outlet_temperature,
            r"T_\mathrm{uncooled}",
            inlet_pressure="compressor_inlet_pressure",
            inlet_temperature="compressor_inlet_temperature",
            outlet_pressure="manifold_pressure",
            isentropic_efficiency="compressor_efficiency",
        )
        for name, temperature, vapour, mark in (
            ("uncooled", "uncooled_temperature", "humidity_ratio", "uncooled"),
            ("cooled", "manifold_temperature", left, "cooled"),
        ):
            put = {"pressure": "manifold_pressure", "temperature": temperature}
            if self.wet:
                put["humidity_ratio"] = vapour
            self.step(
                f"{name}_dry_air_density",
                mixture.dry_air_density if self.wet else charge.density,
                rf"\rho_\mathrm{{{mark}}}",
                **put,
            )
        self.step(
            "mass_flow_gain",
            sums.gain_between,
            density_a="uncooled_dry_air_density",
            density_b="cooled_dry_air_density",
        )

    def _flows(self, left):
        """Air and its dry part, and what they take up in the compressor and give off in the aftercooler."""
        metered = self.read["air_flow"]
        if math.isfinite(metered):
            self._take_flow("air_flow")
        elif not math.isfinite(self.read["air_volume_flow"]) and self.engine.displacement is not None:
            self.take("displacement", self.engine.displacement)
            self._take_flow("engine_speed")
            self.take("volumetric_efficiency", self.read["volumetric_efficiency"])
            self.step(
                "air_flow",
                airflow.mass_flow,
                density="manifold_density",
                displacement="displacement",
                engine_speed="engine_speed",
                volumetric_efficiency="volumetric_efficiency",
                strokes=self.engine.strokes,
            )
        vapour = "humidity_ratio" if math.isfinite(metered) else left
        if self.wet:
            self.step("dry_air_mass_flow", sums.dry_part, mass_flow="air_flow", humidity_ratio=vapour)
        drawn_in = "air_flow"
        if vapour != "humidity_ratio":  # what formed in the aftercooler went through the compressor
            drawn_in = "compressor_mass_flow"
            self.step(
                drawn_in, sums.with_vapour, dry_air_mass_flow="dry_air_mass_flow", humidity_ratio="humidity_ratio"
            )
        hot, cool = "compressor_outlet_temperature", "manifold_temperature"
        self.step(
            "specific_compressor_work",
            compression.specific_work,
            inlet_temperature="compressor_inlet_temperature",
            outlet_temperature=hot,
        )
        self.step(
            "compressor_power",
            sums.flow_of_work,
            mass_flow=drawn_in,
            specific_compressor_work="specific_compressor_work",
        )
        if self.engine.aftercooler != "none":
            self.step(
                "specific_heat_rejected", cooling.specific_heat_rejected, inlet_temperature=hot, outlet_temperature=cool
            )
            self.step(
                "heat_rejected", sums.flow_of_heat, mass_flow=drawn_in, specific_heat_rejected="specific_heat_rejected"
            )

    def _take_flow(self, name):
        """Take a reading that is nothing at zero: the report makes nothing of it either."""
        if self.read[name] > 0:
            self.take(name, self.read[name], name)

    def _fuel(self):
        """Fuel, power and what they make of the dry air."""
        self._read_or("fuel_flow", fuel.weighed_fuel_flow, "fuel_mass", "fuel_time")
        self._read_or("power", fuel.power, "torque", "engine_speed")
        self.step(
            "air_fuel_ratio",
            fuel.air_fuel_ratio,
            fuel_flow="fuel_flow",
            mass_flow="dry_air_mass_flow" if self.wet else "air_flow",
        )
        if math.isfinite(stoichiometric(self.engine)):
            self.take("hydrogen_carbon_ratio", fuel.DIESEL_HYDROGEN_CARBON_RATIO)
            self.step(
                "stoichiometric_air_fuel_ratio",
                fuel.stoichiometric_air_fuel_ratio,
                hydrogen_carbon_ratio="hydrogen_carbon_ratio",
            )
        self.step(
            "excess_air_ratio",
            fuel.excess_air_ratio,
            air_fuel_ratio="air_fuel_ratio",
            stoichiometric_air_fuel_ratio="stoichiometric_air_fuel_ratio",
        )
        self.step("specific_fuel_consumption", fuel.specific_consumption, fuel_flow="fuel_flow", power="power")

    def _read_or(self, result, formula, *columns):
        """Take a reading, or work it out from two others."""
        if math.isfinite(self.read[result]):
            if result == "power" or self.read[result] > 0:
                self.take(result, self.read[result], result)
            return
        for column in columns:
            self.take(column, self.read[column], column)
        self.step(result, formula, **{column: column for column in columns})

    def theoretical(self):
        """The air path at the same ambient, restriction and boost, with the design's own three numbers."""
        design = {
            name: self.read[f"design_{name}"]
            for name in ("compressor_efficiency", "effectiveness", "cooler_pressure_loss")
        }
        if not all(map(math.isfinite, design.values())) or not self.has("manifold_pressure", "ambient_density"):
            return
        self._design(design)
        self.step(
            "theoretical_outlet_pressure",
            sums.outlet_pressure,
            r"p_\mathrm{2,design}",
            manifold_pressure="manifold_pressure",
            cooler_pressure_loss="design_cooler_pressure_loss",
        )
        known = self.has("compressor_inlet_pressure")
        self.step(
            "theoretical_outlet_temperature",
            compression.outlet_temperature,
            r"T_\mathrm{2,design}",
            inlet_pressure="compressor_inlet_pressure" if known else "ambient_pressure",
            inlet_temperature="compressor_inlet_temperature",
            outlet_pressure="theoretical_outlet_pressure",
            isentropic_efficiency="design_compressor_efficiency",
        )
        hot = "theoretical_outlet_temperature"
        if self.engine.aftercooler != "none":
            self.step(
                "theoretical_manifold_temperature",
                cooling.outlet_temperature,
                r"T_\mathrm{3,design}",
                inlet_temperature=hot,
                medium_temperature="medium_temperature",
                effectiveness="design_effectiveness",
            )
            hot = "theoretical_manifold_temperature"
        left = self.left_as_vapour("manifold_pressure", hot, "design")
        self.density("theoretical_manifold_density", "manifold_pressure", hot, left, r"\rho_\mathrm{3,design}")
        self.step(
            "theoretical_charge_gain",
            sums.gain_between,
            density_a="ambient_density",
            density_b="theoretical_manifold_density",
        )
        self.step(
            "charge_gain_difference",
            sums.gain_difference,
            measured_charge_gain="measured_charge_gain",
            theoretical_charge_gain="theoretical_charge_gain",
        )

    def _design(self, design):
        symbols = {
            "compressor_efficiency": r"\eta_\mathrm{design}",
            "effectiveness": r"\varepsilon_\mathrm{design}",
            "cooler_pressure_loss": r"\Delta p_\mathrm{design}",
        }
        for name, value in design.items():
            self.given[f"design_{name}"] = Amount(value, name, symbol=symbols[name])
            self.values[f"design_{name}"] = value


def _one(values, row):
    value = values[row] if hasattr(values, "__len__") else values
    return float(value)
