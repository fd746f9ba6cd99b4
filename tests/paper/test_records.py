"""Records that show themselves: a short line, a table that runs nothing, a pandas table with units, a helping KeyError.

Sizes of units are those of NIST SP 811, appendix B.
"""

import csv
import warnings
from html.parser import HTMLParser

import numpy as np
import pytest
from pandas.testing import assert_frame_equal

import turbomath
from turbomath.disk import files
from turbomath.engine.path import charge_flow, charge_path
from turbomath.engine.ready_engines import AIR_TO_AIR
from turbomath.paper.records import MOST_POINTS
from turbomath.table.errors import OutOfRangeError

RUN = "generator_air_to_air"
POINTS_OF_RUN = 9
FULL_LOAD = dict(
    ambient_pressure=98_544.0,
    ambient_temperature=298.15,
    manifold_pressure=264_018.0,
    isentropic_efficiency=0.74,
    effectiveness=0.80,
    cooler_pressure_loss=10_342.0,
)
SITE = dict(ambient_pressure=98_544.0, ambient_temperature=298.15, engine_speed=30.0)
ENGINE = dict(displacement=0.012, engine_speed=30.0, volumetric_efficiency=0.9)


def path(points=()):
    return charge_path(**FULL_LOAD | {"manifold_pressure": np.full(points, 264_018.0)})


MAKE = {
    "ChargePath": lambda points=(): path(points),
    "ChargeFlow": lambda points=(): charge_flow(path(points), **ENGINE),
    "Balance": lambda points=(): turbomath.balance.solve(AIR_TO_AIR, **SITE, power=np.full(points, 291e3)),
    "Run": lambda: turbomath.read_run(RUN),
    "Reduced": lambda: turbomath.reduce_run(RUN),
}
each_record = pytest.mark.parametrize("name", MAKE)
of_the_engine = pytest.mark.parametrize("name", ["ChargePath", "ChargeFlow", "Balance"])


class Tags(HTMLParser):
    """The tags of a page, the text of its cells row by row, and its attributes."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.attributes, self.rows, self.caption = set(), set(), [], ""
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}
        if tag == "tr":
            self.rows.append([])
        if tag in ("td", "th"):
            self.rows[-1].append("")
        self.here = tag

    def handle_data(self, data):
        if self.here == "caption":
            self.caption += data
        elif self.rows and self.rows[-1] and data.strip():
            self.rows[-1][-1] += data


@each_record
def test_the_line_says_what_it_is_and_how_many_points_and_stays_short(name):
    record = MAKE[name]()
    points = POINTS_OF_RUN if name in ("Run", "Reduced") else 1
    line = repr(record)
    assert line.startswith(name)
    assert f", {points} point{'s' * (points > 1)}: " in line
    assert len(line) < 300
    assert line.count("\n") == 0


@of_the_engine
def test_many_points_are_told_as_shortly_as_one(name):
    line = repr(MAKE[name](1000))
    assert ", 1000 points: " in line
    assert len(line) < 300


def test_the_headline_numbers_are_those_of_the_record_in_its_units():
    celsius = MAKE["ChargePath"]().manifold_temperature - 273.15
    assert f"manifold temperature {celsius:.0f} °C, charge gain 145.5 %" in repr(MAKE["ChargePath"]())
    settled = turbomath.balance.solve(AIR_TO_AIR, **SITE, power=[100e3, 200e3, 900e3])
    low, high = (settled.boost[end] / 1000 for end in (0, -1))
    assert f"boost {low:.1f} to {high:.1f} kPa" in repr(settled)
    assert repr(settled).endswith("state 2 solved, 1 cannot carry this load")
    assert repr(MAKE["Balance"]()).endswith("state solved")


def test_what_comes_from_readings_is_told_with_its_plus_or_minus():
    gain = MAKE["Reduced"]()["measured_charge_gain"]
    most = np.nanargmax(gain.value)
    told = f"{100 * gain.value[most]:.0f} ± {100 * gain.plus_or_minus[most]:.0f} %"
    assert f" to {told}, theoretical" in repr(MAKE["Reduced"]())
    assert repr(MAKE["Reduced"]()).endswith("agree 1 cannot tell, 7 yes")
    assert "boost 0.0 to 24.0 psi" in repr(MAKE["Run"]())


def test_gaps_are_told_as_gaps_and_without_a_warning():
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        gone = charge_path(**FULL_LOAD | {"ambient_pressure": [np.nan, np.nan]})
        assert "charge gain –" in repr(gone)
        assert Tags(gone._repr_html_()).rows[1][2:] == ["–", "–"]
        assert gone.to_frame()["charge gain [%]"].isna().all()
    half = charge_path(**FULL_LOAD | {"ambient_pressure": [np.nan, 98_544.0]})
    assert "charge gain 145.5 %" in repr(half)


@each_record
def test_the_table_has_a_row_a_result_and_a_column_a_point(name):
    record = MAKE[name]()
    page = Tags(record._repr_html_())
    frame = record.to_frame()
    assert page.caption.startswith(name)
    assert {len(row) for row in page.rows} == {2 + len(frame)}
    results = {head.split(" [")[0] for head in frame.columns if "±" not in head}
    assert {row[0] for row in page.rows[1:]} == results - {"point"}
    if "point" in results:  # the label of each column
        assert page.rows[0][2:] == list(frame["point"])
        assert page.rows[1][0] == "condition"


def test_the_table_shows_the_numbers_in_the_units_of_the_reader():
    rows = {row[0]: row[1:] for row in Tags(MAKE["ChargePath"]()._repr_html_()).rows}
    assert rows["charge gain"] == ["%", "145.5"]
    assert rows["manifold pressure"] == ["kPa abs", "264.0"]
    rows = {row[0]: row[1:] for row in Tags(MAKE["Run"]()._repr_html_()).rows}
    assert rows["boost"][0] == "psi"
    assert rows["boost"][8] == "24.0"
    rows = {row[0]: row[1:] for row in Tags(MAKE["Reduced"]()._repr_html_()).rows}
    assert rows["measured charge gain"][8] == "143 ± 5"


def test_a_long_record_is_cut_in_the_table_and_says_so():
    page = Tags(path(5000)._repr_html_())
    assert {len(row) for row in page.rows} == {2 + MOST_POINTS}
    assert f"the first {MOST_POINTS} of 5000 points" in page.caption
    assert "to_frame() has all" in page.caption
    assert "first" not in Tags(path(MOST_POINTS)._repr_html_()).caption


HOSTILE = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</td></table><b>",
    '" onclick="alert(1)',
    "\u202e7",
)


@pytest.fixture
def hostile_run(tmp_path):
    """Return the folder of a run whose labels, remarks and name are meant to harm a page that does not escape them."""
    folder = tmp_path / "<script>alert(2)<"
    folder.mkdir()
    shipped = files.shipped("data") / RUN
    (folder / "bench.toml").write_bytes((shipped / "bench.toml").read_bytes())
    with (shipped / "readings.csv").open(encoding="utf-8-sig", newline="") as sheet:
        heads, *rows = csv.reader(sheet)
    for row, text in zip(rows, HOSTILE, strict=False):
        row[heads.index("point")] = row[heads.index("remark")] = text
    with (folder / "readings.csv").open("w", encoding="utf-8", newline="") as sheet:
        csv.writer(sheet).writerows([heads, *rows])
    return folder


@pytest.mark.parametrize("make", [turbomath.read_run, turbomath.reduce_run])
def test_texts_of_a_run_are_shown_and_never_run(hostile_run, make):
    record = make(hostile_run)
    text = record._repr_html_()
    page = Tags(text)
    assert page.tags == {"div", "table", "caption", "thead", "tbody", "tr", "th", "td"}
    assert page.attributes == {"class", "scope"}
    assert "\u202e" not in text
    assert any("<script>alert(1)" in cell for row in page.rows for cell in row)
    assert repr(record).isprintable()
    assert len(repr(record)) < 300


def test_the_pandas_table_is_in_the_units_asked_for_and_says_which():
    record = MAKE["ChargePath"]()
    us, si = record.to_frame("us").iloc[0], record.to_frame("si").iloc[0]
    assert us["manifold temperature [°F]"] == pytest.approx(1.8 * record.manifold_temperature - 459.67)
    assert us["manifold pressure [psi abs]"] == pytest.approx(264_018.0 / 6894.757)
    assert us["ambient pressure [inHg]"] == pytest.approx(98_544.0 / 3386.389)
    assert us["manifold density [lb/ft³]"] == pytest.approx(record.manifold_density / 16.01846)
    assert si["manifold temperature [°C]"] == pytest.approx(record.manifold_temperature - 273.15)
    assert si["manifold pressure [kPa abs]"] == pytest.approx(264.018)
    assert us["charge gain [%]"] == si["charge gain [%]"] == pytest.approx(100 * record.charge_gain)
    assert us["pressure ratio [-]"] == si["pressure ratio [-]"] == record.pressure_ratio


def test_a_plus_or_minus_of_a_temperature_is_a_difference():
    reduced = MAKE["Reduced"]()
    frame, found = reduced.to_frame("us"), reduced["ideal_outlet_temperature"]
    np.testing.assert_allclose(frame["ideal outlet temperature ± [F°]"], 1.8 * found.plus_or_minus)
    np.testing.assert_allclose(frame["ideal outlet temperature [°F]"], 1.8 * found.value - 459.67)


@each_record
def test_every_number_column_names_its_unit(name):
    words = {"point", "condition", "remark", "agree", "state", "carried", "converged", "residual"}
    for system in ("us", "si"):
        heads = set(MAKE[name]().to_frame(system).columns) - words
        assert heads
        assert all(head.endswith("]") and "gauge" not in head for head in heads)


def test_units_left_out_are_those_of_bench_toml_or_si(tmp_path):
    shipped = files.shipped("data") / RUN
    text = (shipped / "bench.toml").read_text(encoding="utf-8")
    assert text.count('units = "us"') == 1
    text = text.replace('units = "us"', 'units = "si"')
    (tmp_path / "bench.toml").write_text(text, encoding="utf-8")
    (tmp_path / "readings.csv").write_bytes((shipped / "readings.csv").read_bytes())
    for make in (turbomath.read_run, turbomath.reduce_run):
        assert list(make(RUN).to_frame()) == list(make(RUN).to_frame("us")) != list(make(RUN).to_frame("si"))
        assert list(make(tmp_path).to_frame()) == list(make(RUN).to_frame("si"))
    assert list(MAKE["ChargePath"]().to_frame()) == list(MAKE["ChargePath"]().to_frame("si"))


@each_record
@pytest.mark.parametrize("bad", ["metric", "US", 3, ["us"]])
def test_other_units_are_refused_with_the_two_there_are(name, bad):
    with pytest.raises(OutOfRangeError, match="units must be one of 'us', 'si'; found"):
        MAKE[name]().to_frame(bad)


def test_a_run_in_its_own_units_is_what_was_written():
    frame = MAKE["Run"]().to_frame("us")
    with (files.shipped("data") / RUN / "readings.csv").open(encoding="utf-8-sig") as sheet:
        rows = list(csv.DictReader(sheet))
    same = [head for head in rows[0] if head in frame.columns]
    assert len(same) >= 17
    for head in same:
        for value, written in zip(frame[head], (row[head] for row in rows), strict=True):
            gap = isinstance(value, float) and np.isnan(value) and not written
            assert gap or value == written or value == pytest.approx(float(written), abs=1e-9)


@of_the_engine
def test_each_point_of_an_array_of_any_shape_is_a_row(name):
    frame = MAKE[name]((2, 3)).to_frame()
    assert len(frame) == 6
    assert_frame_equal(frame.tail(1).reset_index(drop=True), MAKE[name]().to_frame())


def test_points_of_an_array_keep_their_order():
    ramp = np.array([[200e3, 210e3], [220e3, 230e3]])
    frame = charge_path(**FULL_LOAD | {"manifold_pressure": ramp}).to_frame("si")
    assert frame["manifold pressure [kPa abs]"].tolist() == pytest.approx([200.0, 210.0, 220.0, 230.0])


@of_the_engine
def test_an_item_is_the_field_of_that_name(name):
    record = MAKE[name]()
    assert all(record[field] is getattr(record, field) for field in vars(record))


@pytest.mark.parametrize(
    ("name", "wrong", "near"),
    [
        ("ChargePath", "charge_gian", "charge_gain"),
        ("ChargeFlow", "massflow", "mass_flow"),
        ("Balance", "bost", "boost"),
        ("Reduced", "charge_gain", "measured_charge_gain"),
        ("Run", "manifold temperature", "manifold_temperature"),
    ],
)
def test_a_wrong_name_is_told_the_nearest(name, wrong, near):
    with pytest.raises(KeyError) as caught:
        MAKE[name]()[wrong]
    assert f"'{wrong}'; did you mean '{near}'?" in caught.value.args[0]


@each_record
@pytest.mark.parametrize("wrong", ["zzzz", "", 0, None, ("a", "b"), ["boost"]])
def test_a_name_near_nothing_is_a_short_key_error_too(name, wrong):
    with pytest.raises(KeyError) as caught:
        MAKE[name]()[wrong]
    words = caught.value.args[0]
    assert words.startswith("no ")
    assert "; there are " in words or "; did you mean " in words
    assert len(words) < 300
