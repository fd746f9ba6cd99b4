"""How flows, powers and pressures are shown as bars: their unit, their decimals, and how far a scale reaches."""

from collections.abc import Iterable
from dataclasses import dataclass

from turbomath.pictures.lying_bars import Bar, Group
from turbomath.units.shown import Shown


@dataclass(frozen=True)
class Scale(Shown):
    """A quantity shown as bars, which end at `most` [SI] at least, so that they stand still."""

    most: float = 0.0

    def bar(self, role: str, label: str, value: float, system: str) -> Bar:
        """Return a bar for an SI value."""
        return Bar(role, label, self.number(value, system), self.text(value, system))

    def group(self, heading: str, bars: Iterable[Bar], system: str) -> Group:
        """Return a group of bars under one heading."""
        return Group(heading, self.unit(system), self.number(self.most, system), tuple(bars))

    def group_of(self, heading: str, values: Iterable[tuple[str, str, float]], system: str) -> Group:
        """Return a group with a bar for each (role, label, SI value)."""
        return self.group(heading, (self.bar(*one, system) for one in values), system)


FLOW = Scale("mass_flow", ("lb/min", 1), ("kg/min", 1), 0.6)
VOLUME = Scale("volume_flow", ("cfm", 0), ("m³/min", 1), 0.5)
BURNT = Scale("fuel_flow", ("lb/h", 0), ("kg/h", 1))
POWER = Scale("power", ("hp", 0), ("kW", 0), 120e3)
FINE_POWER = Scale("power", ("hp", 1), ("kW", 1), 120e3)
CHANGE = Scale("temperature_rise", ("F°", 0), ("C°", 0), 200.0)
ABSOLUTE = Scale("pressure", ("psi abs", 1), ("kPa abs", 0), 400e3)
ABOVE = Scale("cooler_pressure_loss", ("psi", 1), ("kPa", 0))
