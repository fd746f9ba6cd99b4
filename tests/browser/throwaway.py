"""Throw-away lessons for the tests of the shell, and the real command line serving them."""

import json
import sys

PANEL = """
import ipywidgets as w
box = w.FloatText(value=3.0, description="Boost")
answer = w.HTML()
box.observe(lambda change: setattr(answer, "value", f"<p class='answer'>twice is {2 * change.new:g}</p>"), "value")
answer.value = "<p class='answer'>twice is 6</p>"
w.VBox([box, answer])
""".strip()

# The command line as the user starts it, but for where the shipped lessons lie.
COMMAND = """
import sys
from pathlib import Path
from turbomath import cli, files
shipped, place = files.shipped, Path(sys.argv[1])
files.shipped = lambda folder: place if folder == "lessons" else shipped(folder)
sys.exit(cli.main(sys.argv[2:]))
"""


def notebook(*cells):
    """Return a notebook's text from (kind, source) pairs, the code hidden as in the lessons."""
    made = [_cell(number, kind, source) for number, (kind, source) in enumerate(cells)]
    kernel = {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}
    return json.dumps({"cells": made, "metadata": {"kernelspec": kernel}, "nbformat": 4, "nbformat_minor": 5})


def _cell(number, kind, source):
    cell = {"cell_type": kind, "id": f"cell-{number}", "metadata": {}, "source": source.splitlines(keepends=True)}
    if kind == "code":
        cell |= {"execution_count": None, "outputs": [], "metadata": {"jupyter": {"source_hidden": True}}}
    return cell


def lesson(*more):
    """Return the throw-away lesson: words, a control with its answer, a second cell; and *more* cells."""
    words = ("markdown", "# A box of air\n\nHow much does it hold? Type a number.")
    return notebook(words, ("code", PANEL), ("code", 'print("second", 6 * 7)'), *more)


def command(lessons, *arguments):
    """Return the command that runs ``turbomath ARGUMENTS`` with the lessons of the folder *lessons*."""
    return [sys.executable, "-c", COMMAND, str(lessons), *arguments]
