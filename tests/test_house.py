"""The house keeps its shape: imports run downwards, each outside library has one owner, importing stays light."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import turbomath

HOUSE = Path(turbomath.__file__).parent
FILES = sorted(path.relative_to(HOUSE) for path in HOUSE.rglob("*.py"))

# Room (a folder, or a file in the house itself) -> floor. Rooms on one floor do not know each other, but for floor 0.
FLOORS = {
    "quantities": 0, "constants": 0, "sources": 0, "formulas": 0, "cautions": 0, "errors": 0,
    "units": 1, "unit_spellings": 1, "files": 1, "plain_files": 1, "journal": 1, "physics": 1,
    "air": 2, "uncertainty": 2,
    "engine": 3,
    "working": 4, "pictures": 4, "paper": 4,
    "lab": 5, "homework": 5,
    "widgets": 6, "classroom": 6,
    "cli": 7, "__main__": 8, "__init__": 0,
}  # fmt: skip
OPEN_FROM = {"units": 4}  # below it everything is SI
PAIRS = {("units", "unit_spellings")}  # one room in two files

OWNERS = {
    "CoolProp": {"air/coolprop.py"},
    "matplotlib": {"pictures/printed.py"},
    "ipywidgets": {"widgets"},
    "anywidget": {"widgets"},
    "pint": {"units.py"},
    "jinja2": {"paper"},
    "latex2mathml": {"paper"},
    "pandas": {"lab"},
    "openpyxl": {"lab/workbook.py"},
    "scipy": {"uncertainty.py"},
}


def room(path):
    return path.parts[0].removesuffix(".py")


def imports(path):
    """Yield (module, is it at the top of the file) for each import."""
    tree = ast.parse((HOUSE / path).read_text(encoding="utf-8"))
    top = set(tree.body)
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node in top) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: write imports in full"
            yield node.module, node in top
            yield from ((f"{node.module}.{alias.name}", node in top) for alias in node.names)


@pytest.mark.parametrize("path", FILES, ids=str)
def test_imports_run_downwards(path):
    mine = room(path)
    assert mine in FLOORS, f"{mine} has no floor yet"
    for module, _ in imports(path):
        parts = module.split(".")
        if parts[0] != "turbomath" or len(parts) < 2 or parts[1] not in FLOORS or parts[1] == mine:
            continue
        other = parts[1]
        if (mine, other) in PAIRS or FLOORS[mine] == FLOORS[other] == 0:
            continue
        assert FLOORS[other] < FLOORS[mine], f"{path} imports {module} from floor {FLOORS[other]}"
        assert FLOORS[mine] >= OPEN_FROM.get(other, 0), f"{path} opens {other}, which is for higher floors"


@pytest.mark.parametrize("path", FILES, ids=str)
def test_each_outside_library_has_one_owner(path):
    for module, top in imports(path):
        library = module.split(".")[0]
        if library in OWNERS:
            allowed = OWNERS[library]
            assert path.as_posix() in allowed or room(path) in allowed, f"{path} imports {library}"
        if library in {"pandas", "scipy", "pint", "CoolProp", "openpyxl"}:
            assert not top, (
                f"{path} imports {library} at the top of the file; it is slow, so import it where it is used"
            )


def test_importing_turbomath_loads_nothing_heavy():
    heavy = ("CoolProp", "matplotlib", "pandas", "pint", "ipywidgets", "scipy")
    modules = "turbomath, turbomath.air, turbomath.engine.path, turbomath.units, turbomath.uncertainty, turbomath.cli"
    code = f"import sys, {modules}; print([name for name in {heavy} if name in sys.modules])"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert loaded.strip() == "[]"


@pytest.mark.parametrize("path", FILES, ids=str)
def test_files_stay_small(path):
    lines = len((HOUSE / path).read_text(encoding="utf-8").splitlines())
    assert lines <= (400 if path.name == "quantities.py" else 300)
