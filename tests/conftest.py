"""A plain `pytest` is the short suite; `pytest --everything` runs all and draws more random cases.

What is named, as a file, a folder or by `-m`, runs whole. Random tests draw the same cases on every machine, and no
case fails for being slow.
"""

import os
import sys
from collections import Counter

import pytest
from hypothesis import settings

LEFT_OUT = ("browser", "process", "long")  # the marks that pyproject.toml explains
MOST_WORKERS = 4  # each may hold a browser, a server and its kernels

settings.register_profile("short", deadline=None, derandomize=True, max_examples=25)
settings.register_profile("whole", deadline=None, derandomize=True, max_examples=100)
counts = pytest.StashKey[dict]()


def pytest_addoption(parser):
    parser.addoption("--everything", action="store_true", help="run the browser, process and long tests too")


@pytest.hookimpl(tryfirst=True)
def pytest_cmdline_main(config):
    """Share a run among the processors, but for named files: they end sooner than workers start."""
    option, named = config.option, config.args_source is config.ArgsSource.ARGS
    option.short = not (option.everything or option.markexpr or named)
    small = option.collectonly or (named and all(".py" in argument for argument in config.args))
    if option.numprocesses is None and controls(config) and not small:
        option.numprocesses, option.dist = "logical", "worksteal"
        option.maxprocesses = option.maxprocesses or MOST_WORKERS


def pytest_configure(config):
    sys.dont_write_bytecode = False  # hundreds of processes import the kit: one of them compiles it
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.environ["COLUMNS"] = "100"  # the same terminal in every process, whatever it is started from
    settings.load_profile("whole" if config.option.everything else "short")
    config.stash[counts] = {}


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config, items):
    if config.option.short:
        found = [(item, next(filter(item.get_closest_marker, LEFT_OUT), None)) for item in items]
        config.hook.pytest_deselected(items=[item for item, mark in found if mark])
        items[:] = [item for item, mark in found if not mark]
        config.stash[counts] = dict(Counter(mark for _, mark in found if mark))


def pytest_sessionfinish(session):
    if not controls(session.config):
        session.config.workeroutput["left out"] = session.config.stash[counts]


def pytest_testnodedown(node):
    node.config.stash[counts] = getattr(node, "workeroutput", {}).get("left out", {})


def pytest_terminal_summary(terminalreporter, config):
    found = config.stash[counts]
    if found:
        parts = [f"{found[mark]} {mark}" for mark in LEFT_OUT if mark in found]
        words = " and ".join([", ".join(parts[:-1])] * (len(parts) > 1) + parts[-1:])
        terminalreporter.write_line(f"Left out: {words} tests. Run all of them with: pytest --everything")


def controls(config):
    """Whether this is the pytest that was started, not one of its workers."""
    return not hasattr(config, "workerinput")
