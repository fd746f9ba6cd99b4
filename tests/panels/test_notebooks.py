"""Each lesson's notebook and notes: held against its record, thin, safe under the fingers, and plain to read."""

import ast
import itertools
import json
import re
from html import escape
from pathlib import Path
from types import SimpleNamespace

import pytest

from tests.panels.opening import BY_NAME, notes
from turbomath.disk import files
from turbomath.homework.bank import QUESTIONS
from turbomath.panels.registry import LESSONS
from turbomath.table.cautions import CAUTIONS, SHOP_CAUTIONS, STANDING, STOP_TRIGGERS
from turbomath.widgets.cautions import cautions, cautions_in_turn

HOUSE = Path(__file__).parents[2]
MASTERS = files.shipped("lessons")
FILES = {one.name: MASTERS / f"{one.notebook}.ipynb" for one in LESSONS}


def read(path):
    """Return a notebook as its file has it, each source in one text: `nbformat` would take seconds to import."""
    found = json.loads(path.read_text(encoding="utf-8"), object_hook=lambda one: SimpleNamespace(**one))
    for cell in found.cells:
        cell.source = "".join(cell.source)
    return found


TEXTS = {name: read(path) for name, path in FILES.items()}
each_lesson = pytest.mark.parametrize("name", TEXTS)


def cells(name, kind):
    return [cell for cell in TEXTS[name].cells if cell.cell_type == kind]


def words(name):
    return "\n".join(cell.source for cell in cells(name, "markdown"))


def imported(name):
    """Return (module, what is taken from it) for each import of a notebook's code."""
    tree = ast.parse("\n".join(cell.source for cell in cells(name, "code")))
    assert not [node for node in ast.walk(tree) if isinstance(node, ast.Import)]
    found = [node for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    return [(node.module, alias.name) for node in found for alias in node.names]


# Held against the record of the lesson


def syllabus(folder):
    """Return the table of lessons as README prints it, with links to the teaching notes in *folder*."""
    rows = [
        f"| {one.number} [{one.title}]({folder}/{one.notebook}.md) | {one.question} | {one.minutes} | {one.needs} |"
        for one in LESSONS
    ]
    return "\n".join(["| number | the shop question | minutes | needs |", "|---|---|---|---|", *rows]) + "\n"


@pytest.mark.parametrize(
    ("page", "folder"), [("README.md", "lessons/teaching_notes"), ("lessons/README.md", "teaching_notes")]
)
def test_the_syllabus_is_that_of_the_lessons(page, folder):
    assert f"\n\n{syllabus(folder)}\n" in (HOUSE / page).read_text(encoding="utf-8")


def test_the_readme_is_short():
    """At most 1,200 words outside its commands."""
    prose = re.sub(r"(?s)```.*?```", "", (HOUSE / "README.md").read_text(encoding="utf-8"))
    assert len(prose.split()) <= 1_200


def test_every_notebook_and_every_note_belongs_to_a_lesson():
    known = {one.notebook for one in LESSONS}
    assert {path.stem for path in MASTERS.glob("*.ipynb")} == known
    without_a_screen = {"from_boost_to_gain_with_a_report"}
    assert {path.stem for path in (MASTERS / "teaching_notes").glob("*.md")} == known | without_a_screen


@each_lesson
def test_the_head_of_a_notebook_is_that_of_its_lesson(name):
    lesson = BY_NAME[name]
    assert words(name).startswith(f"# {lesson.heading}\n\n**{lesson.question}**\n\n")
    assert f"\n\n**{lesson.head}**\n\n" in words(name)
    assert lesson.heading.lower() in notes(name).splitlines()[0].lower()
    assert f"(teaching_notes/{lesson.notebook}.md)" in words(name)


def before_the_first_control(name):
    """Return the words that are in sight above the first widget: not those that are folded."""
    order = [cell.cell_type for cell in TEXTS[name].cells]
    above = "\n".join(cell.source for cell in TEXTS[name].cells[: order.index("code")])
    return re.sub(r"(?s)<details>.*?</details>", "", above)


@each_lesson
def test_a_lesson_starts_with_its_question_and_not_with_reading(name):
    most = 120 if name == "start_here" else 60
    assert 10 < len(before_the_first_control(name).split()) <= most


@each_lesson
def test_what_is_told_about_a_lesson_is_folded_below_its_first_panel(name):
    about = [cell for cell in TEXTS[name].cells if cell.id == "about"]
    order = [cell.id for cell in TEXTS[name].cells]
    first = next(cell.id for cell in TEXTS[name].cells if cell.cell_type == "code")
    assert order.index("about") > order.index(first)
    assert about[0].source.startswith("<details>\n<summary>About this lesson")
    assert about[0].source.endswith("\n\n</details>")
    for part in (f"**{BY_NAME[name].head}**", "## What you will be able to do", "## What you need", "teaching notes"):
        assert part in about[0].source


@each_lesson
def test_nothing_above_the_first_question_gives_its_answer_away(name):
    """A number of the outcome, or what the reply to the right option says, stands nowhere above the question."""
    first = next(iter(BY_NAME[name].words.values()), None)
    if first is None or first.prediction is None:
        return
    above = before_the_first_control(name)
    told = {number for one in first.prediction.options for number in re.findall(r"\d[\d.,]*", one.words) if one.right}
    asked = set(re.findall(r"\d[\d.,]*", first.prediction.text))
    assert not {number for number in told - asked if re.search(rf"(?<![\d.]){re.escape(number)}(?![\d])", above)}
    assert not re.search(r"more boost is not|less boost|lower boost", above, re.IGNORECASE)


@each_lesson
def test_a_notebook_shows_each_panel_of_its_lesson_once_and_its_ticket(name):
    own = [what for module, what in imported(name) if module == f"turbomath.panels.{name}"]
    lesson = BY_NAME[name]
    assert sorted(one for one in own if one.startswith("panel_")) == sorted(one.__name__ for one in lesson.panels)
    assert sorted(one for one in own if one.startswith("ticket_")) == sorted(f"ticket_{one}" for one in lesson.tickets)
    shared = {module for module, _ in imported(name)} - {f"turbomath.panels.{name}"}
    assert shared <= {"turbomath.widgets.cautions"}
    called = [line.partition("(")[0] for cell in cells(name, "code") for line in cell.source.splitlines()[1:] if line]
    assert called == [what for _, what in imported(name)]


@each_lesson
def test_the_cautions_follow_the_sheet_and_the_notes_tell_the_time(name):
    order = [cell.id for cell in TEXTS[name].cells]
    if "cautions" in order and name not in ("start_here", "live_lab"):  # there they come before anything else
        assert order.index("cautions") == order.index("write") + 1
    if name != "homework":
        assert "cautions" in order
    minutes = re.match(r"\d+", BY_NAME[name].minutes)[0]
    if f"{minutes} minutes" in BY_NAME[name].head:
        assert f"{minutes} minutes" in notes(name)


# What a notebook is like


@pytest.mark.process
@each_lesson
def test_a_lesson_runs_from_top_to_bottom(name):
    import nbformat  # slow to import, as is what runs a notebook
    from nbclient import NotebookClient

    lesson = nbformat.read(FILES[name], as_version=4)
    NotebookClient(lesson, kernel_name="python3", timeout=120, resources={"metadata": {"path": str(HOUSE)}}).execute()
    for cell in (one for one in lesson.cells if one.cell_type == "code"):
        kinds = {output.output_type for output in cell.outputs}
        assert kinds == {"display_data"} or kinds == {"execute_result"}, cell.source
        assert "application/vnd.jupyter.widget-view+json" in cell.outputs[0].data


def test_every_lesson_is_a_valid_notebook():
    import nbformat  # slow to import, so that one worker does it, once

    for path in FILES.values():
        nbformat.validate(json.loads(path.read_text(encoding="utf-8")))


@each_lesson
def test_a_lesson_holds_no_saved_output(name):
    for cell in cells(name, "code"):
        assert cell.outputs == []
        assert cell.execution_count is None
    assert TEXTS[name].metadata.kernelspec.name == "python3"
    assert "widgets" not in vars(TEXTS[name].metadata)


@each_lesson
def test_a_lesson_holds_little_code_and_builds_nothing(name):
    code = "\n".join(cell.source for cell in cells(name, "code"))
    assert len([line for line in code.splitlines() if line.strip()]) <= 30
    built = (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef, ast.Lambda, ast.For, ast.While, ast.comprehension)
    assert not [node for node in ast.walk(ast.parse(code)) if isinstance(node, built)]


@each_lesson
def test_no_keystroke_can_delete_a_cell_and_the_code_is_out_of_sight(name):
    for cell in TEXTS[name].cells:
        assert cell.metadata.deletable is False
        assert cell.metadata.editable is False
        if cell.cell_type == "code":
            assert cell.metadata.jupyter.source_hidden is True
    ids = [cell.id for cell in TEXTS[name].cells]
    assert len(set(ids)) == len(ids)


@each_lesson
def test_headings_form_a_tree_below_one_title(name):
    levels = [len(marks) for marks in re.findall(r"^(#+) ", words(name), re.MULTILINE)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in itertools.pairwise(levels))
    headings = re.findall(r"^#+ (.+)$", words(name), re.MULTILINE)
    for target in re.findall(r"\]\(#([^)]+)\)", words(name)):
        assert target in [heading.replace(" ", "-") for heading in headings]


@each_lesson
def test_links_to_files_lead_somewhere(name):
    for target in re.findall(r"\]\((?!#)([^)]+)\)", words(name)):
        assert (MASTERS / target).is_file(), target


@each_lesson
def test_a_lesson_speaks_plainly(name):
    text = words(name)
    assert not re.findall(r"\b(?:just|simply|obviously|clearly|of course|intercooler)\b", text, re.IGNORECASE)
    assert "INVENTED" in text
    for part in (
        "What you will be able to do",
        "What you need",
        "Pitfalls",
        "Write it down",
        "Exit ticket",
        "What we learned",
        "Sources",
    ):
        assert f"## {part}" in text


@each_lesson
def test_sentences_are_short(name):
    """At most 30 words to a sentence outside tables and lists of links."""
    prose = [line for line in words(name).splitlines() if line and line[0] not in "|#" and "](" not in line]
    for sentence in (one for line in prose for one in re.split(r"(?<=[.!?:;])[*_]*\s+", line)):
        assert len(sentence.split()) <= 30, sentence


def in_turn(box):
    """Press "we have read this" until it is gone; return what was shown each time."""
    page, buttons = box.children
    shown = [page.value]
    while buttons.layout.display != "none":
        buttons.children[0].click()
        shown.append(page.value)
    return shown


@pytest.mark.parametrize("whole", [False, True])
def test_cautions_come_one_at_a_time_each_acknowledged_and_then_all(whole):
    every = cautions(whole=whole).value
    *each, last = in_turn(cautions_in_turn(whole=whole))
    assert last == every
    assert len(each) == len(re.findall("<li>", every)) + 2
    assert len(set(each)) == len(each)
    assert STANDING in each[0].replace("&#x27;", "'")
    assert "Stop at once" in each[-1]
    for one, hazard in zip(each[1:-1], (*CAUTIONS, *SHOP_CAUTIONS) if whole else CAUTIONS, strict=True):
        assert f"<b>{escape(hazard.hazard)}.</b>" in one


def test_all_cautions_can_be_shown_at_once_to_print():
    box = cautions_in_turn(whole=True)
    box.children[1].children[1].click()
    assert box.children[0].value == cautions(whole=True).value


def test_the_cautions_stand_whole_where_the_reader_is_sent_to_an_engine():
    shown = cautions().value.replace("&#x27;", "'")
    for said in (STANDING, *STOP_TRIGGERS, *(part for one in CAUTIONS for part in (one.hazard, one.text, one.source))):
        assert said in shown


# What a lesson takes up, and what it leads to


@each_lesson
def test_a_lesson_opens_with_a_question_on_an_earlier_one_that_it_needs(name):
    lesson = BY_NAME[name]
    if not lesson.number.isdigit() or lesson.number == "00":
        return
    asked = re.search(
        r"\n\n<details>\n<summary><b>From lesson (\d+):</b> [A-Z][^<]+\?</summary>\n\n.+\n\n</details>\n\n",
        TEXTS[name].cells[0].source,
    )
    assert asked
    assert int(asked[1]) in needed(lesson.needs)


def needed(needs):
    """Return the numbers of the lessons that another needs, as its record says: "01 to 04", "00, 03 to 05"."""
    found = set()
    for first, last in re.findall(r"\b(\d\d)(?: to (\d\d))?", needs):
        found |= set(range(int(first), int(last or first) + 1))
    return found


@each_lesson
def test_a_lesson_names_homework_that_the_bank_has(name):
    if not BY_NAME[name].number.isdigit():
        return
    (line,) = re.findall(r"^- Homework that belongs here: (.+)\.$", words(name), re.MULTILINE)
    named = re.findall(r"\*([^*]+)\*", line)
    assert len(named) == 3
    assert {one.replace(" ", "_") for one in named} <= set(QUESTIONS)


def test_the_first_days_teach_nothing_before_what_it_needs():
    plan = re.search(r"## The first days: ([\d, ]+)\n", notes("start_here"))[1]
    numbers, taught = [int(one) for one in plan.split(", ")], set()
    needs = {int(one.number): needed(one.needs) for one in LESSONS if one.number.isdigit()}
    for number in numbers:
        assert needs[number] <= taught, (number, needs[number])
        taught.add(number)
    table = notes("start_here").partition("## The first days")[2]
    assert [int(one) for one in re.findall(r"^\| (?:first|second|third) \| (\d\d):", table, re.MULTILINE)] == numbers
