"""Install turbomath from the folder that holds this file, without a network, and start it.

Plain Python with nothing beside it. What is installed lies in the folder `installed` beside this file and nowhere else.
"""

import json
import os
import platform
import shutil
import struct
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
INSTALLED = HERE / "installed"
READY = INSTALLED / "ready.json"
WINDOWS = os.name == "nt"
LONGEST = 259  # letters of a path on Windows as it is delivered


def main(arguments: list[str]) -> int:
    """Install if need be, then run turbomath with these arguments, or open the lessons where there are none."""
    kit = json.loads((HERE / "kit.json").read_text(encoding="utf-8"))
    try:
        trouble = install(kit) if told() != wanted(kit) else ""
    except OSError as refusal:
        trouble = f"{refusal.filename or HERE}: {refusal.strerror}. Copy the folder to a place of your own on this PC."
    if trouble:
        print(trouble, file=sys.stderr)
        return 1
    return run([str(python()), "-P", "-m", "turbomath", *(arguments or ["lessons"])])


def wanted(kit: dict) -> dict:
    """Return what has to stand in `installed`: another version, folder or Python means to install again."""
    return {"turbomath": kit["turbomath"], "folder": str(HERE), "python": sys.version}


def told() -> dict:
    """Return what stands in `installed`; nothing where it is not whole."""
    try:
        return json.loads(READY.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}


def install(kit: dict) -> str:
    """Make `installed` anew from the wheels; return why that cannot be, or nothing."""
    if refusal := unfit(kit):
        return refusal
    print("Installing turbomath from this folder, once. This takes a few minutes and needs no network.", flush=True)
    shutil.rmtree(INSTALLED, ignore_errors=True)
    try:
        venv.create(INSTALLED, with_pip=True)
    except subprocess.CalledProcessError:
        return "This Python cannot make a place of its own for turbomath. On Debian or Ubuntu install python3-venv."
    command = [str(python()), "-m", "pip", "install", "--no-index", f"--find-links={HERE / 'wheels'}"]
    # only this folder: nothing that was set for pip on this PC
    own = {name: text for name, text in os.environ.items() if not name.startswith("PIP_")}
    own["PIP_CONFIG_FILE"] = os.devnull
    with open(HERE / "installing.log", "w", encoding="utf-8") as log:
        done = subprocess.run([*command, f"turbomath=={kit['turbomath']}"], stdout=log, stderr=log, env=own)
    if done.returncode:
        return f"turbomath could not be installed. What pip said is in {log.name}."
    READY.write_text(json.dumps(wanted(kit)), encoding="utf-8")
    return ""


def unfit(kit: dict) -> str:
    """Return why this Python on this PC cannot take the kit, or nothing."""
    mine, bits = f"{system()} with Python {'{}.{}'.format(*sys.version_info)}", 8 * struct.calcsize("P")
    if bits != 64 or mine not in kit["for"]:
        return f"Found {mine}, {bits} bit, expected {' or '.join(kit['for'])}, 64 bit. Install that and start again."
    longest = max(len(name) for wheel in (HERE / "wheels").glob("*.whl") for name in zipfile.ZipFile(wheel).namelist())
    if WINDOWS and len(str(INSTALLED / "Lib" / "site-packages")) + 1 + longest > LONGEST:
        return f"{HERE} is too long for Windows. Move the folder nearer to the top of the disk, such as C:\\turbomath."
    return ""


def system() -> str:
    """Return the system as the kit calls it."""
    apple = "Apple silicon" if platform.machine() == "arm64" else "Intel"
    return {"win32": "Windows", "darwin": f"macOS ({apple})"}.get(sys.platform, "Linux")


def python() -> Path:
    """Return the Python in `installed`."""
    return INSTALLED / "Scripts" / "python.exe" if WINDOWS else INSTALLED / "bin" / "python"


def run(command: list[str]) -> int:
    """Become the command, so that what ends this ends it; Windows cannot, there Ctrl+C is for the command alone."""
    if not WINDOWS:
        os.execv(command[0], command)
    process = subprocess.Popen(command)
    while True:
        try:
            return process.wait()
        except KeyboardInterrupt:
            pass


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
