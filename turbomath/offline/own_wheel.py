"""turbomath's own wheel, packed from the files that run here: an installation holds all that a wheel does."""

import base64
import hashlib
import importlib.metadata
import zipfile
from collections.abc import Iterator
from pathlib import Path

from turbomath.disk import files
from turbomath.table.version import __version__

_PACKAGE = Path(__file__).resolve().parents[1]
_KIND = "Wheel-Version: 1.0\nGenerator: turbomath\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
# What Jupyter looks for beside Python; as in pyproject.toml.
_FOR_JUPYTER = {
    "classroom/labextension": "share/jupyter/labextensions",
    "classroom/no_news.json": "share/jupyter/lab/settings/overrides.d/turbomath.json",
    "classroom/jupyter_server_config.json": "etc/jupyter/jupyter_server_config.d/turbomath.json",
}
_EPOCH = (2020, 2, 2, 0, 0, 0)  # of each file, so that the same kit packs to the same bytes


def own_wheel(folder: Path) -> Path:
    """Write the wheel into *folder* and return its path."""
    path = folder / f"turbomath-{__version__}-py3-none-any.whl"
    about = f"turbomath-{__version__}.dist-info"
    known = importlib.metadata.distribution("turbomath")
    contents = dict(_contents())
    for name in ("METADATA", "entry_points.txt"):
        contents[f"{about}/{name}"] = (known.read_text(name) or "").encode()
    contents[f"{about}/licenses/turbomath/LICENSE"] = (_PACKAGE / "LICENSE").read_bytes()
    contents[f"{about}/WHEEL"] = _KIND.encode()
    record = [f"{name},{_hash(content)},{len(content)}\n" for name, content in contents.items()]
    contents[f"{about}/RECORD"] = "".join([*record, f"{about}/RECORD,,\n"]).encode()
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as wheel:
        for name, content in contents.items():
            wheel.writestr(zipfile.ZipInfo(name, _EPOCH), content, zipfile.ZIP_DEFLATED)
    return path


def _contents() -> Iterator[tuple[str, bytes]]:
    """Yield (name in the wheel, content) of the package, its lessons and data, and what is for Jupyter."""
    places = {
        "turbomath": _PACKAGE,
        "turbomath/lessons": files.shipped("lessons"),
        "turbomath/data": files.shipped("data"),
    }
    places |= {f"turbomath-{__version__}.data/data/{to}": _PACKAGE / part for part, to in _FOR_JUPYTER.items()}
    for to, place in places.items():
        if place.is_file():
            yield to, place.read_bytes()
        for path in sorted(place.rglob("*")):
            name = path.relative_to(place)
            if path.is_file() and not any(part.startswith((".", "__pycache__")) for part in name.parts):
                yield f"{to}/{name.as_posix()}", path.read_bytes()


def _hash(content):
    return "sha256=" + base64.urlsafe_b64encode(hashlib.sha256(content).digest()).rstrip(b"=").decode()
