"""Questions to choose in: order the stations, the reading that cannot be, name the fault, two mechanics disagree.

What points to which fault is common practice of the trade; the maker's manual and a test come before any part.
"""

from turbomath.homework.bank.question import Case, Option
from turbomath.homework.bank.readings import TEMPERATURE
from turbomath.homework.bank.wording import Wording
from turbomath.physics import compression
from turbomath.table.prose import Prose
from turbomath.working.coherent import from_si
from turbomath.working.writing import fixed, with_unit

TOO_EFFICIENT = 0.75  # of the rise without losses
TOO_COLD = 12.0  # K below the air that cools
TOO_HOT = 24.0  # K above the charge that it cools


def _colder_than_without_losses(drawn):
    """Return an outlet temperature [K] that no compressor can have."""
    inlet = drawn["compressor_inlet_temperature"]
    ideal = compression.ideal_outlet_temperature(1e5, inlet, 1e5 * drawn["pressure_ratio"])
    return inlet + TOO_EFFICIENT * (ideal - inlet)


def _hotter_than_without_losses(drawn):
    """Return an inlet temperature [K] from which no compressor comes to its outlet temperature."""
    ratio = compression.ideal_outlet_temperature(1e5, 1.0, 1e5 * drawn["pressure_ratio"])
    return drawn["compressor_outlet_temperature"] / (1 + TOO_EFFICIENT * (ratio - 1))


def _hotter_than_what_it_cools(drawn):
    """Return a temperature [K] of the air at a core that no charge could leave below."""
    return drawn["manifold_temperature"] + TOO_HOT


def _colder_than_its_medium(drawn):
    """Return a manifold temperature [K] that no aftercooler can give."""
    return drawn["core_air_temperature"] - TOO_COLD


SPOILED = {
    "compressor_outlet_temperature": _colder_than_without_losses,
    "manifold_temperature": _colder_than_its_medium,
    "core_air_temperature": _hotter_than_what_it_cools,
    "compressor_inlet_temperature": _hotter_than_without_losses,
}


class ImpossibleReadings:
    """Makes the cases of one seat from its engine: a sheet for each reading that is spoiled."""

    def __init__(self, words: Prose) -> None:
        names, cannot_be = words.table("names"), words.table("cannot_be")
        self.text = words.text("text", readings="{readings}", pressure_ratio="{pressure_ratio}")
        self.names = {name: names.text(name) for name in names.names()}
        self.cannot_be = {name: cannot_be.text(name) for name in SPOILED}
        self.can_be = words.text("can_be")

    def __call__(self, drawn: dict, system: str) -> tuple[Case, ...]:
        """Return the cases in which the reading that cannot be is the right option."""
        return tuple(self._case(drawn, system, spoiled) for spoiled in SPOILED)

    def _case(self, drawn, system, spoiled):
        values = {name: drawn[name] for name in self.names} | {spoiled: SPOILED[spoiled](drawn)}
        readings = "; ".join(f"{words} {_degrees(values[name], system)}" for name, words in self.names.items())
        text = self.text.format(readings=readings, pressure_ratio=f"{drawn['pressure_ratio']:.2f}")
        others = (Option(words, self.can_be, "C1") for name, words in self.names.items() if name != spoiled)
        return Case(text, (Option(self.names[spoiled], self.cannot_be[spoiled]), *others))


def _degrees(temperature, system):
    unit = TEMPERATURE[system == "si"]
    return with_unit(fixed(from_si(temperature, unit, "temperature"), 0), unit)


words = Wording(__file__, "choices.toml")
QUESTIONS = (
    words.choice("order_the_stations", number=0, difficulty=1),
    words.choice(
        "impossible_reading",
        number=57,
        difficulty=2,
        cases=ImpossibleReadings,
        ranges={"boost": (16, 32, "psi"), "effectiveness": (0.62, 0.88, "-")},
    ),
    words.choice("match_the_fault", number=0, difficulty=3),
    words.choice("two_mechanics", number=0, difficulty=2),
)
words.finished()
