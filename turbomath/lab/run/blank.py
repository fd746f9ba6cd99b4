"""A new run folder to fill in: bench.toml with its blanks explained, and readings.csv with the right head."""

from pathlib import Path

from turbomath import units
from turbomath.disk.files import BYTE_ORDER_MARK, write_whole
from turbomath.lab.run.bench import LIMITED_COLUMNS, Bench
from turbomath.lab.run.channels import NUMBER_COLUMNS, USUAL_INSTRUMENTS
from turbomath.table.errors import RefusedFileError

USUAL_AFTERCOOLER = "air-to-air"
AFTERCOOLER_COLUMNS = ("manifold_temperature", "cooling_medium_temperature", "cooler_pressure_loss")
SHEET = (
    "load",
    "engine_speed",
    "barometer",
    "ambient_temperature",
    "relative_humidity",
    "intake_restriction",
    "compressor_inlet_temperature",
    "compressor_outlet_temperature",
    "boost",
    *AFTERCOOLER_COLUMNS,
    "engine_coolant_temperature",
    "turbine_inlet_temperature",
    "exhaust_back_pressure",
    "oil_pressure",
    "fuel_flow",
    "power",
)
_DESIGN = {
    "none": '# compressor_efficiency = "0.74 ± 0.02"\n',
    "jacket-water": '# compressor_efficiency = "0.74 ± 0.02"\n# effectiveness = "0.75 ± 0.03"\n'
    '# cooler_pressure_loss = "0.8 psi"\n',
}
_DESIGN["air-to-air"] = _DESIGN["separate-circuit"] = _DESIGN["two-part"] = (
    _DESIGN["jacket-water"].replace("0.75", "0.80").replace("0.8 psi", "1.5 psi")
)

_BENCH = """\
# What does not change during the run. Take the # away from a line and put your own value in it.
# Numbers shown are examples of the form, not values of your engine: the maker's manual has those.

[run]
title = "Give this run a title"
invented = false            # true marks made-up readings on every report
# date = 2026-03-12
units = "us"                # how results are shown: "us" or "si"

[site]
# elevation = "350 m"
barometer = "station"       # "station": read where you stand. "sea-level": corrected, as from a weather report
                            # "standard-atmosphere": nobody reads one; that of the elevation ± 2 kPa is assumed

[engine]
aftercooler = "{aftercooler}"
# displacement = "12.0 L"
# cylinders = 6
strokes = 4
# throttle = true           # true if a throttle sits between aftercooler and manifold
# turbochargers = 2         # side by side; then name their columns with left and right
egr = false                 # true if exhaust gas is mixed in before the manifold thermometer
# volumetric_efficiency = "0.92 ± 0.02"    # on manifold density; air flow needs it, unless you measure air flow
# fuel_density = "0.85 kg/L"               # only if fuel flow is read as a volume
# model = "engine.toml"                    # this engine as turbomath fit has written it: what its boost should be

[design]                    # what the maker or you expect: the theoretical side needs all of these
{design}
[rated]                     # the maker's sheet, for its rated point and no other: what the boost should be
# boost = "24 psi ± 1 psi"
# engine_speed = "1800 rpm"
# fuel_flow = "131 lb/h"                   # or power = "290 kW"
# barometer = "29.6 inHg"                  # of that sheet; without them the standard day, 100 kPa and 25 °C
# ambient_temperature = "77 °F"

# [air_meter]               # only if you read an "air meter pressure drop": it makes an air flow of it
# kind = "orifice"                         # or "laminar": then constant and at, from its maker
# pipe_diameter = "6.065 in"
# bore_diameter = "3.75 in"
# tappings = "flange"                      # "corner", "D and D/2" or "flange"

# [logger]                  # only if a logger writes a file: which of its columns is what, and in which unit
# decimal = ","
# [logger.columns]
# time = {{ head = "Time", unit = "s" }}
# boost = {{ head = "Boost", unit = "psi" }}

# Instruments. Without an entry the usual shop instrument is assumed, and the report says so.
{instruments}
[limits]                    # from the maker's manual; a limit passed is shown before any result
# boost = "..30 psi"
# intake_restriction = "..25 inH2O"
# turbine_inlet_temperature = "..1250 °F"
# oil_pressure_low_idle = "15.. psi"
# low_idle_speed = "700 ± 25 rpm"
# high_idle_speed = "1950 ± 50 rpm"
"""


def new_run(folder: Path | str, aftercooler: str = "air-to-air") -> list[Path]:
    """Write a new bench.toml and readings.csv into *folder* and return their paths; never over existing ones."""
    folder = Path(folder)
    texts = {"bench.toml": bench_text(aftercooler), "readings.csv": BYTE_ORDER_MARK + head(aftercooler)}
    for name in texts:
        if (folder / name).exists():
            raise RefusedFileError(
                folder / name, "a file of that name", "none yet", "It was left as it is. Give another folder."
            )
    for name, text in texts.items():
        write_whole(folder / name, text)
    return [folder / name for name in texts]


def bench_text(aftercooler: str) -> str:
    """Return the text of a bench.toml to fill in for an engine with this aftercooler."""
    instruments = "".join(_instrument(name) for name in columns(aftercooler))
    return _BENCH.format(aftercooler=aftercooler, design=_DESIGN[aftercooler], instruments=instruments)


def columns(aftercooler: str) -> tuple[str, ...]:
    """Return the number columns of a readings sheet for an engine with this aftercooler."""
    return tuple(name for name in SHEET if aftercooler != "none" or name not in AFTERCOOLER_COLUMNS)


def sheet_columns(bench: Bench) -> tuple[str, ...]:
    """Return the number columns of the sheet: the usual ones, and those that the bench has a gauge or a limit for."""
    usual = columns(bench.engine.aftercooler or USUAL_AFTERCOOLER)
    named = {*usual, *bench.instruments, *(LIMITED_COLUMNS[key] for key in bench.limits)}
    return tuple(
        sorted(named, key=lambda name: (usual.index(name) if name in usual else len(usual), NUMBER_COLUMNS.index(name)))
    )


def head(aftercooler: str) -> str:
    """Return the header row of readings.csv, in US shop units: change the unit in the bracket if yours differ."""
    numbers = (f"{name.replace('_', ' ')} [{units.display(name, 'us')}]" for name in columns(aftercooler))
    return ",".join(["point", "condition", *numbers, "reader", "remark"]) + "\n"


def _instrument(name):
    entries = [f'# {key} = "{value}"\n' for key, value in USUAL_INSTRUMENTS[name].items()]
    return f"# [instruments.{name}]\n{''.join(entries)}\n"
