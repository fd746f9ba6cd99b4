"""`turbomath homework`: each task is a few lines that call a room."""

from argparse import _SubParsersAction


def add(commands: _SubParsersAction) -> None:
    """Add `homework` and its tasks to the command line."""
    homework = commands.add_parser(
        "homework",
        help="questions with each seat's own numbers, and marking",
        epilog="Individual numbers stop copying, not computing.",
    )
    tasks = homework.add_subparsers(title="tasks", required=True, metavar="TASK")
    question = tasks.add_parser("question", help="one question: make it, mark an answer, show the worked solution")
    question.add_argument(
        "name", metavar="NAME", nargs="?", help="of the bank, or your own TOML file (without it: all names)"
    )
    question.add_argument("--seat", default="practice", metavar="S", help="whose numbers (default: practice)")
    question.add_argument("--answer", metavar='"X UNIT"', help="an answer to mark, such as '35.65 psi abs'")
    question.add_argument("--part", metavar="PART", help="which of the values asked for (default: the last)")
    question.add_argument(
        "--earlier",
        metavar='"STEP=X UNIT"',
        action="append",
        default=[],
        help="the student's own value of an earlier step; may come more than once",
    )
    question.add_argument("--worked", action="store_true", help="show the worked solution")
    question.add_argument("--units", choices=("us", "si"), default="us", help="units of the sheet (default: us)")
    question.add_argument(
        "--assignment",
        metavar="A",
        default="practice",
        help="which sheet (default: practice); others need TURBOMATH_SECRET",
    )
    question.set_defaults(command=_question)

    sheet = tasks.add_parser("sheet", help="a sheet for each seat, the class in one print, key and solutions apart")
    sheet.add_argument("assignment", metavar="ASSIGNMENT", help="a TOML file, or the name of a shipped example")
    sheet.add_argument("--seats", metavar="FILE", required=True, help="a seat a line, or the columns seat,student")
    sheet.add_argument("--out", metavar="DIR", required=True, help="the folder of this assignment for this class")
    sheet.add_argument(
        "--large", metavar="SEAT", nargs="*", help="large print as well, for these seats or (none named) for all"
    )
    sheet.add_argument("--pocket", action="store_true", help="for each seat a page to work on with a phone as well")
    sheet.set_defaults(command=_sheet)

    for name, words, command in (
        ("mark", "mark what came in, and print it", _mark),
        ("gradebook", "mark, and write grades.csv, items.csv and a feedback page a seat", _gradebook),
        ("sample", "begin a folder with an INVENTED class to try marking on", _sample),
    ):
        task = tasks.add_parser(name, help=words)
        task.add_argument("folder", metavar="FOLDER", help="the homework folder of a class")
        task.set_defaults(command=command)

    gain = tasks.add_parser("gain", help="the same questions before and after a course: what the class answered")
    gain.add_argument("before", metavar="BEFORE", help="the homework folder of the first time")
    gain.add_argument("after", metavar="AFTER", help="the homework folder of the second time")
    gain.set_defaults(command=_gain)

    forget = tasks.add_parser("forget", help="take one seat out of a homework folder, everywhere in it")
    forget.add_argument("seat", metavar="SEAT")
    forget.add_argument("--folder", metavar="FOLDER", default=".", help="the homework folder (default: this one)")
    forget.set_defaults(command=_forget)


def _question(options):
    from turbomath.homework.marking import terminal

    print(terminal.question(**{name: value for name, value in vars(options).items() if name != "command"}))


def _sheet(options):
    from turbomath.homework.course import hand_out

    print(
        hand_out.write(options.assignment, options.seats, options.out, large=options.large, pocket=options.pocket).words
    )


def _mark(options):
    from turbomath.homework.course import course
    from turbomath.homework.marking import class_marks, gradebook

    whole = course.Course(options.folder)
    print(gradebook.on_terminal(class_marks.class_marks(whole), whole.assignment))


def _gradebook(options):
    from turbomath.homework.course import course
    from turbomath.homework.marking import gradebook

    whole = course.Course(options.folder)
    marks, paths = gradebook.written(whole)
    print(gradebook.on_terminal(marks, whole.assignment), *(f"Written: {path}" for path in paths), sep="\n")


def _sample(options):
    from turbomath.homework.course import sample_class

    whole = sample_class.copied(options.folder)
    print(f"Written: {whole.folder}: the sample class. It is INVENTED, and its secret is public.")
    print(f"What is planted where: {whole.instructor / sample_class.PLANTED}")
    print(f"Now mark it: turbomath homework gradebook {whole.folder}")


def _gain(options):
    from turbomath.homework.course import before_and_after

    print(before_and_after.written(options.before, options.after))


def _forget(options):
    from turbomath.homework.course import course, forgetting

    print(*forgetting.forget(course.Course(options.folder), options.seat), sep="\n")
