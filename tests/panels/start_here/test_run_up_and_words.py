"""Lesson 00 around its gauge: the stations, the run-up, the tickets, the cautions, and the numbers in its words."""

import json
import shutil

import pytest

from tests.panels.opening import notebook, opened, words
from tests.widgets.told import tell
from turbomath import air
from turbomath.disk import files
from turbomath.lab.checks.limits import limit_flags
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.run.readings import read_run
from turbomath.panels.start_here import figure_stations, run_up, stations_and_words
from turbomath.panels.start_here.picture_stations import STATIONS, picture_stations
from turbomath.pictures.printed import svg
from turbomath.table import cautions
from turbomath.uncertainty import Instrument, accuracy, tolerance
from turbomath.widgets.cautions import cautions as shown_cautions

WORDS = words("start_here")


# The stations


def test_densities_of_the_drawing_are_those_of_the_report_by_hand():
    run = read_run(stations_and_words.RUN)
    reduced, row = (
        reduce_run(run, air=air.choose("perfect")),
        run.conditions.index("high idle") - 1,
    )  # the last load step is full load
    states = stations_and_words.full_load()
    for turn, name in ((0, "ambient_density"), (2, "compressor_outlet_density"), (3, "manifold_density")):
        assert states[turn]["density"] == pytest.approx(reduced[name].value[row], rel=1e-9)
    cells = stations_and_words.answer().tables[0].rows
    assert cells[3][4] == "132 (56)"
    assert [row[0] for row in cells] == ["ambient (0)", "compressor inlet (1)", "compressor outlet (2)", "manifold (3)"]


def test_each_dot_is_the_same_mass_of_air():
    thin, thick = (picture_stations([1.1 * size, 1.0 * size, 2.0 * size, 2.8 * size]) for size in (1, 2))
    for one, few, many in zip(STATIONS, thin.counts, thick.counts, strict=True):
        assert abs(many - 2 * few) <= 2
        dots = next(line for line in thick.series if line.kind == "points" and line.label == one.name)
        assert all(one.pipe[0] <= x <= one.pipe[1] for x in dots.x)
        assert len(set(zip(dots.x, dots.y, strict=True))) == many


def test_the_compressor_narrows_and_the_turbine_widens_along_the_flow_and_each_name_stands_at_its_machine():
    picture = stations_and_words.answer().pictures[0]
    outline = {one.label: one for one in picture.series if one.kind == "line" and len(one.x) == 5}
    heights = {}
    for name, entry in (("compressor", min), ("turbine", max)):  # air enters at the left, exhaust at the right
        one = outline[name]
        at = {x: [y for x_, y in zip(one.x, one.y, strict=True) if x_ == x] for x in set(one.x)}
        first, last = entry(at), next(x for x in at if x != entry(at))
        heights[name] = max(at[first]) - min(at[first]), max(at[last]) - min(at[last])
    assert heights["compressor"][0] > heights["compressor"][1]
    assert heights["turbine"][0] < heights["turbine"][1]
    words = {one.words: one.x for one in picture.texts}
    for name in ("compressor", "aftercooler", "cylinders", "turbine"):
        assert min(outline[name].x) - 0.1 <= words[name] <= max(outline[name].x), name


def test_the_drawing_says_the_same_without_eyes_and_prints():
    picture = stations_and_words.answer().pictures[0]
    places = [picture.alt.index(one.words) for one in STATIONS]
    assert places == sorted(places)
    assert "the turbine drives the compressor" in picture.alt
    assert [row[0] for row in picture.rows] == [one.words for one in STATIONS]
    assert svg(picture).count("z") >= sum(picture.counts)  # each dot is a closed circle
    json.dumps(picture.to_dict(), allow_nan=False)


def test_a_figure_has_nothing_to_set_and_says_so():
    figure = figure_stations()
    before = figure.frame["shown"]
    for message in ({"say": "slide", "name": "boost", "text": "1"}, {"say": "reset"}, {"say": "answer", "text": "x"}):
        assert tell(figure, **message)["notice"]
        assert figure.frame["shown"] == before


# The run-up


def rows(run):
    return {row[0].split(":")[0]: row for row in run_up.judged_rows(run)}


def altered(tmp_path, *changes):
    folder = tmp_path / "run"
    shutil.copytree(files.shipped("data") / run_up.RUN, folder)
    for name, old, new in changes:
        text = (folder / name).read_text(encoding="utf-8")
        assert old in text
        (folder / name).write_text(text.replace(old, new), encoding="utf-8")
    return read_run(folder)


def test_the_shipped_run_up_keeps_its_limits_and_its_stop():
    run = read_run(run_up.RUN)
    assert [row[-1] for row in run_up.judged_rows(run)] == ["within"] * 4
    assert rows(run)["2"][3:5] == (">100", "at least 40")
    assert rows(run)["3"][1:5] == ("720", "700 to 750", "32", "at least 15")
    shown = run_up.told(run, "us")
    assert ">100 counts as at least 100 psi" in shown.sentence
    assert {row[-1] for row in shown.tables[1].rows} == {"fine"}
    assert [row[2] for row in shown.tables[1].rows if row[0] == "boost"] == ["± 1.8 psi"]


@pytest.mark.parametrize(
    ("old", "new", "point", "words"),
    [
        ("720,28.86", "690,28.86", "3", "690 rpm passes the limit"),
        ("183,240,0.1,32", "183,240,0.1,14", "3", "14 psi passes"),
        ("0.8,74", "0.8,39", "7", "39 psi passes"),
    ],
)
def test_a_limit_passed_is_told_as_the_report_tells_it(tmp_path, old, new, point, words):
    run = altered(tmp_path, ("readings.csv", old, new))
    reasons = [flag.reason for flag in limit_flags(run) if flag.level == "limit"]
    assert rows(run)[point][-1] in reasons
    assert words in rows(run)[point][-1]
    assert f"Point {point}: " in run_up.told(run, "us").sentence
    assert sum(row[-1] == "within" for row in rows(run).values()) == 3


def test_a_stop_below_the_limit_cannot_be_judged(tmp_path):
    run = altered(tmp_path, ("readings.csv", "0.8,>100", "0.8,>30"))
    assert rows(run)["2"][-1] == "cannot be judged: the stop lies below the limit"


def test_a_gauge_off_zero_is_told_in_the_table_of_zeros(tmp_path):
    run = altered(tmp_path, ("readings.csv", "64,65,0.5,62", "64,65,4.0,62"))
    told = {row[0]: row for row in run_up.zero_rows(run)}
    assert "off zero" in told["boost"][-1]
    assert told["oil pressure"][-1] == "fine"


def test_the_picture_of_the_run_up_shows_its_limits_and_what_stood_at_its_stop():
    labels = [one["label"] for one in opened("run_up").frame["shown"]["pictures"][0]["series"]]
    assert labels == ["least at low idle", "least at high idle", "warm", "cold", "at its stop, at least"]


# Cautions, words


def test_the_numbers_in_the_replies_are_true():
    """ASME B40.100 grade B: 2 % of span in the middle half, 3 % in the outer quarters."""
    oil, boost = (Instrument(span=(0, end), grade="B") for end in (100, 60))
    assert accuracy(oil, 40) == pytest.approx(2)
    assert accuracy(oil, 40) / 40 == pytest.approx(0.05)
    assert accuracy(boost, 0) == pytest.approx(1.8)


def test_every_caution_has_a_source_and_the_lesson_shows_all_before_anything_else():
    page = shown_cautions(whole=True).value
    told = [*cautions.CAUTIONS, *cautions.SHOP_CAUTIONS]
    assert all(one.source and one.hazard in page for one in told)
    assert page.index(cautions.STANDING[:40]) < min(page.index(f"<b>{one.hazard}") for one in told)
    assert all(trigger.split("'")[0] in page for trigger in cautions.STOP_TRIGGERS)
    assert len({one.hazard for one in told}) == len(told)
    first = next(cell for cell in notebook("start_here")["cells"] if cell["cell_type"] == "code")
    assert "cautions_in_turn(whole=True)" in "".join(first["source"])
    order = ("air shut-off made for it", "rigid cover plate", "CO2 from outside", "otherwise leave", "Never a hand or")
    for text in (next(one.text for one in told if one.hazard == "Runaway"), WORDS):
        places = [text.index(said) for said in order]
        assert places == sorted(places)


def test_co2_in_a_test_cell_is_reckoned_right():
    """Gas density from CoolProp's CO2 (Span and Wagner 1996); 20.95 % oxygen; NIOSH IDLH 40,000 ppm."""
    from CoolProp.CoolProp import PropsSI

    density = PropsSI("D", "T", 293.15, "P", 101_325, "CO2")
    assert density == pytest.approx(1.84, abs=0.005)
    assert density * 0.3048**3 / 0.45359237 == pytest.approx(0.115, abs=5e-4)
    gas = 10 * 0.45359237 / density
    share = gas / (50 + gas)
    assert gas == pytest.approx(2.47, abs=0.005)
    assert gas / 0.3048**3 == pytest.approx(87, abs=0.5)
    assert share == pytest.approx(0.047, abs=5e-4)
    assert share > 0.04
    assert 20.95 * (1 - share) == pytest.approx(20.0, abs=0.05)
    for said in ("2.47 m³", "87 ft³", "**4.7 %**", "20.0 % oxygen", "1,766 ft³"):
        assert said in WORDS
    assert pytest.approx(1766, abs=0.5) == 50 / 0.3048**3


def test_the_worked_numbers_are_the_librarys():
    psi = 6894.757293168
    gauge = Instrument(span=(0, 60 * psi), grade="B", resolution=((float("inf"), 0.5 * psi),))
    for reading, us, si, share in ((22, "1.2 psi", "8.3 kPa", "5.5 %"), (3, "1.8 psi", "12 kPa", "60 %")):
        half = float(accuracy(gauge, reading * psi))
        assert half / psi == pytest.approx(float(us.split()[0]))
        assert half / 1e3 == pytest.approx(float(si.split()[0]), rel=0.04)
        assert 100 * half / (reading * psi) == pytest.approx(float(share.split()[0]), abs=0.05)
        assert all(f"**{words}**" in WORDS for words in (us, si, share))
    assert tolerance(gauge, 22 * psi) / psi == pytest.approx(1.23, abs=0.005)
    assert "1.23 psi" in WORDS
