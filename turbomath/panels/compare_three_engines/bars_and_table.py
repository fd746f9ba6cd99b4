"""How lesson 10 tells three engines: bars, signed changes, and a table of everything with what was held equal."""

from collections.abc import Mapping
from dataclasses import replace

from turbomath.engine.balance import Balance
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.panels.compare_three_engines.held import AIR, AIR_FLOW, BOOST, FUEL, NONE, OWN, REMATCHED, WATER
from turbomath.pictures.bar_scales import ABOVE, BURNT, FLOW, POWER, Scale
from turbomath.pictures.lying_bars import Bar, Group
from turbomath.units import to_si
from turbomath.units.rounding import NO_VALUE, fixed
from turbomath.widgets.answers import Table

GAUGE = Scale("boost", ("psi", 1), ("kPa", 0), 275e3)
CHARGE = replace(FLOW, most=0.5)
EXHAUST = Scale("turbine_inlet_temperature", ("°F", 0), ("°C", 0), 1033.15)
RATIO = Scale("air_fuel_ratio", ("-", 1), ("-", 1), 35.0)
PRESSURES = Scale("pressure_ratio", ("-", 2), ("-", 2), 4.0)
OUTLET = Scale("compressor_outlet_temperature", ("°F", 0), ("°C", 0))
MANIFOLD = Scale("manifold_temperature", ("°F", 0), ("°C", 0))
DENSITIES = Scale("density_ratio", ("-", 2), ("-", 2))
CONSUMPTION = Scale("specific_fuel_consumption", ("lb/hp·h", 3), ("g/kW·h", 0))
ROLES = {NONE: "hot", WATER: "measured", AIR: "cooled"}
SQUARE = {"us": ("in²", to_si(1.0, "in³", "displacement") ** (2 / 3)), "si": ("cm²", 1e-4)}
EQUALS = {
    FUEL: ("fuel", "turbine"),
    AIR_FLOW: ("air", "turbine"),
    BOOST: ("boost", "turbine"),
    REMATCHED: ("fuel", "boost"),
    OWN: (),
}
LINES = (
    ("fuel", BURNT, "fuel_flow"),
    ("boost", GAUGE, "boost"),
    ("pressure ratio", PRESSURES, "pressure_ratio"),
    ("T2, compressor outlet", OUTLET, "compressor_outlet_temperature"),
    ("T3, manifold", MANIFOLD, "manifold_temperature"),
    ("manifold over ambient density", DENSITIES, "density_ratio"),
    ("air", FLOW, "mass_flow"),
    ("air-fuel ratio", RATIO, "air_fuel_ratio"),
    ("exhaust before the turbine", EXHAUST, "turbine_inlet_temperature"),
    ("compressor takes", POWER, "compressor_power"),
    ("power, see the pitfalls", POWER, "power"),
    ("consumption, see the pitfalls", CONSUMPTION, "specific_fuel_consumption"),
)


def bars(told: Scale, heading: str, name: str, found: Mapping[str, Balance | None], system: str) -> Group:
    """Return a group with a bar for each engine; one that cannot get there has no bar."""
    return told.group(heading, (_bar(told, engine, name, one, system) for engine, one in found.items()), system)


def _bar(told, engine, name, one, system):
    if one is None:
        return Bar(ROLES[engine], engine, 0.0, "cannot")
    return told.bar(ROLES[engine], engine, getattr(one, name), system)


def signed(number: float, places: int) -> str:
    """Return a change as text, with its sign."""
    text = fixed(number, places)
    return text if number < 0 or float(text) == 0 else f"+{text}"


def table(held: str, engines: Mapping[str, tuple[TurbochargedEngine, Balance | None]], system: str) -> Table:
    """Return everything in numbers, a column for each engine, and what was held equal."""
    rows = [_row(line, [one for _, one in engines.values()], held, system) for line in LINES]
    unit, size = SQUARE[system]
    areas = [fixed(engine.turbine_area / size, 2) for engine, _ in engines.values()]
    rows.insert(1, (f"turbine opening [{unit}]", *areas, _mark("turbine", held)))
    over = [
        NO_VALUE if one is None else ABOVE.text(one.turbine_inlet_pressure - one.manifold_pressure, system)
        for _, one in engines.values()
    ]
    rows.insert(-3, (f"exhaust pressure over manifold [{ABOVE.unit(system)}]", *over, ""))
    return Table("The three in numbers (INVENTED engines)", ("quantity", *engines, "held"), tuple(rows))


def _row(line, found, held, system):
    name, told, field = line
    unit = told.unit(system)
    texts = [NO_VALUE if one is None else told.text(getattr(one, field), system) for one in found]
    return (name if unit == "-" else f"{name} [{unit}]", *texts, _mark(name, held))


def _mark(name, held):
    return "equal" if name in EQUALS[held] else ""
