"""The blank sheet for the clipboard: limits and cautions in sight, a box for every reading that the bench can give."""

import shutil

import pytest

from tests.lab.page_reader import Report
from turbomath import units
from turbomath.disk import files
from turbomath.lab.checks.limits import limit_words
from turbomath.lab.entry import blank_sheet
from turbomath.lab.record import questions
from turbomath.lab.run import blank, readings
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.table import cautions
from turbomath.table.errors import RefusedFileError
from turbomath.table.quantities import QUANTITIES

RUNS = files.shipped_runs()


def bench_of(run):
    return read_bench(files.shipped("data") / run / "bench.toml")


def boxes(html):
    """The heads of the boxes, and the number of rows of each grid."""
    grids = [one for one in Report(html).tables if one["heads"][:2] == ["point", "condition"]]
    return [head for one in grids for head in one["heads"][2:]], {len(one["rows"]) for one in grids}


@pytest.mark.parametrize("run", RUNS)
@pytest.mark.parametrize("large", [False, True])
def test_each_reading_of_a_shipped_run_has_its_box_with_its_unit(run, large):
    bench = bench_of(run)
    heads, rows = boxes(blank_sheet.sheet(bench, large=large))
    assert rows == {len(blank_sheet.ROWS)}
    for name in readings.read_run(run).columns:
        if name in NUMBER_COLUMNS:
            start = QUANTITIES[name].plain_name + units.display(name, bench.run.units)
            assert sum(head.startswith(start) for head in heads) == 1, name


@pytest.mark.parametrize("run", RUNS)
def test_limits_and_stop_signs_come_before_everything_else_and_every_caution_has_its_source(run):
    bench = bench_of(run)
    text = Report(blank_sheet.sheet(bench)).text
    first = text.index("The run")
    for words in (*(limit_words(bench, key) for key in bench.limits), *cautions.STOP_TRIGGERS, "INVENTED"):
        assert text.index(words) < first, words
    for one in (*cautions.CAUTIONS, *cautions.SHOP_CAUTIONS):
        assert one.text in text
        assert one.source in text
    for line in (*blank_sheet.HEADER, questions.LEAD, *(one.words for one in questions.QUESTIONS.values())):
        assert line in text


def test_a_pressure_limit_and_its_gauge_are_printed_as_bench_toml_has_them():
    text = Report(blank_sheet.sheet(bench_of("generator_air_to_air"))).text
    assert "boost: at most 30 psi" in text
    assert "grade 1A of 0..60 psi (ASME B40.100)" in text
    assert "2025-11-03" in text


def test_an_engine_without_aftercooler_has_no_boxes_for_one_and_an_odd_gauge_has_its_own(tmp_path):
    path = tmp_path / "bench.toml"
    path.write_text(
        '[engine]\naftercooler = "none"\n[instruments.turbine_inlet_pressure]\naccuracy = "0.5 psi"\n'
        '[limits]\nturbine_outlet_temperature = "..1000 °F"\n',
        encoding="utf-8",
    )
    names = blank.sheet_columns(read_bench(path))
    assert not set(blank.AFTERCOOLER_COLUMNS) & set(names)
    assert {"turbine_inlet_pressure", "turbine_outlet_temperature"} < set(names)
    heads, _ = boxes(blank_sheet.sheet(read_bench(path)))
    assert len(heads) == len(names) + 5  # time, pass, steady, reader, remark


def test_bench_toml_is_enough_even_an_empty_one(tmp_path):
    (tmp_path / "bench.toml").write_text("", encoding="utf-8")
    path = blank_sheet.write(tmp_path, tmp_path / "out" / "sheet.html")
    text = Report(path.read_text(encoding="utf-8")).text
    assert "names no limits" in text
    assert "INVENTED" not in text


def test_text_from_bench_toml_is_shown_and_never_run(tmp_path):
    title = "<script>alert(1)</script><b>é"
    (tmp_path / "bench.toml").write_text(f'[run]\ntitle = "{title}"\n', encoding="utf-8")
    html = blank_sheet.sheet(read_bench(tmp_path / "bench.toml"))
    assert "<script" not in html
    assert title in Report(html).text


def test_what_cannot_be_written_or_read_is_refused_in_words(tmp_path):
    shutil.copy(files.shipped("data") / RUNS[0] / "bench.toml", tmp_path)
    with pytest.raises(RefusedFileError, match="a folder"):
        blank_sheet.write(tmp_path, tmp_path)
    (tmp_path / "empty").mkdir()
    with pytest.raises(RefusedFileError, match="no such file"):
        blank_sheet.write(tmp_path / "empty")
    with pytest.raises(RefusedFileError, match=f"nearest shipped run is '{RUNS[0]}'"):
        blank_sheet.write(RUNS[0] + "s")
