"""Two turbochargers side by side: the engine has the mean of both banks, the banks are compared. All runs INVENTED."""

import pytest

from turbomath.lab import checks
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.run import readings
from turbomath.table.banks import BANKS

BENCH = """\
[run]
title = "INVENTED: an engine with two banks"
invented = true
units = "si"
[engine]
aftercooler = "none"
turbochargers = {number}
[instruments.turbine_inlet_temperature_left]
accuracy = "3 K"
"""
HEAD = (
    "point,condition,load [%],barometer [kPa],ambient temperature [°C],intake restriction [kPa],boost [kPa],"
    "compressor outlet temperature left [°C],compressor outlet temperature right [°C],"
    "compressor outlet pressure left [kPa gauge],compressor outlet pressure right [kPa gauge],"
    "turbine inlet temperature left [°C],turbine inlet temperature right [°C]"
)
HOT = (600, 720, 810, 885)  # °F, at rising load
SOUND = "1,load,100,100,25,2,150,149,153,150,152,500,512"


@pytest.fixture
def run_of(run_folder):
    """Return the run of one point, with some texts of head and row changed."""

    def made(*changes, number=2):
        text = f"{HEAD}\n{SOUND}\n"
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        return readings.read_run(run_folder(text, BENCH.format(number=number)))

    return made


def flags_of_banks(run):
    """Level, column and reason of check 41."""
    return [(flag.level, flag.column, flag.reason) for flag in checks.check_run(run) if flag.check == 41]


def test_the_engine_has_the_mean_of_both_banks(run_of):
    run = run_of()
    assert run["compressor_outlet_temperature"] == pytest.approx(151 + 273.15)
    assert run["compressor_outlet_pressure"] == pytest.approx(251e3)
    assert run.cells["compressor_outlet_pressure"] == ("151",)
    assert "mean of left and right" in run.headers["compressor_outlet_temperature"]
    # squeezing without loss from 98 to 251 kPa, over the mean rise of 126 K (perfect gas, exponent 0.4 / 1.4)
    ideal = 298.15 * ((251 / 98) ** (0.4 / 1.4) - 1)
    assert reduce_run(run)["compressor_efficiency"].value[0] == pytest.approx(ideal / 126, abs=0.01)
    assert checks.evaluated(run)[20, 0] == ""  # the checks of one turbine look at the mean


def test_banks_alike_are_sound_and_looked_at(run_of):
    run = run_of()
    assert flags_of_banks(run) == []
    assert checks.evaluated(run)[41, 0] == ""
    assert [flag for flag in checks.check_run(run) if flag.level in ("red", "amber")] == []


def test_banks_apart_are_named_both_with_what_would_decide(run_of):
    ((level, _, reason),) = flags_of_banks(run_of((",500,512", ",500,560")))
    assert level == "amber"
    assert "turbine inlet temperature left 500 °C, turbine inlet temperature right 560 °C" in reason
    assert "−33 to 33 K" in reason  # 60 F°
    assert "goes with them" in next(one for one in checks.check_run(run_of((",512", ",560"))) if one.check == 41).action


def test_a_bank_that_is_missing_is_said(run_of):
    ((level, column, reason),) = flags_of_banks(run_of((",500,512", ",500,")))
    assert (level, column) == ("amber", "turbine_inlet_temperature_right")
    assert "one bank stands for both here" in reason
    without = run_of(("turbine inlet temperature right", "another thing"))
    assert [(level, column) for level, column, _ in flags_of_banks(without)] == [
        ("note", "turbine_inlet_temperature_left")
    ]
    assert without["turbine_inlet_temperature"] == pytest.approx(500 + 273.15)


def test_a_gauge_at_its_stop_on_one_bank_gives_no_mean(run_of):
    run = run_of((",500,512", ",500,>512"))
    assert run.pegged["turbine_inlet_temperature"].all()
    assert run["turbine_inlet_temperature"] != run["turbine_inlet_temperature"]  # not a number


def test_left_and_right_of_one_turbocharger_are_used_for_nothing_and_said(run_of):
    run = run_of(number=1)
    assert not run.has("compressor_outlet_temperature")
    assert {level for level, _, _ in flags_of_banks(run)} == {"amber"}
    assert all("one turbocharger" in reason for _, _, reason in flags_of_banks(run))


def test_the_mean_has_the_gauge_of_its_banks(run_of):
    assert run_of().bench.instrument("turbine_inlet_temperature").accuracy == (3.0, "plain")


def test_a_unit_that_would_explain_one_row_of_many_alike_is_not_named(run_of):
    """In four rows the banks are 90 F° apart; 720 alone would fit in K, which is 836 °F and so near 810 °F."""
    rows = [f"{n},load,{25 * n},100,25,2,150,149,153,150,152,{hot + 90},{hot}" for n, hot in enumerate(HOT, 1)]
    heads = [(f"turbine inlet temperature {bank} [°C]", f"turbine inlet temperature {bank} [°F]") for bank in BANKS]
    flags = flags_of_banks(run_of((SOUND, "\n".join(rows)), *heads))
    assert [level for level, _, _ in flags] == ["amber"] * len(HOT)
    assert not [reason for _, _, reason in flags if " fits " in reason]
    alone = flags_of_banks(run_of((SOUND, rows[1]), *heads))
    assert "turbine inlet temperature right 720 fits K" in alone[0][2]
