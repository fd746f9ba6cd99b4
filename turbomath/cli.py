"""The command line: each subcommand is a few lines that call a room."""

import argparse
import sys
from pathlib import Path

from turbomath import __version__, cautions, files, units
from turbomath.errors import TurbomathError


def main(arguments=None):
    """Run the command line; return 0 done, 1 refused input (one plain sentence on stderr), 2 wrong usage."""
    for stream in (sys.stdout, sys.stderr):
        if not stream.isatty():  # a pipe or a file: not the code page of the console
            stream.reconfigure(encoding="utf-8", errors="replace")
    options = _parser().parse_args(arguments)
    try:
        options.command(options)
    except TurbomathError as refusal:
        print(refusal, file=sys.stderr)
        return 1
    except OSError as trouble:
        print(f"{trouble.filename}: {trouble.strerror}. Nothing was changed there.", file=sys.stderr)
        return 1
    return 0


def _parser():
    parser = argparse.ArgumentParser(
        prog="turbomath",
        description="From boost, barometer and thermometers to density, efficiency, effectiveness and gain, "
        "measured against theoretical.",
        epilog=cautions.STANDING,
    )
    parser.add_argument("--version", action="version", version=f"turbomath {__version__}")
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")

    report = commands.add_parser("report", help="reduce a run: a table here, and reduced.csv in a folder")
    report.add_argument("run", metavar="RUN", help=f"a run folder, or a shipped run: {', '.join(files.shipped_runs())}")
    report.add_argument("--out", metavar="DIR", help="folder to write to (default: ./<run>-report)")
    report.add_argument("--units", choices=("us", "si"), help="units shown (default: those of bench.toml)")
    report.set_defaults(command=_report)
    return parser


def _report(options):
    from turbomath.lab import readings, reduce, report

    run = readings.read_run(options.run)
    out = report.folder_for(run, options.out)
    system = options.units or run.bench.run.units
    reduced = reduce.reduce_run(run)
    written = report.write(reduced, out, system)
    print(report.on_terminal(reduced, system))
    print()
    for path in written:
        print(f"Written: {path}")
