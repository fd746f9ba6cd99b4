"""Hand-ins that mean harm, or that went badly wrong: each puts one into a student's folder, and says what is answered.

`HOSTILE` is name -> (words that the answer must hold, function (student's folder, outside folder)).
"""

import gzip
import io
import json
import os
import pickle
import zipfile

SIZE = 200_000_000
HEAD = "question,part,answer,unit,remark\n"
NAME = "manifold_pressure_from_boost"
TOUCH = "import os; os.system('touch broken_in')"


class _Runs:
    """What unpickling would run."""

    def __reduce__(self):
        return os.system, ("touch broken_in",)


def _file(name, content):
    data = content if isinstance(content, bytes) else content.encode()
    return lambda folder, outside: (folder / name).write_bytes(data)


def _csv(answer, unit="", remark="", question=NAME):
    cells = [f'"{cell}"' for cell in (question, "", answer, unit, remark)]
    return _file("answers.csv", HEAD + ",".join(cell if cell != '""' else "" for cell in cells) + "\n")


def _json(text):
    return _file("answers.json", text)


def _whole_json(**changes):
    def make(folder, outside):
        code = next(folder.glob("sheet-*.json")).stem.removeprefix("sheet-")
        content = {"schema": "turbomath-answers-1", "seat": folder.name, "sheet": code, "kit": "1", "answers": []}
        (folder / "answers.json").write_text(json.dumps(content | changes), encoding="utf-8")

    return make


def _answer(**changes):
    return {"question": NAME, "part": "", "answer": "30 psi abs", "unit": "", "remark": ""} | changes


def _sparse(name, start):
    def make(folder, outside):
        with (folder / name).open("wb") as stream:
            stream.write(start)
            stream.truncate(SIZE)

    return make


def _linked(name, target):
    def make(folder, outside):
        (folder / name).unlink(missing_ok=True)
        (folder / name).symlink_to(target(folder, outside))

    return make


def _linked_folder(folder, outside):
    for path in folder.iterdir():
        path.unlink()
    folder.rmdir()
    folder.symlink_to(outside, target_is_directory=True)


def _pipe(folder, outside):
    (folder / "answers.csv").unlink(missing_ok=True)
    os.mkfifo(folder / "answers.csv")


def _folder(folder, outside):
    (folder / "answers.csv").unlink(missing_ok=True)
    (folder / "answers.csv").mkdir()


def _modules(folder, outside):
    for name in ("json", "csv", "numpy", "sitecustomize", "conftest", "turbomath"):
        (folder / f"{name}.py").write_text(TOUCH, encoding="utf-8")


def _workbook():
    page = io.BytesIO()
    with zipfile.ZipFile(page, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", b"0" * 10_000_000)
    return page.getvalue()


NOTEBOOK = json.dumps(
    {
        "cells": [{"cell_type": "code", "execution_count": None, "metadata": {}, "outputs": [], "source": [TOUCH]}],
        "metadata": {"kernelspec": {"name": "python3"}},
        "nbformat": 4,
        "nbformat_minor": 5,
    }
)
YAML = f"answers: !!python/object/apply:os.system ['{TOUCH}']\n"

HOSTILE = {
    "code cells as answers": ("text in quotes", _json(NOTEBOOK)),
    "a notebook beside the answers": ("Not opened: homework.ipynb", _file("homework.ipynb", NOTEBOOK)),
    "modules named like the kit's own": ("Not opened: conftest.py, csv.py, json.py and 3 more", _modules),
    "a pickle": ("a file for a program", _json(pickle.dumps(_Runs(), 4))),
    "a pickle of plain letters": ("in the first row", _file("answers.csv", pickle.dumps(_Runs(), 0))),
    "YAML as JSON": ("expected JSON", _json(YAML)),
    "YAML as CSV": ("in the first row", _file("answers.csv", YAML)),
    "Python as CSV": ("in the first row", _file("answers.csv", TOUCH)),
    "deep lists": ("brackets inside brackets", _json("[" * 200_000)),
    "deep groups": ("brackets inside brackets", _json('{"a":' * 40_000)),
    "deep lists in an answer": ("text in quotes", _whole_json(kit=json.loads("[" * 90 + "]" * 90))),
    "200 MB as CSV": ("200,000,000 bytes", _sparse("answers.csv", HEAD.encode())),
    "200 MB as JSON": ("200,000,000 bytes", _sparse("answers.json", b"[")),
    "a million rows": ("at most 256,000", _file("answers.csv", HEAD + f"{NAME},,30,psi,\n" * 1_000_000)),
    "too many rows": ("more rows", _file("answers.csv", HEAD + f"{NAME},,3,,\n" * 2_001)),
    "too many answers": ("a list of at most 2,000", _whole_json(answers=["x"] * 2_001)),
    "NaN": ("found 'NaN', expected text in quotes", _json('{"kit": NaN}')),
    "Infinity": ("found '-Infinity', expected text in quotes", _json('{"kit": -Infinity}')),
    "a number of 5,000 digits": ("expected text in quotes", _json('{"kit": 1' + "0" * 5_000 + "}")),
    "the same name twice": ("'seat' twice", _json('{"seat": "A01", "seat": "A02"}')),
    "the same name twice in an answer": ("'unit' twice", _json('{"answers": [{"unit": "psi", "unit": "kPa"}]}')),
    "a seat outside the folder": ("found '../A01'", _whole_json(seat="../A01")),
    "a seat named like a device": ("found 'CON'", _whole_json(seat="CON")),
    "a question outside the folder": ("found '../../instructor/secret'", _csv("1", question="../../instructor/secret")),
    "a lone half of a letter": ("can be printed", _whole_json(answers=[_answer(answer="\ud800")])),
    "an escape in JSON": ("can be printed", _whole_json(answers=[_answer(remark="\x1b[31mred\0")])),
    "an escape in CSV": ("can be printed", _csv("\x1b[31m30 psi")),
    "NUL bytes": ("plain text", _file("answers.csv", HEAD + NAME + ",,30\0,psi,\n")),
    "UTF-16": ("UTF-16", _file("answers.csv", (HEAD + NAME + ",,30,psi,\n").encode("utf-16"))),
    "bytes that are no letters": (
        "letters in one encoding",
        _file("answers.csv", HEAD.encode() + bytes(range(128, 256)) * 20),
    ),
    "a workbook": ("a workbook", _file("answers.csv", _workbook())),
    "an archive": ("an archive", _file("answers.csv", gzip.compress(b"0" * 10_000_000))),
    "a quote that never ends": ("quotes in pairs", _file("answers.csv", HEAD + '"' + "a,\n" * 9_000)),
    "a cell without end": ("at most 2,000 characters", _csv("3" * 60_000)),
    "a link to another file": ("a link", _linked("answers.csv", lambda folder, outside: outside / "answers.csv")),
    "a link to the secret": ("a link", _linked("answers.json", lambda folder, outside: "../../instructor/secret")),
    "a link to a device": ("a link", _linked("answers.csv", lambda folder, outside: "/dev/zero")),
    "a link that leads nowhere": ("a link", _linked("answers.json", lambda folder, outside: "nowhere")),
    "a folder that is a link": ("found a link", _linked_folder),
    "a pipe": ("a folder or a device", _pipe),
    "a folder as a file": ("a folder", _folder),
    # what is text stays text: it is marked, and harmless wherever it is shown
    "a call": ("No usual slip|Write figures only", _csv(TOUCH)),
    "a power without end": ("Write it so|does not fit", _csv("9**9**9**9")),
    "a huge number": ("Asked was|No usual slip|Write", _csv("1e308", "psi abs")),
    "more digits than there are": ("Write it shorter", _csv("9" * 1_900)),
    "a formula": ("Write it so|Write figures only", _csv("=HYPERLINK(0)", "=cmd|' /C calc'!A0", "@SUM(1)")),
    "a formula with a sign": ("Write|does not fit", _csv("-30", "+cmd|' /C calc'!A0")),
    "HTML": ("Write it so|Write figures only", _csv("<script>alert(1)</script>", "<img src=x onerror=alert(1)>")),
    "a template": ("Write figures only", _csv("{{ 7 * 7 }}{% include 'page.html' %}")),
    "marks that turn text round": ("Found the units", _csv("30\u202e isp", "psi")),
}
