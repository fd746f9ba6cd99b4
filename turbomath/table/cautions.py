"""The safety texts, each with its public source. Sheets, reports, lessons and the README all use these.

The kit teaches arithmetic and judgement. It gives nobody leave to run an engine.
"""

from dataclasses import dataclass

STANDING = (
    "This kit teaches arithmetic and judgement. It gives nobody leave to run an engine: the maker's manual, "
    "the shop's procedure, local codes and licensed practice come first."
)


@dataclass(frozen=True)
class Caution:
    """One hazard: a short name, what to do about it, and the public source."""

    hazard: str
    text: str
    source: str


CAUTIONS = (
    Caution(
        "Exhaust",
        "Diesel exhaust causes cancer and carbon monoxide kills. Lead it outdoors and ventilate the room as well. "
        "Stop the engine if the hose comes off or an alarm sounds.",
        "CCOHS OSH Answers, Diesel Exhaust; IARC Monographs vol. 105",
    ),
    Caution(
        "Runaway",
        "A diesel that breathes fuel vapour, or its own oil past a failed turbocharger seal, does not stop with the "
        "key or the fuel lever; only cutting its air stops it. Agree before the start who acts and when everybody "
        "leaves. In this order: the air shut-off made for it; a rigid cover plate on the intake; CO2 from outside "
        "the doorway with the exits open; otherwise leave. Never a hand or a rag.",
        "Ontario Ministry of Labour alert, 12 May 2025; 30 CFR 250.405",
    ),
    Caution(
        "Stopping",
        "Rehearse the normal stop and a second stop before any load. Both must be in reach without leaning over "
        "the engine. Oil pressure must come up within the maker's time, or stop.",
        "ASTM D6618, section 8",
    ),
    Caution(
        "CO2 and the room",
        "CO2 can stop a runaway, and it kills people in rooms: 40,000 ppm (4 %) is immediately dangerous to life. "
        "An oxygen meter does not warn of it. Go out, ventilate, and do not go back in before the air is checked.",
        "NIOSH IDLH documentation for CO2 (1994); US EPA 430-R-00-002 (2000)",
    ),
    Caution(
        "Rotating and hot parts",
        "Guards on. No loose clothing, rings, lanyards or gloves near the fan, belts, coupling and the open "
        "compressor inlet. The turbine side, the charge pipe and the manifolds burn skin long after the stop.",
        "29 CFR 1910.212 and 1910.219",
    ),
    Caution(
        "Hearing",
        "An engine under load is often louder than 95 dBA: wear protection, double above 100 dBA. Show numbers "
        "with cards or write them; do not shout them.",
        "29 CFR 1910.95; the sound levels are common practice",
    ),
    Caution(
        "Load bank and generator",
        "Electric shock, arc and hot outlet air. Lock out before anyone touches a cable, and take the load off before "
        "you stop the engine.",
        "29 CFR 1910.147; common practice",
    ),
    Caution(
        "Supervision",
        "The instructor stays at the controls. Nobody runs an engine alone. Anybody may call stop.",
        "common practice",
    ),
)

# beside and before a running engine; lesson 00 and lab sheets show these as well
SHOP_CAUTIONS = (
    Caution(
        "Starting",
        "Take bags and plugs out of the intake first, and keep a filter or screen on it. No ether where glow plugs or "
        "a grid heater are fitted. Before the stop let the turbocharger cool at idle, as long as the maker says.",
        "US Army TM 5-3805-280-24-2, intake leak test; makers' manuals; common practice",
    ),
    Caution(
        "Stand, chocks and driveline",
        "Stand bolted, wheels chocked, brakes set, nobody in line with the coupling, in front or behind. A stalled "
        "driveline overheats: keep to the maker's time. On the road one person drives and another reads.",
        "ASTM D6618, section 8; common practice",
    ),
    Caution(
        "Fuel, coolant and fire",
        "Never feel for a fuel leak by hand: the jet goes through skin. Never open a hot coolant cap. Rags go in a "
        "closed can. Keep a class B extinguisher near people trained to use it; do not count on dry chemical to "
        "stop a runaway.",
        "29 CFR 1910.157; common practice",
    ),
    Caution(
        "Batteries",
        "They give off hydrogen: goggles, fresh air, no sparks. Charger off before its clamps move; negative off "
        "first and on last.",
        "CCOHS OSH Answers, Garages - Batteries",
    ),
    Caution(
        "Pressure tests and compressed air",
        "Stay at or below the maker's test pressure: plugs chained, relief valve fitted, people aside, pressure off "
        "before anything is loosened. Air for cleaning stays below 30 psi (207 kPa), with a guard, and off people.",
        "30 CFR 77.412; 29 CFR 1910.242(b)",
    ),
)

STOP_TRIGGERS = (
    "oil pressure low",
    "coolant hot",
    "exhaust temperature or boost over the maker's limit",
    "a new noise, a leak, a change of smoke",
    "exhaust hose off",
    "any alarm",
    "anybody calls stop",
)
