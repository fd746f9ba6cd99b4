"""The settings folder of one launch: private and made anew, so that no file of a user or a student can steer it."""

import json
import os
import secrets
import shutil
import socket
import sys
import tempfile
import uuid
from pathlib import Path
from typing import Any

from turbomath.classroom import digests
from turbomath.disk import files
from turbomath.paper.unbroken import after_a_number

_HERE = Path(__file__).resolve().parent
HOME = "/turbomath"  # the page with all lessons
# JupyterLab's own page holds scripts in its text and makes functions of strings; whatever a page shows, it reaches
# no other machine, and no other page holds it.
_FROM_HERE_ALONE = (
    "default-src 'self'",
    "script-src 'self' blob: 'unsafe-inline' 'unsafe-eval'",
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self' data:",
    "connect-src 'self' ws://127.0.0.1:* ws://localhost:* data: blob:",
    "worker-src 'self' blob:",
    "object-src 'none'",
    "base-uri 'self'",
    "form-action 'self'",
    "frame-ancestors 'self'",
)
# What a lesson has no use for: it would take time, screen, or ask the outside.
_SWITCHED_OFF = (
    "@jupyterlab/apputils-extension:announcements",
    "@jupyterlab/extensionmanager-extension",
    "@jupyterlab/cell-toolbar-extension",
    "@jupyterlab/debugger-extension",
    "@jupyterlab/lsp-extension",
    "@jupyterlab/fileeditor-extension:language-server",
    "@jupyterlab/notebook-extension:language-server",
    "@jupyterlab/terminal-extension",
)
_MEANWHILE = "import turbomath.widgets.panel"  # what every lesson needs, while its page is still being opened
_MOST_OF_A_SOCKET = 104  # characters of its path, the least that a system allows
_WIDGET_EXTENSIONS = ("@jupyter-widgets/jupyterlab-manager", "anywidget")


def make(work: Path, opened: str, *, present: bool = False) -> Path:
    """Return a new private folder that holds all JupyterLab reads, for *work* as its root and *opened* as its page."""
    folder = Path(tempfile.mkdtemp(prefix="turbomath-lessons-"))
    for name in ("data", "runtime", "user", "workspaces", "ipython", "labextensions"):
        (folder / name).mkdir()
    shutil.copytree(_HERE / "labextension", folder / "labextensions", dirs_exist_ok=True)
    for name in _WIDGET_EXTENSIONS:
        _copy_extension(name, folder / "labextensions")
    _write(folder / "settings" / "overrides.json", overrides())
    told = {"turbomathOwn": True, "turbomathPresent": present, "disabledExtensions": list(_SWITCHED_OFF)}
    _write(folder / "settings" / "page_config.json", told_to_the_page() | told)
    _write(folder / "data" / "kernels" / "python3" / "kernel.json", _kernel())
    _write(folder / "config.json", _config(folder, work, opened))
    return folder


def overrides() -> dict[str, Any]:
    """Return what the lessons set otherwise than JupyterLab does: plug-in -> settings."""
    return json.loads((_HERE / "overrides.json").read_text(encoding="utf-8"))


def told_to_the_page() -> dict[str, Any]:
    """Return what the extension reads on any server: which code may run, the lessons, what no line parts."""
    return {
        "turbomathLessons": digests.shipped_digests(),
        "turbomathOrder": list(digests.lessons()),
        "turbomathHome": HOME,
        "turbomathUnbroken": after_a_number(),
    }


def environment(folder: Path) -> dict[str, str]:
    """Return the environment of the server: no Jupyter or IPython setting of the user's gets in."""
    kept = {
        name: value
        for name, value in os.environ.items()
        if not name.upper().startswith(("JUPYTER", "JPY_", "IPYTHON", "PYTHONSTARTUP"))
    }
    ours = {
        "JUPYTER_NO_CONFIG": "1",
        "JUPYTER_PATH": str(folder / "data"),
        "JUPYTER_DATA_DIR": str(folder / "data"),
        "JUPYTER_RUNTIME_DIR": str(folder / "runtime"),
        "IPYTHONDIR": str(folder / "ipython"),
        "PYTHONPATH": os.pathsep.join(_import_path()),
    }
    return kept | ours


def _config(folder: Path, work: Path, opened: str) -> dict[str, dict[str, Any]]:
    """Return JupyterLab's whole configuration: this machine only, a token, and no request to the outside."""
    return {
        "ServerApp": {
            "ip": "127.0.0.1",
            "port": _free_port(),
            "tornado_settings": {"headers": {"Content-Security-Policy": "; ".join(_FROM_HERE_ALONE)}},
            "root_dir": str(work),
            "open_browser": False,
            "allow_root": hasattr(os, "geteuid") and os.geteuid() == 0,
            "terminals_enabled": False,
        },
        "IdentityProvider": {"token": secrets.token_hex(24)},
        "KernelManager": {"transport": _way_to_python(folder)},
        "KernelSpecManager": {"allowed_kernelspecs": ["python3"]},
        "KernelRestarter": {"time_to_dead": 1.0},
        "LabApp": {
            "default_url": opened,
            "app_settings_dir": str(folder / "settings"),
            "user_settings_dir": str(folder / "user"),
            "workspaces_dir": str(folder / "workspaces"),
            "labextensions_path": [],
            "extra_labextensions_path": [str(folder / "labextensions")],
            "extension_manager": "readonly",
            "check_for_updates_class": "jupyterlab.NeverCheckForUpdate",
            "news_url": None,
            "expose_app_in_browser": True,
        },
    }


def _way_to_python(folder: Path) -> str:
    """Return how the server reaches a lesson's Python: by files of the user's own, where a system has such.

    At a port of the machine any other user could listen to what a lesson sends.
    """
    longest = folder / "runtime" / f"kernel-{uuid.UUID(int=0)}-ipc-5"
    fits = len(os.fsencode(longest)) < _MOST_OF_A_SOCKET
    return "ipc" if hasattr(socket, "AF_UNIX") and os.name == "posix" and fits else "tcp"


def _kernel() -> dict[str, Any]:
    """Return how Python starts: never from files that lie in the work folder, whatever their names."""
    start = [sys.executable, "-P", "-m", "ipykernel_launcher", "-f", "{connection_file}"]
    start += ["--InteractiveShellApp.ignore_cwd=True"]  # IPython heeds -P only since 9.7
    return {
        "argv": [*start, f"--InteractiveShellApp.exec_lines={_MEANWHILE}"],
        "display_name": "Python 3 (ipykernel)",
        "language": "python",
    }


def _import_path() -> list[str]:
    """Return the user's PYTHONPATH made absolute, and this checkout when the kit is not installed."""
    given = [os.path.abspath(entry) for entry in os.environ.get("PYTHONPATH", "").split(os.pathsep) if entry]
    house = files.shipped("lessons").parent
    return [*given, str(house)] if (house / "pyproject.toml").is_file() else given


def _copy_extension(name: str, folder: Path) -> None:
    """Copy an installed extension of JupyterLab, from the first place that has it."""
    from jupyter_core.paths import jupyter_path

    for place in jupyter_path("labextensions"):
        if (Path(place) / name / "package.json").is_file():
            shutil.copytree(Path(place) / name, folder / name)
            return


def _free_port() -> int:
    """Return a port that nobody listens on; where it is taken meanwhile, JupyterLab takes the next."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def _write(path: Path, content: dict[str, Any]) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(json.dumps(content, indent=2), encoding="utf-8")
