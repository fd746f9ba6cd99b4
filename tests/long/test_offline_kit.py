"""A kit made here installs and runs where there is no network: a network namespace of Linux with nothing in it.

Part of no plain pytest: `python -m pytest -s tests/long/test_offline_kit.py`; it needs root, pip's network and minutes.
"""

import json
import os
import re
import subprocess
import sys
from urllib.parse import urlsplit

import pytest

from turbomath.offline import kit

pytestmark = [
    pytest.mark.timeout(3600),
    pytest.mark.skipif(os.name == "nt" or os.geteuid() != 0, reason="NOT TRIED: only root can take the network away"),
]
ALONE = ["unshare", "--net", "sh", "-c", 'ip link set lo up && exec "$@"', "alone"]
NO_NETWORK = "import socket; socket.create_connection(('192.0.2.1', 80), 5)"
SERVED = """
import subprocess, sys, urllib.request
lessons = subprocess.Popen(["sh", sys.argv[1], "lessons", "03", "--no-browser"], stdout=subprocess.PIPE, text=True)
address = next(line for line in lessons.stdout if "?token=" in line).strip()
print(urllib.request.urlopen(address, timeout=60).read().decode())
lessons.terminate()
lessons.wait(60)
lessons.stdout.read()  # it ends once nothing that was started writes to it any more
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    return kit.write(tmp_path_factory.mktemp("shop") / "Kit für die Werkstatt", say=print)


def alone(*command, home):
    own = {**os.environ, "HOME": str(home), "PYTHONPATH": ""}
    command = [*ALONE, *command]
    return subprocess.run(command, capture_output=True, encoding="utf-8", cwd="/", env=own, timeout=3000)


def test_it_installs_and_runs_without_a_network(made, tmp_path):
    assert "Network is unreachable" in alone(sys.executable, "-c", NO_NETWORK, home=tmp_path).stderr
    script = str(made / "start.sh")
    done = alone("sh", script, "self-check", "--json", home=tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr
    assert json.loads(done.stdout[done.stdout.index("{") :])["passed"]
    done = alone("sh", script, "report", "generator_air_to_air", "--out", str(tmp_path / "report"), home=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "Installing" not in done.stdout, "once is enough"
    page = alone(sys.executable, "-c", SERVED, script, home=tmp_path)
    assert "turbomathLessons" in page.stdout, page.stderr
    held = json.loads((made / "installed" / "share/jupyter/lab/settings/overrides.d/turbomath.json").read_text())
    assert "@jupyterlab/apputils-extension:notification" in held


def test_nothing_of_how_pip_is_set_here_is_in_it(made):
    told = subprocess.run([sys.executable, "-m", "pip", "config", "list"], capture_output=True, text=True).stdout
    values = {word for line in told.splitlines() for word in re.findall(r"[^\s'\"=]{6,}", line.partition("=")[2])}
    hosts = {urlsplit(value).hostname for value in values} - {None, "pypi.org", "files.pythonhosted.org"}
    texts = [path for path in made.rglob("*") if path.is_file() and "installed" not in path.parts]
    found = [(path.name, word) for path in texts for word in values | hosts if word.encode() in path.read_bytes()]
    assert found == []
