"""The five short examples run as they stand, and print what an outside source or plain arithmetic gives."""

import ast
import csv
import re
import runpy
import warnings

import pytest

from turbomath.disk import files

EXAMPLES = files.shipped("data") / "examples"
NAMES = ("boost_sweep", "homework_key", "hot_day_sweep", "picture_to_file", "run_to_pandas")
MOST_LINES = 12
PSI_IN_INHG = 0.4911541  # NIST SP 811, appendix B: 3386.389 Pa over 6894.757 Pa
RANKINE = 459.67


@pytest.fixture
def printed(tmp_path, monkeypatch, capsys):
    """Return what an example prints; it runs in an empty folder, and a warning is a failure."""

    def run(name):
        monkeypatch.chdir(tmp_path)
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            runpy.run_path(str(EXAMPLES / f"{name}.py"), run_name="__main__")
        return capsys.readouterr().out

    return run


def numbers(line):
    """Return the numbers of a line as it was printed."""
    return [float(word) for word in re.findall(r"-?\d+(?:\.\d+)?", line)]


def test_there_are_five_and_the_list_beside_them_names_each():
    assert tuple(sorted(path.stem for path in EXAMPLES.glob("*.py"))) == NAMES
    listed = re.findall(r"^\| `(\w+)\.py`", (EXAMPLES / "README.md").read_text(encoding="utf-8"), re.MULTILINE)
    assert tuple(sorted(listed)) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_an_example_is_at_most_twelve_lines_of_python_under_a_sentence(name):
    text = (EXAMPLES / f"{name}.py").read_text(encoding="utf-8")
    sentence = ast.parse(text).body[0]
    assert ast.get_docstring(ast.parse(text)).endswith(".")
    lines = [line for line in text.splitlines()[sentence.end_lineno :] if line.strip()]
    assert len(lines) <= MOST_LINES


def test_the_boost_sweep_is_what_hand_work_with_the_perfect_gas_gives(printed):
    rows = [numbers(line)[1:] for line in printed("boost_sweep").splitlines()[1:]]
    assert len(rows) == 8
    outside, inlet = 29.10 * PSI_IN_INHG, 77.0 + RANKINE
    for boost, (pressure, temperature, gain) in zip(range(5, 41, 5), rows, strict=True):
        ratio = (outside + boost) / outside
        outlet = inlet * (1 + (ratio ** (2 / 7) - 1) / 0.74)
        assert pressure == pytest.approx(outside + boost, abs=0.06)
        assert temperature == pytest.approx(outlet - RANKINE, abs=3.0)  # real air is up to 3 F° cooler at this boost
        assert gain == pytest.approx(100 * (ratio * inlet / outlet - 1), abs=1.0)


def test_the_hot_day_begins_with_the_published_density_of_a_standard_day(printed):
    rows = {round(row[1]): row[2:] for row in map(numbers, printed("hot_day_sweep").splitlines()[1:])}
    assert list(rows) == [-15, 0, 15, 30, 45]
    assert rows[15][0] == pytest.approx(1.225, abs=0.0006)  # ICAO Doc 7488/3, table 1, 0 m: 101 325 Pa, 15 °C
    assert rows[0][0] == pytest.approx(1.2929, abs=0.0015)  # dry air at 0 °C, 101 325 Pa: handbook, from memory
    by_hand = 288.15 * (1 + 0.2 * ((251_325 / 101_325) ** (2 / 7) - 1) / 0.74)
    assert rows[15][1] == pytest.approx(by_hand - 273.15, abs=0.01)
    assert rows[15][2] == pytest.approx(251_325 / (287.05287 * by_hand), abs=0.001)
    assert [rows[day][2] for day in rows] == sorted((row[2] for row in rows.values()), reverse=True)


def test_the_run_shows_the_gain_that_its_own_readings_give_by_hand(printed):
    lines = {line.split(" [")[0].strip(): line for line in printed("run_to_pandas").splitlines()}
    measured = numbers(lines["measured charge gain"].split("]")[1])
    with (files.shipped("data") / "generator_air_to_air" / "readings.csv").open(encoding="utf-8-sig") as sheet:
        loaded = [row for row in csv.DictReader(sheet) if row["condition"] == "load"]
    assert len(measured) == len(loaded) == 6
    for gain, row in zip(measured, loaded, strict=True):
        outside = float(row["barometer [inHg]"]) * PSI_IN_INHG
        colder = float(row["ambient temperature [°F]"]) + RANKINE
        hotter = float(row["manifold temperature [°F]"]) + RANKINE
        by_hand = 100 * ((outside + float(row["boost [psi]"])) / outside * colder / hotter - 1)
        assert gain == pytest.approx(by_hand, abs=0.5)  # hand work leaves out humidity and the real gas


def test_the_picture_is_a_whole_drawing_of_its_own(printed, tmp_path):
    assert "measured" in printed("picture_to_file")
    drawing = (tmp_path / "charge_gain.svg").read_text(encoding="utf-8")
    assert drawing.lstrip().startswith("<svg xmlns=")
    assert drawing.rstrip().endswith("</svg>")
    assert len(list(tmp_path.iterdir())) == 1


def test_the_key_of_each_seat_is_what_its_own_givens_give_by_hand(printed):
    seats = printed("homework_key").split("Seat ")[1:]
    assert [seat[:3] for seat in seats] == ["A01", "A02", "A03"]
    keys = set()
    for seat in seats:
        boost, temperature, barometer = (
            float(re.search(rf"{name} ([\d.]+)", seat)[1])
            for name in ("boost", "manifold temperature", "station barometer")
        )
        by_hand = 144 * (barometer * PSI_IN_INHG + boost) / (53.35 * (temperature + RANKINE))  # R in ft·lbf/(lb·°R)
        key = float(re.search(r"Answer\n +manifold density: ([\d.]+) lb/ft³", seat)[1])
        assert key == pytest.approx(by_hand, rel=1e-3)
        keys.add(key)
    assert len(keys) == 3
