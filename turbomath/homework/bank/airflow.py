"""Questions on airflow and what it takes or allows: mass flow, volumetric efficiency, compressor power."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.mistakes import SHARED, mistake, offset_32
from turbomath.homework.bank.question import Tolerance
from turbomath.homework.bank.readings import FLOW, HOT, INLET_TEMPERATURE, NUMBER, POWER, asked, given
from turbomath.homework.bank.steps import step
from turbomath.homework.bank.wording import Wording
from turbomath.physics import airflow, compression
from turbomath.table.constants import AIR_SPECIFIC_HEAT, ZERO_CELSIUS
from turbomath.working import sums

ENGINE = (given("displacement"), given("engine_speed"))
MASS_FLOW, OUTSIDE, MANIFOLD = given("mass_flow"), given("ambient_density"), given("manifold_density")


def _swept(s):
    return s.displacement * s.engine_speed


def _filled(s, density):
    return density * _swept(s) / 2 * s.volumetric_efficiency


def _multiplied(s):
    return s.answered(s.number("mass_flow") * s.number("ambient_density"), "volume_flow_at_ambient")


def _work_with_rise(s, more):
    return AIR_SPECIFIC_HEAT * (s.compressor_outlet_temperature - s.compressor_inlet_temperature + more)


words = Wording(__file__, "airflow.toml", SHARED)
QUESTIONS = (
    words.question(
        "mass_flow",
        number=45,
        difficulty=2,
        givens=(*ENGINE, MANIFOLD, OUTSIDE, given("volumetric_efficiency")),
        steps=(step("mass_flow", airflow.mass_flow, density="manifold_density"),),
        asked=(asked("mass_flow", FLOW),),
        mistakes=(
            mistake("two_turns_left_out", "M11", mass_flow=lambda s: 2 * _filled(s, s.manifold_density)),
            mistake("density_outside", "M16", mass_flow=lambda s: _filled(s, s.ambient_density)),
            mistake("square_inches", "M9", only="us", mass_flow=lambda s: 12 * _filled(s, s.manifold_density)),
            mistake("flow_of_a_second", "M9", only="si", mass_flow=lambda s: _filled(s, s.manifold_density) / 60),
        ),
    ),
    words.question(
        "volume_flow_at_ambient",
        number=46,
        difficulty=2,
        givens=(MASS_FLOW, OUTSIDE, MANIFOLD),
        steps=(step("volume_flow_at_ambient", airflow.volume_flow, density="ambient_density"),),
        asked=(asked("volume_flow_at_ambient", ("cfm", "m³/min")),),
        mistakes=(
            mistake("density_in_manifold", "M16", volume_flow_at_ambient=lambda s: s.mass_flow / s.manifold_density),
            mistake("multiplied", "M14", volume_flow_at_ambient=_multiplied),
        ),
    ),
    words.question(
        "volumetric_efficiency",
        number=47,
        difficulty=3,
        givens=(*ENGINE, MASS_FLOW, MANIFOLD, OUTSIDE),
        steps=(step("volumetric_efficiency", airflow.volumetric_efficiency, density="manifold_density"),),
        asked=(asked("volumetric_efficiency", NUMBER, tolerance=Tolerance(us=0.01, si=0.01)),),
        mistakes=(
            mistake(
                "density_outside",
                "M16",
                volumetric_efficiency=lambda s: s.mass_flow * 2 / (s.ambient_density * _swept(s)),
            ),
            mistake(
                "two_turns_left_out",
                "M11",
                volumetric_efficiency=lambda s: s.mass_flow / (s.manifold_density * _swept(s)),
            ),
        ),
    ),
    words.question(
        "power_the_air_allows",
        number=53,
        difficulty=2,
        givens=(
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
        steps=(
            step(
                "power_allowed",
                arithmetic.power_at_density,
                density_a="density_before",
                density_b="density_after",
                quantity="power",
            ),
        ),
        asked=(asked("power_allowed", POWER, of="power"),),
        mistakes=(
            mistake("scaled_with_boost", "M4", power_allowed=lambda s: s.power_before * s.boost_after / s.boost_before),
            mistake("upside_down", "M14", power_allowed=lambda s: s.power_before * s.density_before / s.density_after),
            mistake(
                "gain_halved",
                "M14",
                power_allowed=lambda s: s.power_before * (1 + (s.density_after / s.density_before - 1) / 2),
            ),
        ),
        ranges={"power": (250, 550, "hp"), "effectiveness": (0.65, 0.9, "-")},
    ),
    words.question(
        "compressor_power",
        number=54,
        difficulty=2,
        givens=(MASS_FLOW, INLET_TEMPERATURE, HOT),
        steps=(
            step(
                "specific_compressor_work",
                compression.specific_work,
                inlet_temperature="compressor_inlet_temperature",
                outlet_temperature="compressor_outlet_temperature",
            ),
            step("compressor_power", sums.flow_of_work),
        ),
        asked=(asked("compressor_power", POWER),),
        mistakes=(
            mistake("offset_32", "M10", only="us", specific_compressor_work=lambda s: _work_with_rise(s, -offset_32())),
            mistake("offset_273", "M3", only="si", specific_compressor_work=lambda s: _work_with_rise(s, ZERO_CELSIUS)),
            mistake("out_by_60", "M9", compressor_power=lambda s: 60 * s.mass_flow * s.specific_compressor_work),
        ),
    ),
)
words.finished()
