"""Type hints: public functions have them, a checker finds them true, and they reach a user through the front door."""

import ast
import subprocess
import sys

import pytest

from tests.test_house import PROJECT, files, parsed

AS_A_USER = """\
import turbomath

reveal_type(turbomath.read_run)
reveal_type(turbomath.reduce_run)
reveal_type(turbomath.QUANTITIES)
turbomath.charge_paht
turbomath.reduce_run(3)
turbomath.reduce_run("x").to_frame("metric")
"""


def unhinted(path):
    """Yield the public functions and methods of a file that lack a hint for a parameter or for what they return."""
    yield from _unhinted(parsed(path).body, f"{path}:")


def _unhinted(body, place, in_class=False):
    for one in body:
        if isinstance(one, ast.ClassDef) and not one.name.startswith("_"):
            yield from _unhinted(one.body, f"{place}{one.name}.", in_class=True)
        if isinstance(one, ast.FunctionDef) and not one.name.startswith("_"):
            first = int(in_class and "staticmethod" not in map(ast.unparse, one.decorator_list))
            taken = one.args
            given = [*taken.posonlyargs, *taken.args][first:] + taken.kwonlyargs
            given += [rest for rest in (taken.vararg, taken.kwarg) if rest]
            bare = [argument.arg for argument in given if argument.annotation is None]
            if bare or one.returns is None:
                yield f"{place}{one.name}({', '.join(bare)})" + ("" if one.returns else " -> ?")


def test_every_public_function_has_hints():
    assert [said for path in files() for said in unhinted(path)] == []


def test_what_lacks_a_hint_is_seen():
    code = """
def whole(a: int, *rest: int, b: int = 1, **more: int) -> None: ...
def no_return(a: int): ...
def no_parameter(a, *, b) -> None: ...
def no_rest(*rest, **more) -> None: ...
def _private(a): ...
class One:
    def whole(self, a: int) -> None: ...
    def method(self, a) -> None: ...
    @staticmethod
    def static(a) -> None: ...
    @property
    def read(self): ...
class _Hidden:
    def method(self, a): ...
"""
    assert list(_unhinted(ast.parse(code).body, "")) == [
        "no_return() -> ?",
        "no_parameter(a, b)",
        "no_rest(rest, more)",
        "One.method(a)",
        "One.static(a)",
        "One.read() -> ?",
    ]


@pytest.fixture(scope="module")
def checked(tmp_path_factory):
    """Return what mypy says of a file or a folder, seen from a folder; what it has read serves the next call."""
    memory = tmp_path_factory.mktemp("mypy")

    def said(target, folder):
        command = [sys.executable, "-m", "mypy", str(target), "--config-file", str(PROJECT / "pyproject.toml")]
        done = subprocess.run([*command, "--cache-dir", str(memory)], cwd=folder, capture_output=True, text=True)
        return done.returncode, done.stdout + done.stderr

    return said


@pytest.mark.process
def test_the_hints_of_the_package_are_true(checked):
    code, said = checked("turbomath", PROJECT)
    assert code == 0, said


@pytest.mark.process
def test_hints_reach_a_user_through_the_front_door(checked, tmp_path):
    (tmp_path / "mine.py").write_text(AS_A_USER, encoding="utf-8")
    code, said = checked("mine.py", tmp_path)
    lines = said.splitlines()
    assert code == 1
    assert "-> turbomath.lab.run.one_run.Run" in lines[0]
    assert "-> turbomath.lab.reduction" in lines[1]
    assert '"dict[str, turbomath.table.quantities.Quantity]"' in lines[2]
    assert 'Module has no attribute "charge_paht"; maybe "charge_path"?' in lines[3]
    assert 'Argument 1 to "reduce_run" has incompatible type "int"' in lines[4]
    assert "Literal['metric']" in lines[5]
    assert said.count(" error: ") == 3
