"""What each library weighs that turbomath asks for, and what would go with it if it were dropped.

    python -m tests.benchmarks.install_size

Sizes are those of the files on the disk here as pip wrote them, with what Python has compiled of them.
"""

import importlib.metadata
import sys
from functools import cache

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT, MEGA = "turbomath", 1e6


def main():
    """Print the libraries that turbomath names, the heaviest first, and the heaviest that come with them."""
    whole, own = needed_from(ROOT), asked(ROOT)
    gone = {name: whole - needed_from(ROOT, without=name) for name in own}
    print(f"{len(whole)} packages, {sum(map(size, whole)):.0f} MB in all")
    print(f"\n{'asked for by turbomath':26}{'itself':>8}{'goes with it':>15}")
    for name in sorted(own, key=lambda name: -sum(map(size, gone[name]))):
        rest = sorted(gone[name] - {name}, key=size, reverse=True)[:4]
        print(f"{name:26}{size(name):6.1f} MB{sum(map(size, gone[name])):12.1f} MB  {', '.join(rest)}")
    print("\nthe heaviest of all")
    for name in sorted(whole, key=size, reverse=True)[:15]:
        print(f"{name:26}{size(name):6.1f} MB")
    return 0


@cache
def asked(name):
    """Return what a package asks for on this machine, by the names that pip goes by."""
    needs = [Requirement(text) for text in importlib.metadata.requires(name) or ()]
    return {canonicalize_name(need.name) for need in needs if not need.marker or need.marker.evaluate({"extra": ""})}


def needed_from(name, without=""):
    """Return all packages that come with one, or those that still would *without* another being asked for by it."""
    found, more = {name}, asked(name) - {without}
    while more:
        found |= more
        more = {other for one in more for other in asked(one) if there(other)} - found
    return found


@cache
def there(name):
    try:
        return bool(importlib.metadata.distribution(name))
    except importlib.metadata.PackageNotFoundError:
        return False


@cache
def size(name):
    """Return the size of a package [MB]."""
    paths = (one.locate() for one in importlib.metadata.distribution(name).files or ())
    return sum(path.stat().st_size for path in paths if path.is_file()) / MEGA


if __name__ == "__main__":
    sys.exit(main())
