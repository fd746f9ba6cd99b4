"""Twenty slips of the pen, each put into a healthy run: flagged with the right reason, and the unit that fits is named.

The slips are common practice: what apprentices write down wrong. Sizes of units: NIST SP 811 (psi 6.894757 kPa,
inch of mercury 3.386389 kPa, inch of water 0.2490889 kPa).
"""

import csv
import io
from dataclasses import dataclass, field

import numpy as np
import pytest

from turbomath.disk import files
from turbomath.lab import checks
from turbomath.lab.run import readings

SOURCE = files.shipped("data") / "generator_air_to_air"
PSI, INCH_MERCURY, INCH_WATER = 6.894757, 3.386389, 0.2490889  # kPa
BAROMETER = 29.09 * INCH_MERCURY / PSI  # psi
OUTLET, INLET, MANIFOLD = "compressor outlet temperature", "compressor inlet temperature", "manifold temperature"
MEDIUM = "cooling medium temperature"
OUTLET_PRESSURE, SENSOR = "compressor outlet pressure [psi gauge]", "manifold pressure [kPa abs]"
POINT = "7"


def celsius(fahrenheit):
    """°F -> °C."""
    return (fahrenheit - 32) / 1.8


@dataclass(frozen=True)
class Slip:
    """What is written down wrong, and what the kit should say: a check, words, a unit."""

    name: str
    check: int
    words: str
    fits_unit: str = ""
    cells: dict = field(default_factory=dict)  # column -> function of the row
    added: dict = field(default_factory=dict)  # header -> (right, wrong) functions of the row
    bench: tuple = ("", "")


def cell(column, wrong):
    """A slip in one column: a function of the right number."""
    return {column: lambda row: wrong(float(row[column]))}


def swapped(one, other):
    """A slip that swaps two columns."""
    return {one: lambda row: float(row[other]), other: lambda row: float(row[one])}


def outlet_pressure(row):
    """Compressor outlet pressure [psi]."""
    return float(row["boost"]) + float(row["cooler pressure loss"])


def absolute(row):
    """Manifold pressure [kPa abs]."""
    return (float(row["boost"]) + BAROMETER) * PSI


def gauge_in_kpa(row):
    """Manifold pressure without the barometer; with the engine off it would be 0, which the reader refuses."""
    return float(row["boost"]) * PSI or absolute(row)


SLIPS = (
    Slip("boost in kPa under psi", 19, "boost 165.5 fits kPa", "kPa", cell("boost", lambda psi: psi * PSI)),
    Slip("boost in bar under psi", 6, "boost 1.655 fits bar", "bar", cell("boost", lambda psi: psi * PSI / 100)),
    Slip("absolute under gauge", 6, "fits psi abs", "psi abs", cell("boost", lambda psi: psi + BAROMETER)),
    Slip("gauge under absolute", 18, "fits kPa gauge", "kPa gauge", added={SENSOR: (absolute, gauge_in_kpa)}),
    Slip(
        "sea-level barometer",
        1,
        "corrected to sea level",
        cells=cell("barometer", lambda _: 29.92),
        bench=('"760 ft"', '"1700 ft"'),
    ),
    Slip("barometer in hPa under inHg", 1, "barometer 985", "hPa", cell("barometer", lambda x: x * INCH_MERCURY * 10)),
    Slip("°C under °F for T2", 6, f"{OUTLET} 170 fits °C", "°C", cell(OUTLET, lambda f: round(celsius(f)))),
    Slip("°C under °F for T3", 7, f"{MANIFOLD} 56 fits °C", "°C", cell(MANIFOLD, lambda f: round(celsius(f)))),
    Slip("°C under °F for ambient", 36, "ambient temperature 25 fits °C", "°C", cell("ambient temperature", celsius)),
    Slip("swapped T2 and T3", 8, "look swapped", cells=swapped(OUTLET, MANIFOLD)),
    Slip("swapped T1 and T2", 5, "look swapped", cells=swapped(INLET, OUTLET)),
    Slip(
        "swapped p2 and p3",
        10,
        "look swapped",
        cells={"boost": outlet_pressure},
        added={OUTLET_PRESSURE: (outlet_pressure, lambda row: float(row["boost"]))},
    ),
    Slip(
        "restriction in kPa under inH2O",
        13,
        "intake restriction 2.989 fits kPa",
        "kPa",
        cell("intake restriction", lambda x: x * INCH_WATER),
    ),
    Slip(
        "restriction in inHg under inH2O",
        13,
        "fits inHg",
        "inHg",
        cell("intake restriction", lambda x: x * INCH_WATER / INCH_MERCURY),
    ),
    Slip("restriction negative", 13, "outside 0 to 25 inH2O", cells=cell("intake restriction", lambda x: -x)),
    Slip(
        "pressure loss in kPa under psi",
        11,
        "cooler pressure loss 10.34 fits kPa",
        "kPa",
        cell("cooler pressure loss", lambda psi: psi * PSI),
    ),
    Slip(
        "a pegged gauge typed as a number",
        4,
        "exactly the end of its span",
        cells=cell("boost", lambda _: 20.0),
        bench=("0..60 psi", "0..20 psi"),
    ),
    Slip("weather station at the core face", 36, "a weather station does not read", cells=cell(MEDIUM, lambda _: 64.0)),
    Slip("engine coolant as medium", 7, "looks like engine coolant", cells=cell(MEDIUM, lambda _: 183.0)),
    Slip("speed at half", 26, "half of it", cells=cell("engine speed", lambda rpm: rpm / 2)),
)


def written(slip, folder, points):
    """Write the run with a slip at some points, read it again, and return it."""
    head, *lines = csv.reader(io.StringIO((SOURCE / "readings.csv").read_text(encoding="utf-8-sig")))
    names = [name.split(" [")[0] for name in head]
    rows = []
    for line in lines:
        row, wrong = dict(zip(names, line, strict=True)), points is None or line[0] in points
        changed = {name: f"{new(row):.4g}" for name, new in slip.cells.items() if wrong and row[name]}
        extra = [f"{(bad if wrong else good)(row):.4g}" for good, bad in slip.added.values()]
        rows.append([*(changed.get(name, row[name]) for name in names), *extra])
    text = io.StringIO()
    csv.writer(text).writerows([[*head, *slip.added], *rows])
    (folder / "readings.csv").write_text(text.getvalue(), encoding="utf-8")
    bench = (SOURCE / "bench.toml").read_text(encoding="utf-8")
    (folder / "bench.toml").write_text(bench.replace(*slip.bench), encoding="utf-8")
    return readings.read_run(folder)


def is_found(slip, flags, point):
    """Whether a flag of the right check has the right words, and one names the unit."""
    here = [flag for flag in flags if flag.point == point and flag.level in ("red", "amber")]
    right = [flag for flag in here if flag.check == slip.check and slip.words in f"{flag.reason} {flag.action}"]
    return bool(right) and right[0].fits_unit == slip.fits_unit


def test_there_are_twenty():
    assert len(SLIPS) == len({slip.name for slip in SLIPS}) == 20


@pytest.mark.parametrize("slip", SLIPS, ids=lambda slip: slip.name)
def test_a_slip_in_one_reading_is_flagged_with_its_reason(slip, tmp_path):
    run = written(slip, tmp_path, (POINT,))
    point = "4" if slip.check == 26 else POINT
    run = run if point == POINT else written(slip, tmp_path, (point,))
    flags = checks.check_run(run)
    assert is_found(slip, flags, point), [flag for flag in flags if flag.point == point]


@pytest.mark.parametrize("slip", SLIPS, ids=lambda slip: slip.name)
def test_a_slip_in_the_whole_column_is_flagged_no_other_unit_is_named_and_no_number_is_changed(slip, tmp_path):
    run = written(slip, tmp_path, None)
    before = {name: values.copy() for name, values in run.values.items()}
    flags = checks.check_run(run)
    for point in ("1", "8") if slip.check == 26 else (POINT,):  # speed at half all through shows at idle
        assert is_found(slip, flags, point), [flag for flag in flags if flag.point == point]
    assert {flag.fits_unit for flag in flags if flag.fits_unit} == ({slip.fits_unit} if slip.fits_unit else set())
    assert all(np.array_equal(run[name], values, equal_nan=True) for name, values in before.items())


def test_a_thermocouple_of_the_wrong_type_is_no_slip_of_a_unit(tmp_path):
    """A meter for type J on a type K wire shows some 76 % of the rise (the tables of IEC 60584-1, from memory)."""

    def rise(row):
        return 80 + 0.76 * (float(row[OUTLET]) - 80)

    run = written(Slip("type J for K", 6, "", cells={OUTLET: rise}), tmp_path, None)
    flags = [flag for flag in checks.check_run(run) if flag.check == 6 and flag.level == "red"]
    assert len(flags) >= 4
    assert {flag.column for flag in flags} == {OUTLET.replace(" ", "_")}
    assert not [flag.reason for flag in flags if " fits " in flag.reason]
