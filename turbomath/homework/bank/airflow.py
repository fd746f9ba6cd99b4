"""Questions on airflow and what it takes or allows: mass flow, volumetric efficiency, compressor power."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.common import NUMBER, OFFSET_32, UPSIDE_DOWN, asked, given
from turbomath.homework.bank.question import Mistake, Question, Tolerance
from turbomath.physics import airflow, compression
from turbomath.table.constants import AIR_SPECIFIC_HEAT
from turbomath.working import Step, sums

ENGINE = (given("displacement"), given("engine_speed"))
SWEPT = {"displacement": "displacement", "engine_speed": "engine_speed"}
FLOW = ("lb/min", "kg/min")
TWICE = "You left the 2 of the four-stroke engine out: it fills its cylinders once in two turns."

QUESTIONS = (
    Question(
        "mass_flow",
        45,
        "air drawn in by a four-stroke engine",
        2,
        "A four-stroke engine of {displacement} turns at {engine_speed}. The density is {manifold_density} in the "
        "manifold and {ambient_density} outside; the volumetric efficiency is {volumetric_efficiency} on manifold "
        "density. How much air does it draw in?",
        (*ENGINE, given("manifold_density"), given("ambient_density"), given("volumetric_efficiency")),
        (
            Step(
                "mass_flow",
                airflow.mass_flow,
                {"density": "manifold_density", **SWEPT, "volumetric_efficiency": "volumetric_efficiency"},
            ),
        ),
        (asked("mass_flow", FLOW),),
        (
            Mistake("M11", {"mass_flow": lambda s: 2 * _filled(s, s.manifold_density)}, TWICE),
            Mistake(
                "M16",
                {"mass_flow": lambda s: _filled(s, s.ambient_density)},
                "You used the density outside. The cylinders fill from the manifold.",
            ),
            Mistake(
                "M9",
                {"mass_flow": lambda s: 12 * _filled(s, s.manifold_density)},
                "You divided cubic inches by 144. That is for square inches: a cubic foot has 1,728 cubic inches.",
                only="us",
            ),
            Mistake(
                "M9",
                {"mass_flow": lambda s: _filled(s, s.manifold_density) / 60},
                "That is the flow for a second. Asked is the flow for a minute.",
                only="si",
            ),
        ),
        ("What volume does it swallow in a minute?", "Density × displacement × speed ÷ 2 × volumetric efficiency."),
    ),
    Question(
        "volume_flow_at_ambient",
        46,
        "mass flow as a volume of outside air",
        2,
        "An engine draws in {mass_flow}. The density is {ambient_density} outside and {manifold_density} in the "
        "manifold. "
        "What volume of outside air passes the filter?",
        (given("mass_flow"), given("ambient_density"), given("manifold_density")),
        (
            Step(
                "volume_flow_at_ambient", airflow.volume_flow, {"mass_flow": "mass_flow", "density": "ambient_density"}
            ),
        ),
        (asked("volume_flow_at_ambient", ("cfm", "m³/min")),),
        (
            Mistake(
                "M16",
                {"volume_flow_at_ambient": lambda s: s.mass_flow / s.manifold_density},
                "You used the density in the manifold. At the filter the air is as dense as outside.",
            ),
            Mistake(
                "M14",
                {"volume_flow_at_ambient": lambda s: s.answered(_multiplied(s), "volume_flow_at_ambient")},
                "You multiplied by the density. Thin air takes more room: divide.",
            ),
        ),
        ("Thin air takes more room.", "Mass flow ÷ density outside."),
    ),
    Question(
        "volumetric_efficiency",
        47,
        "volumetric efficiency from a measured airflow",
        3,
        "A four-stroke engine of {displacement} at {engine_speed} draws in {mass_flow}, measured. The density is "
        "{manifold_density} in the manifold, {ambient_density} outside. What is the volumetric efficiency on manifold "
        "density?",
        (*ENGINE, given("mass_flow"), given("manifold_density"), given("ambient_density")),
        (
            Step(
                "volumetric_efficiency",
                airflow.volumetric_efficiency,
                {"mass_flow": "mass_flow", "density": "manifold_density", **SWEPT},
            ),
        ),
        (asked("volumetric_efficiency", NUMBER, tolerance=Tolerance(us=0.01, si=0.01)),),
        (
            Mistake(
                "M16",
                {"volumetric_efficiency": lambda s: s.mass_flow * 2 / (s.ambient_density * _swept(s))},
                "You used the density outside. Cylinders fill from the manifold; that is why your number is far over "
                "1.",
            ),
            Mistake("M11", {"volumetric_efficiency": lambda s: s.mass_flow / (s.manifold_density * _swept(s))}, TWICE),
        ),
        (
            "What would the engine draw if it filled completely?",
            "Measured flow ÷ (density × displacement × speed ÷ 2).",
        ),
    ),
    Question(
        "power_the_air_allows",
        53,
        "what a denser charge allows",
        2,
        "An engine gives {power_before} with a charge of {density_before}. An aftercooler makes it {density_after}, "
        "while "
        "boost goes from {boost_before} to {boost_after}. With fuel added in proportion, and everything else as good, "
        "what power does the air allow?",
        (
            given("power_before", "power", of="power", source="power", symbol=r"P_\mathrm{before}"),
            given(
                "density_before",
                "density",
                of="density",
                source="compressor_outlet_density",
                symbol=r"\rho_\mathrm{before}",
            ),
            given("density_after", "density", of="density", source="manifold_density", symbol=r"\rho_\mathrm{after}"),
            given("boost_before", "boost", of="boost", source="compressor_outlet_boost"),
            given("boost_after", "boost", of="boost", source="boost"),
        ),
        (
            Step(
                "power_allowed",
                arithmetic.power_at_density,
                {"power_before": "power_before", "density_a": "density_before", "density_b": "density_after"},
                "power",
            ),
        ),
        (asked("power_allowed", ("hp", "kW"), of="power"),),
        (
            Mistake(
                "M4",
                {"power_allowed": lambda s: s.power_before * s.boost_after / s.boost_before},
                "You scaled with boost. Boost is not air: scale with density.",
            ),
            Mistake(
                "M14", {"power_allowed": lambda s: s.power_before * s.density_before / s.density_after}, UPSIDE_DOWN
            ),
            Mistake(
                "M14",
                {"power_allowed": lambda s: s.power_before * (1 + (s.density_after / s.density_before - 1) / 2)},
                "You halved the gain. At equal air-fuel ratio power follows density one for one.",
            ),
        ),
        ("Twice the air burns twice the fuel.", "Power × density after ÷ density before."),
        {"power": (250, 550, "hp"), "effectiveness": (0.65, 0.90, "-")},
        "A small gain would not tell the mistakes apart.",
        verdict=lambda s: (
            "this is what the air allows. Peak pressure, turbine speed, heat and the maker's rating "
            "decide what a real engine is given."
        ),
    ),
    Question(
        "compressor_power",
        54,
        "what a compressor takes from the turbine",
        2,
        "A compressor takes {mass_flow} of air from {compressor_inlet_temperature} to {compressor_outlet_temperature}. "
        "What power does it need?",
        (given("mass_flow"), given("compressor_inlet_temperature"), given("compressor_outlet_temperature")),
        (
            Step(
                "specific_compressor_work",
                compression.specific_work,
                {
                    "inlet_temperature": "compressor_inlet_temperature",
                    "outlet_temperature": "compressor_outlet_temperature",
                },
            ),
            Step(
                "compressor_power",
                sums.flow_of_work,
                {"mass_flow": "mass_flow", "specific_compressor_work": "specific_compressor_work"},
            ),
        ),
        (asked("compressor_power", ("hp", "kW")),),
        (
            Mistake("M10", {"specific_compressor_work": lambda s: _work_with_rise(s, -32 / 1.8)}, OFFSET_32, only="us"),
            Mistake(
                "M3",
                {"specific_compressor_work": lambda s: _work_with_rise(s, 273.15)},
                "You added 273 to a difference. A difference of 100 C° is 100 K.",
                only="si",
            ),
            Mistake(
                "M9",
                {"compressor_power": lambda s: 60 * s.mass_flow * s.specific_compressor_work},
                "You are out by 60. Look at whether the flow is for a minute, an hour or a second.",
            ),
        ),
        ("Power = flow × specific heat × rise.", "0.240 Btu/(lb F°), 42.4 Btu/min to a hp; 1.005 kJ/(kg K)."),
        {},
        "",
        verdict=lambda s: "the turbine pays for it out of the exhaust, not out of the crankshaft.",
    ),
)


def _swept(sheet):
    return sheet.displacement * sheet.engine_speed


def _filled(sheet, density):
    return density * _swept(sheet) / 2 * sheet.volumetric_efficiency


def _multiplied(sheet):
    return sheet.number("mass_flow") * sheet.number("ambient_density")


def _work_with_rise(sheet, more):
    return AIR_SPECIFIC_HEAT * (sheet.compressor_outlet_temperature - sheet.compressor_inlet_temperature + more)
