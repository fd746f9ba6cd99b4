"""`turbomath fit`: what it prints, draws and writes, and a later run judged by the engine it has written."""

import shutil
from dataclasses import replace

import numpy as np
import pytest

from tests import command_line
from tests.lab.verdicts import altered
from turbomath import TurbomathError
from turbomath.disk import files
from turbomath.engine.fitting import fit
from turbomath.engine.ready_engines import WITH_WASTEGATE
from turbomath.engine.sheet import sheet_of
from turbomath.lab import fit_page, verdicts
from turbomath.lab.reduction import reduce
from turbomath.lab.reduction.fit_points import sheet_of_run
from turbomath.lab.run.engine_file import read_engine
from turbomath.lab.run.rated import Rated
from turbomath.lab.run.readings import read_run

RUN = "generator_air_to_air"


@pytest.fixture(scope="module")
def done(tmp_path_factory):
    folder = tmp_path_factory.mktemp("fit")
    return folder, command_line.turbomath("fit", RUN, "--out", "engine.toml", cwd=folder)


def test_it_prints_what_was_freed_what_stayed_usual_and_what_is_left_over(done):
    _, said = done
    assert said.returncode == 0
    assert f"fitted to 6 points of {RUN}, driven by the fuel flow" in said.stdout
    assert "What is left over is at most 1.0 % of the boost" in said.stdout
    assert "which stayed where they usually are: " in said.stdout
    assert "best indicated efficiency" in said.stdout
    assert "Manifold pressure\npoint  sheet [psi abs]  model [psi abs]  model less sheet [psi]" in said.stdout
    assert 'write model = "engine.toml" under [engine]' in said.stdout


def test_it_writes_an_engine_and_a_page_with_a_picture_of_each_quantity(done):
    folder, _ = done
    assert read_engine(folder / "engine.toml").run == RUN
    page = (folder / "engine.html").read_text(encoding="utf-8")
    assert "INVENTED" in page
    for name in (
        "Boost",
        "Power",
        "Manifold temperature",
        "Compressor outlet temperature",
        "Turbine inlet temperature",
        "Turbine outlet temperature",
    ):
        assert f"{name} against fuel flow: sheet beside model" in page
    assert page.count("<img") == 6
    assert "at most 1.0\u00a0% of the boost" in page
    assert page.index("Boost against") < page.index("Compressor outlet temperature against")


def test_si_units_are_shown_if_asked_for(tmp_path):
    said = command_line.turbomath("fit", RUN, "--units", "si", cwd=tmp_path)
    assert "sheet [kPa abs]" in said.stdout
    assert (tmp_path / f"{RUN}-engine.toml").is_file()


def test_an_older_engine_is_written_over_and_nothing_else(tmp_path):
    assert command_line.turbomath("fit", RUN, "--out", "engine.toml", cwd=tmp_path).returncode == 0
    assert command_line.turbomath("fit", RUN, "--out", "engine.toml", cwd=tmp_path).returncode == 0
    (tmp_path / "bench.toml").write_text("[run]\n")
    said = command_line.turbomath("fit", RUN, "--out", "bench.toml", cwd=tmp_path)
    assert (said.returncode, "no fit has written" in said.stderr) == (1, True)
    assert (tmp_path / "bench.toml").read_text() == "[run]\n"
    said = command_line.turbomath("fit", RUN, "--out", "engine.txt", cwd=tmp_path)
    assert (said.returncode, "ends in .toml" in said.stderr) == (1, True)


def test_a_run_that_tells_too_little_is_refused(tmp_path):
    said = command_line.turbomath("fit", "stand_unloaded_run_up", cwd=tmp_path)
    assert said.returncode == 1
    assert "no point under load" in said.stderr
    for old, new, words in (
        ('displacement = "12.0 L"', "", "not both stated"),
        ("egr = false", "egr = true", "egr = true"),
    ):
        folder = tmp_path / "run"
        shutil.copytree(files.shipped("data") / RUN, folder, dirs_exist_ok=True)
        bench = (folder / "bench.toml").read_text(encoding="utf-8")
        (folder / "bench.toml").write_text(bench.replace(old, new, 1), encoding="utf-8")
        assert words in command_line.turbomath("fit", folder, cwd=tmp_path).stderr


def test_copies_without_three_columns_are_fitted_too(tmp_path):
    run = read_run(RUN)
    for gone in (
        ("power", "manifold_temperature", "turbine_inlet_temperature"),
        ("fuel_flow", "compressor_outlet_temperature", "turbine_inlet_temperature"),
        ("compressor_outlet_temperature", "manifold_temperature", "cooling_medium_temperature"),
    ):
        poor = replace(run, values={name: one for name, one in run.values.items() if name not in gone})
        fitted = fit_page.fitted_run(poor)
        assert not set(gone) & set(fitted.fit.leftover)
        made = fitted.fit.expected(fitted.sheet.at(slice(None)))["boost"]
        assert made.value == pytest.approx(fitted.sheet.boost, rel=0.05)
        assert fit_page.on_terminal(fitted, "us")


def at_row(row, change):
    """Return what changes a column at one of the generator's rows only; the run's own label of it is the same."""
    return lambda column: np.where(np.arange(column.size) == row, change(column), column)


@pytest.mark.parametrize(
    ("changed", "system", "words"),
    [
        ({"boost": at_row(4, lambda boost: 2 * boost)}, "us", "at point 4 the boost of 26.0 psi is far above"),
        ({"boost": at_row(4, lambda boost: 2 * boost)}, "si", "at point 4 the boost of 179.3 kPa is far above"),
        ({"turbine_inlet_temperature": lambda one: 0.68 * one}, "us", "inlet temperature of 536 °F is far below"),
        (
            {"manifold_temperature": lambda one: 0 * one + 288.71},
            "us",
            "the manifold temperature of 60 °F is far below",
        ),
    ],
)
def test_a_figure_that_fits_no_engine_is_named_by_the_label_and_the_unit_of_the_sheet(changed, system, words):
    with pytest.raises(TurbomathError, match=words):  # the last: outside air of 77 °F cools no charge to 60 °F
        fit_page.fitted_run(altered.read(read_run(RUN), **changed), system)


def test_what_no_loaded_row_has_is_named():
    run = read_run(RUN)
    for gone, words in (
        (("barometer",), "no reading of barometer under"),
        (("power", "fuel_flow"), "of fuel flow or p"),
    ):
        with pytest.raises(TurbomathError, match=words):
            fit_page.fitted_run(
                replace(run, values={name: one for name, one in run.values.items() if name not in gone})
            )


def test_a_thermometer_that_does_not_go_with_the_rest_is_told():
    low = altered.read(read_run(RUN), turbine_inlet_temperature=lambda one: one - 40.0)
    assert "What was read of turbine inlet temperature" in " ".join(fit_page.sentences(fit_page.fitted_run(low), "us"))
    for name in (RUN, "generator_jacket_water", "generator_no_aftercooler"):
        assert "does not go with" not in " ".join(fit_page.sentences(fit_page.fitted_run(read_run(name)), "us"))


def with_model(run, folder, rated=None):
    return altered.with_model(altered.stated(run, rated=rated or Rated()), folder)


def judged(run):
    return verdicts.judge_run(reduce.reduce_run(run)).boost


def test_a_later_run_is_judged_by_the_fitted_engine_at_every_load_step(done):
    folder, _ = done
    later = altered.read(read_run(RUN), fuel_flow=lambda fuel: 0.985 * fuel, boost=lambda boost: 0.98 * boost)
    found = judged(with_model(later, folder))
    assert found.answer == "holds"
    assert "fitted to its own sheet" in found.sentence
    assert len(found.points) >= 5
    assert all(one.source == "fitted" for one in found.points)
    lost = altered.read(read_run(RUN), boost=lambda boost: 0.85 * boost)
    assert judged(with_model(lost, folder)).answer == "does not hold"


def test_every_expected_boost_carries_the_models_own_plus_or_minus(done):
    folder, _ = done
    later = altered.read(read_run(RUN), boost=lambda boost: 0.99 * boost)
    fit = read_engine(folder / "engine.toml").fit
    fitted = fit_page.fitted_run(read_run(RUN))
    own = fit.expected(fitted.sheet.at(slice(None)))["boost"].plus_or_minus
    points = {one.row: one.plus_or_minus for one in judged(with_model(later, folder)).points}
    for row, width in zip(fitted.rows, own, strict=True):
        assert row not in points or points[row] > width


def test_a_run_is_not_judged_by_what_was_fitted_to_it(done):
    folder, _ = done
    found = judged(with_model(read_run(RUN), folder))
    assert not found.points
    assert "fitted to this very run" in found.sentence


def test_the_maker_still_speaks_at_the_rated_point(done):
    folder, _ = done
    later = altered.read(read_run(RUN), boost=lambda boost: 0.99 * boost)
    found = judged(with_model(later, folder, altered.MAKER))
    assert {one.source for one in found.points} == {"maker", "fitted"}


def test_an_engine_of_another_size_is_refused(done):
    folder, _ = done
    run = with_model(read_run(RUN), folder)
    run = replace(run, bench=replace(run.bench, engine=replace(run.bench.engine, displacement=0.014)))
    with pytest.raises(TurbomathError, match="another displacement"):
        judged(run)
    with pytest.raises(TurbomathError, match="no such file"):
        judged(replace(with_model(read_run(RUN), folder / "elsewhere")))


def test_the_widths_on_the_page_are_those_of_the_fit(done):
    fitted = fit_page.fitted_run(read_run(RUN))
    table = next(one for one in fit_page.point_tables(fitted, "si") if one.caption == "Manifold pressure")
    made = fitted.fit.expected(fitted.sheet.at(slice(None)))["manifold_pressure"]
    assert float(table.rows[-1][4]) == pytest.approx(made.plus_or_minus[-1] / 1e3, abs=0.01)
    left = np.array([float(row[3].replace("−", "-")) for row in table.rows])
    assert left == pytest.approx(fitted.fit.leftover["manifold_pressure"] / 1e3, abs=0.01)


def test_every_sentence_is_used():
    words = fit_page._WORDS
    fitted, points = fit_page.fitted_run(read_run(RUN)), sheet_of_run(RUN)[0][-1:]
    assert "fitted to 6 points of" in fit_page.sentences(fitted, "us")[0]
    fitted = replace(fitted, rows=fitted.rows[-1:], sheet=sheet_of(points), fit=fit(points))
    cooler = replace(fitted.fit.engine.aftercooler, held_temperature=320.0)
    engine = replace(fitted.fit.engine, aftercooler=cooler, wastegate=WITH_WASTEGATE.wastegate)
    engine = replace(engine, best_compressor_flow=0.2)  # choked, by far
    left = {name: one + 1e6 for name, one in fitted.fit.leftover.items()}
    odd = replace(fitted, fit=replace(fitted.fit, engine=engine, usual=(), leftover=left))
    said = " ".join(fit_page.sentences(odd, "si"))
    for part in (
        "fitted to 1 point of",
        "held at 47 °C",
        "a wastegate that opens at 110",
        "No number had to stay",
        "choked",
    ):
        assert part in said
    fit_page.fit_page(fitted, "us")
    fit_page.use(fitted.run.folder / "engine.toml")
    with pytest.raises(TurbomathError):
        fit_page.fitted_run(altered.read(read_run(RUN), boost=at_row(4, lambda boost: 2 * boost)))
    words.finished()
