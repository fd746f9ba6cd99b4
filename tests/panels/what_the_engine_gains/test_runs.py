"""Readings on the first panel of lesson 05: the same figures and the same refusals as on the command line."""

import csv
import io
import shutil

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.opening import number, shared, unseen
from tests.panels.opening import opened as opened_panel
from tests.panels.what_the_engine_gains.opening import (
    AIR,
    NAMES,
    RUNS,
    SLIPS,
    agrees,
    hotter,
    place_broken,
)
from tests.widgets.told import line, tell
from turbomath import cli
from turbomath.disk import files
from turbomath.lab.checks import check_run
from turbomath.lab.reduction import reduce
from turbomath.lab.report import tables
from turbomath.lab.run.readings import read_run

GAIN = "what_the_engine_gains"


@pytest.fixture
def work(tmp_path, monkeypatch):
    """The work folder, where the lesson's Python runs."""
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    return tmp_path


def opened():
    return opened_panel(GAIN, option=2)


def figures(name, system):
    """Return reduced.csv of a run as rows of a dict, as the command line writes it."""
    text = tables.reduced_csv(reduce.reduce_run(read_run(name)), system).lstrip("\ufeff")
    return {row["point"]: row for row in csv.DictReader(io.StringIO(text))}


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("name", RUNS)
def test_each_point_of_a_shipped_run_has_the_figures_of_its_report(name, system):
    panel, told = opened(), figures(name, system)
    tell(panel, "system", system=system)
    frame = tell(panel, "run", key=name)
    assert len(frame["readings"]["points"]) >= 7
    for row, words in frame["readings"]["points"]:
        shown = tell(panel, "point", row=str(row))["shown"]
        expected = told[words.split(":")[0]]
        texts = [one["text"] for one in shown["readouts"]]
        assert all(agrees(text, expected, column) for text, column in zip(texts, NAMES, strict=False))
        assert texts[3] == expected["agree"]
        table = next(cells for cells in shown["tables"][0]["rows"] if cells[0] == words.split(":")[0])
        assert list(table[3:]) == texts[:4]
        assert texts[0] in shown["sentence"]
        assert ("They agree" in shown["sentence"]) == (expected["agree"] == "yes")


@pytest.mark.parametrize("name", RUNS)
def test_the_dots_and_their_bars_are_the_measured_gains(name):
    frame, reduced = tell(opened(), "run", key=name), reduce.reduce_run(read_run(name))
    measured = reduced["measured_charge_gain"]
    known = np.isfinite(measured.value)
    drawn = [one for one in frame["shown"]["pictures"][0]["series"] if one["role"] == "measured"]
    for key, values in (
        ("y", measured.value),
        ("low", measured.value - measured.plus_or_minus),
        ("high", measured.value + measured.plus_or_minus),
    ):
        assert sorted(value for one in drawn for value in one[key]) == pytest.approx(sorted(100 * values[known]))
    dashed = next(one for one in frame["shown"]["pictures"][0]["series"] if one["role"] == "theory")
    assert sorted(dashed["y"]) == pytest.approx(sorted(100 * reduced["theoretical_charge_gain"].value[known]))
    bars = next(one for one in frame["shown"]["pictures"][1]["series"] if one["kind"] == "points")
    apart = sum(not low <= 0 <= high for low, high in zip(bars["low"], bars["high"], strict=True))
    assert len(bars["low"]) == sum(one != "" for one in reduced.agree)
    assert reduced.agree.count("no") <= apart  # the ± of the whole run is the wider one


def test_the_sliders_move_their_own_line_and_nothing_of_the_run():
    panel = opened()
    before = tell(panel, "run", key=AIR)["shown"]
    after = tell(panel, "slide", name="barometer", text="24")["shown"]
    assert after["sentence"] == before["sentence"]
    assert after["readouts"][:4] == before["readouts"][:4]
    assert after["readouts"][4] != before["readouts"][4]
    run = [[one for one in shown["pictures"][0]["series"] if one["label"] != "sliders"] for shown in (before, after)]
    assert run[0] == run[1]
    assert after["tables"][0] == before["tables"][0]
    assert after["tables"][1] != before["tables"][1]


@pytest.mark.parametrize("name", RUNS)
def test_the_sliders_go_to_a_point_when_asked_and_then_meet_its_theory(name):
    """The sliders' air is at ambient before compressor and core; the run has its own thermometers there."""
    panel = opened()
    tell(panel, "run", key=name)
    frame = tell(panel, "follow")
    run, row = read_run(name), frame["readings"]["row"]
    assert number(line(frame, "boost")["text"]) == pytest.approx(run["boost"][row] / 6894.757, abs=0.05)
    assert number(line(frame, "barometer")["text"]) == pytest.approx(run["barometer"][row] / 3386.389, abs=0.005)
    theory = 100 * reduce.reduce_run(run)["theoretical_charge_gain"].value[row]
    assert number(frame["shown"]["readouts"][4]["text"]) == pytest.approx(theory, abs=2.0)


@pytest.mark.parametrize("name", RUNS)
def test_every_check_is_shown_with_reason_and_action_the_limits_first(name):
    notes = tell(opened(), "run", key=name)["readings"]["notes"]
    heads = [head for head, _ in notes]
    assert "INVENTED" in heads[0]
    assert heads[1] == "Limits of the maker, first"
    said = " ".join(part for _, lines in notes for part in lines)
    for flag in check_run(read_run(name)):
        assert flag.action in said
        assert flag.point == "" or flag.point in said
    assert all(flag.reason.rstrip(".") in said for flag in check_run(read_run(name)) if flag.level != "note")


def test_a_limit_passed_leads_the_notes(work):
    shutil.copytree(files.shipped("data") / AIR, work / "run")
    bench = work / "run" / "bench.toml"
    bench.write_text(bench.read_text(encoding="utf-8").replace('"..30 psi"', '"..22 psi"'), encoding="utf-8")
    head, lines = tell(opened(), "read", folder="run")["readings"]["notes"][1]
    assert head == "Limits of the maker, first"
    assert lines[0].startswith("LIMIT point 7: boost 24.0 psi passes the limit")
    assert "Stop and find out why" in lines[0]


@pytest.mark.parametrize(
    ("factor", "said"), [(1.0, "The boost is what this engine"), (0.5, "The boost is too low for this")]
)
def test_what_the_whole_run_says_stands_behind_the_limits(work, factor, said):
    """Half the boost fits its charge nearly as well; only the maker's figure tells."""
    shutil.copytree(files.shipped("data") / AIR, work / "run")
    sheet = work / "run" / "readings.csv"
    head, *rows = [line.split(",") for line in sheet.read_text(encoding="utf-8-sig").splitlines()]
    for row in rows:
        row[head.index("boost [psi]")] = f"{factor * float(row[head.index('boost [psi]')]):g}"
    sheet.write_text("\n".join(",".join(row) for row in (head, *rows)), encoding="utf-8")
    head, lines = tell(opened(), "read", folder="run")["readings"]["notes"][2]
    assert head == "What the whole run says"
    assert lines[0].startswith(said)
    assert len(lines) == 4


@pytest.mark.parametrize("slip", SLIPS)
def test_a_refused_folder_shows_the_sentence_of_the_command_line_and_leaves_the_lesson_usable(work, capsys, slip):
    place_broken(work / "run", slip)
    assert cli.main(["report", "run"]) == 1
    sentence = capsys.readouterr().err.strip()
    panel = shared(GAIN)
    unseen(panel, "reset")
    frame = tell(panel, "read", folder="run")
    assert frame["readings"]["fault"] == sentence
    assert frame["readings"]["points"] == frame["readings"]["notes"] == []
    assert frame["error"] is None
    assert "theory says" in frame["shown"]["sentence"]
    assert "At 12.0 psi" in tell(panel, "slide", name="boost", text="12")["shown"]["sentence"]


def test_a_refused_folder_takes_the_readings_before_it_away_and_the_next_one_is_read(work):
    place_broken(work / "run", "unknown unit")
    panel = opened()
    tell(panel, "run", key=AIR)
    frame = tell(panel, "read", folder="run")
    assert frame["readings"]["points"] == []
    assert "theory says" in frame["shown"]["sentence"]
    frame = tell(panel, "read", folder=f' "{files.shipped("data") / AIR}" ')
    assert frame["readings"]["fault"] == ""
    assert frame["shown"]["readouts"][0]["text"] == "143 ± 5"


@given(st.text(max_size=80))
def test_no_text_in_the_folder_box_breaks_the_lesson(text):
    frame = tell(shared(GAIN), "read", folder=text)
    assert frame["notice"] == ""
    assert frame["error"] is None
    assert frame["readings"]["fault"] or frame["readings"]["points"]


def test_agreement_and_disagreement_are_told_with_what_stands_furthest_from_its_design(work):
    shutil.copytree(files.shipped("data") / AIR, work / "mine")
    panel = opened()
    assert "They agree" in tell(panel, "read", folder="mine")["shown"]["sentence"]
    hotter(work / "hot", 60)
    sentence = tell(panel, "read", folder="hot")["shown"]["sentence"]
    assert "They do not agree" in sentence
    assert "Furthest from its design: effectiveness 0.564 ± 0.020, where 0.82 ± 0.04 is expected." in sentence


def test_without_a_thermometer_in_the_manifold_it_says_what_is_missing(work):
    shutil.copytree(files.shipped("data") / AIR, work / "run")
    sheet = work / "run" / "readings.csv"
    sheet.write_text(
        sheet.read_text(encoding="utf-8").replace("manifold temperature [°F]", "lid [°F]"), encoding="utf-8"
    )
    frame = tell(opened(), "read", folder="run")
    assert "cannot be compared" in frame["shown"]["sentence"]
    assert "manifold temperature" in frame["shown"]["sentence"]
    assert frame["shown"]["readouts"][3]["text"] == "cannot tell"
    assert any("lid" in text for _, lines in frame["readings"]["notes"] for text in lines)


def test_the_report_is_that_of_the_command_line(work):
    hotter(work / "mine", 60)
    panel = opened()
    tell(panel, "read", folder="mine")
    written = tell(panel, "report")["readings"]["written"]
    assert written == {"path": str(work / "mine-report" / "report.html"), "page": "mine-report/report.html"}
    assert cli.main(["report", "mine", "--out", "again"]) == 0
    for name in ("report.html", "reduced.csv"):
        assert (work / "mine-report" / name).read_bytes() == (work / "again" / name).read_bytes()
    assert tell(panel, "run", key="")["readings"]["written"] is None


def test_no_report_is_written_into_the_readings_themselves(work):
    hotter(work / "run", 0)
    for one in (work / "run").iterdir():
        one.rename(work / one.name)
    before = sorted(work.iterdir())
    panel = opened()
    tell(panel, "read", folder=".")
    frame = tell(panel, "report")
    assert "in a folder of their own" in frame["readings"]["fault"]
    assert sorted(work.iterdir()) == before


def test_no_readings_a_folder_to_come_and_nonsense_are_answered_with_words(work):
    panel = opened()
    assert "type the folder of a run first" in tell(panel, "read", folder="  ")["readings"]["fault"]
    assert tell(panel, "run", key="own")["readings"]["fault"] == ""
    for say, words in (("run", {"key": "x"}), ("point", {"row": "1"}), ("follow", {}), ("report", {})):
        assert "did not understand" in tell(panel, say, **words)["notice"]
    tell(panel, "run", key=AIR)
    assert "did not understand" in tell(panel, "point", row="0")["notice"]


def test_reset_and_units_keep_the_readings():
    panel = opened()
    tell(panel, "run", key=AIR)
    tell(panel, "slide", name="boost", text="5")
    frame = tell(panel, "reset")
    assert frame["readings"]["run"] == AIR
    assert line(frame, "boost")["text"] == "24.0"
    si = tell(panel, "system", system="si")["shown"]
    assert [one["text"] for one in si["readouts"]] == [one["text"] for one in frame["shown"]["readouts"]]
    assert si["sentence"].startswith("Point 7, 165.5 kPa")


def test_a_reading_without_boost_says_so_and_shows_no_number_for_it(work):
    shutil.copytree(files.shipped("data") / AIR, work / "run")
    sheet = work / "run" / "readings.csv"
    whole = sheet.read_text(encoding="utf-8")
    assert ",338,24.0,132," in whole
    sheet.write_text(whole.replace(",338,24.0,132,", ",338,>20,132,"), encoding="utf-8")  # the gauge at its stop
    panel = opened()
    frame = tell(panel, "read", folder="run")
    row = next(row for row, words in frame["readings"]["points"] if words.startswith("7:"))
    for system in ("us", "si"):
        tell(panel, "system", system=system)
        frame = tell(panel, "point", row=str(row))
        assert frame["shown"]["sentence"].startswith("Point 7: measured and theory cannot be compared.")
        cells = next(cells for cells in frame["shown"]["tables"][0]["rows"] if cells[0] == "7")
        assert tuple(cells[2:]) == ("–", "–", "–", "–", "cannot tell")
        assert "nan" not in str(frame)
