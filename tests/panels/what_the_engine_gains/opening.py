"""Lesson 05 as its tests handle it, with a browser or without: folders of readings, and figures of a report."""

import csv
import shutil

from tests.panels.opening import number
from turbomath.disk import files

PSI = 6894.757293168  # Pa; NIST Special Publication 811 (2008), appendix B
NAMES = ("measured charge gain", "theoretical charge gain", "charge gain difference")
RUNS = files.shipped_runs()
AIR = "generator_air_to_air"
PLAIN = "point,condition,barometer [inHg],boost [psi],remark\n1,load,29.10,24.5,steady\n2,load,29.08,9.5,\n"
# Slips that the reader refuses: (file, what replaces it: old, new); "" for old is the whole file
SLIPS = {
    "letters in a number": ("readings.csv", "24.5", "twenty"),
    "unit in the cell": ("readings.csv", "9.5", "9.5 psi"),
    "two numbers in a cell": ("readings.csv", "9.5", "9.5/9.6"),
    "formula": ("readings.csv", "9.5", "=9+0.5"),
    "no unit in the head": ("readings.csv", "boost [psi]", "boost"),
    "slip in a name": ("readings.csv", "boost", "bost"),
    "unknown unit": ("readings.csv", "[psi]", "[pis]"),
    "condition unknown": ("readings.csv", "1,load", "1,laod"),
    "no readings": ("readings.csv", "", PLAIN.splitlines()[0] + "\n"),
    "slip in a limit": ("bench.toml", "", '[limits]\nbost = "..30 psi"\n'),
    "bench cut short": ("bench.toml", "", '[engine]\ndisplacement = "12'),
    "bench missing": ("bench.toml", "", None),
}


def place_broken(folder, name):
    """Write a run with one slip into *folder*."""
    folder.mkdir(parents=True)
    texts = {"readings.csv": PLAIN, "bench.toml": "[run]\ninvented = true\n"}
    file, old, new = SLIPS[name]
    texts[file] = texts[file].replace(old, new, 1) if old else new
    for one, text in texts.items():
        if text is not None:
            (folder / one).write_text(text, encoding="utf-8")


def hotter(folder, degrees):
    """Copy the air-to-air run with a hotter manifold at load; INVENTED like the run itself."""
    shutil.copytree(files.shipped("data") / AIR, folder)
    with (folder / "readings.csv").open(encoding="utf-8-sig", newline="") as stream:
        head, *rows = csv.reader(stream)
    column = head.index("manifold temperature [°F]")
    for row in rows:
        if row[1] == "load":
            row[column] = str(int(row[column]) + degrees)
    with (folder / "readings.csv").open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows([head, *rows])


def agrees(text, row, name):
    """Whether "value ± width" is what reduced.csv has, to the digits printed; a difference goes by its parts."""
    steps = 1.0 if name == NAMES[2] else 0.5
    value, _, width = text.partition(" ± ")
    pairs = ((value, row[f"{name} [%]"]), (width, row[f"{name} ± [%]"]))
    return all(
        abs(number(said) - float(told)) <= steps * 10.0 ** -len(said.partition(".")[2]) + 1e-5 * abs(float(told))
        for said, told in pairs
    )
