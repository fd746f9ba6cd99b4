"""`turbomath faults`: a few lines that call a room."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace, _SubParsersAction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from turbomath.lab.run.readings import Run


def add(commands: _SubParsersAction) -> None:
    """Add `faults` to the command line."""
    faults = commands.add_parser(
        "faults", help="which fault of engine or gauge would show these readings, and what next"
    )
    faults.add_argument("run", metavar="RUN", help="a run folder with two loads or more, or a shipped run")
    add_beside(faults)
    faults.set_defaults(command=_faults)


def add_beside(command: ArgumentParser) -> None:
    """Add the run that is held beside another: `--baseline` or `--sister`."""
    beside = command.add_mutually_exclusive_group()
    beside.add_argument("--baseline", metavar="RUN", help="an earlier run of the same engine, when it was sound")
    beside.add_argument("--sister", metavar="RUN", help="a sound run of another engine of the same make and type")


def beside(options: Namespace) -> tuple[Run | None, bool]:
    """Return (the run that was named, whether it is the engine's own)."""
    from turbomath.lab.run import readings

    name = options.baseline or options.sister
    return None if name is None else readings.read_run(name), options.sister is None


def _faults(options):
    from turbomath.lab.faults import held_against, told
    from turbomath.lab.run import readings

    earlier, own = beside(options)
    print(told.on_terminal(held_against.found_in(readings.read_run(options.run), earlier, own=own)))
