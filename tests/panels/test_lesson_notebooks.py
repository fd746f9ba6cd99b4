"""Each lesson runs from top to bottom, holds no saved output and little code, and reads as a lesson should."""

import ast
import itertools
import re
from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

from turbomath.disk import files
from turbomath.physics import charge
from turbomath.table.cautions import CAUTIONS, STANDING, STOP_TRIGGERS

HOUSE = Path(__file__).parents[2]
LESSONS = sorted(files.shipped("lessons").glob("*.ipynb"))
TEXTS = {path.stem: nbformat.read(path, as_version=4) for path in LESSONS}
HOT_AIR = TEXTS["03_hot_air_is_thin"]
each_lesson = pytest.mark.parametrize("name", TEXTS)


def cells(lesson, kind):
    return [cell for cell in lesson.cells if cell.cell_type == kind]


def words(lesson):
    return "\n".join(cell.source for cell in cells(lesson, "markdown"))


@each_lesson
def test_a_lesson_runs_from_top_to_bottom(name):
    lesson = nbformat.from_dict(TEXTS[name].copy())
    NotebookClient(lesson, kernel_name="python3", timeout=120, resources={"metadata": {"path": str(HOUSE)}}).execute()
    for cell in cells(lesson, "code"):
        kinds = {output.output_type for output in cell.outputs}
        assert kinds == {"display_data"} or kinds == {"execute_result"}, cell.source
        assert "application/vnd.jupyter.widget-view+json" in cell.outputs[0].data


@each_lesson
def test_a_lesson_is_valid_and_holds_no_saved_output(name):
    nbformat.validate(TEXTS[name])
    for cell in cells(TEXTS[name], "code"):
        assert cell.outputs == []
        assert cell.execution_count is None
    assert TEXTS[name].metadata.kernelspec.name == "python3"
    assert "widgets" not in TEXTS[name].metadata


@each_lesson
def test_a_lesson_holds_little_code_and_imports_widgets_only(name):
    code = "\n".join(cell.source for cell in cells(TEXTS[name], "code"))
    assert len([line for line in code.splitlines() if line.strip()]) <= 30
    tree = ast.parse(code)
    built = (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef, ast.Lambda, ast.For, ast.While, ast.comprehension)
    assert not [node for node in ast.walk(tree) if isinstance(node, built)]
    for node in ast.walk(tree):
        assert not isinstance(node, ast.Import)
        if isinstance(node, ast.ImportFrom):
            assert node.module.startswith(("turbomath.widgets.", "turbomath.panels."))


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
    levels = [len(marks) for marks in re.findall(r"^(#+) ", words(TEXTS[name]), re.MULTILINE)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in itertools.pairwise(levels))
    headings = re.findall(r"^#+ (.+)$", words(TEXTS[name]), re.MULTILINE)
    for target in re.findall(r"\]\(#([^)]+)\)", words(TEXTS[name])):
        assert target in [heading.replace(" ", "-") for heading in headings]


@each_lesson
def test_links_to_files_lead_somewhere(name):
    for target in re.findall(r"\]\((?!#)([^)]+)\)", words(TEXTS[name])):
        assert (files.shipped("lessons") / target).is_file(), target


@each_lesson
def test_a_lesson_speaks_plainly(name):
    text = words(TEXTS[name])
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
    prose = [line for line in words(TEXTS[name]).splitlines() if line and line[0] not in "|#" and "](" not in line]
    for sentence in (one for line in prose for one in re.split(r"(?<=[.!?:;])[*_]*\s+", line)):
        assert len(sentence.split()) <= 30, sentence


def test_the_worked_numbers_of_hot_air_is_thin_are_true():
    text = words(HOT_AIR)
    for bold, pressure, temperature in (("0.1215", 34.2, 760), ("0.1359", 29.2, 580)):
        assert f"2.70 × {pressure} ÷ {temperature} = **{bold} lb/ft³**" in text
        assert 2.70 * pressure / temperature == pytest.approx(float(bold), abs=5.1e-5)
    for bold, kpa, kelvin in (("1.947", 235.8, 421.9), ("2.179", 201.3, 321.9)):
        assert f"{kpa} ÷ (0.28705 × {kelvin}) = **{bold} kg/m³**" in text
        assert kpa / (0.28705 * kelvin) == pytest.approx(float(bold), abs=5.1e-4)
        assert charge.density(kpa * 1e3, kelvin) == pytest.approx(float(bold), rel=1e-3)
    assert pytest.approx(1.119, abs=5e-4) == 0.1359 / 0.1215
    assert text.count("11.9 %") == 2


def test_the_cautions_stand_whole_where_the_reader_is_sent_to_an_engine():
    from turbomath.widgets.cautions import cautions

    shown = cautions().value.replace("&#x27;", "'")
    for said in (STANDING, *STOP_TRIGGERS, *(part for one in CAUTIONS for part in (one.hazard, one.text, one.source))):
        assert said in shown
    order = [cell.id for cell in HOT_AIR.cells]
    assert order.index("cautions") == order.index("write") + 1
