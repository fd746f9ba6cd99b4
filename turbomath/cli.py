"""The command line: each subcommand is a few lines that call a room."""

import argparse
import json
import os
import sys
from collections.abc import Sequence
from functools import partial

from turbomath.disk import files, plain_text
from turbomath.homework import commands as homework_commands
from turbomath.lab import fault_commands, fit_commands, log_commands
from turbomath.lab.run.channels import AFTERCOOLERS
from turbomath.offline import commands as offline_commands
from turbomath.table import cautions
from turbomath.table.errors import TurbomathError
from turbomath.table.version import __version__

STOPPED = 130  # what a program that Ctrl+C ended says to the shell


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line; return 0 done, 1 refused input (one sentence on stderr), 2 wrong usage, 130 stopped."""
    plain_text.tell_on(sys.stdout, sys.stderr)
    options = _parser().parse_args(arguments)
    try:
        done = options.command(options) or 0
        if sys.stdout:
            sys.stdout.flush()
        return done
    except TurbomathError as refusal:
        print(refusal, file=sys.stderr)
    except KeyboardInterrupt:
        print("Stopped. What was not written by then is as it was before.", file=sys.stderr)
        return STOPPED
    except BrokenPipeError:  # who reads it has seen enough, as in: turbomath report RUN | head
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as trouble:
        place = f"{trouble.filename}: " if trouble.filename else ""
        print(f"{place}{trouble.strerror or trouble}. What was there before is as it was.", file=sys.stderr)
    return 1


def _parser():
    parser = argparse.ArgumentParser(
        prog="turbomath",
        description="From boost, barometer and thermometers to density, efficiency, effectiveness and gain, "
        "measured against theoretical.",
        epilog=cautions.STANDING,
    )
    parser.add_argument("--version", action="version", version=f"turbomath {__version__}")
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")
    _add_one_run(commands)
    _add_folders(commands)
    _add_several_runs(commands)
    fit_commands.add(commands)
    log_commands.add(commands)
    fault_commands.add(commands)
    homework_commands.add(commands)
    _add_kit(commands)
    offline_commands.add(commands)
    return parser


def _add_one_run(commands):
    run_words = f"a run folder, or a shipped run: {', '.join(files.shipped_runs())}"
    report = commands.add_parser("report", help="reduce a run: tables here, a page and reduced.csv in a folder")
    report.add_argument("run", metavar="RUN", help=run_words)
    report.add_argument(
        "--bench",
        metavar="FOLDER",
        default="",
        help="RUN is a logger's file: the run folder whose bench.toml says what its columns are",
    )
    report.add_argument("--take", metavar="NUMBERS", default="", help="which of its steady stretches: all, or 1,3")
    report.add_argument("--out", metavar="DIR", help="folder to write to (default: ./<run>-report)")
    report.add_argument("--units", choices=("us", "si"), help="units shown (default: those of bench.toml)")
    report.add_argument(
        "--baseline",
        metavar="RUN",
        action="append",
        default=[],
        help="a run to set beside it, load step by load step; at most two",
    )
    report.add_argument(
        "--for",
        dest="reader",
        choices=("student", "instructor"),
        default="",
        help="boxes for conclusions, or rubric and sign-off, besides the results",
    )
    report.add_argument("--xlsx", action="store_true", help="write the results as a workbook as well")
    report.add_argument("--work", metavar="POINT", help="only print how one reading is reduced, step by step")
    report.set_defaults(command=_report)

    check = commands.add_parser("check", help="look for readings that cannot be, and for limits passed")
    check.add_argument("run", metavar="RUN", help=run_words)
    check.add_argument("--json", action="store_true", help="for another program to read")
    check.set_defaults(command=_check)


def _add_folders(commands):
    new = commands.add_parser(
        "new", help="begin a run folder: bench.toml and record.toml to fill in, readings.csv with its head"
    )
    new.add_argument("folder", metavar="FOLDER")
    new.add_argument(
        "--aftercooler",
        choices=AFTERCOOLERS,
        default="air-to-air",
        help="which aftercooler the engine has (default: air-to-air)",
    )
    new.set_defaults(command=_new)

    sheet = commands.add_parser("sheet", help="a blank readings sheet to print and fill in beside the engine")
    sheet.add_argument("folder", metavar="FOLDER", help="a run folder (its bench.toml is enough), or a shipped run")
    sheet.add_argument("--out", metavar="FILE", help="the page to write (default: ./<folder>-sheet.html)")
    sheet.add_argument("--large", action="store_true", help="large print")
    sheet.set_defaults(command=_sheet)


def _add_several_runs(commands):
    for name, words, command in (
        ("pool", "several groups' runs of one engine on one page: pool.html and pool.csv", _pool),
        ("trend", "one engine from term to term: trend.html and trend.csv", _trend),
    ):
        several = commands.add_parser(name, help=words)
        several.add_argument("runs", metavar="RUN", nargs="+", help="run folders of one engine")
        several.add_argument("--out", metavar="DIR", help=f"folder to write to (default: ./{name})")
        several.add_argument("--units", choices=("us", "si"), help="units shown (default: those of the first run)")
        several.set_defaults(command=command)
        if name == "pool":
            words = "instead, one run of what the groups have entered in lesson 08: the folder to make"
            several.add_argument("--into", metavar="FOLDER", help=words)
            fault_commands.add_beside(several)

    note = commands.add_parser("instrument-note", help="an instrument was out of tolerance: which runs it touched")
    note.add_argument("folder", metavar="FOLDER", help="the folder that holds your runs")
    note.add_argument("--instrument", metavar="COLUMN", required=True, help="the column it reads, such as boost")
    note.add_argument("--note", metavar="TEXT", required=True, help="what was found")
    note.set_defaults(command=_instrument_note)


def _add_kit(commands):
    handbook = commands.add_parser("handbook", help="every formula on one page: handbook.html")
    handbook.add_argument("--out", metavar="DIR", default=".", help="folder to write to (default: this one)")
    handbook.add_argument("--sheet", action="store_true", help="two pages for the binder instead: formula_sheet.html")
    handbook.set_defaults(command=_handbook)

    lessons = commands.add_parser("lessons", help="open the lessons in your browser")
    lessons.add_argument("name", metavar="NAME", nargs="?", help="a lesson's name or number (default: all, to choose)")
    lessons.add_argument("--present", action="store_true", help="begin on the wall: large, step by step")
    lessons.add_argument(
        "--print",
        dest="paper",
        metavar="DIR",
        help="write it as pages to print instead: the lesson, voting cards, a sheet for a substitute",
    )
    lessons.add_argument(
        "--pocket",
        metavar="DIR",
        help="write it as one file that any phone or PC opens, without Python and network",
    )
    lessons.add_argument(
        "--all", dest="every", action="store_true", help="with --pocket: every lesson, and an index page"
    )
    lessons.add_argument("--no-browser", action="store_true", help="print the address, open no browser")
    lessons.set_defaults(command=_lessons)

    self_check = commands.add_parser("self-check", help="does this installation work?")
    self_check.add_argument("--json", action="store_true", help="for another program to read")
    self_check.set_defaults(command=_self_check)


def _report(options):
    from turbomath.lab.reduction import reduce
    from turbomath.lab.report import folder, terminal
    from turbomath.lab.run import readings

    run = log_commands.read(options.run, options.bench, options.take)
    if run is None:
        return
    if options.work is not None:
        from turbomath.lab.report.worked.reading import worked

        print(worked(run, options.work, options.units or run.bench.run.units))
        return
    others = [readings.read_run(name) for name in options.baseline]
    out = folder.folder_for(run, options.out, others)
    system = options.units or run.bench.run.units
    reduced, *baselines = (reduce.reduce_run(one) for one in (run, *others))
    written = folder.write(reduced, out, system, baselines, xlsx=options.xlsx, reader=options.reader)
    print(terminal.on_terminal(reduced, system, baselines), "", *(f"Written: {path}" for path in written), sep="\n")


def _check(options):
    from turbomath.lab import checks
    from turbomath.lab.checks import flags
    from turbomath.lab.run import readings

    found = checks.check_run(readings.read_run(options.run))
    print(flags.as_json(found) if options.json else flags.as_text(found))


def _new(options):
    from turbomath.lab.record import record_text
    from turbomath.lab.run import blank

    written = [*blank.new_run(options.folder, options.aftercooler), record_text.new_record(options.folder)]
    print(*(f"Written: {path}" for path in written if path), sep="\n")
    print("Fill in bench.toml with a text editor and readings.csv with a spreadsheet, then: turbomath report FOLDER")
    print("record.toml asks what is settled before the start, found and put right; lesson 08 and the sheet ask it too.")


def _sheet(options):
    from turbomath.lab.entry import blank_sheet

    print(f"Written: {blank_sheet.write(options.folder, options.out, large=options.large)}")
    print("Open it in a browser and print it.")


def _pool(options):
    from turbomath.lab.several import joined, pool

    if options.into:
        return print(*joined.join(options.runs, options.into), sep="\n")
    earlier, own = fault_commands.beside(options)
    _several(options, "pool", partial(pool.write, earlier=earlier, own=own))


def _trend(options):
    from turbomath.lab.several import trend

    _several(options, "trend", trend.write)


def _instrument_note(options):
    from turbomath.lab.report import records

    touched, unread, written = records.note_instrument(options.folder, options.instrument, options.note)
    print(f"Read with it: {', '.join(touched)}", *unread, *(f"Written: {path}" for path in written), sep="\n")


def _several(options, name, write):
    from turbomath.lab.reduction import reduce
    from turbomath.lab.run import readings

    runs = [readings.read_run(one) for one in options.runs]
    system = options.units or runs[0].bench.run.units
    said, written = write([reduce.reduce_run(run) for run in runs], options.out or name, system)
    print(*said, "", *(f"Written: {path}" for path in written), sep="\n")


def _handbook(options):
    from turbomath.handbook import written

    print(*written.written(options.out, sheet=options.sheet), sep="\n")


def _lessons(options):
    if options.paper is not None:
        from turbomath.handouts import written

        for path in written.write(written.lessons_asked(options.name), options.paper):
            print(f"Written: {path}")
        print("Open them in a browser; they print on Letter and A4.")
        return
    if options.pocket is not None:
        from turbomath.handouts.written import lessons_asked
        from turbomath.pocket import written as pocket

        asked = lessons_asked(pocket.name_asked(options.name, options.every, options.pocket))
        for path in pocket.write(asked, options.pocket):
            print(f"Written: {path}", flush=True)
        print("Each file opens in any browser, from a stick or as an attachment, without network.")
        return
    from turbomath.classroom import launch

    launch.lessons(options.name, browser=not options.no_browser, present=options.present)


def _self_check(options):
    from turbomath.lab import self_check

    found = self_check.self_check()
    if options.json:
        print(json.dumps(found, indent=2, ensure_ascii=False))
    else:
        for check in found["checks"]:
            print(f"{'ok  ' if check['passed'] else 'FAIL'}  {check['name']}: {check['detail']}")
        print(f"turbomath {found['version']}: {'all is well' if found['passed'] else 'something is wrong, see above'}")
    return 0 if found["passed"] else 1
