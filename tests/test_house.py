"""The house keeps its shape: imports run downwards, each outside library has one owner, importing stays light."""

import ast
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import turbomath

HOUSE = Path(turbomath.__file__).parent
PROJECT = HOUSE.parent

# Room -> floor. A room is a folder, a file in the house itself, or a folder inside `lab`, `homework` and `panels`.
# Inside one room imports are free; between rooms they run from a higher floor to a strictly lower one.
FLOORS = {
    "table": 0,
    "units": 1,
    "disk": 1,
    "physics": 1,
    "air": 2,
    "uncertainty": 2,
    "engine": 3,
    "working": 4,
    "pictures": 4,
    "paper": 4,
    "lab/run": 5.0,
    "lab/reduction": 5.1,
    "lab/checks": 5.2,
    "lab/verdicts": 5.25,
    "lab/entry": 5.3,
    "lab/report": 5.4,
    "lab/several": 5.5,
    "lab": 5.6,
    "homework/bank": 5.0,
    "homework/asking": 5.1,
    "homework/marking": 5.2,
    "homework/course": 5.3,
    "homework": 5.4,
    "widgets": 6,
    "classroom": 6,
    "panels": 7,
    "cli": 8,
    "__main__": 9,
    "__init__": 9,
}
FLOORS |= {f"panels/{one.name}": 6.5 for one in (HOUSE / "panels").iterdir() if (one / "__init__.py").is_file()}
OPEN_FROM = {"units": 4}  # below it everything is SI

OWNERS = {
    "numpy": {"every room"},
    "CoolProp": {"air/coolprop.py"},
    "matplotlib": {"pictures/printed.py"},
    "ipywidgets": {"widgets", "panels"},
    "anywidget": {"widgets"},
    "traitlets": {"widgets"},
    "pint": {"units/door.py"},
    "jinja2": {"paper"},
    "markupsafe": {"paper"},
    "latex2mathml": {"paper"},
    "pandas": {"lab"},
    "openpyxl": {"lab/run/workbook.py"},
    "scipy": {"uncertainty.py"},
    "jupyter_core": {"classroom"},
    "jupyter_server": {"classroom"},
    "jupyterlab": {"classroom"},
}
SLOW = {"pandas", "scipy", "pint", "CoolProp", "openpyxl"}  # imported where they are used
SOLD_AS = {"jupyter_server": "jupyterlab", "traitlets": "ipywidgets"}  # part of what that library promises
BY_STRING = {"import_module", "__import__", "exec", "eval"}
LONGEST = 300


def files():
    """Yield the path of each Python file of the package, from the house."""
    yield from sorted(path.relative_to(HOUSE) for path in HOUSE.rglob("*.py"))


def parsed(path):
    return ast.parse((HOUSE / path).read_text(encoding="utf-8"))


def room(parts):
    """Return the room of a file or module given as its parts below the house."""
    parts = [part.removesuffix(".py") for part in parts]
    return next((name for name in ("/".join(parts[:2]), parts[0]) if name in FLOORS), parts[0])


def imports(tree):
    """Yield (module, is it at the top of the file) for each import; a relative one begins with a point."""
    top = set(tree.body)
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node in top) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            module = "." * node.level + (node.module or "")
            yield from ((f"{module}.{alias.name}", node in top) for alias in node.names)


def upward(path, tree):
    """Yield the imports of a file that do not run downwards."""
    mine = room(path.parts)
    if mine not in FLOORS:
        yield f"{path}: {mine} has no floor yet"
        return
    for module, _ in imports(tree):
        if module.startswith("."):
            yield f"{path}: write imports in full"
        parts = module.split(".")
        if parts[0] != "turbomath" or len(parts) < 2 or room(parts[1:]) not in FLOORS:
            continue
        other = room(parts[1:])
        if other != mine and (FLOORS[other] >= FLOORS[mine] or FLOORS[mine] < OPEN_FROM.get(other, 0)):
            yield f"{path} (floor {FLOORS[mine]}) imports {module} (floor {FLOORS[other]})"


def unowned(path, tree):
    """Yield the imports of outside libraries that a file has no right to, or makes too early."""
    for module, top in imports(tree):
        library = module.split(".")[0]
        if library in sys.stdlib_module_names or library in {"turbomath", ""}:
            continue
        allowed = OWNERS.get(library, set())
        if not allowed & {path.as_posix(), path.parts[0], "every room"}:
            yield f"{path} imports {library}, which is not its own"
        if library not in declared():
            yield f"{path} imports {library}, which pyproject.toml does not declare"
        if library in SLOW and top:
            yield f"{path} imports {library} at the top of the file; it is slow, so import it where it is used"


def hidden(path, tree):
    """Yield imports by string, and imports inside `try:`, which the other rules would not see or not believe."""
    for node in ast.walk(tree):
        name = node.func if isinstance(node, ast.Call) else None
        called = getattr(name, "id", getattr(name, "attr", ""))
        if called in BY_STRING and path.as_posix() not in BY_STRING_ALLOWED:
            yield f"{path}:{node.lineno} imports or runs by string: {called}"
        if isinstance(node, ast.Try):
            inside = [one for part in node.body for one in ast.walk(part)]
            yield from (
                f"{path}:{one.lineno} imports inside try"
                for one in inside
                if isinstance(one, ast.Import | ast.ImportFrom)
            )


# The front door opens rooms when they are first asked for; the models of air are so too.
BY_STRING_ALLOWED = {"__init__.py", "air/__init__.py"}


def declared():
    """Return the import names of what pyproject.toml declares."""
    project = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    names = {re.match(r"[\w-]+", one)[0].lower().replace("-", "_") for one in project["dependencies"]}
    found = {library for library in OWNERS if library.lower() in names}
    return found | {library for library, seller in SOLD_AS.items() if seller in names}


def offenders(rule):
    return [said for path in files() for said in rule(path, parsed(path))]


def test_imports_run_downwards():
    assert offenders(upward) == []


def test_each_outside_library_has_one_owner_and_is_declared():
    assert offenders(unowned) == []


def test_no_import_hides():
    assert offenders(hidden) == []


def test_what_breaks_the_house_is_seen():
    planted = {
        upward: ("physics/charge.py", "from turbomath.units import to_si"),
        unowned: ("lab/run/bench.py", "import requests"),
        hidden: ("lab/run/bench.py", "import importlib\nimportlib.import_module('turbomath.cli')"),
    }
    for rule, (path, code) in planted.items():
        assert list(rule(Path(path), ast.parse(code))), rule.__name__
    assert list(hidden(Path("lab/run/bench.py"), ast.parse("try:\n    import json\nexcept ImportError:\n    pass")))
    assert list(upward(Path("panels/live_lab/lab.py"), ast.parse("from turbomath.panels.homework import sheet")))
    assert list(upward(Path("lab/run/bench.py"), ast.parse("from turbomath.lab.report import written")))
    assert list(unowned(Path("lab/run/bench.py"), ast.parse("import cantera")))


def test_importing_turbomath_loads_nothing_heavy():
    heavy = ("CoolProp", "matplotlib", "pandas", "pint", "ipywidgets", "scipy")
    modules = "turbomath, turbomath.air, turbomath.engine.path, turbomath.units, turbomath.uncertainty, turbomath.cli"
    code = f"import sys, {modules}; print([name for name in {heavy} if name in sys.modules])"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert loaded.strip() == "[]"


def test_files_stay_small():
    lines = {path.as_posix(): len((HOUSE / path).read_text(encoding="utf-8").splitlines()) for path in files()}
    tables = {"table/quantities.py": 400}  # one row a quantity
    assert {name: count for name, count in lines.items() if count > tables.get(name, LONGEST)} == {}
