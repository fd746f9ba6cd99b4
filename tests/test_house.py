"""The house keeps its shape: imports run downwards, each outside library has one owner, importing stays light."""

import ast
import functools
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

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
    "sobol": 1,
    "air": 2,
    "uncertainty": 2,
    "engine": 3,
    "working": 4,
    "pictures": 4,
    "paper": 4,
    "handbook": 5.0,
    "lab/run": 5.0,
    "lab/reduction": 5.1,
    "lab/record": 5.1,
    "lab/checks": 5.2,
    "lab/verdicts": 5.25,
    "lab/entry": 5.3,
    "lab/faults": 5.3,
    "lab/report": 5.4,
    "lab/several": 5.5,
    "lab": 5.6,
    "homework/bank": 5.0,
    "homework/asking": 5.1,
    "homework/marking": 5.2,
    "homework/course": 5.3,
    "homework": 5.4,
    "offline": 5.0,
    "widgets": 6,
    "classroom": 6,
    "panels": 7,
    "handouts": 7.5,
    "pocket": 7.6,
    "cli": 8,
    "__main__": 9,
    "__init__": 9,
}
FLOORS |= {f"panels/{one.name}": 6.5 for one in (HOUSE / "panels").iterdir() if (one / "__init__.py").is_file()}
OPEN_FROM = {"units": 4}  # below it everything is SI

OWNERS = {
    "numpy": {"every room"},
    "CoolProp": {"air/coolprop.py"},
    "ipywidgets": {"widgets", "panels"},
    "anywidget": {"widgets"},
    "traitlets": {"widgets"},
    "pint": {"units/door.py"},
    "jinja2": {"paper"},
    "markupsafe": {"paper", "classroom", "pocket"},
    "latex2mathml": {"paper"},
    "pandas": {"paper/records.py"},
    "openpyxl": {"lab/run/workbook.py"},
    "odfdo": {"lab/run/opendocument.py"},
    "packaging": {"offline"},
    "serial": {"lab/serial_log.py"},
    "jupyter_core": {"classroom"},
    "jupyter_server": {"classroom"},
    "jupyterlab": {"classroom"},
    "nbconvert": {"paper/markdown.py"},
    "tornado": {"classroom"},
}
SLOW = {"nbconvert", "pandas", "pint", "CoolProp", "openpyxl", "odfdo", "serial"}  # imported where they are used
SOLD_AS = {
    "jupyter_server": "jupyterlab",
    "nbconvert": "jupyterlab",
    "packaging": "jupyterlab",
    "serial": "pyserial",
    "tornado": "jupyterlab",
    "traitlets": "ipywidgets",
}  # under whose name it comes
BY_STRING = {"import_module", "__import__", "exec", "eval", "opened_at"}
LONGEST = 300
MARK = re.compile(r"fmt: *(off|skip)")
MARKS_ALLOWED = 40  # places where a table is laid out by hand


def files():
    """Yield the path of each Python file of the package, from the house."""
    yield from sorted(path.relative_to(HOUSE) for path in HOUSE.rglob("*.py"))


@functools.cache
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


# Sizes of units, as books print them; NIST SP 811, appendix B.8, and the zeros of the temperature scales.
FACTORS = {
    *(6894.757, 6.894757, 6.895, 3386.389, 3.386389, 3.386, 133.322, 0.1333, 249.089, 0.249089, 0.491, 0.4912, 0.0361),
    *(0.45359237, 0.453592, 0.45359, 0.4536, 2.20462, 2.2046, 2.205, 0.3048, 3.28084, 3.281, 25.4, 0.0254),
    *(745.6999, 745.7, 0.7457, 1.341, 1055.056, 1055.06, 1.055, 1.35582, 1.3558, 4.44822, 5252, 9549, 9549.3),
    *(28.3168, 28.317, 0.0283168, 7.4805, 7.481, 7.48, 0.1337, 3.785412, 3.785, 16.0185, 16.02, 0.0624, 0.062428),
    *(459.67, 460, 273.15, 273),
}
DEGREES = 1.8  # °F to the K: a factor where it multiplies or divides
FACTORS_ALLOWED = {
    "table/constants.py": "the zero of the Celsius scale, which published formulas count from",
    "homework/bank/shop_numbers.py": "what students put in on purpose, as the shop prints it",
    "lab/self_check.py": "a published size that the units are checked against",
}


def factors(path, tree):
    """Yield the sizes of units that stand in a file as numbers, instead of being asked of `units`."""
    if path.parts[0] == "units" or path.as_posix() in FACTORS_ALLOWED:
        return
    scaled = {part for node in ast.walk(tree) if isinstance(node, ast.BinOp) for part in _scaling(node)}
    for node in ast.walk(tree):
        number = node.value if isinstance(node, ast.Constant) and type(node.value) in (int, float) else None
        if number in FACTORS or (number == DEGREES and node in scaled):
            yield f"{path}:{node.lineno} holds the size of a unit, {number}: ask turbomath.units"


def _scaling(node):
    """Return the numbers that a product or a quotient takes, either of two by a condition too."""
    sides = (node.left, node.right) if isinstance(node.op, ast.Mult | ast.Div) else ()
    return [part for side in sides for part in ([side.body, side.orelse] if isinstance(side, ast.IfExp) else [side])]


# Rooms open when they are first asked for, by the one door of `table`; so do the models of air.
BY_STRING_ALLOWED = {"table/doors.py", "air/__init__.py"}


def laid_out_by_hand(text):
    """Yield (line, does it give its reason, is it a constant table) for each mark that keeps the formatter away."""
    lines = text.splitlines()
    tables = [node for node in ast.parse(text).body if is_table(node)]
    for number, line in enumerate(lines, start=1):
        mark = MARK.search(line)
        if mark is None:
            continue
        # the formatter takes `off` only from a comment of nothing else, so its reason stands on the line above
        reason = lines[number - 2] if mark[1] == "off" and number > 1 else line[mark.end() :]
        start = number + 1 if mark[1] == "off" else number
        yield number, "#" in reason and len(reason.split()) > 3, any(t.lineno <= start <= t.end_lineno for t in tables)


def is_table(node):
    """Whether a statement gives a constant its value."""
    targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
    return all(isinstance(one, ast.Name) and one.id.isupper() for one in targets)


def declared():
    """Return the import names of what pyproject.toml declares."""
    project = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extra = project["optional-dependencies"]["serial"]
    names = {re.match(r"[\w-]+", one)[0].lower().replace("-", "_") for one in (*project["dependencies"], *extra)}
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


def test_units_have_one_door():
    assert offenders(factors) == []
    assert all(list(factors(Path("elsewhere.py"), parsed(path))) for path in map(Path, FACTORS_ALLOWED))


def test_what_breaks_the_house_is_seen():
    planted = {
        upward: ("physics/charge.py", "from turbomath.units import to_si"),
        unowned: ("lab/run/bench.py", "import requests"),
        hidden: ("lab/run/bench.py", "import importlib\nimportlib.import_module('turbomath.cli')"),
    }
    for rule, (path, code) in planted.items():
        assert list(rule(Path(path), ast.parse(code))), rule.__name__
    for code in ("psi = 6.894757", "rise * 1.8", "rise / (1.8 if us else 1.0)", "ZERO = {'us': 459.67}", "t + 460"):
        assert list(factors(Path("lab/run/bench.py"), ast.parse(code))), code
    assert not list(factors(Path("lab/run/bench.py"), ast.parse("hydrogen_carbon_ratio = 1.8")))
    assert list(hidden(Path("lab/run/bench.py"), ast.parse("try:\n    import json\nexcept ImportError:\n    pass")))
    assert list(upward(Path("panels/live_lab/lab.py"), ast.parse("from turbomath.panels.homework import sheet")))
    assert list(hidden(Path("engine/path.py"), ast.parse("opened_at('turbomath.units:to_si')")))
    assert list(upward(Path("lab/run/bench.py"), ast.parse("from turbomath.lab.report import written")))
    assert list(unowned(Path("lab/run/bench.py"), ast.parse("import cantera")))


@pytest.mark.process
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


def test_only_constant_tables_are_laid_out_by_hand_and_each_says_why():
    marks = {path: list(laid_out_by_hand((HOUSE / path).read_text(encoding="utf-8"))) for path in files()}
    assert [f"{path}:{number} gives no reason" for path in files() for number, said, _ in marks[path] if not said] == []
    assert [f"{path}:{number} is no table" for path in files() for number, _, table in marks[path] if not table] == []
    assert sum(map(len, marks.values())) <= MARKS_ALLOWED


def test_a_mark_without_a_reason_or_a_table_is_seen():
    code = """# the columns of the table line up
# fmt: off
ROWS = (1,  2)
# fmt: on
LOW = (3,  4)  # fmt: skip
HIGH = (5,  6)  # fmt: skip  # the columns line up

# fmt: off
def sum():
    return 1  +  1
"""
    assert list(laid_out_by_hand(code)) == [(2, True, True), (5, False, True), (6, True, True), (8, False, False)]
