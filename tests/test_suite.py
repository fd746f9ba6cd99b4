"""The short suite stays short and says what it leaves out; the whole suite and what is named run whole."""

import ast
import re
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

TESTS = Path(__file__).parent
STARTS = {"subprocess", "multiprocessing", "ProcessPoolExecutor", "NotebookClient", "jupyter_client", "playwright"}
NO_SUITE = {"benchmarks", "long"}
MARKED_BY_FOLDER = {"browser"}
MARKS = {"process", "long"}


def files():
    """Yield the path of each Python file of the suites."""
    yield from (path for path in sorted(TESTS.rglob("*.py")) if path.relative_to(TESTS).parts[0] not in NO_SUITE)


@cache
def module_file(module):
    """Return the file of "tests.lab.page_reader", or None for what is no file of the tests."""
    path = TESTS.parent.joinpath(*module.split(".")).with_suffix(".py")
    return path if module.startswith("tests.") and path.is_file() else None


@cache
def parsed(path):
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def definitions(path):
    """Return name -> its code, for what stands at the top of a file: functions, classes, assigned names."""
    found = {}
    for one in parsed(path).body:
        if isinstance(one, ast.FunctionDef | ast.ClassDef):
            found[one.name] = one
        elif isinstance(one, ast.Assign):
            found |= {target.id: one for target in one.targets if isinstance(target, ast.Name)}
    return found


@cache
def imports(path):
    """Return name -> (module, name there or "") for each import of a file."""
    found = {}
    for node in ast.walk(parsed(path)):
        if isinstance(node, ast.ImportFrom):
            found |= {one.asname or one.name: (node.module, one.name) for one in node.names}
        elif isinstance(node, ast.Import):
            found |= {one.asname or one.name.split(".")[0]: (one.name, "") for one in node.names}
    return found


@cache
def places(path):
    """Return where a file's names may stand: in it, and in each conftest.py above it."""
    return path, *(one for folder in path.parents if (one := folder / "conftest.py").is_file())


def leads_to(path, code):
    """Yield what a piece of code uses: (file, name) among the tests, or the name of a library's way to a process."""
    for node in ast.walk(code):
        name = getattr(node, "id", getattr(node, "arg", None))
        module, there = imports(path).get(name, ("", ""))
        if STARTS & {module.split(".")[0], there}:
            yield "a process"
        elif module_file(module):
            yield module_file(module), there
        elif name:
            yield from ((place, name) for place in places(path) if name in definitions(place))
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            module, there = imports(path).get(node.value.id, ("", ""))
            if module_file(f"{module}.{there}"):
                yield module_file(f"{module}.{there}"), node.attr


def starters():
    """Return every (file, name) at whose end a process is started."""
    uses = {(path, name): set(leads_to(path, code)) for path in files() for name, code in definitions(path).items()}
    found, more = set(), {"a process"}
    while more:
        found |= more
        more = {one for one, used in uses.items() if used & found} - found
    return found - {"a process"}


def marked(path, code):
    """Whether a test, or its whole file, carries one of the marks."""
    places = [*getattr(code, "decorator_list", []), definitions(path).get("pytestmark", ast.Pass())]
    spoken = {node.attr for place in places for node in ast.walk(place) if isinstance(node, ast.Attribute)}
    return bool(spoken & MARKS)


def test_each_test_that_starts_a_process_says_so():
    found = [
        f"{path.relative_to(TESTS)}:{definitions(path)[name].lineno} {name}"
        for path, name in sorted(starters())
        if name.startswith("test_") and path.relative_to(TESTS).parts[0] not in MARKED_BY_FOLDER
        if not marked(path, definitions(path)[name])
    ]
    assert not found, "Mark these with @pytest.mark.process, or ask inside this Python:\n" + "\n".join(found)


SAMPLE = """
import pytest
from hypothesis import given, settings, strategies as st
def test_plain(): pass
@pytest.mark.process
def test_process(): pass
@pytest.mark.process
def test_another(): pass
@pytest.mark.long
def test_long(): pass
@pytest.mark.browser
def test_browser(): pass
def test_drawn(): print("draws", settings().max_examples, settings().derandomize)
"""
LINE = "Left out: 1 browser, 2 process and 1 long tests. Run all of them with: pytest --everything"


@pytest.fixture
def closing(tmp_path):
    """Return ``closing(*arguments)`` -> what pytest says of a small suite with this one's settings."""
    (tmp_path / "tests").mkdir()
    shutil.copy(TESTS.parent / "pyproject.toml", tmp_path)
    shutil.copy(TESTS / "conftest.py", tmp_path / "tests")
    (tmp_path / "tests" / "test_sample.py").write_text(SAMPLE, encoding="utf-8")

    def said(*arguments):
        command = [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "-rP", *arguments]
        return subprocess.run(command, cwd=tmp_path, capture_output=True, encoding="utf-8", timeout=300).stdout

    return said


@pytest.mark.process
@pytest.mark.parametrize(
    ("arguments", "passed", "draws"),
    [
        ([], 2, 25),
        (["-n", "0"], 2, 25),
        (["--everything"], 6, 100),
        (["tests/test_sample.py"], 6, 25),
        (["tests"], 6, 25),
        (["-m", "process", "-n", "0"], 2, None),
        (["-m", "not browser", "-n", "0"], 5, 25),
    ],
    ids=["plain", "plain in one process", "everything", "a file", "a folder", "a mark", "not a mark"],
)
def test_what_runs_is_what_was_asked_for(closing, arguments, passed, draws):
    said = closing(*arguments)
    assert re.search(rf"\b{passed} passed", said), said
    assert (LINE in said) == (arguments in ([], ["-n", "0"]))
    assert draws is None or f"draws {draws} True" in said
    assert ("workers" in said) == (arguments in ([], ["--everything"], ["tests"]))
