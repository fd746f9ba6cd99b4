"""Questions on what gauges show: on high ground, at full load, on a scan tool, in another unit, and how far off."""

from turbomath.homework.bank import arithmetic, instruments
from turbomath.homework.bank.mistakes import SEA_LEVEL, SHARED, converted_the_wrong_way, mistake, taken_as
from turbomath.homework.bank.question import Given, Tolerance
from turbomath.homework.bank.readings import BAROMETER, BOOST, HIGH_GROUND, PER_CENT, PRESSURE, a_span, asked, given
from turbomath.homework.bank.steps import step
from turbomath.homework.bank.wording import Either, Wording
from turbomath.physics import compression
from turbomath.working import sums

SEA_LEVEL_PRESSURE, ELEVATION = given("sea_level_pressure"), given("elevation")
WATER = ("inH2O", "kPa")
BOOST_UP_THERE = step(
    "boost_up_there",
    sums.gauge_pressure,
    pressure="manifold_pressure",
    quantity="boost",
    symbol=r"p_\mathrm{boost,up}",
)


def _gauge_and_reading(drawn, system):
    """Return a gauge that shops have, and a reading on it."""
    span = a_span(drawn["gauge"], system)
    return {"span": span, "gauge_reading": drawn["place"] * span}


words = Wording(__file__, "gauges.toml", SHARED)
QUESTIONS = (
    words.question(
        "station_pressure",
        number=7,
        difficulty=2,
        givens=(
            SEA_LEVEL_PRESSURE,
            ELEVATION,
            given("standard_ratio", "table ratio", of="pressure_ratio", symbol=r"\pi"),
        ),
        steps=(step("station_pressure", arithmetic.from_sea_level, pressure_ratio="standard_ratio"),),
        asked=(asked("station_pressure", ("inHg", "kPa")),),
        mistakes=(
            mistake("report_as_it_is", "M2", station_pressure="sea_level_pressure"),
            mistake("divided_by_the_ratio", "M14", station_pressure=lambda s: s.sea_level_pressure / s.standard_ratio),
        ),
        ranges=HIGH_GROUND,
    ),
    words.question(
        "gauge_error",
        number=8,
        difficulty=2,
        givens=(given("span", "boost", of="boost", symbol=r"p_\mathrm{span}"), given("boost", source="gauge_reading")),
        steps=(
            step("band", instruments.grade_b_band, symbol=r"s_\mathrm{band}"),
            step("half_width", instruments.band_of_span, symbol="a"),
            step("share_of_reading", instruments.share_of_reading),
        ),
        asked=(
            asked("half_width", PRESSURE, of="cooler_pressure_loss", tolerance=Tolerance(0.02)),
            asked("share_of_reading", PER_CENT, of="density_gain", tolerance=Tolerance(0.02)),
        ),
        mistakes=(
            mistake("per_cent_of_reading", "M13", half_width=lambda s: s.band * s.boost),
            mistake("band_of_another_quarter", "M13", band=lambda s: 0.05 - instruments.grade_b_band(s.boost, s.span)),
        ),
        ranges={"gauge": (0, 1, "-"), "place": (0.08, 0.7, "-")},
        also=_gauge_and_reading,
        where=lambda s: abs(s.boost / s.span - 0.25) > 0.01,
    ),
    words.question(
        "boost_for_same_pressure_ratio",
        number=9,
        difficulty=3,
        givens=(SEA_LEVEL_PRESSURE, BOOST, ELEVATION, BAROMETER),
        steps=(
            step(
                "sea_level_manifold_pressure",
                sums.absolute_pressure,
                barometer="sea_level_pressure",
                quantity="pressure",
                symbol=r"p_\mathrm{3,sea}",
            ),
            step(
                "pressure_ratio",
                compression.pressure_ratio,
                inlet_pressure="sea_level_pressure",
                outlet_pressure="sea_level_manifold_pressure",
            ),
            step("manifold_pressure", arithmetic.raised_pressure, inlet_pressure="barometer"),
            BOOST_UP_THERE,
        ),
        asked=(asked("boost_up_there", PRESSURE, of="boost"),),
        mistakes=(
            mistake("boost_kept", "M1", boost_up_there="boost"),
            mistake(
                "scaled_by_density",
                "M16",
                boost_up_there=lambda s: s.boost * arithmetic.standard_density_ratio(s.elevation),
            ),
            mistake("barometer_not_taken_off", "M1", boost_up_there="manifold_pressure"),
        ),
        ranges={"elevation": (3500, 5500, "ft")},
    ),
    words.question(
        "boost_for_same_manifold_pressure",
        number=10,
        difficulty=2,
        givens=(SEA_LEVEL_PRESSURE, BOOST, ELEVATION, BAROMETER),
        steps=(
            step("manifold_pressure", sums.absolute_pressure, barometer="sea_level_pressure"),
            BOOST_UP_THERE,
        ),
        asked=(asked("boost_up_there", PRESSURE, of="boost"),),
        mistakes=(
            mistake("boost_kept", "M4", boost_up_there="boost"),
            mistake("wrong_way", "M14", boost_up_there=lambda s: s.boost - (s.sea_level_pressure - s.barometer)),
            mistake("barometer_not_taken_off", "M1", boost_up_there="manifold_pressure"),
        ),
        ranges=HIGH_GROUND,
    ),
    words.question(
        "full_load_restriction",
        number=11,
        difficulty=1,
        givens=(
            given("no_load", "restriction", of="intake_restriction", symbol=r"\Delta p_\mathrm{idle}"),
            Given("factor", ("-", 0.1), ("-", 0.1), "pressure_ratio", symbol="k"),
            given("limit", "restriction", of="intake_restriction"),
        ),
        steps=(step("full_load_restriction", arithmetic.full_load_restriction),),
        asked=(asked("full_load_restriction", WATER, of="intake_restriction"),),
        mistakes=(
            mistake("reading_as_it_is", "M16", full_load_restriction="no_load"),
            mistake("divided_by_the_factor", "M14", full_load_restriction=lambda s: s.no_load / s.factor),
        ),
        ranges={"no_load": (5, 14, "inH2O"), "factor": (1.8, 1.8, "-"), "limit": (20, 25, "inH2O")},
        verdict=Either(lambda s: s.full_load_restriction > s.limit, "over_the_limit", "within_the_limit"),
    ),
    words.question(
        "back_pressure_in_another_unit",
        number=12,
        difficulty=1,
        givens=(Given("exhaust_back_pressure", ("inHg", 0.1), ("mmHg", 1), source="back_pressure"),),
        steps=(),
        asked=(asked("exhaust_back_pressure", WATER),),
        mistakes=(
            mistake("another_liquid", "M9", exhaust_back_pressure=taken_as("exhaust_back_pressure", ("psi", "mmH2O"))),
            mistake(
                "divided",
                "M14",
                exhaust_back_pressure=converted_the_wrong_way("exhaust_back_pressure", ("inHg", "mmHg"), WATER),
            ),
        ),
        ranges={"back_pressure": (0.5, 6, "inHg")},
    ),
    words.question(
        "boost_from_scan_tool",
        number=0,
        difficulty=1,
        givens=(given("manifold_pressure", "absolute"), BAROMETER),
        steps=(step("boost", sums.gauge_pressure, pressure="manifold_pressure"),),
        asked=(asked("boost", PRESSURE),),
        mistakes=(
            mistake("absolute_as_boost", "M1", boost="manifold_pressure"),
            SEA_LEVEL,
            mistake("barometer_added", "M14", boost=lambda s: s.manifold_pressure + s.barometer),
        ),
        ranges=HIGH_GROUND,
    ),
)
words.finished()
