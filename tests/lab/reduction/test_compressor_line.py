"""The compressor's line of a class: true within its ±, by one speed, and told for what it is. All runs are INVENTED."""

import numpy as np
import pytest

from tests.lab.reduction.class_world import a_class, read
from turbomath.lab.reduction.compressor_line import compressor_line
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report.compressor_line_shown import line_shown
from turbomath.lab.run.readings import read_run

AIR = "generator_air_to_air"


@pytest.fixture(scope="module")
def air_to_air():
    return reduce_run(AIR)


@pytest.fixture(scope="module")
def odd(tmp_path_factory):
    """A class of three groups, of which the last reads 6 psi too much at its highest load."""
    return read(a_class(np.random.default_rng(4), 3, unsure=0.02, odd=6.0), tmp_path_factory.mktemp("odd"))


def test_the_flow_is_brought_to_the_state_that_is_said(air_to_air):
    """Full load by hand: air flow of the report, 338 K after no cooler; sqrt(T / 298.15 K) over p / 100 kPa."""
    run, row = air_to_air.run, 7
    inlet = (29.09 - 12.0 / 13.5951) * 3386.389  # Pa: NIST SP 811, inHg and inH2O
    kelvin = (80 + 459.67) / 1.8
    assert run.points[row] == "7"
    drawn_in = air_to_air["air_flow"].value[row]
    by_hand = drawn_in * np.sqrt(kelvin / 298.15) / (inlet / 1e5)
    assert air_to_air.compressor_flow.value[row] == pytest.approx(by_hand, rel=2e-3)
    said = line_shown([air_to_air], "us").notes[1]
    assert "298.15 K and 100.0 kPa (77 °F and 29.53 inHg)" in said.replace("\xa0", " ")


def test_points_of_another_speed_are_left_out_and_said(air_to_air):
    line = line_shown([air_to_air], "us")
    assert line.found.engine_speed * 60 == pytest.approx(1800)
    assert line.found.fitted.tolist() == [False] + 6 * [True] + [False]
    assert "Left out, as the engine ran at another speed: point 1, 8." in line.sentences
    assert line.points_table.rows[0][-1] == "at another speed"
    assert [row[-1] for row in line.points_table.rows[1:-1]] == 6 * ["on the line"]


def test_what_the_flow_rests_on_is_said(air_to_air, tmp_path):
    line = line_shown([air_to_air], "us")
    assert line.found.assumed == pytest.approx(2 * 0.02 / 0.92 / 3**0.5, rel=0.01)  # bench.toml: 0.92 ± 0.02
    assert any("up to 2.5 % of the flow" in one for one in line.sentences)
    sheet, bench = (air_to_air.run.folder / one for one in ("readings.csv", "bench.toml"))
    text = bench.read_text(encoding="utf-8")
    (tmp_path / "bench.toml").write_text(text.replace("0.92 ± 0.02", "0.92"), encoding="utf-8")
    head, *rows = sheet.read_text(encoding="utf-8-sig").splitlines()
    (tmp_path / "readings.csv").write_text("\n".join([head, *rows]), encoding="utf-8")
    assert any("stated without ±" in one for one in line_shown([reduce_run(read_run(tmp_path))], "us").sentences)
    flows = np.nan_to_num(air_to_air["air_flow"].value) / 0.45359237 * 60  # NIST SP 811: lb
    metered = [f"{row},{flow:.2f}" for row, flow in zip(rows, flows, strict=True)]
    (tmp_path / "readings.csv").write_text("\n".join([f"{head},air flow [lb/min]", *metered]), encoding="utf-8")
    line = line_shown([reduce_run(read_run(tmp_path))], "us")
    assert line.found.measured
    assert not any("not measured" in one for one in line.sentences)


def test_a_point_that_one_line_does_not_fit_is_named_with_its_group(odd):
    line = line_shown(odd, "us")
    assert line.found.of[int(np.argmax(line.found.worst))][0] == 2
    said = next(one for one in line.sentences if one.startswith("One line does not fit"))
    assert "Look first at group 3, point row" in said
    assert "do not lean on the ±" in said


@pytest.mark.long
def test_more_groups_make_the_line_surer_but_never_of_what_all_of_them_assume(odd, tmp_path):
    few, many = (read(a_class(np.random.default_rng(8), n, unsure=0.02), tmp_path) for n in (2, 8))
    widths = []
    for reduced in (few, many):
        line = compressor_line(reduced).line
        middle = (line.low + line.high) / 2
        slope = (line.at(middle * 1.01) - line.at(middle)) / 0.01
        widths.append(float(line.plus_or_minus(middle)[0]))
        assert widths[-1] > 0.9 * float(slope[0]) * 0.02 / 0.92 * 0.95
    assert widths[1] < widths[0]


@pytest.mark.long
def test_the_truth_lies_inside_the_plus_or_minus_of_a_class(tmp_path):
    """The benchmark class_line asks a thousand classes; three standard deviations of forty are 10 %."""
    chance, inside = np.random.default_rng(5), []
    for _ in range(40):
        world = a_class(chance, 3)
        found = compressor_line(read(world, tmp_path))
        at = chance.uniform(found.line.low, found.line.high)
        inside.append(abs(found.line.at(at) - world.truth(at))[0] <= found.line.plus_or_minus(at)[0])
    assert np.mean(inside) >= 0.855
