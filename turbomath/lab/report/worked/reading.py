"""One reading's whole reduction, worked: from what the gauges show to the gains, step by step."""

from pathlib import Path

from turbomath import working
from turbomath.lab.report.worked.flows import add_flows, add_fuel
from turbomath.lab.report.worked.machines import add_machines
from turbomath.lab.report.worked.shaft import add_shaft
from turbomath.lab.report.worked.stations import add_stations
from turbomath.lab.report.worked.steps import ReadingSteps
from turbomath.lab.report.worked.theory import add_theory
from turbomath.lab.run.readings import Run, as_run
from turbomath.table.errors import TurbomathError, short
from turbomath.working import Chain, Result

SENSE = "worked with the perfect gas of hand work; the report has real air, and the ± of each number. Look there."


def worked(run: Run | Path | str, point: str, system: str, form: str = "text") -> str:
    """Return the worked reduction of one reading of a run.

    Parameters
    ----------
    run : Run, its folder, or the name of a shipped run
        What `turbomath.lab.run.readings.read_run` gives or takes.
    point : str
        The label of the reading, as the column "point" has it.
    system : "us" or "si"
        The units it is worked in.
    form : "text" or "markdown"
        For a terminal, or for a notebook.

    Raises
    ------
    TurbomathError
        If there is no such reading, or it has not even what a density needs.
    """
    run = as_run(run)
    row = row_of(run, point)
    invented = "   INVENTED: no engine was measured" if run.bench.run.invented else ""
    head = f"{short(run.bench.run.title or run.name, 70)}, point {short(run.points[row])}{invented}"
    return f"{head}\n\n{working.solution(chain(run, row), units=system, form=form)}"


def row_of(run: Run, point: str) -> int:
    """Return the place of a reading in the run by its label."""
    if str(point).strip() in run.points:
        return run.points.index(str(point).strip())
    listed = ", ".join(short(one) for one in run.points[:20])
    raise TurbomathError(f"--work: found {short(point)!r}, expected a point of {run.name}: {listed}. Give one of them.")


def chain(run: Run, row: int) -> Chain:
    """Return the chain of one reading: as many steps as its readings allow."""
    built = ReadingSteps(run, row)
    add_stations(built)
    if not built.has("ambient_pressure", "ambient_temperature"):
        raise TurbomathError(
            f"--work: point {short(run.points[row])} of {run.name} has no barometer or no ambient temperature with the "
            "engine running, so there is nothing to work out. Choose another point."
        )
    add_flows(built, left=add_machines(built))
    add_fuel(built)
    add_shaft(built)
    add_theory(built)
    asked = tuple(Result(step.result) for step in built.steps if step.result in _SHOWN)
    return Chain(built.given, tuple(built.steps), asked, SENSE)


_SHOWN = (
    "pressure_ratio",
    "ideal_outlet_temperature",
    "compressor_efficiency",
    "effectiveness",
    "ambient_density",
    "compressor_outlet_density",
    "manifold_density",
    "measured_aftercooling_density_gain",
    "mass_flow_gain",
    "air_flow",
    "heat_rejected",
    "compressor_power",
    "fuel_flow",
    "power",
    "air_fuel_ratio",
    "excess_air_ratio",
    "specific_fuel_consumption",
    "expansion_ratio",
    "manifold_minus_turbine_inlet_pressure",
    "turbine_temperature_drop",
    "exhaust_mass_flow",
    "turbine_power",
    "shaft_power_ratio",
    "turbine_efficiency",
    "turbocharger_efficiency",
    "compressor_outlet_temperature_by_shaft",
    "compressor_efficiency_by_shaft",
    "effectiveness_by_shaft",
    "measured_charge_gain",
    "theoretical_charge_gain",
    "charge_gain_difference",
)
