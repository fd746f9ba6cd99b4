"""Doors that open when they are first asked for, so that importing the kit loads nothing that is not used.

The front door opens rooms and names, and a room its own files. Nothing else imports by a string, but `air` its models.
"""

import os
from collections.abc import Callable, Collection, Iterable, Mapping
from importlib import import_module
from typing import Any

from turbomath.table.nearest import did_you_mean

Door = tuple[Callable[[str], Any], Callable[[], list[str]]]
ABOVE: dict[str, str] = {}  # what a low floor may ask for -> where it is on a higher one; the front door says so


def opened_at(place: str) -> Any:
    """Return what is at a place, "module" or "module:name in it"; the module is imported if it was not yet."""
    module, _, name = place.partition(":")
    found = import_module(module)
    return getattr(found, name) if name else found


def from_above(name: str) -> Any:
    """Return what the front door has put in `ABOVE` under a name: what a low floor needs done, and cannot know of."""
    return opened_at(ABOVE[name])


def door(package: str, places: Mapping[str, str], seen: Collection[str]) -> Door:
    """Return `__getattr__` and `__dir__` of a package: name -> its place, and the names that completion shows."""

    def opened(name: str) -> Any:
        if name not in places:
            hint = "" if name.startswith("_") else f"; {did_you_mean(name, sorted(seen))}"
            raise AttributeError(f"{package} has no {name!r}{hint}")
        return opened_at(places[name])

    return opened, lambda: sorted(seen)


def door_of_room(package: str, folder: str, own: Iterable[str] = ()) -> Door:
    """Return `__getattr__` and `__dir__` of a room: each of its files and folders, and what it holds of its own."""
    inside = [name.removesuffix(".py") for name in os.listdir(folder) if _is_public(folder, name)]
    return door(package, {name: f"{package}.{name}" for name in inside}, {*inside, *own})


def _is_public(folder: str, name: str) -> bool:
    is_room = os.path.isfile(os.path.join(folder, name, "__init__.py"))
    return not name.startswith("_") and (name.endswith(".py") or is_room)
