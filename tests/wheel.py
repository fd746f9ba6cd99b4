"""The kit as it is handed out: the wheel, built from this checkout and unpacked by pip."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]


def built(folder):
    """Return the wheel, built into *folder*."""
    command = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), str(ROOT)]
    subprocess.run(command, check=True, capture_output=True, timeout=300)
    return next(folder.glob("*.whl"))


def unpacked(wheel, target):
    """Return *target* with the wheel in it, as pip unpacks it, with no library beside it."""
    command = [sys.executable, "-m", "pip", "install", "--no-deps", "--no-index", "--quiet", "--target", str(target)]
    subprocess.run([*command, str(wheel)], check=True, capture_output=True, timeout=300)
    return target
