"""The command line: each subcommand is a few lines that call a room."""

import argparse
import json
import sys

from turbomath import __version__, cautions, files
from turbomath.errors import TurbomathError


def main(arguments=None):
    """Run the command line; return 0 done, 1 refused input (one plain sentence on stderr), 2 wrong usage."""
    for stream in (sys.stdout, sys.stderr):
        if not stream.isatty():  # a pipe or a file: not the code page of the console
            stream.reconfigure(encoding="utf-8", errors="replace")
    options = _parser().parse_args(arguments)
    try:
        return options.command(options) or 0
    except TurbomathError as refusal:
        print(refusal, file=sys.stderr)
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
    run_words = f"a run folder, or a shipped run: {', '.join(files.shipped_runs())}"

    report = commands.add_parser("report", help="reduce a run: tables here, a page and reduced.csv in a folder")
    report.add_argument("run", metavar="RUN", help=run_words)
    report.add_argument("--out", metavar="DIR", help="folder to write to (default: ./<run>-report)")
    report.add_argument("--units", choices=("us", "si"), help="units shown (default: those of bench.toml)")
    report.add_argument("--baseline", metavar="RUN", action="append", default=[],
                        help="a run to set beside it, load step by load step; at most two")  # fmt: skip
    report.add_argument("--work", metavar="POINT", help="only print how one reading is reduced, step by step")
    report.set_defaults(command=_report)

    check = commands.add_parser("check", help="look for readings that cannot be, and for limits passed")
    check.add_argument("run", metavar="RUN", help=run_words)
    check.add_argument("--json", action="store_true", help="for another program to read")
    check.set_defaults(command=_check)

    new = commands.add_parser("new", help="begin a run folder: bench.toml to fill in, readings.csv with its head")
    new.add_argument("folder", metavar="FOLDER")
    new.add_argument("--aftercooler", choices=("none", "jacket-water", "air-to-air", "separate-circuit"),
                     default="air-to-air", help="which aftercooler the engine has (default: air-to-air)")  # fmt: skip
    new.set_defaults(command=_new)

    _homework_parser(commands)

    lessons = commands.add_parser("lessons", help="open the lessons in your browser")
    lessons.add_argument("name", metavar="NAME", nargs="?", help="a lesson's name or number (default: the first one)")
    lessons.add_argument("--no-browser", action="store_true", help="print the address, open no browser")
    lessons.set_defaults(command=_lessons)

    self_check = commands.add_parser("self-check", help="does this installation work?")
    self_check.add_argument("--json", action="store_true", help="for another program to read")
    self_check.set_defaults(command=_self_check)
    return parser


def _homework_parser(commands):
    homework = commands.add_parser("homework", help="questions with each seat's own numbers, and marking",
                                   epilog="Individual numbers stop copying, not computing.")  # fmt: skip
    tasks = homework.add_subparsers(title="tasks", required=True, metavar="TASK")
    question = tasks.add_parser("question", help="one question: make it, mark an answer, show the worked solution")
    question.add_argument("name", metavar="NAME", nargs="?", help="a question of the bank (without it: all names)")
    question.add_argument("--seat", default="practice", metavar="S", help="whose numbers (default: practice)")
    question.add_argument("--answer", metavar='"X UNIT"', help="an answer to mark, such as '35.65 psi abs'")
    question.add_argument("--part", metavar="PART", help="which of the values asked for (default: the last)")
    question.add_argument("--earlier", metavar='"STEP=X UNIT"', action="append", default=[],
                          help="the student's own value of an earlier step; may come more than once")  # fmt: skip
    question.add_argument("--worked", action="store_true", help="show the worked solution")
    question.add_argument("--units", choices=("us", "si"), default="us", help="units of the sheet (default: us)")
    question.add_argument("--assignment", metavar="A", default="practice",
                          help="which sheet (default: practice); others need TURBOMATH_SECRET")  # fmt: skip
    question.set_defaults(command=_homework_question)


def _homework_question(options):
    from turbomath.homework import terminal

    print(terminal.question(**{name: value for name, value in vars(options).items() if name != "command"}))


def _report(options):
    from turbomath.lab import readings, reduce, report

    run = readings.read_run(options.run)
    if options.work is not None:
        from turbomath.lab import worked

        print(worked.worked(run, options.work, options.units or run.bench.run.units))
        return
    others = [readings.read_run(name) for name in options.baseline]
    folder = report.folder_for(run, options.out, others)
    system = options.units or run.bench.run.units
    reduced, *baselines = (reduce.reduce_run(one) for one in (run, *others))
    written = report.write(reduced, folder, system, baselines)
    print(report.on_terminal(reduced, system, baselines), "", *(f"Written: {path}" for path in written), sep="\n")


def _check(options):
    from turbomath.lab import checks, flags, readings

    found = checks.check_run(readings.read_run(options.run))
    print(flags.as_json(found) if options.json else flags.as_text(found))


def _new(options):
    from turbomath.lab import blank

    written = blank.new_run(options.folder, options.aftercooler)
    print(*(f"Written: {path}" for path in written), sep="\n")
    print("Fill in bench.toml with a text editor and readings.csv with a spreadsheet, then: turbomath report FOLDER")


def _lessons(options):
    from turbomath.classroom import launch

    launch.lessons(options.name, browser=not options.no_browser)


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
