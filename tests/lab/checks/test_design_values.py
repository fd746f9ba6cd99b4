"""Any value that [design] may state is one to check by: also one at, near or beyond an end of the usual range."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import cli
from turbomath.lab.checks import check_run, unit_slips
from turbomath.lab.checks.bounds import BOUNDS
from turbomath.lab.entry.entry_run import EntryRun
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report.terminal import on_terminal
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.bench import Design
from turbomath.lab.run.channels import AFTERCOOLERS
from turbomath.lab.run.readings import read_run

SOUND = {
    "barometer": "29.10",
    "ambient temperature": "77",
    "load": "100",
    "intake restriction": "12",
    "compressor inlet temperature": "80",
    "compressor outlet temperature": "336.5",
    "boost": "24",
    "manifold temperature": "128.9",
    "cooling medium temperature": "77",
    "cooler pressure loss": "1.5",
}
UNITS = {"barometer": "inHg", "load": "%", "boost": "psi", "cooler pressure loss": "psi", "intake restriction": "inH2O"}
# What the readings then show lies beyond the stated end, where its distance from a healthy engine is measured
ENDS = [
    # key of [design], its value, the aftercooler, the reading that goes beyond
    ("effectiveness", "0.50", "jacket-water", ("manifold temperature", "250")),
    ("effectiveness", "0.85", "jacket-water", ("manifold temperature", "90")),
    ("effectiveness", "0.60", "air-to-air", ("manifold temperature", "250")),
    ("effectiveness", "0.92", "air-to-air", ("manifold temperature", "90")),
    ("compressor_efficiency", "0.58", "air-to-air", ("compressor outlet temperature", "420")),
    ("compressor_efficiency", "0.80", "air-to-air", ("compressor outlet temperature", "290")),
    ("cooler_pressure_loss", "0.1 psi", "air-to-air", ("cooler pressure loss", "-0.6")),
    ("cooler_pressure_loss", "3 psi", "air-to-air", ("cooler pressure loss", "3.5")),
]


def texts(key, value, aftercooler, beyond):
    """Return bench.toml with one design value, and one row of readings with one of them changed."""
    row = {**SOUND, **dict([beyond])}
    heads = ["point", "condition", *(f"{name} [{UNITS.get(name, '°F')}]" for name in row)]
    bench = f'[run]\ninvented = true\n[engine]\naftercooler = "{aftercooler}"\n[design]\n{key} = "{value}"\n'
    return "\n".join((",".join(heads), ",".join(("1", "load", *row.values())))) + "\n", bench


@pytest.mark.parametrize(("key", "value", "aftercooler", "beyond"), ENDS)
def test_a_design_value_at_an_end_of_the_usual_range_is_checked_and_reported(
    run_folder, key, value, aftercooler, beyond
):
    run = read_run(run_folder(*texts(key, value, aftercooler, beyond)))
    found = [flag for flag in check_run(run) if flag.level in ("amber", "red")]
    assert found, "the reading lies beyond the usual range"
    assert all(flag.reason in " ".join(terminal_text(run).split()) for flag in found)


def terminal_text(run):
    return on_terminal(reduce_run(run), "us")


@pytest.mark.usefixtures("one_way")
def test_the_command_line_writes_its_page(run_folder, tmp_path, capsys):
    folder, out = run_folder(*texts(*ENDS[0])), tmp_path / "out"
    assert cli.main(["check", str(folder)]) == 0
    assert cli.main(["report", str(folder), "--out", str(out)]) == 0
    assert capsys.readouterr().err == ""
    assert (out / "report.html").stat().st_size > 10_000


def test_a_reading_entered_beside_it_is_looked_at(run_folder):
    readings, bench = texts(*ENDS[2])
    entered = EntryRun(run_folder(None, bench))
    heads, row = (line.split(",")[2:] for line in readings.splitlines())
    for head, text in zip(heads, row, strict=True):
        entered.enter("1A", head.split(" [")[0].replace(" ", "_"), text, look=False)
    assert entered.results().flags == check_run(entered.results().run)


SHARES = st.integers(1, 100).map(lambda number: number / 100) | st.floats(0.01, 1)
PRESSURES = st.integers(0, 100).map(lambda tenths: tenths / 10 * 6894.757293168) | st.floats(0, 70_000)


@pytest.fixture(scope="module")
def three_points(tmp_path_factory):
    """A sound point between one that is cooled too little and one that is cooled too well."""
    readings, bench = texts("effectiveness", "0.80", "air-to-air", ("manifold temperature", "250"))
    head, row = readings.splitlines()
    folder = tmp_path_factory.mktemp("design")
    rows = [head, row, row.replace(",250,", ",128.9,"), row.replace(",250,", ",90,").replace(",336.5,", ",310,")]
    (folder / "readings.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    (folder / "bench.toml").write_text(bench, encoding="utf-8")
    return read_run(folder)


@pytest.fixture(scope="module")
def no_slip_is_looked_for():
    """Leave out the search for another unit: it takes most of the time, and the distances are there before it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(unit_slips, "explained", lambda look, found, pointwise: found)
        yield


@given(
    efficiency=SHARES, effectiveness=SHARES | st.just(0.0), loss=PRESSURES, aftercooler=st.sampled_from(AFTERCOOLERS)
)
def test_whatever_design_is_stated_the_run_is_checked(
    three_points, no_slip_is_looked_for, efficiency, effectiveness, loss, aftercooler
):
    bench = replace(
        three_points.bench,
        design=Design(Stated(efficiency), Stated(effectiveness), Stated(loss)),
        engine=replace(three_points.bench.engine, aftercooler=aftercooler),
    )
    assert isinstance(check_run(replace(three_points, bench=bench)), tuple)


@given(share=st.floats(-1, 2), beyond=st.floats(-3, 3))
def test_a_distance_is_a_number_and_nothing_at_what_is_typical(share, beyond):
    for name, bound in BOUNDS.items():
        if bound.typical is None:
            continue
        low, high = (bound.typical if math.isinf(end) else end for end in bound.usual_in_si)
        typical = bound.usual[0] if bound.usual[0] is not None else bound.typical
        for moved in (bound, replace(bound, typical=typical)):
            value = low + share * (high - low) + beyond * abs(high)
            assert math.isfinite(moved.distance(value)), name
            assert moved.distance(value) >= 0, name
            assert moved.distance(moved._one_in_si(moved.typical)) == 0, name


def test_the_end_of_the_usual_range_is_at_one_and_what_is_stated_there_at_nothing():
    bound = BOUNDS["compressor efficiency"]  # usual 0.58 to 0.80, typical 0.74
    assert bound.distance(0.80) == pytest.approx(1)
    assert bound.distance(0.58) == pytest.approx(1)
    at_the_end = bound.expecting(Stated(0.80))
    assert at_the_end.distance(0.80) == 0
    assert at_the_end.distance(0.80 + 0.022) == pytest.approx(1)  # a tenth of 0.80 less 0.58
    assert at_the_end.distance(0.58) == pytest.approx(1)


def test_a_band_about_the_makers_figure_is_never_narrower_than_the_band_stated():
    """A governor that may be 60 rpm off either way makes the usual range as wide, one of 1 rpm leaves it."""
    usual = BOUNDS["low idle from maker"].usual
    wide = BOUNDS["low idle from maker"].at_least_as_wide_as((10.0, 14.0))  # rev/s: 120 rpm either way
    assert wide.usual == pytest.approx((-120.0, 120.0))
    assert BOUNDS["low idle from maker"].at_least_as_wide_as((11.99, 12.01)).usual == usual
