"""The loop with a real spreadsheet program: a sheet of the kit goes out, is filled, saved and read back, to the digit.

It is Debian's LibreOffice Calc, without a screen, in three countries. Without it there is one loud skip; with
``TURBOMATH_REQUIRE_SPREADSHEET=1`` that is a failure. All data INVENTED.
"""

import csv
import io
import os
import shutil
import subprocess
from pathlib import Path

import pytest

from turbomath.disk import files
from turbomath.lab.checks import check_run
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report import tables
from turbomath.lab.run import blank
from turbomath.lab.run.readings import read_run

RUN = "generator_air_to_air"
PROGRAM = os.environ.get("TURBOMATH_SPREADSHEET") or shutil.which("soffice")
REQUIRED = os.environ.get("TURBOMATH_REQUIRE_SPREADSHEET") == "1"
COUNTRIES = {"en-US": (1033, "."), "de-DE": (1031, ","), "fr-FR": (1036, ",")}  # its number in a file, its decimal mark
PROFILE = """\
<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"><item oor:path="/org.openoffice.Setup/L10N">
<prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>{country}</value></prop></item></oor:items>
"""
UTF_8, UTF_16 = 76, 65535
OPENED = "Text - txt - csv (StarCalc):44,34,{code},1,,{language},false,true"  # comma, quotes, and types told apart
SAVED = {
    "ods": ("ods", "ods"),
    "xlsx": ("xlsx", "xlsx"),
    "comma": ("csv", f"csv:Text - txt - csv (StarCalc):44,34,{UTF_8}"),
    "semicolon": ("csv", f"csv:Text - txt - csv (StarCalc):59,34,{UTF_8}"),
    "tab in UTF-16": ("csv", f"csv:Text - txt - csv (StarCalc):9,34,{UTF_16}"),
}


@pytest.fixture
def calc(tmp_path):
    """Open files in a country's spreadsheet program and save each in another form, beside one another."""
    if not PROGRAM:
        (pytest.fail if REQUIRED else pytest.skip)("apt-get install --no-install-recommends libreoffice-calc-nogui")

    def convert(country, paths, form, opened=None):
        profile = tmp_path / f"profile {country}"
        (profile / "user").mkdir(parents=True, exist_ok=True)
        (profile / "user" / "registrymodifications.xcu").write_text(PROFILE.format(country=country), encoding="utf-8")
        out = tmp_path / "out" / country / form
        command = [PROGRAM, f"-env:UserInstallation={profile.as_uri()}", "--headless", "--norestore"]
        command += [f"--infilter={opened}"] if opened else []
        command += ["--convert-to", SAVED[form][1], "--outdir", str(out), *map(str, paths)]
        subprocess.run(command, check=True, capture_output=True, timeout=240)
        return [out / f"{path.stem}.{SAVED[form][0]}" for path in paths]

    return convert


def run_of(sheet, bench):
    """Return the run of a sheet beside a bench.toml, as a person puts them into one folder."""
    folder = sheet.parent / f"run of {sheet.stem} {sheet.suffix[1:]}"
    folder.mkdir()
    shutil.copy(sheet, folder / f"readings{sheet.suffix}")
    shutil.copy(bench, folder / "bench.toml")
    return read_run(folder)


def results(run):
    """Return reduced.csv, to its last digit."""
    return tables.reduced_csv(reduce_run(run), "us")


def filled(path, decimal, *, per_cent=""):
    """Type the shipped readings below the head of a fresh file, as a person of a country does; return the path."""
    head = next(csv.reader(io.StringIO(path.read_text(encoding="utf-8-sig"))))
    with (files.shipped("data") / RUN / "readings.csv").open(encoding="utf-8-sig", newline="") as stream:
        rows = list(csv.DictReader(stream))
    page = io.StringIO(newline="")
    for row in rows:
        cells = [row.get(name, "").replace(".", decimal) for name in head]
        cells = [cell + per_cent * (name == "load [%]" and bool(cell)) for name, cell in zip(head, cells, strict=True)]
        csv.writer(page, lineterminator="\n").writerow(cells)
    path.write_text(path.read_text(encoding="utf-8") + page.getvalue(), encoding="utf-8")
    return path


def fresh(folder):
    return blank.new_run(folder)[1]


@pytest.mark.process
@pytest.mark.parametrize("country", COUNTRIES)
def test_a_sheet_comes_back_from_the_spreadsheet_with_the_same_results(tmp_path, calc, country):
    language, decimal = COUNTRIES[country]
    bench = files.shipped("data") / RUN / "bench.toml"
    shipped = shutil.copy(bench.with_name("readings.csv"), tmp_path / "shipped.csv")
    typed = filled(fresh(tmp_path / "fresh"), decimal, per_cent="%").rename(tmp_path / "typed.csv")
    sheets = [Path(shipped), typed]
    wanted = [results(read_run(RUN)), results(run_of(filled(fresh(tmp_path / "by hand"), "."), bench))]
    for form in SAVED:
        chosen = OPENED.format(code=UTF_8, language=language)
        found = [run_of(sheet, bench) for sheet in calc(country, sheets, form, chosen)]
        assert [results(run) for run in found] == wanted, form
        assert all(flag.check != 50 for run in found for flag in check_run(run)), form


@pytest.mark.process
def test_a_file_opened_in_a_wrong_encoding_comes_back_with_the_same_results_and_a_note(tmp_path, calc):
    bench = files.shipped("data") / RUN / "bench.toml"
    sheet = Path(shutil.copy(bench.with_name("readings.csv"), tmp_path / "shipped.csv"))
    for form in ("ods", "xlsx", "comma"):
        (found,) = calc("en-US", [sheet], form)  # no encoding chosen: the program takes that of its machine
        run = run_of(found, bench)
        assert results(run) == results(read_run(RUN))
        assert [flag.reason.count("Â°F") for flag in check_run(run) if flag.check == 50] == [1], form
