"""Readings in lesson 05: the numbers of report and command line, own folders, agreement, refusals, the report."""

import csv
import shutil

import pytest

from tests.browser.lesson_05 import AIR, JACKET, predict_in, read
from tests.browser.pages import (
    afresh,
    at_top,
    box,
    button,
    choose,
    enter,
    in_sight,
    leaving,
    panel,
    plain,
    readouts,
    said,
    told,
)
from tests.panels.what_the_engine_gains.opening import NAMES, RUNS, SLIPS, agrees, hotter, place_broken
from turbomath import cli
from turbomath.disk import files

NAME = "05_what_the_engine_gains"


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


@pytest.fixture
def command_line(classroom, monkeypatch, capsys):
    """Return ``command_line("report", name)`` -> (exit code, what it printed), as asked in the work folder."""
    monkeypatch.chdir(classroom.work)

    def asked(*arguments):
        code = cli.main(list(arguments))
        return code, "".join(capsys.readouterr())

    return asked


@pytest.mark.parametrize("name", RUNS)
def test_lesson_report_and_command_line_show_the_same_numbers(page, command_line, own, name):
    report = own(name).with_name(f"{name}-report")
    code, printed = command_line("report", name)
    assert code == 0
    with (report / "reduced.csv").open(encoding="utf-8-sig", newline="") as stream:
        expected = {row["point"]: row for row in csv.DictReader(stream)}
    page_text = (report / "report.html").read_text(encoding="utf-8").replace("\xa0", " ")
    predict_in(page)
    choose(page, "readings", name)
    points = panel(page).get_by_label("point", exact=True)
    points.wait_for()
    options = points.locator("option").all_inner_texts()
    assert len(options) >= 7
    for turn, option in enumerate(options):
        points.select_option(index=turn)
        point = option.split(":")[0]
        told(page, rf"Point {point}, ")
        texts, row = readouts(page), expected[point]
        assert all(agrees(text, row, column) for text, column in zip(texts, NAMES, strict=False))
        assert texts[3] == row["agree"]
        assert all(text in page_text for text in texts[:3])
        assert all(text in printed for text in texts[:3])


def test_an_own_folder_agrees_a_hotter_one_does_not_and_its_report_is_a_click_away(page, own, classroom, screenshot):
    shutil.copytree(files.shipped("data") / AIR, own("mine"))
    hotter(own("hot_run"), 60)
    predict_in(page)
    read(page, "mine")
    told(page, "measured 143 ± 5 %, theory 144 ± 6 %. They agree: the difference, −1 ± 5 %")
    at_top(page)
    screenshot(page, f"{NAME}_agree")
    read(page, "hot_run")
    told(page, "They do not agree.*Furthest from its design: effectiveness 0.564 ± 0.020, where 0.82")
    assert readouts(page)[3] == "no"
    assert [in_sight(page, one) for one in (said(page), panel(page).locator(".tm-readouts"))] == [True, True]
    screenshot(page, f"{NAME}_disagree")
    notes = plain(panel(page).locator(".tm-notes"))
    assert notes.index("Limits of the maker, first") < notes.index("AMBER point 2")
    assert "look for a fouled core" in notes
    written = classroom.work / "hot_run-report" / "report.html"
    assert not written.exists()
    button(page, "make the report").click()
    panel(page).get_by_text(f"Written: {written}").wait_for()
    assert written.stat().st_size > 10_000
    with page.expect_popup() as opened:
        panel(page).get_by_role("link", name="open the report").click()
    opened.value.get_by_text("−23 ± 4").first.wait_for()
    screenshot(opened.value, f"{NAME}_report")
    assert leaving([opened.value.url]) == []
    opened.value.close()


def test_a_refused_folder_shows_the_command_lines_sentence_and_the_lesson_goes_on(page, own, command_line):
    predict_in(page)
    alert = panel(page).locator(".tm-readings").get_by_role("alert")
    for turn, slip in enumerate(SLIPS):
        place_broken(own(slip), slip)
        code, printed = command_line("report", slip)
        assert code == 1
        read(page, slip)
        alert.filter(has_text=f"{slip}/").wait_for()
        assert plain(alert) == f"! {printed.strip()}"
        enter(page, "boost", f"{10 + turn}")
        told(page, f"At {10 + turn}.0 psi of boost, theory says")
    choose(page, "readings", AIR)
    told(page, "They agree")
    assert not alert.is_visible()


def test_the_sliders_go_to_the_point_and_a_case_is_kept(page, screenshot):
    predict_in(page)
    choose(page, "readings", JACKET)
    told(page, "measured 110 ± 4 %")
    button(page, "set the sliders to this point").click()
    panel(page).locator(".tm-readouts b").get_by_text("111.2").wait_for()
    assert float(box(page, "effectiveness").input_value()) == pytest.approx(0.75, abs=0.002)  # at that flow
    button(page, "keep this case").click()
    panel(page).get_by_text("kept: 111.2").wait_for()
    choose(page, "readings", "")
    told(page, "theory says")
    enter(page, "boost", "12")
    told(page, "At 12.0 psi")
    kept = panel(page).locator(".tm-readouts small").all_inner_texts()
    assert kept == ["kept: 111.2", "kept: 2.112", "kept: 0.1510", "kept: 221", "kept: 323"]
    at_top(page)
    screenshot(page, f"{NAME}_kept")
