"""`turbomath faults`: answers for each sort of run beside it, and one plain sentence for what cannot be told."""

import shutil
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.lab.verdicts.altered import read, with_model, without, write_fitted_engine
from turbomath.cli import main
from turbomath.disk import files
from turbomath.engine.faults.pairs import Pair
from turbomath.lab.faults import held_against, next_test, told
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report import once, page, terminal
from turbomath.lab.run.readings import read_run
from turbomath.table.cautions import CAUTIONS, SHOP_CAUTIONS
from turbomath.table.errors import TurbomathError

SOUND, PLUGGED = "faults/sound", "faults/plugged_filter"


def said(capsys, *words):
    """Return (exit code, what it says with each run of spaces as one, the refusals)."""
    code = main(["faults", *words])
    out = capsys.readouterr()
    return code, " ".join(out.out.split()), out.err.strip()


def test_beside_its_own_run_the_fault_is_named_with_its_size_and_the_next_test(capsys):
    code, out, _ = said(capsys, PLUGGED, "--baseline", SOUND)
    assert code == 0
    assert "The readings fit one fault on the list best: plugged air filter or intake" in out
    assert "restriction up 110 %" in out
    assert "Next test: Look at filter and intake (10 minutes)." in out
    assert "INVENTED" in out
    assert "All percentages are from a simulation" in out
    assert "Caution, rotating and hot parts" in out


def test_a_sound_engine_is_left_alone(capsys):
    code, out, _ = said(capsys, "faults/sound_on_another_day", "--baseline", SOUND)
    assert code == 0
    assert "Nothing on the list is needed" in out
    assert "Next test" not in out


def test_with_less_beside_it_the_answer_says_so(capsys):
    _, sister, _ = said(capsys, PLUGGED, "--sister", SOUND)
    assert "another engine of its make and type" in sister
    _, alone, _ = said(capsys, PLUGGED)
    assert "a ready engine, not this one" in alone
    assert "Only gross faults can be told so" in alone
    assert "Nothing gross shows" in alone
    assert "so this clears nothing" in alone


def test_with_no_run_beside_it_a_gross_fault_of_the_gauges_is_still_told(capsys):
    _, out, _ = said(capsys, "faults/swapped_thermometers")
    assert "manifold temperature and compressor outlet temperature swapped" in out
    assert "Nothing gross shows" not in out


def test_an_engine_fitted_before_is_taken_where_bench_names_it(tmp_path):
    write_fitted_engine(tmp_path)
    run = with_model(read_run("faults/late_timing"), tmp_path)
    found = held_against.found_in(run)
    assert found.source == held_against.FITTED
    assert 0.99 < sum(one.probability for one in found.diagnosis.named) < 1.01


def one_load(run):
    keep = np.arange(len(run)) == 3
    return read(
        run, fuel_flow=lambda fuel: np.where(keep, fuel, np.nan), power=lambda power: np.where(keep, power, np.nan)
    )


GAUGES = (
    "intake_restriction",
    "compressor_outlet_temperature",
    "boost",
    "manifold_temperature",
    "cooler_pressure_loss",
    "turbine_inlet_temperature",
    "exhaust_back_pressure",
)


@pytest.mark.parametrize(
    ("altered", "words"),
    [
        (one_load, "found one load, expected readings at 2 loads or more"),
        (lambda run: without(run, "fuel_flow", "power"), "found no reading of fuel flow or power under load"),
        (lambda run: without(run, "barometer"), "found no reading of barometer under load"),
        (lambda run: without(run, *GAUGES), "found too few gauges"),
        (
            lambda run: read(run, fuel_flow=lambda fuel: fuel * 1e4),
            "found a fuel flow that no engine of this size",
        ),
    ],
    ids=["one load", "no fuel", "no barometer", "no gauges", "fuel of another unit"],
)
def test_what_tells_too_little_gets_one_sentence(altered, words):
    with pytest.raises(TurbomathError, match=words) as refusal:
        held_against.found_in(altered(read_run(PLUGGED)), read_run(SOUND))
    assert "\n" not in str(refusal.value)


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["nowhere"], "expected a run folder"),
        (["stand_unloaded_run_up"], "found no point under load"),
        (["generator_air_to_air", "--baseline", "generator_jacket_water"], "found a run of another engine"),
        ([PLUGGED, "--baseline", "stand_unloaded_run_up"], "found a run of another engine"),
    ],
)
def test_a_wrong_command_is_refused_in_one_line(capsys, words, expected):
    code, out, err = said(capsys, *words)
    assert (code, out) == (1, "")
    assert expected in err
    assert "\n" not in err


@pytest.mark.parametrize("column", ["fuel_flow", "power", "load", *GAUGES])
def test_without_any_one_column_there_is_still_an_answer(column):
    runs = (without(read_run(name), column) for name in (PLUGGED, SOUND))
    found = held_against.found_in(*runs)
    assert found.diagnosis.best.probability > 0
    assert told.on_terminal(found)


@pytest.mark.parametrize("share", [0.0, -1.0, 1e-6, 1e6])
@pytest.mark.parametrize("column", ["boost", "turbine_inlet_temperature", "exhaust_back_pressure", "power"])
def test_readings_that_cannot_be_end_in_an_answer_or_a_sentence(column, share):
    run = read(read_run(PLUGGED), **{column: lambda value: value * share})
    try:
        said = told.on_terminal(held_against.found_in(run, read_run(SOUND)))
    except TurbomathError as refusal:
        said = f"{refusal} simulation"
    assert "simulation" in said


def test_every_fault_has_its_words_and_a_test():
    names = set()
    for run in ("faults/wastegate_stuck_open", "faults/sound_on_another_day"):
        found = held_against.found_in(read_run(run), read_run(SOUND)).diagnosis
        for one in found.named:
            assert told.name_of(one)
            assert told.shows(one)
            names.add(one.name)
            assert one.name == "sound" or any(test.of(one) for test in next_test.TESTS), one.name
    assert len(names) > 35


def test_no_test_is_a_repair_and_each_has_cautions_of_the_kit():
    known = {one.hazard for one in (*CAUTIONS, *SHOP_CAUTIONS)}
    for test in next_test.TESTS:
        assert {one.hazard for one in test.cautions} <= known
        assert test.cautions
        assert not {"replace", "repair", "renew", "overhaul"} & set(test.text.lower().split())


def test_what_is_on_no_list_is_said_so_and_two_faults_only_where_they_fit():
    """As much power lost at each load as more friction takes: 30 kW at all of them, which no fault on the list does."""
    friction = read(read_run("faults/sound_on_another_day"), power=lambda power: power - 30e3)
    found = held_against.found_in(friction, read_run(SOUND))
    assert told.answer(found).startswith("Nothing on the list fits.")
    assert not found.diagnosis.fits
    two = replace(found, pair=Pair(("filter_plugged", "cooler_fouled"), 0.9, 1.0))
    assert "Two faults at once would show it: plugged air filter or intake, with aftercooler dirty" in told.answer(two)


def test_the_report_names_the_fault_and_is_silent_on_a_sound_engine():
    plugged, other, sound = (reduce_run(read_run(name)) for name in (PLUGGED, "faults/sound_on_another_day", SOUND))
    told_page = page.report_page(plugged, "us", once.flags(plugged), [sound])
    assert "What faults would show this" in told_page
    assert "plugged air filter or intake" in terminal.on_terminal(plugged, "us", [sound])
    assert "What faults would show this" not in page.report_page(other, "us", once.flags(other), [sound])
    assert "What would show" not in terminal.on_terminal(plugged, "us")  # nothing of its own beside it


def test_the_run_is_only_read(tmp_path):
    folder = Path(shutil.copytree(files.shipped("data") / "faults" / "sound", tmp_path / "sound"))
    before = {one.name: one.read_bytes() for one in folder.iterdir()}
    main(["faults", str(folder), "--baseline", SOUND])
    assert {one.name: one.read_bytes() for one in folder.iterdir()} == before
