"""What a report says first: is the boost right, do the machines do their work, does the charge fit that boost?

The runs are the shipped INVENTED ones, and copies with a fault put in.
"""

import re
import shutil
from pathlib import Path

import pytest

from tests.lab.page_reader import Report
from tests.lab.verdicts import altered
from turbomath.disk import files
from turbomath.lab.checks.flags import Flag, doubtful_points
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report import tables
from turbomath.lab.report.folder import write
from turbomath.lab.report.terminal import on_terminal
from turbomath.lab.report.verdicts_shown import columns, verdicts
from turbomath.lab.run.readings import read_run

SHIPPED = "generator_air_to_air"
BOOST = "boost [psi]"


@pytest.fixture
def copy(tmp_path):
    """Return a function that copies the shipped run, with its boost times a factor, with or without [rated]."""

    def made(name, *, factor=1.0, rated=True, renamed=("", "")):
        folder = tmp_path / name
        shutil.copytree(files.shipped("data") / SHIPPED, folder)
        bench, sheet = folder / "bench.toml", folder / "readings.csv"
        text = bench.read_text(encoding="utf-8").replace(*renamed)
        if not rated:
            start = text.index("[rated]")
            text = text[:start] + text[text.index("[instruments.", start) :]
        bench.write_text(text, encoding="utf-8")
        head, *rows = [line.split(",") for line in sheet.read_text(encoding="utf-8-sig").splitlines()]
        for row in rows:
            row[head.index(BOOST)] = f"{float(row[head.index(BOOST)]) * factor:g}"
        sheet.write_text("\n".join(",".join(row) for row in (head, *rows)), encoding="utf-8")
        return reduce_run(read_run(folder))

    return made


def answers(reduced, *baselines):
    """Return the words of the terminal that come before the tables, on one line."""
    return " ".join(on_terminal(reduced, "us", baselines).partition("Charge gain: how much")[0].split())


def test_a_sound_run_is_told_so_before_any_number_of_the_tables():
    told = answers(reduce_run(SHIPPED))
    assert "YES. The boost is what this engine should make: at point 7 it is 24.0 psi" in told
    assert "YES. The machines do what they were designed for" in told
    assert "YES. The charge fits this boost" in told
    assert "by the maker's figure for the rated point" in told


def test_half_the_boost_is_seen_by_the_maker_s_figure(copy):
    told = answers(copy("halved", factor=0.5))
    assert "The boost is too low for this engine" in told
    assert "NO. The boost is too low: at point 7 it is 12.0 psi, and should be 23.8 ±" in told


def test_half_the_boost_is_seen_beside_an_earlier_run_of_the_engine(copy):
    sound, halved = copy("autumn", rated=False), copy("halved", factor=0.5, rated=False)
    assert "NO. The boost is too low" in answers(halved, sound)
    assert "by this engine's own run autumn" in answers(halved, sound)
    assert "YES. The boost is what this engine should make" in answers(sound, copy("spring", rated=False))


def test_without_either_the_boost_is_said_to_be_taken_as_given(copy):
    told = answers(copy("halved", factor=0.5, rated=False))
    assert "Nothing here says what the boost should be, so it was taken as given" in told
    assert "CANNOT TELL. Nothing here says what the boost should be" in told


@pytest.mark.usefixtures("one_way")
def test_the_page_says_the_same_before_its_tables_and_shows_the_boost_by_point(copy, tmp_path):
    halved = copy("halved", factor=0.5)
    page = Path(write(halved, tmp_path / "out", "us")[0]).read_text(encoding="utf-8")
    assert page.index("The boost is too low for this engine") < page.index('id="gain"')
    table = Report(page).table("Charge gain:")
    assert table["heads"][:4] == ["point", "boost psi", "boost it should make psi", "says"]
    by_point = {row[0].partition(":")[0]: row[1:4] for row in table["rows"]}
    assert by_point["7"][0].startswith("12.0 ±")
    assert by_point["7"][1].startswith("23.8 ±")
    assert (by_point["7"][2], by_point["6"][2]) == ("the maker", "a model")
    assert by_point["1"][1:] == ["–", ""]
    assert list(by_point) == sorted(by_point)
    unknown = Path(write(copy("unknown", rated=False), tmp_path / "out", "us")[0]).read_text(encoding="utf-8")
    assert "boost it should make" not in [head[:20] for head in Report(unknown).table("Charge gain:")["heads"]]


@pytest.mark.usefixtures("one_way")
def test_a_name_that_is_a_script_is_text_in_the_verdicts(copy, tmp_path):
    evil = copy("<script>alert(1)<script>", rated=False)
    page = Path(write(copy("this", rated=False), tmp_path / "out", "us", [evil])[0]).read_text(encoding="utf-8")
    assert "<script>alert" not in page


def test_the_maker_s_own_units_are_the_reader_s(copy):
    told = " ".join(on_terminal(copy("sound"), "si").split())
    assert "kPa, and should be" in told
    assert "psi, and should be" not in told


def test_reduced_csv_has_the_expected_boost_of_each_point_and_the_answers_of_the_run(copy, tmp_path):
    halved = copy("halved", factor=0.5)
    rows = tables.reduced_rows(halved, "us", columns(verdicts(halved, (), "us"), halved.run, "us"))
    head, *rows = rows
    assert head[-8:-5] == ["expected boost [psi]", "expected boost ± [psi]", "expected boost from"]
    assert head[-2] == "shaft closes"
    assert head[-1] == "agree"
    by_point = {row[0]: dict(zip(head, row, strict=True)) for row in rows}
    assert float(by_point["7"]["expected boost [psi]"]) == pytest.approx(23.8, abs=0.1)
    assert by_point["7"]["expected boost from"] == "the maker"
    assert by_point["1"]["expected boost [psi]"] == by_point["1"]["expected boost from"] == ""
    assert {row[head.index("boost as it should be")] for row in rows if row[1] != "zero"} == {"no"}
    assert by_point["0"]["boost as it should be"] == ""
    assert {len(row) for row in rows} == {len(head)}


def test_a_baseline_of_another_engine_is_said_to_tell_nothing(copy):
    other = copy("other", rated=False, renamed=('displacement = "12.0 L"', 'displacement = "9.0 L"'))
    assert "the earlier run is of another engine" in answers(copy("this", rated=False), other)


def test_of_two_baselines_the_one_of_the_same_engine_tells(copy):
    other = copy("other", rated=False, renamed=('displacement = "12.0 L"', 'displacement = "9.0 L"'))
    told = answers(copy("halved", factor=0.5, rated=False), other, copy("autumn", rated=False))
    assert "by this engine's own run autumn" in told


def test_readings_that_cannot_be_are_what_terminal_and_page_point_at_first(tmp_path):
    """The gauge of the INVENTED run-up stood at its stop at point 2, so that reading is red."""
    run = reduce_run(read_run("stand_unloaded_run_up"))
    words = "look first at the readings that cannot be right, at point 2, then at"
    assert words in " ".join(on_terminal(run, "us").split())
    assert words in Report(Path(write(run, tmp_path, "us")[0]).read_text(encoding="utf-8")).text


def test_only_red_points_count_each_once_and_never_the_run_as_a_whole():
    flags = [Flag(level, point, "boost", 1, "", "") for level, point in (("amber", "1"), ("red", "2"), ("red", ""))]
    apart = [Flag(level, "3", "turbine_inlet_temperature_left", 41, "", "") for level in ("note", "amber")]
    assert doubtful_points([*flags, *flags]) == {"red": ("2",), "banks": (), "fits": (), "amber": ("boost",)}
    slips = [Flag(level, "4", "boost", 1, "", "", "psi abs") for level in ("red", "amber", "red")]
    found = doubtful_points([*flags, *apart, *apart, *slips])
    assert found == {"red": ("2", "4"), "banks": ("3",), "fits": ("boost fits psi abs",), "amber": ("boost",)}


def test_where_no_question_can_be_answered_the_page_says_that_its_answers_rest_on_nothing(tmp_path):
    """The shipped INVENTED run without its barometer."""
    run = reduce_run(altered.without(read_run("generator_air_to_air"), "barometer"))
    text = Report(Path(write(run, tmp_path, "us")[0]).read_text(encoding="utf-8")).text
    assert "What the answers rest on On nothing: no question could be answered." in " ".join(text.split())


def test_no_line_of_the_first_page_parts_a_number_from_its_unit(tmp_path):
    page = write(reduce_run(SHIPPED), tmp_path, "us")[0].read_text(encoding="utf-8")
    first = page[page.index('<section class="verdicts"') : page.index('<section class="gain"')]
    assert re.search(r"\d\u00a0±\u00a0\d\.\d\u00a0psi by the maker", first)
    assert not re.search(r"\d (?:psi|kPa|°|%|±)", first)
