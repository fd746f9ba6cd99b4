"""Do the lowest versions that pyproject.toml allows still work?

    python -m tests.long.lowest_versions [PYTHON ...]

For each Python (default: this one; a command such as python3.12, or a path) a new environment gets turbomath with
every library at its floor. There the self-check, a report, homework from sheet to marks and lesson 03 must run.
Part of no suite, as it fetches 100 MB: `.ci/run` tries it beside the suite. Exits with 1 where something fails.
"""

import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

from packaging.requirements import Requirement

from tests.wheel import ROOT

TRIED = (
    ("self-check",),
    ("report", "generator_air_to_air"),
    ("homework", "sheet", "whole_air_path", "--seats", "class.csv", "--out", "week3"),
    ("homework", "sample", "trial"),
    ("homework", "mark", "trial"),
    ("homework", "gradebook", "trial"),
    ("handbook",),
)
LESSON = "03"
VERSION = "import sys; print('%d.%d' % sys.version_info[:2])"


def main(pythons):
    """Try every Python; return 1 if one fails."""
    return max(tried(python) for python in pythons)


def floors(python):
    """Return the constraint "name==lowest" of each library that turbomath asks for with that Python."""
    version = subprocess.run([python, "-c", VERSION], check=True, capture_output=True, text=True).stdout.strip()
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needs = [Requirement(text) for text in project["dependencies"]]
    asked = [need for need in needs if need.marker is None or need.marker.evaluate({"python_version": version})]
    return [f"{need.name}{str(need.specifier).replace('>=', '==')}" for need in asked]


def tried(python):
    """Make the environment and try all in it; return 1 where something fails."""
    with tempfile.TemporaryDirectory() as place:
        folder, constraints = Path(place), Path(place, "floors.txt")
        constraints.write_text("\n".join(floors(python)), encoding="utf-8")
        subprocess.run([python, "-m", "venv", folder / "venv"], check=True)
        own = folder / "venv" / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
        install = [own, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--only-binary=:all:"]
        if subprocess.run([*install, "-c", constraints, ROOT]).returncode:
            print(f"{python}: the floors cannot be installed together")
            return 1
        (folder / "class.csv").write_text("seat\nA01\nA02\n", encoding="utf-8")
        bad = [" ".join(command) for command in TRIED if not runs(own, command, folder)]
        bad += [] if opens(own, folder) else [f"lesson {LESSON} in the browser"]
    print(f"{python}: {'FAILED: ' + ', '.join(bad) if bad else 'every floor works'}", flush=True)
    return int(bool(bad))


def runs(python, command, folder):
    """Whether a command ends well and without a word on the error output."""
    done = subprocess.run([python, "-m", "turbomath", *command], cwd=folder, capture_output=True, text=True)
    if done.returncode or done.stderr:
        print(done.stdout[-2000:], done.stderr[-2000:])
    return not done.returncode and not done.stderr


def opens(python, folder):
    """Whether a lesson is live in the browser and its slider moves the picture."""
    from playwright.sync_api import sync_playwright

    from tests.browser.conftest import CHROMIUM, QUIET
    from tests.browser.pages import PATIENCE, enter, live, panel, told

    command = [python, "-P", "-m", "turbomath", "lessons", LESSON, "--no-browser"]
    lessons = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=folder, env={"HOME": str(folder)})
    try:
        address = next(line.strip() for line in lessons.stdout if "?token=" in line)
        with sync_playwright() as playwright:
            page = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET).new_page()
            page.set_default_timeout(2 * PATIENCE)
            page.goto(address)
            live(page)
            panel(page).get_by_role("radio").first.check()
            panel(page).get_by_role("button", name="this is my prediction").click()
            enter(page, "boost", "12")
            told(page, "12.0 psi")
        return True
    except Exception as trouble:  # whatever breaks is the finding
        print(trouble)
        return False
    finally:
        lessons.terminate()
        lessons.wait(60)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:] or [sys.executable]))
