"""The PCs that a kit can be for: how pip calls them, and what a wheel may ask about them (PEP 508)."""

import platform
import sys
from dataclasses import dataclass

from turbomath.table.errors import TurbomathError
from turbomath.table.formulas import choice

PYTHONS = ("3.11", "3.12", "3.13", "3.14")


@dataclass(frozen=True)
class Machine:
    """A sort of PC: `tags` are the platforms of wheels that run on it, the rest as Python there would say it."""

    words: str
    tags: tuple[str, ...]
    os_name: str
    sys_platform: str
    platform_system: str
    platform_machine: str


MACHINES = {
    "windows": Machine("Windows", ("win_amd64",), "nt", "win32", "Windows", "AMD64"),
    "macos": Machine("macOS (Apple silicon)", ("macosx_14_0_arm64",), "posix", "darwin", "Darwin", "arm64"),
    "macos-intel": Machine("macOS (Intel)", ("macosx_14_0_x86_64",), "posix", "darwin", "Darwin", "x86_64"),
    "linux": Machine(
        "Linux",
        (*(f"manylinux_2_{minor}_x86_64" for minor in range(28, 4, -1)), "manylinux2014_x86_64"),
        "posix",
        "linux",
        "Linux",
        "x86_64",
    ),
}


def named(name: str) -> Machine:
    """Return the machine of that name, or refuse it with the list."""
    return choice("platform", name, MACHINES)


def version(python: str) -> str:
    """Return the version of Python that a kit can be for, or refuse it with the list."""
    choice("python", python, dict.fromkeys(PYTHONS))
    return python


def here() -> tuple[str, str]:
    """Return (machine, Python) of this PC, such as ("linux", "3.11").

    Raises
    ------
    TurbomathError
        Where it is none that a kit can be for.
    """
    told = platform.system(), platform.machine()
    python = "{}.{}".format(*sys.version_info)
    for name, one in MACHINES.items():
        if told == (one.platform_system, one.platform_machine):
            return name, python
    raise TurbomathError(
        f"found {' '.join(told)}, expected one of {', '.join(MACHINES)}. Say for which PC the kit is: --platform NAME"
    )


def answers(machine: Machine, python: str) -> dict[str, str]:
    """Return what Python would answer there, for the conditions under which a wheel asks for another."""
    return {
        "os_name": machine.os_name,
        "sys_platform": machine.sys_platform,
        "platform_system": machine.platform_system,
        "platform_machine": machine.platform_machine,
        "platform_python_implementation": "CPython",
        "implementation_name": "cpython",
        "python_version": python,
        "python_full_version": f"{python}.0",
        "implementation_version": f"{python}.0",
        "platform_release": "",
        "platform_version": "",
        "extra": "",
    }
