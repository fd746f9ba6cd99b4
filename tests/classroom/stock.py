"""A Jupyter server that is not the lessons' own: JupyterLab as anybody starts it, with nobody's settings."""

import json
import os
import subprocess
import sys
import time
from contextlib import contextmanager, suppress

TOKEN = "a long word of the class"
PATIENCE = 120  # s


@contextmanager
def stock(place, root, base="/", kit=None, **more):
    """Give the address of a stock server for the folder *root*; its token stands in a file for its user alone.

    *kit* is where a wheel of turbomath was unpacked: the server finds what lies in it beside Python. *more* are
    settings of ServerApp.
    """
    settings = place / "settings"
    settings.mkdir(mode=0o700)
    own = {"base_url": base, "root_dir": str(root), "port": 0, "allow_root": True, "open_browser": False, **more}
    config = {"ServerApp": own, "IdentityProvider": {"token": TOKEN}, "LabApp": {"expose_app_in_browser": True}}
    (settings / "jupyter_server_config.json").write_text(json.dumps(config), encoding="utf-8")
    jupyter = {"CONFIG_DIR": settings, "RUNTIME_DIR": place / "runtime", "DATA_DIR": place / "data"}
    if kit:
        jupyter |= {"PATH": kit / "share" / "jupyter", "CONFIG_PATH": kit / "etc" / "jupyter"}
    environment = {name: text for name, text in os.environ.items() if name != "TURBOMATH_WORK"}
    environment |= {f"JUPYTER_{name}": str(path) for name, path in jupyter.items()}
    environment |= {"HOME": str(place), "IPYTHONDIR": str(place / "ipython")}
    environment |= {"PYTHONPATH": str(kit)} if kit else {}
    command = [sys.executable, "-m", "jupyterlab"]
    with open(place / "log", "w", encoding="utf-8") as log:
        server = subprocess.Popen(command, env=environment, stdout=log, stderr=log, cwd=place)
    try:
        yield f"http://127.0.0.1:{_port(place / 'runtime')}{base}"
    finally:
        server.terminate()
        server.wait(60)


def _port(runtime):
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        for note in runtime.glob("jpserver-*.json"):
            with suppress(ValueError):  # half written
                return json.loads(note.read_text(encoding="utf-8"))["port"]
        time.sleep(0.05)
    raise AssertionError("the stock server did not start")
