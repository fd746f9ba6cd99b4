"""Folders out to the users of the hub, and what they made of them back to the instructor. Run as root.

    python class_files.py give FOLDER CLASS       to each user's work folder
    python class_files.py collect FOLDER CLASS    what is there by now, back

FOLDER is what `turbomath homework sheet` wrote: each seat's own part of it goes out, and the answers come back to it.
Or it is a run folder: a copy goes to everybody, and what was entered comes back to "FOLDER groups". CLASS is the file
of seats, with the head seat,student, and the student is a user of this machine. What lies in a user's folder is read
and written as that user, never as root, and nothing there is written over.
"""

import argparse
import datetime
import os
import pwd
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from multiprocessing import get_context
from pathlib import Path

from turbomath.disk import files
from turbomath.homework.course import seats
from turbomath.table.errors import TurbomathError

WORK = Path(os.environ.get("TURBOMATH_HUB", "/srv/turbomath")) / "work"
ANSWERS = ("answers.json", "answers.csv")
RUN = ("bench.toml", "record.toml", "readings.csv", "readings.journal", "record.journal")
MOST_BYTES = 5_000_000


@contextmanager
def acting_as(user: str) -> Iterator[Callable]:
    """Give `call(function, arguments)`, which calls the function in a process of that user."""
    with get_context("fork").Pool(1, become, (pwd.getpwnam(user),)) as process:
        yield process.apply


def become(user: pwd.struct_passwd) -> None:
    """Be that user from now on, and write for nobody else."""
    os.initgroups(user.pw_name, user.pw_gid)
    os.setgid(user.pw_gid)
    os.setuid(user.pw_uid)
    os.umask(0o077)


def put(folder: Path, contents: dict[str, bytes]) -> list[str]:
    """Write those files into a folder that are not there; return their names."""
    folder.mkdir(parents=True, exist_ok=True)
    new = [name for name in contents if not os.path.lexists(folder / name)]
    for name in new:
        files.write_whole(folder / name, contents[name])
    return new


def taken(folder: Path, names: tuple[str, ...]) -> dict[str, tuple[bytes, float]]:
    """Return name -> (content, time of its last change) of those files of a folder that are there."""
    found = {}
    for path in (folder / name for name in names):
        if path.is_file() and path.stat().st_size <= MOST_BYTES:
            found[path.name] = path.read_bytes(), path.stat().st_mtime
    return found


def give(folder: Path, seat: str, user: str) -> str:
    """Put what is for a seat into its user's work folder."""
    given = folder if is_run(folder) else folder / "students" / seat
    contents = {one.name: one.read_bytes() for one in given.iterdir() if one.is_file()}
    account = pwd.getpwnam(user)
    WORK.mkdir(exist_ok=True)  # as the hub makes them when the user comes first
    WORK.chmod(0o711)
    (WORK / user).mkdir(mode=0o700, exist_ok=True)
    os.chown(WORK / user, account.pw_uid, account.pw_gid)
    with acting_as(user) as call:
        new = call(put, (WORK / user / folder.name, contents))
    return f"given: {', '.join(sorted(new))}" if new else "has it all"


def collect(folder: Path, seat: str, user: str) -> str:
    """Put what a user has made of it into the instructor's folders."""
    with acting_as(user) as call:
        found = call(taken, (WORK / user / folder.name, RUN if is_run(folder) else ANSWERS))
    wanted = "readings.csv" if is_run(folder) else "answers.json"
    given = (folder / wanted).read_bytes() if (folder / wanted).is_file() else None  # a sheet with its head alone
    if is_run(folder) and found.get(wanted, (given,))[0] == given:
        return "nothing yet"
    place = folder.with_name(f"{folder.name} groups") if is_run(folder) else folder / "students"
    keep(place / seat, found, folder)
    if wanted not in found:
        return "nothing yet"  # an answers.csv that was filled in came back all the same
    return f"handed in, last changed {datetime.datetime.fromtimestamp(found[wanted][1]):%Y-%m-%d at %H:%M}"


def is_run(folder: Path) -> bool:
    """Whether it is a run folder, else one of homework."""
    return (folder / "bench.toml").is_file()


def keep(place: Path, found: dict[str, tuple[bytes, float]], like: Path) -> None:
    """Write files of that age into a folder of the instructor's, whose they are then."""
    owner = like.stat()
    for one in (place.parent, place):
        one.mkdir(mode=0o700, exist_ok=True)
        os.chown(one, owner.st_uid, owner.st_gid)
    for name, (content, changed) in found.items():
        files.write_whole(place / name, content)
        os.utime(place / name, (changed, changed))
        os.chown(place / name, owner.st_uid, owner.st_gid)


def main(arguments: list[str]) -> int:
    """Do one of the two for each seat; return 1 if it could not be done for all."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("task", choices=("give", "collect"))
    parser.add_argument("folder", metavar="FOLDER", type=Path)
    parser.add_argument("seats", metavar="CLASS", type=Path)
    asked = parser.parse_args(arguments)
    folder, failed = asked.folder.resolve(), False
    if not is_run(folder) and not (folder / "students").is_dir():
        raise TurbomathError(
            f"{asked.folder}: found neither bench.toml nor the folder students in it, expected a run folder or one "
            "that turbomath homework sheet wrote. Give the path of one."
        )
    for one in seats.read_seats(asked.seats):
        try:
            said = {"give": give, "collect": collect}[asked.task](folder, one.code, one.student)
        except (OSError, TurbomathError, KeyError) as trouble:
            said, failed = trouble_of(one, trouble), True
        print(f"{one.code:<12} {one.student:<16} {said}")
    return int(failed)


def trouble_of(seat: seats.Seat, trouble: Exception) -> str:
    """Return why nothing was done for a seat."""
    if isinstance(trouble, KeyError):
        return f"found student {seat.student!r}, expected a user of this machine. Correct the file of seats."
    return f"not done: {trouble}"


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except TurbomathError as refusal:
        sys.exit(str(refusal))
