"""Exit ticket of lesson 06: air, air-fuel ratio, consumption from a scale and a stopwatch, compressor power."""

from turbomath.widgets.asking import Option, Question
from turbomath.widgets.panel import Ticket


def ticket_air_fuel_and_power():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


_TELL = "Tell your instructor what you got, and how."

TICKET = (
    Question(
        "A four-stroke of 12.7 L (0.4485 ft³) at 1,800 rpm, volumetric efficiency 0.92. Density: manifold 0.165 lb/ft³ "
        "(2.643 kg/m³), outside 0.0696 lb/ft³ (1.115 kg/m³). How much air a minute?",
        (
            Option(
                "122.5 lb (55.6 kg)", "You let it fill 1,800 times. A four-stroke fills once in two turns: ÷ 2.", "M11"
            ),
            Option("25.8 lb (11.7 kg)", "You took the density outside. Cylinders fill from the manifold.", "M16"),
            Option(
                "61.3 lb (27.8 kg)", "Right: 900 × 0.4485 × 0.92 × 0.165, or 900 × 0.0127 × 0.92 × 2.643.", right=True
            ),
            Option(
                "735 lb (334 kg)",
                "You took 144 in³ for a cubic foot. That is square inches to the square foot: "
                "1,728 in³ are a cubic foot, 1,000 L a cubic metre.",
                "M9",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "It draws 61.3 lb (27.8 kg) of air a minute and burns 148 lb (67.3 kg) of fuel an hour. What is its air-fuel "
        "ratio?",
        (
            Option("0.41", "The air is for a minute, the fuel for an hour: multiply the air by 60 first.", "M9"),
            Option(
                "14.7",
                "That is for petrol with a spark. A diesel has no such target, and would smoke black there.",
                "M17",
            ),
            Option("0.040", "You have it upside down. Air goes on top: how many pounds of air to one of fuel?", "M14"),
            Option("24.8", "Right: 61.3 × 60 ÷ 148, or 27.8 × 60 ÷ 67.3.", right=True),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "At a steady 412 hp (307.2 kW) it burns 5.0 lb (2.268 kg) of fuel in 126 s. What is its specific fuel "
        "consumption?",
        (
            Option("0.347 lb/hp·h (211 g/kW·h)", "Right: 5.0 × 3,600 ÷ 126 = 142.9 lb/h; ÷ 412.", right=True),
            Option("0.578 lb/hp·h (351 g/kW·h)", "You wrote 126 s as 1.26 minutes. They are 2.10 minutes.", "M9"),
            Option(
                "0.0058 lb/hp·h (3.5 g/kW·h)",
                "You multiplied by 60. That is the fuel of a minute; an hour has 3,600 s.",
                "M9",
            ),
            Option(
                "2.88 hp·h/lb (4.74 kW·h/kg)", "You have it upside down: fuel for each unit of work is asked.", "M14"
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "The compressor warms 60 lb (27.2 kg) of air a minute from 85 to 330 °F (29.4 to 165.6 °C). What power is "
        "that, and who pays?",
        (
            Option("72 hp (54 kW), the exhaust", "You took 32 from a difference. 245 F° are 245 F°.", "M10"),
            Option(
                "83 hp (62 kW), the exhaust",
                "Right: 60 × 0.24 × 245 ÷ 42.4. The turbine takes it from the "
                "exhaust gas, and the pistons feel the pressure before it.",
                right=True,
            ),
            Option("1.4 hp (1.0 kW), the exhaust", "You took Btu a minute for Btu an hour.", "M9"),
            Option(
                "none: the exhaust does it for nothing",
                "The air got hotter, so it took work. The turbine pays, with pressure and heat of the exhaust.",
                "M17",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
)
