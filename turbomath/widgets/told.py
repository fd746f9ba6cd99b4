"""How lesson 06 tells flows and powers: pounds a minute, cubic feet a minute, pounds an hour, and the same in SI."""

from dataclasses import dataclass

from turbomath import units
from turbomath.pictures.lying_bars import Bar, Group
from turbomath.units.rounding import fixed
from turbomath.widgets.answers import Readout


@dataclass(frozen=True)
class Told:
    """A quantity with its unit and decimals in US and in SI units, and where its bars end at least, in SI."""

    name: str
    us: tuple[str, int]
    si: tuple[str, int]
    most: float = 0.0

    def unit(self, system):
        """Return the unit shown."""
        return {"us": self.us, "si": self.si}[system][0]

    def number(self, value, system):
        """Return an SI value as a number in the unit shown."""
        return float(units.from_si(value, self.unit(system), self.name))

    def text(self, value, system):
        """Return an SI value as text without its unit."""
        return fixed(self.number(value, system), {"us": self.us, "si": self.si}[system][1])

    def words(self, value, system):
        """Return an SI value as text with its unit."""
        return f"{self.text(value, system)} {self.unit(system)}"

    def readout(self, label, value, system):
        """Return a read-out of an SI value."""
        return Readout(label, self.text(value, system), self.unit(system))

    def group(self, heading, bars, system):
        """Return a group of lying bars; *bars* holds (role, label, SI value) for each."""
        made = tuple(
            Bar(role, label, self.number(value, system), self.text(value, system)) for role, label, value in bars
        )
        return Group(heading, self.unit(system), self.number(self.most, system), made)


FLOW = Told("mass_flow", ("lb/min", 1), ("kg/min", 1), 0.6)
VOLUME = Told("volume_flow", ("cfm", 0), ("m³/min", 1), 0.5)
BURNT = Told("fuel_flow", ("lb/h", 0), ("kg/h", 1))
POWER = Told("power", ("hp", 0), ("kW", 0), 120e3)
CHANGE = Told("temperature_rise", ("F°", 0), ("C°", 0), 200.0)
ABSOLUTE = Told("pressure", ("psi abs", 1), ("kPa abs", 0), 400e3)
ABOVE = Told("cooler_pressure_loss", ("psi", 1), ("kPa", 0))


def pounds(number):
    """Return a flow in lb/min as SI."""
    return units.to_si(number, "lb/min", "mass_flow")
