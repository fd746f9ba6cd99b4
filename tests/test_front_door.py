"""The front door: what completion shows, what opens when it is asked for, and names where a model or a run is taken."""

import ast
import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from IPython.core.completer import provisionalcompleter
from IPython.core.interactiveshell import InteractiveShell

import turbomath
from turbomath import air
from turbomath.disk import files
from turbomath.engine.path import charge_path
from turbomath.lab.checks import check_run, evaluated, findings
from turbomath.lab.checks.zero_drift import drifts
from turbomath.lab.reduction.reduce import reduce_run, usual_air
from turbomath.lab.report.worked.reading import worked
from turbomath.lab.run.readings import as_run, read_run
from turbomath.table.errors import OutOfRangeError, RefusedFileError

NAMES = {"to_si", "from_si", "charge_path", "balance", "read_run", "reduce_run", "QUANTITIES"}
ROOMS = {
    *("table", "units", "physics", "air", "uncertainty", "engine", "working", "pictures", "paper"),
    *("lab", "homework", "widgets", "panels"),
}
RUN = "generator_air_to_air"
FULL_LOAD = dict(
    ambient_pressure=98_544.0, ambient_temperature=298.15, manifold_pressure=264_018.0, isentropic_efficiency=0.74
)
HOUSE = Path(turbomath.__file__).parent


def fresh(code):
    """Return what a fresh Python that has only imported turbomath prints, read as JSON."""
    whole = f"import json, sys, turbomath\n{code}"
    done = subprocess.run([sys.executable, "-W", "error", "-c", whole], capture_output=True, text=True, check=True)
    return json.loads(done.stdout)


def test_dir_is_the_rooms_and_the_names_and_nothing_else():
    assert set(dir(turbomath)) == NAMES | ROOMS
    assert set(turbomath.__all__) == NAMES | ROOMS


@pytest.mark.parametrize("by_source", [False, True], ids=["by the object", "by the source"])
def test_completion_in_a_notebook_shows_the_same(by_source):
    shell = InteractiveShell()
    shell.user_ns["turbomath"] = turbomath
    shell.Completer.use_jedi = by_source
    with provisionalcompleter():
        offered = {one.text.removeprefix(".") for one in shell.Completer.completions("turbomath.", len("turbomath."))}
    assert offered == NAMES | ROOMS


def test_each_name_is_that_of_its_room():
    assert turbomath.to_si is turbomath.units.to_si
    assert turbomath.from_si is turbomath.units.from_si
    assert turbomath.charge_path is turbomath.engine.path.charge_path
    assert turbomath.balance is turbomath.engine.balance
    assert callable(turbomath.balance.solve)
    assert turbomath.read_run is turbomath.lab.run.readings.read_run
    assert turbomath.reduce_run is turbomath.lab.reduction.reduce.reduce_run
    assert turbomath.QUANTITIES is turbomath.table.quantities.QUANTITIES
    assert issubclass(turbomath.OutOfRangeError, turbomath.TurbomathError)
    assert turbomath.__version__[0].isdigit()


def test_a_type_checker_is_told_of_every_name_that_the_door_opens():
    tree = ast.parse((HOUSE / "__init__.py").read_text(encoding="utf-8"))
    told = next(one for one in tree.body if isinstance(one, ast.If))
    names = {alias.asname or alias.name for line in told.body for alias in line.names}
    refusals = {"OutOfRangeError", "RangeWarning", "RefusedFileError", "TurbomathError", "UnitError"}
    assert names == NAMES | ROOMS | refusals | {"__version__"}
    assert all(hasattr(turbomath, name) for name in names)


def test_a_wrong_name_is_an_attribute_error_that_names_the_nearest():
    for module, wrong, near in ((turbomath, "charge_paht", "charge_path"), (turbomath.physics, "coling", "cooling")):
        with pytest.raises(AttributeError, match=f"no '{wrong}'; did you mean '{near}'"):
            getattr(module, wrong)


@pytest.mark.process
def test_import_alone_loads_neither_numpy_nor_a_room():
    loaded = fresh("print(json.dumps(sorted(sys.modules)))")
    assert "turbomath" in loaded
    assert {name.split(".")[1] for name in loaded if name.startswith("turbomath.")} == {"table"}
    outside = {name.split(".")[0] for name in loaded} - set(sys.stdlib_module_names)
    assert not outside & {"numpy", "pandas", "pint", "scipy", "matplotlib", "CoolProp", "jinja2", "ipywidgets"}


@pytest.mark.process
def test_every_file_of_every_room_is_an_attribute_after_the_bare_import():
    paths = [path.relative_to(HOUSE).with_suffix("") for path in HOUSE.rglob("*.py")]
    paths = [path.parent if path.name == "__init__" else path for path in paths]
    lessons = [path for path in paths if path.parts[:1] == ("panels",) and len(path.parts) > 2]
    names = sorted(".".join(path.parts) for path in set(paths) - set(lessons) if path.parts)
    functions = {"units.spellings", "working.lines"}  # what their rooms have under these names
    names = [name for name in names if not name.startswith("_") and name not in functions]
    assert {"physics.compression", "engine.path", "lab.checks.trends", "homework.course.hand_out"} <= set(names)
    code = f"""
from types import ModuleType
def found(name):
    here = turbomath
    for part in name.split("."):
        here = getattr(here, part)
    return isinstance(here, ModuleType) and here.__name__ == "turbomath." + name
print(json.dumps([name for name in {names} if not found(name)]))
"""
    assert fresh(code) == []


@pytest.mark.process
def test_the_usual_ways_to_import_work_and_showing_a_record_needs_no_pandas():
    code = f"""
from turbomath import air
from turbomath.physics import compression
assert turbomath.physics.compression is compression and turbomath.air is air
path = turbomath.charge_path(**{FULL_LOAD})
shown = [repr(path), path._repr_html_()]
print(json.dumps(["pandas" in sys.modules, "matplotlib" in sys.modules, "2.679" in shown[0], "<table" in shown[1]]))
"""
    assert fresh(code) == [False, False, True, True]


@pytest.mark.parametrize("name", ["perfect", "ideal", "real", "moist"])
def test_the_name_of_a_model_works_where_the_model_does(name):
    by_name, by_model = (charge_path(**FULL_LOAD, air=one) for one in (name, air.choose(name)))
    assert by_name.charge_gain == by_model.charge_gain
    run = read_run(RUN)
    reduced = [reduce_run(run, air=one) for one in (name, air.choose(name))]
    assert [one.air for one in reduced] == [name, name]
    values = [one["compressor_efficiency"].value for one in reduced]
    np.testing.assert_array_equal(*values)


def test_the_models_differ_so_that_a_name_that_is_not_heard_would_show():
    assert len({charge_path(**FULL_LOAD, air=name).charge_gain for name in ("perfect", "ideal", "real")}) == 3


@pytest.mark.parametrize("bad", ["rael", "", 3, 0, False, [], {}, b"real", type(air.choose("perfect")), air])
def test_what_is_no_model_is_refused_in_one_sentence_with_the_names(bad):
    for taken in (lambda: charge_path(**FULL_LOAD, air=bad), lambda: reduce_run(RUN, air=bad)):
        with pytest.raises(OutOfRangeError) as caught:
            taken()
        words = str(caught.value)
        assert "'perfect', 'ideal', 'real', 'moist', 'coolprop'" in words
        assert "found" in words
        assert "\n" not in words
        assert len(words) < 200


def all_that_takes(run):
    """Return what each function that takes a run makes of this one."""
    return {
        "as_run": as_run(run).values.keys(),
        "reduce_run": reduce_run(run).agree,
        "check_run": check_run(run),
        "evaluated": evaluated(run),
        "findings": len(findings(run)),
        "drifts": drifts(run),
        "usual_air": usual_air(run).name,
        "worked": worked(run, "7", "us"),
    }


@pytest.fixture(scope="module")
def made_of_a_run():
    return all_that_takes(read_run(RUN))


@pytest.mark.parametrize("give", [str, Path, lambda folder: folder.name], ids=["folder as text", "folder", "name"])
def test_a_folder_or_a_name_works_where_the_run_does(give, made_of_a_run):
    assert all_that_takes(give(files.shipped("data") / RUN)) == made_of_a_run


def test_a_run_is_taken_as_it_is_and_not_read_again():
    run = read_run(RUN)
    assert as_run(run) is run
    assert reduce_run(run).run is run


@pytest.mark.parametrize("bad", [None, 3, 0, True, b"generator_air_to_air", [], {"run": 1}, np.zeros(3), "no/such/run"])
def test_what_is_no_run_is_refused_in_one_sentence(bad):
    for taken in (reduce_run, check_run, read_run):
        with pytest.raises(RefusedFileError) as caught:
            taken(bad)
        words = str(caught.value)
        assert f"expected a run folder, or a shipped run ({RUN}" in words
        assert "\n" not in words
        assert len(words) < 300


def test_results_in_the_place_of_a_run_are_told_as_what_they_are():
    with pytest.raises(RefusedFileError, match="found \"Reduced 'generator_air_to_air'"):
        check_run(reduce_run(RUN))


def test_a_name_near_that_of_a_shipped_run_is_told_the_nearest():
    with pytest.raises(RefusedFileError, match="The nearest shipped run is 'generator_air_to_air'"):
        reduce_run("generator_air_to_ari")
