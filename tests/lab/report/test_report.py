"""The report as a page and on the terminal: what stands where, and that its numbers are those of reduced.csv."""

import csv
import dataclasses
import itertools
import re

import numpy as np
import pytest

from tests.lab.page_reader import Report
from turbomath import __version__, air
from turbomath.lab.checks.flags import Flag
from turbomath.lab.reduction import shares
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report import comparison, page_tables, sentences, shaft_shown
from turbomath.lab.report.consumption import consumption_sentences
from turbomath.lab.report.folder import folder_for, write
from turbomath.lab.report.page import report_page
from turbomath.lab.report.terminal import on_terminal
from turbomath.lab.run.readings import read_run
from turbomath.table import cautions, constants
from turbomath.table.errors import OutOfRangeError, TurbomathError
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import Estimate

RUNS = ("generator_air_to_air", "generator_jacket_water", "generator_no_aftercooler")
NUMBER = r"−?\d+(?:\.\d+)?"
WITH_WIDTH = re.compile(rf"({NUMBER}) ± ({NUMBER})")


@pytest.fixture(scope="module")
def reduced():
    return {name: reduce_run(read_run(name)) for name in RUNS}


@pytest.fixture(scope="module", params=["us", "si"])
def written(request, reduced, tmp_path_factory):
    """(page, rows of reduced.csv) of the three runs side by side, in both systems of units."""
    folder = tmp_path_factory.mktemp("out")
    this, *others = (reduced[name] for name in RUNS)
    paths = write(this, folder, request.param, others)
    assert [path.name for path in paths] == ["report.html", "reduced.csv"]
    with paths[1].open(encoding="utf-8-sig", newline="") as stream:
        return Report(paths[0].read_text(encoding="utf-8")), list(csv.DictReader(stream))


def plain(text):
    return float(text.replace("−", "-"))


# What a page must be, for a reader of any kind


def test_there_is_one_title_and_no_heading_level_is_skipped(written):
    levels = [level for level, _ in written[0].headings]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in itertools.pairwise(levels))


def test_the_page_runs_nothing_and_asks_nobody(written):
    for tag, attributes in written[0].tags:
        assert tag not in {"script", "iframe", "object", "embed", "link", "form", "a"}
        for name, value in attributes.items():
            assert not name.startswith("on")
            assert name not in {"href", "srcset", "style"}
            if name == "src":
                assert value.startswith("data:image/svg+xml;base64,")


def test_the_page_says_its_language_and_every_picture_has_words(written):
    assert written[0].named("html")[0]["lang"] == "en"
    pictures = written[0].named("img")
    assert len(pictures) == 6
    engines = [picture for picture in pictures if "Drawing of the air path" in picture["alt"]]
    assert [re.search("read: ", one["alt"]) is not None for one in engines] == [True]
    for picture in (one for one in pictures if one not in engines):
        assert re.search(r" from .+ to .+ against .+ \[.+\] from .+ to", picture["alt"])
    assert len(written[0].named("figcaption")) == 6
    assert len(written[0].named("details")) == 6 + 1  # the compressor's line, drawn, is one by itself


def test_every_table_has_heads_for_its_columns_and_rows(written):
    report_page, _ = written
    heads = report_page.named("th")
    assert all(head["scope"] in ("col", "row") for head in heads)
    for table in report_page.tables:
        assert table["caption"]
        assert table["rows"]
        assert {len(row) for row in table["rows"]} == {len(table["heads"])}
        assert all(row[0] for row in table["rows"])


def test_marks_that_point_at_a_heading_find_it(written):
    names = {attributes["id"] for _, attributes in written[0].tags if "id" in attributes}
    wanted = {attributes["aria-labelledby"] for _, attributes in written[0].tags if "aria-labelledby" in attributes}
    assert wanted
    assert wanted <= names


# What the report says, and in which order


def test_limits_and_cautions_come_before_any_result(written):
    heads = [text for _, text in written[0].headings]
    order = [
        "The maker's limits",
        "Cautions in short",
        "What the readings say",
        "Measured and theoretical gain",
        "A look at the readings",
        "What the answers rest on",
        "Runs side by side",
        "What stands behind it",
        "How sure, and where the ± comes from",
        "Readings and instruments",
        "Where the numbers come from",
        "What could not be worked out, and why",
        "The equations",
        "What this report cannot know",
        "Cautions",
    ]
    assert [head for head in heads if head in order] == order


def test_the_cautions_in_short_send_the_reader_to_the_full_text_which_comes_last(written):
    text = " ".join(written[0].text.split())
    short, _, rest = text.partition("What the readings say")
    for words in (cautions.STANDING, *cautions.STOP_TRIGGERS, "stands at the end, on the last sheet"):
        assert words in short
    after = rest[rest.index("What this report cannot know") :]
    assert all(one.text in after and one.source in after for one in cautions.CAUTIONS)
    assert after.rstrip().endswith(f"({cautions.CAUTIONS[-1].source})")


def test_the_report_says_what_it_was_made_with(written):
    text = written[0].text
    for words in (
        f"turbomath {__version__}",
        f"edition {constants.EDITION}",
        "perfect gas",
        "2026-03-12",
        "a/√3",
        "gets bigger while the engine gets less air",
        *sentences.OWN_LIMITS,
    ):
        assert words in text


# Where a thermometer stood at the compressor outlet, reduced.csv alone has what the shaft says of it
OFF_PAGE = {
    QUANTITIES[name].plain_name
    for name in (*shaft_shown.SHAFT, *shaft_shown.BY_SHAFT)
    if name not in shaft_shown.ON_PAGE
}


def test_each_result_stands_in_one_table_with_its_unit_and_its_plus_or_minus(written):
    report_page, rows = written
    told = [head for table in result_columns(report_page, rows) for head in table]
    names = {head[: head.index(" [")] for head in rows[0] if " [" in head and "±" not in head} - {"expected boost"}
    known = {name for name in names if any(row[head] for row in rows for head in row if head.startswith(f"{name} ["))}
    assert sorted(told) == sorted(known - OFF_PAGE)


def result_columns(report_page, rows):
    """For each table of results: {quantity: [(cell, csv value, csv ±)]}; checks that the units are those of the csv."""
    captions = (
        "Charge gain:",
        "What the aftercooler does",
        "Compressor and aftercooler",
        "Densities",
        "Air, fuel and power",
        "The shaft:",
    )
    running = [row for row in rows if row["ambient density " + unit_of(rows, "ambient density")]]
    for caption in captions:
        table = report_page.table(caption)
        columns = {}
        for index, head in enumerate(table["heads"]):
            name, _, unit = head.strip().rpartition(" ")
            name, unit = (name.removesuffix(" no"), "-") if unit == "unit" else (name, unit)
            if f"{name} [{unit}]" not in rows[0]:
                assert name.strip() in ("", "boost", "boost it should make")  # point, says, agree
                continue
            widths = next(key for key in rows[0] if key.startswith(f"{name} ± ["))
            columns[name] = [
                (row[index], csv_row[f"{name} [{unit}]"], csv_row[widths])
                for row, csv_row in zip(table["rows"], running, strict=True)
            ]
        yield columns


def unit_of(rows, name):
    return next(key for key in rows[0] if key.startswith(f"{name} [")).removeprefix(f"{name} ")


def test_numbers_of_the_page_are_those_of_reduced_csv(written):
    compared = 0
    for columns in result_columns(*written):
        for name, cells in columns.items():
            for cell, value, width in cells:
                if cell in ("–", "cannot tell", "none"):
                    assert cell != "–" or value == ""
                    assert cell != "none" or float(value) == float(width) == 0
                    continue
                shown = WITH_WIDTH.fullmatch(cell)
                assert shown, (name, cell)
                for text, number in zip(shown.groups(), (value, width), strict=True):
                    last_place = 10.0 ** -len(text.partition(".")[2])
                    assert plain(text) == pytest.approx(float(number), abs=0.501 * last_place, rel=1e-5)
                compared += 1
    assert compared > 120


def test_readings_stand_as_they_were_written(written, reduced):
    run = reduced[RUNS[0]].run
    table = written[0].table("Readings as written")
    told = {row[0]: row[1:] for row in table["rows"]}
    assert told["boost [psi]"] == list(run.cells["boost"])
    assert told["exhaust back pressure [inHg]"] == list(run.cells["exhaust_back_pressure"])
    assert [head.split()[0] for head in table["heads"][1:]] == list(run.points)
    assert len(told) == len(run.columns) - 3  # point and condition head the columns; the remark is one word
    assert "The same at every point: remark: INVENTED." in written[0].text


def test_readings_of_many_points_stand_in_several_tables(run_folder, bench_text):
    head = "barometer [inHg],ambient temperature [°F],boost [psi],remark\n"
    run = read_run(run_folder(head + "".join(f"29.1,77,{boost},at {boost}\n" for boost in range(23)), bench_text))
    *numbers, words = page_tables.reading_tables(run)
    assert [len(table.heads) for table in numbers] == [11, 11, 4]
    assert [cell for table in numbers for cell in table.rows[2][1:]] == list(run.cells["boost"])
    assert [row[1] for row in words.rows] == list(run.cells["remark"])
    assert page_tables.same_words(run) == []


def test_each_instrument_is_named_with_its_tolerance_and_date(written):
    rows = {row[0]: row[1:] for row in written[0].table("Instruments")["rows"]}
    assert rows["boost"][0] == "bourdon"
    assert rows["boost"][1].startswith("grade 1A of 0..")
    assert rows["boost"][3] == "2025-11-03"
    assert rows["load"] == ["not stated (assumed)", "± 1 % of reading", "± 1 %", "not stated"]
    assert rows["compressor outlet temperature"][1] == "type K, standard"


def test_the_widest_tolerance_is_that_of_the_maker_and_the_step(written, reduced):
    """Grade 1A is 1 % of 60 psi (ASME B40.100); with half of a step of 0.5 psi: the root of 0.6² + 0.25² = 0.65."""
    table = page_tables.instrument_table(reduced[RUNS[0]].run, "us")
    rows = {row[0]: row for row in table.rows}
    assert rows["boost"][3] == "± 0.65 psi"
    assert rows["intake restriction"][3] == "± 0.32 inH2O"  # 0.2 and half of 0.5


def test_a_gauge_that_counts_from_the_barometer_errs_by_what_it_shows(run_folder, bench_text):
    """1 % of the 26 psi on the gauge, not of the 40.3 psi absolute."""
    bench = bench_text + '[instruments.compressor_outlet_pressure]\naccuracy = "1 % of reading"\n'
    table = page_tables.instrument_table(read_run(run_folder(bench=bench)), "us")
    rows = {row[0]: row for row in table.rows}
    assert rows["compressor outlet pressure"][2:4] == ("± 1 % of reading", "± 0.26 psi")


# Where the ± comes from


def test_shares_are_those_of_the_variance_and_largest_first():
    estimate = Estimate(
        np.array([1.0, 2.0]),
        np.array([5.0, 1.0]),
        {"boost": np.array([3.0, 0.0]), "barometer": np.array([4.0, 1.0]), "engine_speed": np.array([0.1, 0.0])},
    )
    found = shares.shares(estimate, 0)
    assert found == pytest.approx({"barometer": 16 / 25.01, "boost": 9 / 25.01})
    assert list(found) == ["barometer", "boost"]
    assert shares.share_words(found) == "barometer 64 %, boost gauge 36 %"
    assert shares.shares(estimate, 1) == {"barometer": 1.0}


@pytest.mark.usefixtures("one_way")
@pytest.mark.parametrize("reader", ["", "student", "instructor"])
def test_what_leads_at_each_point_is_for_a_named_reader(reduced, reader):
    page = report_page(reduced[RUNS[0]], "us", (), reader=reader)
    assert ("What to improve first" in page) == bool(reader)
    assert "Where the ± comes from, at point 7" in page


def test_no_shares_where_nothing_is_known():
    unknown = Estimate(np.array([np.nan]), np.array([np.nan]), {"boost": np.array([np.nan])})
    assert shares.shares(unknown, 0) == {}


def test_the_boost_gauge_dominates_measured_but_cancels_in_the_difference(reduced):
    table = page_tables.share_table(reduced[RUNS[0]], 7)
    rows = {row[0]: row[1:] for row in table.rows}
    measured, theoretical, difference = (int(text.split()[0]) for text in rows["boost gauge"])
    assert measured > 60
    assert theoretical > 40
    assert difference < 5


def test_the_second_way_agrees_for_the_shipped_run_and_is_said(reduced, written):
    assert "the same to the figure that counts" in written[0].text
    linear = reduced[RUNS[0]]
    assert "differs" in sentences.methods_sentence(
        linear,
        {
            name: dataclasses.replace(linear[name], standard_uncertainty=1.7 * linear[name].standard_uncertainty)
            for name in shares.GAINS
        },
    )


def test_a_shift_of_the_value_alone_is_seen_too(reduced):
    linear = reduced[RUNS[0]]
    moved = {
        name: dataclasses.replace(linear[name], value=linear[name].value + linear[name].standard_uncertainty)
        for name in shares.GAINS
    }
    assert "measured charge gain" in sentences.methods_sentence(linear, moved)


# Runs side by side


def test_the_summary_is_the_ratio_of_the_ideal_gas_by_hand(reduced):
    """Equal boost and barometer, so density goes as 1/T: (459.67 + 324) / (459.67 + 132) and (… + 224) / (… + 132)."""
    by_hand = air.choose("perfect")
    words = comparison.summary([reduce_run(reduced[name].run, air=by_hand) for name in RUNS], "us")
    assert "At load 100\u00a0%" in words
    assert "24.0 ± 0.8 psi" in words
    jacket, none = (round(100 * ((459.67 + manifold) / (459.67 + 132) - 1)) for manifold in (224, 324))
    assert (jacket, none) == (16, 32)
    assert re.search(
        rf"{jacket} ± \d+ % denser than with jacket-water .* and {none} ± \d+ % denser than with no", words
    )


def test_what_was_held_equal_is_said(reduced):
    same, other = comparison.held_sentences([reduced[name].run for name in RUNS])
    assert same.startswith("The same in all runs, within the ± of their gauges: boost, engine speed, barometer")
    assert other == "Not the same: intake restriction, power, fuel flow."


def test_fuel_that_differs_between_engines_is_no_finding(reduced):
    """By hand: 0.340 and 0.405 lb/hp·h, 19 %; the charges 132 and 324 °F, at half a per cent for each 10 °C: 5.3."""
    (words,) = consumption_sentences([reduced[name] for name in RUNS], "us")
    assert "0.340 to 0.405 lb/hp·h, 19 % apart" in words
    assert "explains some 5.3 points of that" in words
    assert "INVENTED" in words
    assert words.endswith("was put in, and is no finding.")
    assert "207 to 246 g/kW·h" in consumption_sentences([reduced[name] for name in RUNS], "si")[0]
    same = reduced[RUNS[0]]
    assert consumption_sentences([same, same], "us") == []
    read_ones = [dataclasses.replace(one, run=as_read_by_a_shop(one.run)) for one in (same, reduced[RUNS[2]])]
    assert "a comparison of engines says nothing of one part" in consumption_sentences(read_ones, "us")[0]


def as_read_by_a_shop(run):
    """The same run without a word of being invented."""
    facts = dataclasses.replace(run.bench.run, invented=False)
    return dataclasses.replace(run, bench=dataclasses.replace(run.bench, run=facts))


def other_boost(run, shift):
    """The same run with every boost reading moved by *shift* [Pa]."""
    return dataclasses.replace(run, values=run.values | {"boost": run.values["boost"] + shift})


def test_no_gain_is_claimed_where_boost_differs(reduced):
    this = reduced[RUNS[0]]
    other = reduce_run(other_boost(reduced[RUNS[2]].run, 20e3))
    words = comparison.summary([this, other], "us")
    assert words.startswith("Boost differs by more than its ±")
    assert "denser" not in words
    assert "Not the same: boost" in " ".join(comparison.held_sentences([this.run, other.run]))


@pytest.mark.usefixtures("one_way")
def test_runs_without_a_common_load_step_are_not_set_side_by_side(reduced, tmp_path):
    unloaded = reduce_run(read_run("stand_unloaded_run_up"))
    this = reduced[RUNS[0]]
    assert comparison.summary([this, unloaded], "us").startswith("The runs share no load step")
    page, _ = write(this, tmp_path, "us", [unloaded])
    found = Report(page.read_text(encoding="utf-8"))
    assert "The runs share no load step" in found.text
    assert not [table for table in found.tables if table["caption"].startswith("The runs side by side")]


def test_steps_match_by_condition_and_load_not_by_place(reduced):
    run = reduced[RUNS[0]].run
    turned = dataclasses.replace(
        run, values={name: values[::-1] for name, values in run.values.items()}, conditions=run.conditions[::-1]
    )
    assert [step.rows for step in comparison.steps([run, turned])] == [(row, 8 - row) for row in range(1, 9)]


def test_the_compared_table_has_each_run_at_each_step(written):
    table = written[0].table("The runs side by side")
    assert len(table["rows"]) == 8 * 3
    assert [row[0] for row in table["rows"][18:21]] == [
        f"load 100 %: {name}" for name in ("air-to-air aftercooler", "jacket-water aftercooler", "no aftercooler")
    ]
    bare = ("–", "cannot tell")
    assert all(WITH_WIDTH.fullmatch(cell) or cell in bare for row in table["rows"] for cell in row[1:])


def test_runs_with_the_same_aftercooler_keep_the_names_of_their_folders(reduced):
    run = reduced[RUNS[0]].run
    other = dataclasses.replace(run, name="another")
    assert comparison.labels([run, other]) == ["generator_air_to_air", "another"]
    assert comparison.labels([run, run]) == ["generator_air_to_air (1)", "generator_air_to_air (2)"]


def test_more_than_two_baselines_are_refused(reduced, tmp_path):
    with pytest.raises(TurbomathError, match="found 3 runs to set beside this one, expected at most 2"):
        folder_for(reduced[RUNS[0]].run, tmp_path, [one.run for one in reduced.values()])


@pytest.mark.parametrize("inside", RUNS)
def test_no_report_is_written_into_a_run(inside, reduced):
    this, *others = (reduced[name].run for name in RUNS)
    folder = reduced[inside].run.folder / "out"
    with pytest.raises(TurbomathError, match="outside it"):
        folder_for(this, folder, others)


# Invented, limits and findings


@pytest.fixture
def own(run_folder, bench_text, readings_text):
    """Return the run of a shop, reduced: measured or INVENTED, with the limit of 20 psi on boost that it passes."""

    def made(invented):
        bench = bench_text.replace("invented = true", f"invented = {str(invented).lower()}").replace("INVENTED: ", "")
        return reduce_run(read_run(run_folder(readings_text, bench.replace('"..30 psi"', '"..20 psi"'))))

    return made


@pytest.mark.usefixtures("one_way")
def test_invented_is_said_where_it_is_due_and_nowhere_else(own, tmp_path):
    path, _ = write(own(invented=False), tmp_path, "us")
    assert "INVENTED" not in path.read_text(encoding="utf-8")


@pytest.mark.usefixtures("one_way")
def test_a_run_that_was_measured_says_invented_when_an_invented_one_stands_beside_it(own, reduced, tmp_path):
    path, _ = write(own(invented=False), tmp_path, "us", [reduced[RUNS[0]]])
    assert "INVENTED" in path.read_text(encoding="utf-8")


@pytest.mark.usefixtures("one_way")
def test_an_invented_run_says_so_twice_and_a_limit_passed_is_the_first_thing_said(own, tmp_path):
    reduced = own(invented=True)
    page = write(reduced, tmp_path, "us")[0].read_text(encoding="utf-8")
    assert page.count("INVENTED") == 2  # the running head and the banner
    text = Report(page).text
    assert 0 < text.index("LIMIT PASSED") < text.index("Cautions") < text.index("Measured and theoretical gain")
    assert "point 3: boost 24.5 psi passes the limit boost: at most 20 psi." in text
    terminal = on_terminal(reduced, "us")
    assert terminal.index("LIMIT") < terminal.index("Charge gain")


def test_a_run_without_limits_says_so(run_folder, bench_text, readings_text):
    bench = bench_text[: bench_text.index("[limits]")]
    assert "No limit is stated in bench.toml" in on_terminal(
        reduce_run(read_run(run_folder(readings_text, bench))), "us"
    )


def test_limit_sentences_part_passed_from_unread(reduced):
    flags = [
        Flag("limit", "4", "boost", 35, "boost 33 psi passes the limit", "Stop."),
        Flag("note", "", "oil_pressure", 35, "no reading for the limit", "Read it."),
        Flag("red", "2", "boost", 7, "cannot be", "Look again.", "kPa"),
    ]
    passed, unread, none_passed = sentences.limit_sentences(flags, reduced[RUNS[0]].run)
    assert passed == ["point 4: boost 33 psi passes the limit. Stop."]
    assert unread == ["no reading for the limit. Read it."]
    assert none_passed == ""
    assert sentences.findings(flags) == (("red", (("2", "cannot be."),), "The value would fit kPa. Look again."),)


def test_findings_come_worst_first_and_those_with_one_remedy_together():
    flags = [
        Flag("note", "1", "boost", 6, "little boost", "Load it."),
        Flag("red", "2", "boost", 7, "odd.", "Look."),
        Flag("note", "5", "boost", 6, "less boost", "Load it."),
        Flag("note", "5", "boost", 6, "x", "Else."),
    ]
    assert sentences.findings(flags) == (
        ("red", (("2", "odd."),), "Look."),
        ("note", (("1", "little boost."), ("5", "less boost.")), "Load it."),
        ("note", (("5", "x."),), "Else."),
    )


def test_the_terminal_gives_red_before_the_results_and_notes_after():
    text = on_terminal(reduce_run(read_run("stand_unloaded_run_up")), "us")
    assert text.index("RED    point 2: oil pressure") < text.index("Charge gain:") < text.index("NOTE   point 1:")
    assert "Also at points 2, 3, 4, 5, 6, 7." in " ".join(text.split())


@pytest.mark.usefixtures("one_way")
def test_a_limit_passed_in_a_baseline_is_told(own, reduced, tmp_path):
    page = write(reduced[RUNS[0]], tmp_path, "us", [own(invented=True)])[0]
    text = Report(page.read_text(encoding="utf-8")).text
    assert "LIMIT PASSED invented-run, point 3: boost 24.5 psi passes the limit" in text


def test_gauges_too_coarse_to_judge_say_so_and_give_no_number(written, reduced):
    cells = [row[2] for row in written[0].table("Compressor and aftercooler")["rows"]]
    unsure = [2 * u >= 0.1 for u in reduced[RUNS[0]]["compressor_efficiency"].standard_uncertainty[1:]]
    assert [cell == "cannot tell" for cell in cells] == unsure
    assert 0 < sum(unsure) < len(unsure)
    assert "These gauges cannot tell: compressor efficiency at point 1, 8 (± 0.1 or more)" in written[0].text


@pytest.mark.usefixtures("one_way")
def test_what_is_missing_is_said_with_the_reason(run_folder, bench_text, tmp_path):
    least = "barometer [inHg],ambient temperature [°F],boost [psi],our own note\n29.1,77,20,x\n"
    reduced = reduce_run(read_run(run_folder(least, bench_text)))
    found = Report(write(reduced, tmp_path, "us")[0].read_text(encoding="utf-8"))
    assert "density ratio, manifold density, measured charge gain, charge gain difference: no reading of" in found.text
    assert "Whether the charge fits this boost cannot be said" in found.text
    assert "does not know them: 'our own note'" in found.text
    assert len(found.named("img")) == 2  # theory and densities are there to draw, the difference is not
    row = dict(zip(found.table("Charge gain:")["heads"], found.table("Charge gain:")["rows"][0], strict=True))
    assert row["measured charge gain %"] == "–"
    assert WITH_WIDTH.fullmatch(row["theoretical charge gain %"])


@pytest.fixture(scope="module")
def no_aftercooler(reduced, tmp_path_factory):
    """The paths of the report of the run without aftercooler."""
    return write(reduced[RUNS[2]], tmp_path_factory.mktemp("none"), "us")


def test_without_an_aftercooler_the_manifold_is_not_drawn_as_cooled(no_aftercooler):
    path, _ = no_aftercooler
    words = [picture["alt"] for picture in Report(path.read_text(encoding="utf-8")).named("img")]
    assert "No aftercooler." in words[1]
    assert not any("aftercooled" in one or "Cooled by" in one for one in words)
    assert sentences.WORN_COMPRESSOR not in path.read_text(encoding="utf-8")


@pytest.mark.usefixtures("one_way")
def test_an_absolute_manifold_gauge_gives_pictures_against_boost_too(run_folder, bench_text, tmp_path):
    """30.0 psi absolute under 29.10 inHg (14.29 psi) is 15.7 psi of boost."""
    head = "barometer [inHg],ambient temperature [°F],manifold pressure [psi abs],manifold temperature [°F]"
    text = f"{head}\n29.1,77,30,120\n"
    path, _ = write(reduce_run(read_run(run_folder(text, bench_text))), tmp_path, "us")
    found = Report(path.read_text(encoding="utf-8"))
    assert found.table("Charge gain against boost")["rows"][0][0] == "15.71"


def test_the_terminal_is_no_wider_than_100_columns(reduced):
    for one in reduced.values():
        for system in ("us", "si"):
            assert max(len(line) for line in on_terminal(one, system).splitlines()) <= 100


def test_the_terminal_says_how_the_runs_compare(reduced):
    this, *others = (reduced[name] for name in RUNS)
    assert "denser than with no aftercooler" in " ".join(on_terminal(this, "us", others).split())
    assert "denser than with" not in " ".join(on_terminal(this, "us").split())


def test_the_same_run_gives_the_same_bytes(reduced, no_aftercooler, tmp_path):
    again = write(reduced[RUNS[2]], tmp_path, "us")
    assert [path.read_bytes() for path in again] == [path.read_bytes() for path in no_aftercooler]


def test_every_result_has_a_table_to_stand_in(reduced):
    groups = page_tables.RESULT_GROUPS | shaft_shown.page_groups(reduced[RUNS[0]])
    told = {name for names in groups.values() for name in names} | {
        *shares.GAINS,
        *shaft_shown.BY_SHAFT,
        *shaft_shown.SHAFT,
    }
    assert told == set(reduced[RUNS[0]].estimates)
    assert all(name in QUANTITIES for name in told)


def test_a_long_run_is_not_worked_out_twice(run_folder, bench_text, tmp_path):
    rows = "\n".join(f"29.1,77,{1 + index / 10},100" for index in range(60))
    text = f"barometer [inHg],ambient temperature [°F],boost [psi],manifold temperature [°F]\n{rows}\n"
    path, _ = write(reduce_run(read_run(run_folder(text, bench_text))), tmp_path, "us")
    assert "a second way" not in path.read_text(encoding="utf-8")


def test_gauges_too_coarse_for_the_second_way_are_no_refusal(reduced, tmp_path, monkeypatch):
    def refuses(*_, **__):
        raise OutOfRangeError("temperature must be an absolute temperature above 0 K [K]; found -5.")

    monkeypatch.setattr("turbomath.lab.report.page.gains_a_second_way", refuses)
    path, _ = write(reduced[RUNS[0]], tmp_path, "us")
    assert sentences.NO_SECOND_WAY in Report(path.read_text(encoding="utf-8")).text


def test_nothing_shown_is_infinite(written):
    assert not re.search(r"\b(nan|inf)\b", written[0].text)


def test_where_no_point_gives_a_result_a_sentence_stands_in_place_of_an_empty_table(run_folder, bench_text):
    reduced = reduce_run(read_run(run_folder("condition,boost [psi]\nload,12\n", bench_text)))
    page, terminal = Report(report_page(reduced, "us", ())).text, " ".join(on_terminal(reduced, "us").split())
    for text in (page, terminal):
        assert 'what each lacks stands under "What could not be worked out".' in text
        assert "how much denser the charge is than the air outside" not in text
