"""A JupyterHub of the tests: the configuration of data/hub, real users of this machine, an environment of its own.

All of it is made anew and taken away at the end: users, groups, folders, processes. It needs root,
JupyterHub beside the tests' own Python, its proxy, and a Python that every user of the machine may run.
"""

import importlib.util
import json
import os
import secrets
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

import psutil

from tests.wheel import built
from turbomath.disk import files

GROUP = "turbomath"
PROXY = os.environ.get("TURBOMATH_PROXY") or shutil.which("configurable-http-proxy")
INSTALL = 'python -m pip install -e ".[test,hub]" && npm install -g configurable-http-proxy'
PATIENCE = 120  # s
_DIRECT = urllib.request.build_opener(urllib.request.ProxyHandler({}))
_SETTINGS = """\
load_subconfig({config!r})
c.JupyterHub.bind_url = "http://127.0.0.1:{port}/class/"
c.JupyterHub.hub_bind_url = "http://127.0.0.1:{hub_port}"
c.ConfigurableHTTPProxy.api_url = "http://127.0.0.1:{api_port}"
c.ConfigurableHTTPProxy.command = {proxy!r}
c.JupyterHub.load_roles = [
    {{"name": "tests", "scopes": ["admin:users", "admin:servers", "tokens", "access:servers"], "services": ["tests"]}}
]
c.JupyterHub.services = [{{"name": "tests", "api_token": open({key!r}).read()}}]
c.Spawner.args = [one.replace("idle_timeout=3600", "idle_timeout={idle}") for one in c.Spawner.args]
c.Spawner.args = [one.replace("cull_interval=60", "cull_interval=1") for one in c.Spawner.args]
"""


def missing():
    """Return what this machine lacks for a hub, in words."""
    there = {
        "root": hasattr(os, "geteuid") and os.geteuid() == 0,
        "JupyterHub": importlib.util.find_spec("jupyterhub"),
        "its proxy (configurable-http-proxy)": PROXY,
        "useradd": shutil.which("useradd"),
        "a Python of this version that every user may run": python_for_all(),
    }
    return [what for what, found in there.items() if not found]


def python_for_all():
    """Return a Python of this version that other users may run, or None."""
    version = f"python{sys.version_info.major}.{sys.version_info.minor}"
    every = [Path(sys.executable).resolve(), *(Path(place, version) for place in ("/usr/local/bin", "/usr/bin"))]
    return next((one for one in every if one.is_file() and _open_to_all(one.resolve())), None)


def _open_to_all(path):
    return all(one.stat().st_mode & 0o001 for one in (path, *path.parents))


class Hub:
    """A running hub: its ``address``, ``place`` (all it has on the disk), ``users`` (name -> password), the ``key`` of
    a program."""

    def __init__(self, process, place, port, key, users):
        self.process, self.place, self.users, self.key = process, place, users, key
        self.address = f"http://127.0.0.1:{port}/class/"

    def ask(self, path, method="GET", data=None):
        """Return what the hub's interface for programs answers."""
        head = {"Authorization": f"token {self.key}"}
        body = None if data is None else json.dumps(data).encode()
        request = urllib.request.Request(f"{self.address}hub/api/{path}", data=body, headers=head, method=method)
        with _DIRECT.open(request, timeout=PATIENCE) as answer:
            return json.loads(answer.read() or b"null")

    def work(self, user):
        """Return the work folder of a user."""
        return self.place / "work" / user

    def stop(self, user):
        """Stop the server of a user, as the hub does with one that nobody has used for long."""
        self.ask(f"users/{user}/server", "DELETE")
        until(lambda: not self.ask(f"users/{user}")["servers"])

    def processes(self, user):
        """Return the processes of a user."""
        return [one for one in psutil.process_iter(["username", "cmdline"]) if one.info["username"] == user]


@contextmanager
def running(*names, idle=3600):
    """Give a `Hub` with these users of this machine; *idle* is after how many seconds a lesson's Python is ended."""
    with ExitStack() as stack:
        place = Path(tempfile.mkdtemp(prefix="turbomath-hub-"))
        stack.callback(shutil.rmtree, place, ignore_errors=True)
        place.chmod(0o755)
        python = environment(place)
        users = {f"{name}-{os.getpid()}": secrets.token_hex(8) for name in names}
        stack.enter_context(_group())
        for name, password in users.items():
            stack.enter_context(_user(name, password, place / "home"))
        (place / "hub").mkdir(mode=0o700)
        key, ports = secrets.token_hex(24), _free_ports(3)
        (place / "hub" / "key").write_text(key, encoding="ascii")
        settings = _SETTINGS.format(
            config=str(files.shipped("data") / "hub" / "jupyterhub_config.py"),
            **dict(zip(("port", "hub_port", "api_port"), ports, strict=True)),
            proxy=[PROXY],
            key=str(place / "hub" / "key"),
            idle=idle,
        )
        (place / "hub" / "settings.py").write_text(settings, encoding="utf-8")
        kept = {name: text for name, text in os.environ.items() if not name.startswith(("JUPYTER", "TURBOMATH", "PY"))}
        log = stack.enter_context(open(place / "hub" / "log", "w", encoding="utf-8"))
        process = subprocess.Popen(
            [python, "-m", "jupyterhub", "-f", "settings.py"],
            cwd=place / "hub",
            env=kept | {"TURBOMATH_HUB": str(place)},
            stdout=log,
            stderr=log,
            umask=0o077,
        )
        stack.callback(_ended, process)
        hub = Hub(process, place, ports[0], key, users)
        until(lambda: _answers(hub), f"the hub did not start: {place / 'hub' / 'log'}")
        yield hub


def environment(place):
    """Return the Python of a new environment with the kit's wheel in it, beside the libraries of the tests' own."""
    here, libraries = place / "environment", [one for one in sys.path if one.endswith("site-packages")]
    subprocess.run([python_for_all(), "-m", "venv", "--without-pip", here], check=True)
    python, site = here / "bin" / "python", next(here.glob("lib/python*/site-packages"))
    (site / "libraries.pth").write_text("\n".join(libraries), encoding="utf-8")
    shared = Path(next(one for one in _data_folders(libraries) if (one / "share/jupyter/lab/static").is_dir()))
    for part in ("share/jupyter/lab", "share/jupyter/labextensions", "share/jupyter/kernels", "etc/jupyter"):
        shutil.copytree(shared / part, here / part, dirs_exist_ok=True)
    script = f"#!{python}\nimport sys\nfrom jupyterhub.singleuser import main\nsys.exit(main())\n"
    (here / "bin" / "jupyterhub-singleuser").write_text(script, encoding="utf-8")
    (here / "bin" / "jupyterhub-singleuser").chmod(0o755)
    command = [sys.executable, "-m", "pip", "--python", python, "install", "--no-deps", "--no-index", "--quiet"]
    subprocess.run([*command, built(place)], check=True, timeout=300)
    return python


def _data_folders(libraries):
    return [Path(one).parents[2] for one in libraries]


@contextmanager
def _user(name, password, homes):
    homes.mkdir(exist_ok=True)
    command = ["useradd", "--create-home", "--base-dir", homes, "-K", "HOME_MODE=0700", "--groups", GROUP, name]
    subprocess.run(command, check=True, capture_output=True)
    try:
        subprocess.run(["chpasswd"], input=f"{name}:{password}", text=True, check=True)
        yield
    finally:
        for one in [one for one in psutil.process_iter(["username"]) if one.info["username"] == name]:
            with suppress(psutil.NoSuchProcess):
                one.kill()
        until(lambda: subprocess.run(["userdel", "--remove", name], capture_output=True).returncode != 8)


@contextmanager
def _group():
    made = subprocess.run(["groupadd", GROUP], capture_output=True).returncode == 0
    try:
        yield
    finally:
        if made:
            subprocess.run(["groupdel", GROUP], check=True)


def _ended(process):
    """End the hub with all that it has started."""
    started = psutil.Process(process.pid).children(recursive=True) if process.poll() is None else []
    process.terminate()
    process.wait(60)
    for one in started:
        with suppress(psutil.NoSuchProcess):
            one.kill()


def _answers(hub):
    assert hub.process.poll() is None, (hub.place / "hub" / "log").read_text(encoding="utf-8")[-3000:]
    with suppress(OSError):
        return hub.ask("")
    return None


def until(done, otherwise="it did not come to an end"):
    """Wait until *done()* is true."""
    end = time.monotonic() + PATIENCE
    while not done():
        if time.monotonic() > end:
            raise AssertionError(otherwise)
        time.sleep(0.2)


def _free_ports(count):
    probes = [socket.socket() for _ in range(count)]
    for probe in probes:
        probe.bind(("127.0.0.1", 0))
    ports = [probe.getsockname()[1] for probe in probes]
    for probe in probes:
        probe.close()
    return ports
