"""The table [rated] of bench.toml: the maker's figures for the rated point, and for no other."""

from dataclasses import dataclass

from turbomath.disk.plain_files import Place
from turbomath.lab.run import amounts
from turbomath.lab.run.amounts import CORRECT, Stated

# The day of a maker's sheet that states none; ISO 15550 standard reference conditions
STANDARD_BAROMETER, STANDARD_TEMPERATURE = 100_000.0, 298.0  # Pa, K


@dataclass(frozen=True)
class Rated:
    """In SI; a boost, a fuel flow and a power may carry their own ±.

    `boost` counts from the barometer, and is `None` where bench.toml has no such table.
    """

    boost: Stated | None = None
    engine_speed: float | None = None
    fuel_flow: Stated | None = None
    power: Stated | None = None
    barometer: float = STANDARD_BAROMETER
    ambient_temperature: float = STANDARD_TEMPERATURE


READERS = {
    **{name: amounts.stated(name) for name in ("boost", "fuel_flow", "power")},
    **{name: amounts.amount(name) for name in ("engine_speed", "barometer", "ambient_temperature")},
}


def check_rated(rated: Rated, stated: dict, place: Place) -> None:
    """Refuse figures that no reading could be set beside: the speed, or both fuel and power, not stated; or none."""
    if not stated:
        return
    place = place.at(column="[rated]")
    wanting = [name for name in ("boost", "engine_speed") if name not in stated]
    if "fuel_flow" not in stated and "power" not in stated:
        wanting.append("fuel_flow or power")
    if wanting:
        expected = f"{' and '.join(wanting)} as well"
        raise place.refusal(", ".join(stated), expected, f"Add it, or take [rated] out. {CORRECT}")
    for name in ("boost", "engine_speed", "fuel_flow", "power"):
        value = getattr(rated, name)
        if value is not None and getattr(value, "value", value) <= 0:
            raise place.at(column=f"[rated] {name}").refusal(stated[name], "an amount above 0", CORRECT)
