"""`turbomath faults`: a few lines that call a room."""

from argparse import _SubParsersAction


def add(commands: _SubParsersAction) -> None:
    """Add `faults` to the command line."""
    faults = commands.add_parser(
        "faults", help="which fault of engine or gauge would show these readings, and what next"
    )
    faults.add_argument("run", metavar="RUN", help="a run folder with two loads or more, or a shipped run")
    beside = faults.add_mutually_exclusive_group()
    beside.add_argument("--baseline", metavar="RUN", help="an earlier run of the same engine, when it was sound")
    beside.add_argument("--sister", metavar="RUN", help="a sound run of another engine of the same make and type")
    faults.set_defaults(command=_faults)


def _faults(options):
    from turbomath.lab.faults import held_against, told
    from turbomath.lab.run import readings

    run = readings.read_run(options.run)
    beside = options.baseline or options.sister
    earlier = None if beside is None else readings.read_run(beside)
    print(told.on_terminal(held_against.found_in(run, earlier, own=options.sister is None)))
