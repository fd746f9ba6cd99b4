"""The built wheel works by itself: in a folder with spaces and other letters, with no checkout and no network."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tests.wheel import ROOT, built, unpacked

NO_NETWORK = """\
import socket
def refuse(self, address, *rest):
    raise OSError(f"the test allows no network, but something called {address}")
socket.socket.connect = refuse
"""


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    return built(tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """The wheel unpacked by pip into a folder with spaces and non-ASCII letters, ahead of any checkout on the path."""
    target = unpacked(wheel, tmp_path_factory.mktemp("kit") / "Werkstatt Üben" / "site")
    (target / "sitecustomize.py").write_text(NO_NETWORK, encoding="utf-8")
    return target


@pytest.fixture
def turbomath(installed, tmp_path):
    folder = tmp_path / "Prüfstand zwei"
    folder.mkdir()

    def run(*arguments):
        environment = {**os.environ, "PYTHONPATH": str(installed)}
        return subprocess.run(
            [sys.executable, *arguments],
            cwd=folder,
            env=environment,
            capture_output=True,
            encoding="utf-8",
            timeout=120,
        )

    run.folder = folder
    return run


@pytest.mark.process
def test_the_wheel_holds_lessons_data_and_licence_under_turbomath(wheel):
    names = zipfile.ZipFile(wheel).namelist()
    tops = {name.split("/")[0]: Path(name.split("/")[0]).suffix for name in names}
    assert sorted(tops.values()) == ["", ".data", ".dist-info"], "only what is the kit's own"
    assert "turbomath" in tops
    for wanted in (
        "turbomath/data/generator_air_to_air/readings.csv",
        "turbomath/data/README.md",
        "turbomath/data/examples/boost_sweep.py",
        "turbomath/py.typed",
        "turbomath/paper/record.html",
        "turbomath/lessons/teaching_notes/",
    ):
        assert any(name.startswith(wanted) for name in names), wanted
    for wanted in (
        "licenses/turbomath/LICENSE",
        ".data/data/share/jupyter/labextensions/turbomath-classroom/package.json",
        ".data/data/share/jupyter/lab/settings/overrides.d/turbomath.json",
        ".data/data/etc/jupyter/jupyter_server_config.d/turbomath.json",
    ):
        assert any(name.endswith(wanted) for name in names), wanted


@pytest.mark.process
def test_it_is_the_wheel_that_runs(turbomath, installed):
    done = turbomath("-c", "import turbomath, turbomath.disk.files as f; print(turbomath.__file__, f.shipped('data'))")
    module, data = done.stdout.split(" " + str(installed))[0], done.stdout
    assert str(installed) in module
    assert str(installed / "turbomath" / "data") in data


@pytest.mark.process
def test_the_main_job_runs_from_the_wheel_without_a_network(turbomath):
    done = turbomath("-m", "turbomath", "report", "generator_air_to_air")
    assert done.returncode == 0, done.stderr
    assert done.stdout.count("yes") >= 6
    assert (turbomath.folder / "generator_air_to_air-report" / "reduced.csv").stat().st_size > 1000


@pytest.mark.process
def test_the_network_guard_works(turbomath):
    done = turbomath("-c", "import socket; socket.create_connection(('127.0.0.1', 9))")
    assert "allows no network" in done.stderr


def test_the_readme_names_the_commands_that_ci_runs():
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    install, whole = '.venv/bin/python -m pip install -e ".[test]"', ".venv/bin/python -m pytest --everything"
    assert f"{install} && .venv/bin/python -m pytest\n" in readme
    assert f"{whole}\n" in readme
    assert f"\n{install}\n" in script
    assert script.endswith(f"\n{whole}\n")
