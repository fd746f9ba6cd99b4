"""Several runs of one engine on one page: the class pool and the trend. All runs are INVENTED."""

import csv
import dataclasses
import re
import shutil

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.command_line import turbomath
from turbomath.disk import files
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report.comparison import boost_text
from turbomath.lab.run.readings import read_run
from turbomath.lab.several import pool, shared_steps, trend
from turbomath.lab.several.shared_steps import Compared
from turbomath.table.errors import TurbomathError

AIR = "generator_air_to_air"
POINT = ",338,24.0,132,"  # compressor outlet, boost and manifold temperature at full load
HOSTILE = "=cmd|' /C calc'!A0 <script>alert(1)</script> ../../up"


def copied(folder, point, date):
    """Write the shipped run into *folder* with other readings at full load and another date, and read it."""
    shutil.copytree(files.shipped("data") / AIR, folder)
    sheet, bench = folder / "readings.csv", folder / "bench.toml"
    text = sheet.read_text(encoding="utf-8")
    assert POINT in text
    sheet.write_text(text.replace(POINT, point), encoding="utf-8")
    bench.write_text(bench.read_text(encoding="utf-8").replace("date = 2026-03-12", date), encoding="utf-8")
    return read_run(folder)


@pytest.fixture(scope="module")
def runs(tmp_path_factory):
    """Return ``runs(name=(full load, date), ...)`` -> the reduced runs, each in a folder of that name; only to look."""
    made = {}

    def of(**changed):
        for one in changed.items():
            if one not in made:
                name, (point, date) = one
                made[one] = reduce_run(copied(tmp_path_factory.mktemp("runs") / name, point, date))
        return [made[one] for one in changed.items()]

    return of


def full_load(found, name):
    return next(one for one in found if one.step == "load 100\u00a0%" and one.name == name)


def test_groups_that_read_the_same_differ_by_nothing(runs):
    found = shared_steps.compared(runs(one=(POINT, ""), two=(POINT, ""), three=(POINT, "")))
    assert {one.step for one in found} >= {"load 25\u00a0%", "load 100\u00a0%"}
    for one in found:
        apart, allowed, _ = pool.spread(one)
        assert apart == 0
        assert allowed > 0


def test_a_group_with_a_hot_manifold_is_named_for_its_effectiveness_only(runs):
    reduced = runs(one=(POINT, ""), two=(",338,24.0,160,", ""), three=(POINT, ""))
    said = pool.pool_sentences(shared_steps.compared(reduced), [one.run for one in reduced], "us")
    told = {line.split(", ")[1].split(":")[0]: line for line in said}
    assert "more than their gauges allow. Look first at two." in told["effectiveness"]
    assert "no more than their gauges allow" in told["boost"]
    assert "no more than their gauges allow" in told["compressor efficiency"]


def test_the_answers_of_the_groups_are_counted_and_never_joined(runs, tmp_path):
    """Heating one manifold by 28 F° is a loss of effectiveness, which that group alone reports."""
    reduced = runs(one=(POINT, ""), two=(",338,24.0,160,", ""), three=(POINT, ""))
    said = pool.write(reduced, tmp_path / "pool", "us")[0]
    assert "Boost as it should be? 3 yes, of 3 groups." in said
    assert "Machines as designed? 2 yes, 1 no (two), of 3 groups." in said
    rows = list(csv.DictReader((tmp_path / "pool" / "pool.csv").open(encoding="utf-8-sig")))
    told = {row["group"]: row["value"] for row in rows if row["quantity"] == "machines as designed"}
    assert told == {"one": "yes", "two": "no", "three": "yes"}
    page = (tmp_path / "pool" / "pool.html").read_text(encoding="utf-8")
    assert "What each group" in page
    assert "ten answers alike are not ten proofs" in page
    assert "One engine at one speed gives one line, not a compressor map" in page
    assert "the line through 18 points of 3 groups" in " ".join(said)
    line = [row for row in rows if row["group"] == "The compressor's line"]
    assert [row["quantity"] for row in line] == 6 * ["pressure ratio"]
    assert all(float(row["±"]) > 0 for row in line)


def test_the_mean_of_the_groups_is_that_of_numpy_and_its_bar_shrinks_with_their_number():
    one = Compared("load", "boost", np.array([165e3, 168e3, 171e3]), np.array([6e3, 6e3, 6e3]))
    shown = pool._mean(one, "si")
    assert shown == f"{np.mean([165, 168, 171]):.0f} ± {6 / 3**0.5:.0f}"


def test_the_trend_says_what_moved_more_than_its_bar(runs):
    reduced = runs(later=(",338,24.0,160,", "date = 2026-11-02"), first=(POINT, "date = 2026-03-12"))
    in_order = trend.in_order(reduced)
    assert [one.run.name for one in in_order] == ["first", "later"]
    found = shared_steps.compared(in_order)
    moved, allowed = trend.change(full_load(found, "effectiveness"))
    # by hand: (338 − 132) / (338 − 77) = 0.789, (338 − 160) / (338 − 77) = 0.682
    assert moved == pytest.approx(178 / 261 - 206 / 261, abs=0.002)
    assert -moved > allowed
    assert trend.change(full_load(found, "boost"))[0] == 0


@given(st.lists(st.tuples(st.floats(-50, 50), st.floats(0.1, 5)), min_size=2, max_size=12))
def test_the_spread_is_never_negative_nor_more_than_the_range(pairs):
    values, widths = (np.array(part) for part in zip(*pairs, strict=True))
    apart, allowed, furthest = pool.spread(Compared("load", "boost", values, widths))
    assert apart == pytest.approx(values.max() - values.min())
    assert 0 < allowed <= 2**0.5 * widths.max() + 1e-12
    assert 0 <= furthest < len(values)


def test_gauges_that_cannot_tell_are_left_out_of_every_judgement(runs):
    reduced = runs(one=(POINT, ""), two=(POINT, ""))
    idle = [one for one in shared_steps.compared(reduced) if one.step == "high idle" and one.name == "effectiveness"]
    assert not shared_steps.judged_by(idle[0])
    assert shared_steps.text(idle[0], 0, "us") == "cannot tell"


def test_runs_of_other_engines_too_few_or_the_same_twice_are_refused(runs):
    own = runs(one=(POINT, ""))
    for others, words in (
        ([reduce_run(read_run("generator_jacket_water"))], "another aftercooler"),
        ([], "found 1 runs"),
        (own, "one run twice"),
    ):
        with pytest.raises(TurbomathError, match=words):
            shared_steps.compared([*own, *others])


def test_runs_without_a_shared_step_or_a_date_are_refused(runs, tmp_path):
    reduced = runs(one=(POINT, ""), two=(POINT, "date = 2026-03-12"))
    with pytest.raises(TurbomathError, match="found no date under"):
        trend.in_order(reduced)
    lonely = tmp_path / "lonely"
    shutil.copytree(reduced[0].run.folder, lonely)
    sheet = lonely / "readings.csv"
    head, *rows = sheet.read_text(encoding="utf-8").splitlines()
    sheet.write_text("\n".join([head, rows[0], rows[4].replace(",55,", ",56.5,", 1)]), encoding="utf-8")
    with pytest.raises(TurbomathError, match="no load step that all runs share"):
        shared_steps.compared([reduced[0], reduce_run(read_run(lonely))])


def test_the_command_line_writes_both_pages_and_refuses_in_one_sentence(tmp_path):
    for name, date in (("group é 1", "date = 2026-03-12"), ("group 2", "date = 2026-05-01")):
        copied(tmp_path / name, POINT, date)
    for name in ("pool", "trend"):
        done = turbomath(name, "group é 1", "group 2", "--units", "si", cwd=tmp_path)
        assert (done.returncode, done.stderr) == (0, "")
        assert "At load 100" in done.stdout
        page = (tmp_path / name / f"{name}.html").read_text(encoding="utf-8")
        assert "INVENTED" in page
        assert "<script" not in page
        rows = list(csv.DictReader((tmp_path / name / f"{name}.csv").open(encoding="utf-8-sig")))
        assert {row["unit"] for row in rows if row["quantity"] == "boost"} == {"kPa"}
    for words in (
        ("pool", "group 2"),
        ("pool", "group 2", "nowhere"),
        ("trend", "group 2", "generator_no_aftercooler"),
        ("pool", "group 2", "group é 1", "--out", "group 2/inside"),
    ):
        done = turbomath(*words, cwd=tmp_path)
        assert done.returncode == 1, words
        assert len(done.stderr.strip().splitlines()) == 1
        assert "Traceback" not in done.stderr
    assert not (tmp_path / "group 2" / "inside").exists()


def test_free_text_is_harmless_on_every_page(runs, tmp_path):
    copied(tmp_path / "one", POINT, "date = 2026-03-12")
    bench = tmp_path / "one" / "bench.toml"
    text = bench.read_text(encoding="utf-8")
    title = next(line for line in text.splitlines() if line.startswith("title"))
    bench.write_text(text.replace(title, f'title = "{HOSTILE}"'), encoding="utf-8")
    reduced = [reduce_run(read_run(tmp_path / "one")), *runs(two=(POINT, "date = 2026-05-01"))]
    for write in (pool.write, trend.write):
        for path in write(reduced, tmp_path / "out", "us")[1]:
            content = path.read_text(encoding="utf-8-sig")
            assert "<script" not in content
            if path.suffix == ".csv":
                assert not any(
                    cell.startswith(("=", "+", "-", "@")) and not _is_number(cell)
                    for row in csv.reader(content.splitlines())
                    for cell in row
                )


def _is_number(text):
    try:
        float(text)
    except ValueError:
        return False
    return True


@pytest.mark.parametrize(("times", "words"), [(0.95, "no more than"), (1.05, "more than")])
def test_the_line_is_drawn_where_the_two_bars_together_end(runs, times, words):
    """Independent errors add as the root of their squares: JCGM 100, 5.1.2."""
    reduced = runs(one=(POINT, ""), two=(POINT, ""), three=(POINT, ""))
    widths = np.array([3e3, 4e3, 4e3])
    one = Compared("load", "boost", np.array([165e3, 165e3 + times * 5e3, 165e3]), widths)
    said = pool.pool_sentences([one], [each.run for each in reduced], "si")
    assert f"which is {words} their gauges allow" in said[0]


def test_boost_has_the_bar_that_the_report_gives_it(runs):
    reduced = runs(one=(POINT, ""), two=(POINT, ""))
    one = full_load(shared_steps.compared(reduced), "boost")
    row = reduced[0].run.points.index("7")
    assert shared_steps.text(one, 0, "us") == boost_text(reduced[0].run, row, "us")


def test_the_trend_tells_a_fall_from_a_rise(runs, tmp_path):
    reduced = runs(later=(",338,24.0,160,", "date = 2026-11-02"), first=(POINT, "date = 2026-03-12"))
    said = trend.write(reduced, tmp_path / "out", "us")[0]
    told = next(line for line in said if "effectiveness" in line)
    assert "effectiveness fell by 0.11" in told
    assert "from 2026-03-12 to 2026-11-02: more than its ±" in told


@pytest.mark.parametrize(("factor", "said"), [(1.0, "The boost is what this engine"), (0.8, "The boost is too low")])
def test_the_boost_of_the_last_run_is_held_against_the_first_with_fuel_and_weather_in_it(tmp_path, factor, said):
    runs = []
    for name, date, share in (("autumn", "2025-11-03", 1.0), ("spring", "2026-05-04", factor)):
        folder = tmp_path / name
        shutil.copytree(files.shipped("data") / "generator_air_to_air", folder)
        bench = (folder / "bench.toml").read_text(encoding="utf-8")
        rated = bench[bench.index("[rated]") : bench.index("[instruments.")]
        bench = re.sub(r"^date = .*$", f"date = {date}", bench.replace(rated, ""), flags=re.MULTILINE)
        (folder / "bench.toml").write_text(bench, encoding="utf-8")
        sheet = folder / "readings.csv"
        head, *rows = [line.split(",") for line in sheet.read_text(encoding="utf-8-sig").splitlines()]
        at = head.index("boost [psi]")
        rows = [[*row[:at], f"{share * float(row[at]):g}", *row[at + 1 :]] for row in rows]
        sheet.write_text("\n".join(",".join(row) for row in (head, *rows)), encoding="utf-8")
        runs.append(reduce_run(read_run(folder)))
    sentences, _ = trend.write(runs[::-1], tmp_path / "out", "us")
    assert sentences[0].startswith(said)
    assert "by this engine's own run autumn" in sentences[0]
    assert not any("boost moved" in one or "boost fell" in one for one in sentences)


# The shaft


def test_pool_and_trend_list_the_shaft_where_it_was_read(runs, tmp_path):
    """What both runs read before and behind the turbine stands beside the rest, as each run's own report has it."""
    reduced = runs(one=(POINT, "date = 2026-03-12"), two=(POINT, "date = 2026-05-12"))
    found = shared_steps.compared(reduced)
    listed = {one.name for one in found}
    assert {"expansion_ratio", "turbine_power", "shaft_power_ratio", "turbine_efficiency"} <= listed
    assert "compressor_outlet_temperature_by_shaft" not in listed  # there is a thermometer
    for name in ("turbine_power", "turbine_efficiency"):
        one = full_load(found, name)
        assert one.values[0] == pytest.approx(reduced[0][name].value[7], rel=1e-12)
        assert one.widths[0] == pytest.approx(reduced[0][name].plus_or_minus[7], rel=1e-12)
    assert any("expansion ratio" in line for line in pool.write(reduced, tmp_path / "pool", "us")[0])
    assert any("turbine power moved by" in line for line in trend.write(reduced, tmp_path / "trend", "si")[0])
    text = (tmp_path / "trend" / "trend.csv").read_text(encoding="utf-8-sig")
    assert "turbine efficiency" in text
    tables = [(title, {one.name for one in here}) for title, here in shared_steps.in_tables(found)]
    assert sum(("The shaft" in title) == ("turbine_power" in names) for title, names in tables) == len(tables)
    assert set().union(*(names for _, names in tables)) == listed, "no quantity is lost between two tables"


def test_where_no_thermometer_stands_behind_the_compressor_its_temperature_is_by_the_shaft(runs):
    blind = [
        reduce_run(
            dataclasses.replace(
                one.run,
                columns=tuple(name for name in one.run.columns if name != "compressor_outlet_temperature"),
                values={
                    name: value for name, value in one.run.values.items() if name != "compressor_outlet_temperature"
                },
            )
        )
        for one in runs(one=(POINT, ""), two=(POINT, ""))
    ]
    found = shared_steps.compared(blind)
    by_shaft, true = full_load(found, "compressor_outlet_temperature_by_shaft"), (338 + 459.67) / 1.8
    assert abs(by_shaft.values[0] - true) < by_shaft.widths[0]
