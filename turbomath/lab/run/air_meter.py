"""The table [air_meter] of bench.toml: what turns a drop of pressure in the intake into the air flow of the engine."""

import math
from dataclasses import dataclass

from turbomath.disk.plain_files import Place
from turbomath.lab.run import amounts
from turbomath.lab.run.amounts import CORRECT, Stated
from turbomath.physics.orifice import TAPPINGS, Plate

ORIFICE, LAMINAR = "orifice", "laminar"
NEEDS = {ORIFICE: ("pipe_diameter", "bore_diameter", "tappings"), LAMINAR: ("constant", "at")}
_FAST = 1e9  # Reynolds number at which only the sizes are judged


@dataclass(frozen=True)
class AirMeter:
    """In SI; `kind` is `None` where bench.toml has no such table. `at` is the temperature of the maker's constant."""

    kind: str | None = None
    pipe_diameter: Stated | None = None
    bore_diameter: Stated | None = None
    tappings: str | None = None
    constant: Stated | None = None
    at: float = math.nan


READERS = {
    "kind": amounts.one_of(*NEEDS),
    **{name: amounts.stated(name) for name in ("pipe_diameter", "bore_diameter")},
    "tappings": amounts.one_of(*TAPPINGS),
    "constant": amounts.stated("laminar_flow_constant"),
    "at": amounts.amount("reference_temperature"),
}


def check_air_meter(meter: AirMeter, stated: dict, place: Place) -> None:
    """Refuse a meter without its kind, with a key too few or of the other kind, or with sizes that no rule covers."""
    if not stated:
        return
    place = place.at(column="[air_meter]")
    if meter.kind is None:
        raise place.refusal(", ".join(stated), f'kind = "{ORIFICE}" or kind = "{LAMINAR}" as well', CORRECT)
    wanting = [name for name in NEEDS[meter.kind] if name not in stated]
    if wanting:
        raise place.refusal(", ".join(stated), f"{' and '.join(wanting)} as well", "Add it from the maker's sheet.")
    foreign = [name for name in stated if name not in ("kind", *NEEDS[meter.kind])]
    if foreign:
        expected = f'kind, {", ".join(NEEDS[meter.kind])} only, as kind = "{meter.kind}"'
        raise place.refusal(", ".join(foreign), expected, f"Take it out. {CORRECT}")
    if meter.pipe_diameter and meter.bore_diameter:
        _check_sizes(meter.pipe_diameter.value, meter.bore_diameter.value, meter.tappings, stated, place)


def _check_sizes(pipe, bore, tappings, stated, place):
    if not Plate(bore / pipe, pipe, tappings).covered(_FAST):
        raise place.refusal(
            f"a bore of {stated['bore_diameter']} in {stated['pipe_diameter']}",
            "what ISO 5167-2 covers: a pipe of 50 to 1000 mm, a bore of 12.5 mm or more and 0.1 to 0.75 of the pipe",
            CORRECT,
        )
