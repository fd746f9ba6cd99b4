"""`turbomath lessons`: one address, this machine only, a token, and nothing left running when it ends."""

import errno
import json
import os
import shutil
import signal
import stat
import subprocess
import tempfile
import time
from pathlib import Path
from urllib.parse import urlsplit
from urllib.request import url2pathname

import psutil
import pytest
from jupyter_client import BlockingKernelClient

from tests.classroom.served import lesson, served

pytestmark = pytest.mark.process
CANARY = "from pathlib import Path; Path({!r}).touch()"


def wait_for(check, seconds=30):
    """Wait until *check* holds; say whether it ever did."""
    end = time.monotonic() + seconds
    while not check() and time.monotonic() < end:
        time.sleep(0.1)
    return check()


@pytest.fixture(scope="module")
def shipped(tmp_path_factory):
    folder = tmp_path_factory.mktemp("shipped")
    (folder / "90_box.ipynb").write_text(lesson(), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def browser(tmp_path_factory):
    """Return a stand-in for the user's browser, which writes down what it is given in the file `opened` beside it."""
    script = tmp_path_factory.mktemp("browser") / "my-browser"
    opened = script.with_name("opened")
    script.write_text(f'#!/bin/sh\necho "$1" > {opened}\necho noise; echo noise >&2\n', encoding="utf-8")
    script.chmod(0o755)
    return script


@pytest.fixture(scope="module")
def classroom(shipped, browser, tmp_path_factory):
    """Give the one server for all tests that only look."""
    with served(shipped, tmp_path_factory.mktemp("work"), "90", "--no-browser", BROWSER=str(browser)) as running:
        assert wait_for(lambda: running.sessions("90_box")), "Python was not started before a page asked for it"
        yield running


def listening(classroom):
    found = (connection for process in classroom.processes() for connection in process.net_connections("inet"))
    return {connection.laddr.ip for connection in found if connection.status == psutil.CONN_LISTEN}


def start_kernel(classroom, name="90_box.ipynb"):
    data = {"path": name, "type": "notebook", "name": name, "kernel": {"name": "python3"}}
    status, answer = classroom.ask("/api/sessions", method="POST", data=data)
    assert status == 201
    return json.loads(answer)["kernel"]["id"]


def test_a_few_calm_lines_hold_the_work_folder_and_one_full_address(classroom):
    assert len(classroom.printed) <= 5
    assert classroom.printed[0] == f"Your work folder: {classroom.work}"
    assert f"{classroom.address}/doc/tree/90_box.ipynb?token={classroom.token}" in classroom.printed
    assert classroom.address.startswith("http://127.0.0.1:")
    assert "Ctrl+C" in classroom.printed[-1]


def test_where_no_browser_is_wanted_none_is_opened(classroom, browser):
    assert classroom.ask("/api/status")[0] == 200
    assert not browser.with_name("opened").exists()


def test_it_answers_with_the_token_and_refuses_without(classroom):
    for path in ("/api/contents/90_box.ipynb", "/api/kernels", "/api/status"):
        assert classroom.ask(path)[0] == 200
        assert classroom.ask(path, token="")[0] in (401, 403)
        assert classroom.ask(path, token="wrong")[0] in (401, 403)
    assert len(classroom.token) >= 32


def test_the_python_of_the_lesson_starts_before_its_page_asks(classroom):
    assert [one["type"] for one in classroom.sessions()] == ["notebook"]


def test_it_listens_on_this_machine_only(classroom):
    start_kernel(classroom)
    assert listening(classroom) == {"127.0.0.1"}


def test_at_no_port_can_another_user_listen_to_what_a_lesson_sends(classroom):
    start_kernel(classroom)
    (kernel,) = wait_for(lambda: classroom.kernels("90_box"))
    assert wait_for(lambda: [one for one in kernel.net_connections("unix") if "-ipc-" in one.laddr])
    ports = [one for one in kernel.net_connections("inet") if one.status == psutil.CONN_LISTEN]
    assert len(ports) <= 1, "one takes in what started processes print, and sends nothing"


def test_hidden_files_and_terminals_are_not_served(classroom):
    assert classroom.ask("/api/contents/.turbomath/server.log")[0] == 404
    assert classroom.ask("/api/terminals", method="POST")[0] == 404


def test_python_never_starts_from_files_in_the_work_folder(classroom, tmp_path):
    for name in (
        "ipykernel_launcher",
        "turbomath",
        "colorsys",
        "ipywidgets",
        "sitecustomize",
        "ipython_config",
        "ipython_kernel_config",
    ):
        (classroom.work / f"{name}.py").write_text(CANARY.format(str(tmp_path / name)), encoding="utf-8")
    kernel = start_kernel(classroom, "another.ipynb")
    folder = Path(classroom.processes("classroom.server")[0].cmdline()[-1])
    connection = folder / "runtime" / f"kernel-{kernel}.json"
    assert wait_for(connection.exists)
    client = BlockingKernelClient(connection_file=str(connection))
    client.load_connection_file()
    client.start_channels()
    try:
        client.execute("import colorsys, ipywidgets, turbomath")
        said = client.get_shell_msg(timeout=60)
    finally:
        client.stop_channels()
    assert said["content"]["status"] == "ok"
    assert list(tmp_path.iterdir()) == []


def hostile_settings(home):
    """Write Jupyter settings that would open the server to the network, wherever Jupyter looks for a user's own."""
    wanted = (
        'c.ServerApp.ip = "0.0.0.0"\nc.IdentityProvider.token = ""\nc.ServerApp.token = ""\nc.ServerApp.password = ""\n'
    )
    loaded = home / "settings-were-read"
    for folder in (home / ".jupyter", home / "config", home / "path", home / "work", home / "work" / ".turbomath"):
        folder.mkdir(parents=True, exist_ok=True)
        for name in ("jupyter_config", "jupyter_server_config", "jupyter_lab_config", "jupyter_notebook_config"):
            (folder / f"{name}.py").write_text(wanted + CANARY.format(str(loaded)), encoding="utf-8")
    startup = home / ".ipython" / "profile_default" / "startup"
    startup.mkdir(parents=True)
    (startup / "00.py").write_text(CANARY.format(str(loaded)), encoding="utf-8")
    return loaded


def test_no_setting_or_environment_of_the_user_can_open_it_to_the_network(shipped, tmp_path):
    loaded = hostile_settings(tmp_path)
    environment = {
        "HOME": str(tmp_path),
        "USERPROFILE": str(tmp_path),
        "IPYTHONDIR": str(tmp_path / ".ipython"),
        "JUPYTER_CONFIG_DIR": str(tmp_path / "config"),
        "JUPYTER_CONFIG_PATH": str(tmp_path / "path"),
        "JUPYTER_TOKEN": "known",
        "JUPYTER_SERVER_ALLOW_UNAUTHENTICATED_ACCESS": "true",
        "JUPYTER_GATEWAY_URL": "http://192.0.2.1:8888",
        "JUPYTER_PREFER_ENV_PATH": "0",
    }
    with served(shipped, tmp_path / "work", **environment) as classroom:
        start_kernel(classroom)
        assert wait_for(classroom.kernels)
        assert listening(classroom) == {"127.0.0.1"}
        assert classroom.token not in ("", "known")
        assert classroom.ask("/api/contents")[0] == 200
        for token in ("", "known"):
            assert classroom.ask("/api/contents", token=token)[0] in (401, 403)
    assert not loaded.exists()


def test_a_connection_from_another_name_of_this_machine_is_refused(classroom):
    """A page elsewhere that points its own name at this machine gets nothing (the Host header gives it away)."""
    import http.client

    port = int(classroom.address.rpartition(":")[2])
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    connection.request(
        "GET", "/api/status", headers={"Host": "elsewhere.example", "Authorization": f"token {classroom.token}"}
    )
    assert connection.getresponse().status == 403


@pytest.mark.parametrize("ending", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL], ids=lambda ending: ending.name)
def test_it_ends_with_no_kernel_and_no_folder_left(shipped, tmp_path, ending):
    with served(shipped, tmp_path / "work") as classroom:
        start_kernel(classroom)
        assert wait_for(classroom.kernels)
        processes = classroom.processes()
        folder = Path(classroom.processes("classroom.server")[0].cmdline()[-1])
        assert folder.is_dir()
        classroom.process.send_signal(ending)
        code = classroom.process.wait(40)
        _, alive = psutil.wait_procs(processes, timeout=40)
        assert alive == []
        assert wait_for(lambda: not folder.exists(), 10)
        assert code == (-9 if ending == signal.SIGKILL else 0)
        assert classroom.process.stderr.read() == ""


def test_the_browser_is_led_to_the_printed_address_and_no_other_user_can_read_it(shipped, browser, tmp_path):
    opened, work = browser.with_name("opened"), tmp_path / "work"
    with served(shipped, work, "90", BROWSER=str(browser)) as classroom:
        assert wait_for(lambda: opened.exists() and opened.read_text())
        door = Path(url2pathname(urlsplit(opened.read_text().strip()).path))
        assert classroom.token not in opened.read_text()
        assert f'url={classroom.full_address}"' in door.read_text()
        assert not any("noise" in line for line in classroom.printed)
        told = [process.cmdline() + list(process.environ().values()) for process in classroom.processes()]
        assert not any(classroom.token in text for texts in told for text in texts)
        tellers = [path for path in work.rglob("*") if path.is_file() and classroom.token in path.read_text()]
        assert tellers == [door]
        assert stat.S_IMODE(door.stat().st_mode) == 0o600
        assert [stat.S_IMODE(place.stat().st_mode) for place in (work, door.parent)] == [0o700, 0o700]
    opened.unlink()
    assert not door.exists()


NOSY = """
import os, sys, urllib.error, urllib.request
address, work = sys.argv[1:]
for number in filter(str.isdigit, os.listdir("/proc")):
    for name in ("cmdline", "environ"):
        try:
            print(open(f"/proc/{number}/{name}", "rb").read().decode(errors="replace"))
        except OSError:
            pass
try:
    print(os.listdir(work))
except OSError as refusal:
    print("no folder", refusal.errno)
try:
    urllib.request.urlopen(urllib.request.Request(address + "/api/kernels", data=b"{}"), timeout=10)
except urllib.error.HTTPError as refusal:
    print("no kernel", refusal.code)
"""
PLAIN_PYTHON = shutil.which("python3", path=os.defpath)


@pytest.mark.skipif(os.name == "nt" or os.geteuid() != 0 or not PLAIN_PYTHON, reason="NOT TRIED: only root can do it")
def test_another_user_of_the_machine_finds_no_key_no_work_and_starts_no_kernel(shipped, browser):
    with tempfile.TemporaryDirectory() as home:
        Path(home).chmod(0o755)
        with served(shipped, Path(home, "turbomath"), "90", BROWSER=str(browser)) as classroom:
            command = [PLAIN_PYTHON, "-c", NOSY, classroom.address, str(classroom.work)]
            found = subprocess.run(
                command,
                user="nobody",
                group="nogroup",
                extra_groups=[],
                cwd="/",
                env={"PATH": os.defpath},
                capture_output=True,
                text=True,
                timeout=60,
            )
    assert found.stderr == ""
    assert "turbomath.classroom.server" in found.stdout, "what is started can be seen"
    assert classroom.token not in found.stdout
    assert f"no folder {errno.EACCES}" in found.stdout
    assert "no kernel 403" in found.stdout
