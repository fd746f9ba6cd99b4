"""The run-up record against the maker's limits. INVENTED numbers.

Common practice: a cut-out cylinder that drops the speed less than its fellows works less; cold oil reads high.
"""

import pytest

from turbomath.lab.checks import check_run, run_up
from turbomath.lab.record.questions import Box
from turbomath.lab.record.record import record_of
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.readings import read_run

LIMITS = """
[engine]
cylinders = 4
[limits]
low_idle_speed = "700 ± 25 rpm"
oil_pressure_low_idle = "15..60 psi"
"""
DROPS = """[one_cylinder_out]
cut_out_allowed = "yes"
{}cut_out = {{ 1 = "40 rpm", 2 = "40 rpm", 3 = "10 rpm", 4 = "42 rpm" }}
"""


@pytest.fixture
def flags(tmp_path):
    def found(said, limits=LIMITS):
        (tmp_path / "bench.toml").write_text(limits, encoding="utf-8")
        bench = read_bench(tmp_path / "bench.toml")
        return {
            box: (flag.level, flag.reason)
            for box, flag in run_up.run_up_flags(record_of(said, "record.toml", bench), bench).items()
        }

    return found


def idle(found, left):
    return f'[after_the_start.idle.low]\nas_found = "{found} rpm"\nas_left = "{left} rpm"\n'


@pytest.mark.parametrize(
    ("found", "left", "levels"),
    [
        (700, 700, {}),
        (675, 725, {}),
        (660, 700, {"as_found": "note"}),
        (660, 740, {"as_found": "note", "as_left": "limit"}),
    ],
)
def test_idle_as_found_is_told_and_as_left_is_held_against_the_band(flags, found, left, levels):
    got = flags(idle(found, left))
    assert {box.column: level for box, (level, _) in got.items()} == levels
    if "as_left" in levels:
        assert (
            "as left 740 rpm passes the limit low idle speed: 675 to 725 rpm" in got[Box("idle", "low", "as_left")][1]
        )


def test_a_cold_engine_is_judged_only_for_too_little_oil_pressure(flags):
    said = '[after_the_start.oil_pressure]\n{} = {{ pressure = "{} psi" }}\n'
    assert flags(said.format("cold_low_idle", 70)) == {}
    assert flags(said.format("warm_low_idle", 70))[Box("oil_pressure", "warm_low_idle", "pressure")][0] == "limit"
    assert flags(said.format("cold_low_idle", 12))[Box("oil_pressure", "cold_low_idle", "pressure")][0] == "limit"
    assert flags(said.format("warm_full_load", 3)) == {}, "no limit for it is stated"


def test_a_cylinder_is_judged_against_the_mean_only_where_the_maker_says_how_far(flags):
    assert flags(DROPS.format("")) == {}
    got = flags(DROPS.format('cut_out_apart = "10 rpm"\n'))
    assert {box.row: level for box, (level, _) in got.items()} == {"3": "amber"}
    assert "23 rpm less than the mean of all" in got[Box("cut_out", "3", "drop")][1]  # (40 + 40 + 10 + 42) / 4 = 33
    assert flags(DROPS.format('cut_out_apart = "19 rpm"\n')) == {}, "within 19 and the tachometer's step of 5"


def test_cutting_out_where_the_maker_does_not_allow_it_is_told(flags):
    got = flags(DROPS.format("").replace('"yes"', '"no"'))
    assert [level for level, _ in got.values()] == ["amber"]
    assert "does not allow it" in next(iter(got.values()))[1]


def test_without_limits_nothing_is_judged(flags):
    assert flags(idle(300, 300), "") == {}


def test_a_run_shows_its_record_first_and_a_limit_it_answers_is_not_called_unread(tmp_path):
    (tmp_path / "bench.toml").write_text(LIMITS, encoding="utf-8")
    (tmp_path / "readings.csv").write_text("point,condition,boost [psi]\n1,load,20\n", encoding="utf-8")
    before = [flag.reason for flag in check_run(read_run(tmp_path))]
    assert any("no reading for the limit low idle speed" in reason for reason in before)
    (tmp_path / "record.toml").write_text(idle(660, 740), encoding="utf-8")
    first, *others = check_run(read_run(tmp_path))
    assert (first.level, first.point, first.column) == ("limit", "", "engine_speed")
    assert not any("no reading for the limit low idle speed" in flag.reason for flag in others)
    assert any("no reading for the limit oil pressure low idle" in flag.reason for flag in others)
