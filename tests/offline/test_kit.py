"""The kit for a PC without a network: what goes in, what its scripts look like on each system, what is refused.

That it installs where there is no network is tried in tests/long/test_offline_kit.py.
"""

import re
import shutil
import subprocess
import sys
import zipfile
from types import SimpleNamespace

import pytest
from pygments.lexers import BatchLexer, PowerShellLexer
from pygments.token import Error

from turbomath import cli
from turbomath.offline import kit, platforms, start, wheels

WINDOWS, LINUX = platforms.MACHINES["windows"], platforms.MACHINES["linux"]


@pytest.fixture
def scripts(tmp_path):
    folder = tmp_path / "Werkstatt (2) & Büro"
    folder.mkdir()
    kit.scripts(folder, ["3.11", "3.12"])
    return folder


def wheel(folder, name, *needs):
    """Write a wheel that holds nothing but what it needs, in the core metadata of PyPA."""
    told = "".join(f"Requires-Dist: {need}\n" for need in needs)
    with zipfile.ZipFile(folder / f"{name}-1.0-py3-none-any.whl", "w") as made:
        made.writestr(f"{name}-1.0.dist-info/METADATA", f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n{told}")


def test_each_script_has_the_line_ends_of_its_system_and_names_the_pythons(scripts):
    for name in ("start.cmd", "start.ps1"):
        text = (scripts / name).read_bytes()
        assert text.count(b"\n") == text.count(b"\r\n") > 5, name
    for name in ("start.sh", "start.command", "start.py"):
        assert b"\r" not in (scripts / name).read_bytes(), name
    for name in ("start.cmd", "start.ps1", "start.sh"):
        text = (scripts / name).read_text(encoding="utf-8")
        assert "3.11 or 3.12" in text
        assert text.isascii(), f"{name}: a console of Windows has its own code page"
        assert not re.search(r"\{(pythons|either)\}", text)


@pytest.mark.parametrize(("name", "lexer"), [("start.cmd", BatchLexer), ("start.ps1", PowerShellLexer)])
def test_the_scripts_of_windows_parse_and_quote_every_path(scripts, name, lexer):
    text = (scripts / name).read_text(encoding="utf-8")
    assert [value for kind, value in lexer().get_tokens(text) if kind is Error] == []
    for line in text.splitlines():
        assert line.count('"') % 2 == 0, line
        for place in re.finditer(r"%~dp0|\$start(?! =)", line):
            assert line[: place.start()].count('"') % 2 == 1, f"not in quotes: {line}"
    if name == "start.cmd":
        inside = re.findall(r"\([^()]*%(?:~dp0|\*)", text)
        assert inside == [], "a bracket in a path would end a block"
        labels = set(re.findall(r"^:(\w+)", text, re.MULTILINE))
        assert set(re.findall(r"goto (\w+)", text)) == labels


@pytest.mark.process
def test_on_linux_and_macos_it_starts_from_any_folder_with_what_was_asked(scripts):
    (scripts / "start.py").write_text("import sys; print(sys.argv)", encoding="utf-8")
    shell = shutil.which("sh")
    asked = [shell, str(scripts / "start.sh"), "report", "my run; $HOME"]
    done = subprocess.run(asked, capture_output=True, encoding="utf-8", cwd="/")
    assert done.stdout == f"{[str(scripts / 'start.py'), 'report', 'my run; $HOME']}\n"
    (scripts / "start.sh").write_text((scripts / "start.sh").read_text().replace("3.11 3.12", "2.6"))
    done = subprocess.run(asked, capture_output=True, encoding="utf-8", cwd="/")
    assert done.returncode == 1
    assert done.stderr == "This needs Python 3.11 or 3.12, 64 bit. Install it, then start this again.\n"


def test_what_a_wheel_needs_on_windows_alone_is_missed_there_and_nowhere_else(tmp_path):
    wheel(tmp_path, "shell", 'pywinpty>=2; os_name == "nt"', 'ptyprocess; os_name != "nt"', 'docs; extra == "docs"')
    wheel(tmp_path, "older", 'tomli; python_version < "3.11"', "Shell>=1", 'appnope; platform_system == "Darwin"')
    assert wheels.missing(tmp_path, WINDOWS, "3.11") == {"pywinpty>=2"}
    assert wheels.missing(tmp_path, LINUX, "3.12") == {"ptyprocess"}
    assert wheels.missing(tmp_path, platforms.MACHINES["macos"], "3.11") == {"ptyprocess", "appnope"}


def test_a_kit_for_several_pcs_fetches_for_each_by_itself_and_holds_all(tmp_path, monkeypatch):
    def fetch(own, folder, machine, python):
        assert list(folder.iterdir()) == []
        for name in (f"{machine.sys_platform}_{python.replace('.', '')}", "common"):
            wheel(folder, name)

    monkeypatch.setattr(wheels, "fetch", fetch)
    made = kit.write(tmp_path / "kit", ["windows", "macos"], ["3.11", "3.13"])
    held = {path.name.partition("-")[0] for path in (made / "wheels").iterdir()}
    assert held == {"turbomath", "common", "win32_311", "win32_313", "darwin_311", "darwin_313"}
    assert {path.name for path in made.iterdir()} == {
        *("wheels", "lessons", "data", "kit.json", "README.html"),
        *("start.py", "start.cmd", "start.ps1", "start.sh", "start.command"),
    }
    words = (made / "README.html").read_text(encoding="utf-8")
    assert "start.cmd" in words
    assert "right button" in words
    assert "in a terminal" not in words, "of Linux nothing was asked"


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("ERROR: No matching distribution found for CoolProp>=7.2\n", "There is no wheel of CoolProp>=7.2 for Windows"),
        ("x: No module named pip\n", "python -m ensurepip"),
        ("WARNING: retrying\nERROR: Could not reach it\nhint\n", "pip could not fetch the wheels: Could not reach it."),
    ],
)
def test_what_pip_refuses_is_one_sentence_and_leaves_no_kit(tmp_path, monkeypatch, capsys, said, told):
    monkeypatch.setattr(wheels.subprocess, "run", lambda *a, **k: SimpleNamespace(returncode=1, stderr=said))
    assert cli.main(["offline-kit", str(tmp_path / "kit"), "--platform", "windows", "--python", "3.12"]) == 1
    error = capsys.readouterr().err
    assert told in error
    assert error.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("more", "told"),
    [(["--platform", "amiga"], "'windows', 'macos', 'macos-intel', 'linux'"), (["--python", "2.7"], "'3.11', '3.12'")],
)
def test_an_unknown_pc_or_python_is_refused_with_the_list(tmp_path, capsys, more, told):
    assert cli.main(["offline-kit", str(tmp_path / "kit"), *more]) == 1
    assert told in capsys.readouterr().err


def test_a_folder_in_use_is_refused_and_stays(tmp_path, capsys):
    (tmp_path / "mine.txt").write_text("work", encoding="utf-8")
    assert cli.main(["offline-kit", str(tmp_path)]) == 1
    assert "expected a new folder" in capsys.readouterr().err
    assert (tmp_path / "mine.txt").read_text(encoding="utf-8") == "work"


def test_the_start_refuses_a_python_that_the_kit_is_not_for_and_a_path_too_long_for_windows(tmp_path, monkeypatch):
    mine = f"{start.system()} with Python {'{}.{}'.format(*sys.version_info)}"
    (tmp_path / "wheels").mkdir()
    wheel(tmp_path / "wheels", "a" * 60)
    monkeypatch.setattr(start, "HERE", tmp_path)
    monkeypatch.setattr(start, "INSTALLED", tmp_path / "installed")
    assert start.unfit({"for": [mine]}) == ""
    assert start.unfit({"for": ["Windows with Python 2.7"]}).startswith(f"Found {mine}, 64 bit, expected Windows with")
    monkeypatch.setattr(start, "WINDOWS", True)
    monkeypatch.setattr(start, "INSTALLED", tmp_path / ("x" * 200))
    assert "too long for Windows" in start.unfit({"for": [mine]})
