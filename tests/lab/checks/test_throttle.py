"""An engine with a throttle between aftercooler and manifold: what it takes is not the cooler's. All runs INVENTED."""

import numpy as np
import pytest

from turbomath.lab import checks
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.run import readings

BENCH = """\
[run]
title = "INVENTED: a gas engine with a throttle"
invented = true
units = "si"
[engine]
aftercooler = "two-part"
fuel = "natural gas"
throttle = {throttle}
displacement = "50 L"
cylinders = 12
volumetric_efficiency = "0.90 ± 0.03"
[design]
compressor_efficiency = "0.75 ± 0.03"
effectiveness = "0.92 ± 0.03"
cooler_pressure_loss = "5 kPa ± 1 kPa"
"""
HEAD = (
    "point,condition,load [%],engine speed [rpm],barometer [kPa],ambient temperature [°C],intake restriction [kPa],"
    "compressor outlet pressure [kPa gauge],throttle inlet pressure [kPa gauge],boost [kPa],"
    "compressor outlet temperature [°C],manifold temperature [°C],cooling medium temperature [°C]"
)
ROWS = (
    # squeezing by 0.74: 100 -> 250 kPa and 185 kPa from 25 °C
    "1,load,100,1500,100,25,2,150,145,92,151,52,45",
    "2,load,50,1500,100,25,1,85,81,15,112,49,44",
    "3,load,25,1500,100,25,1,40,38,-20,72,47,44",
)


@pytest.fixture
def run_of(run_folder):
    """Return the run, with or without the throttle stated, and with some text of a row changed."""

    def made(*changes, throttle="true", head=HEAD):
        text = "\n".join([head, *ROWS, ""])
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        return readings.read_run(run_folder(text, BENCH.format(throttle=throttle)))

    return made


def troubles(run):
    """Red and amber flags."""
    return [(flag.check, flag.point) for flag in checks.check_run(run) if flag.level in ("red", "amber")]


def test_an_engine_that_says_it_has_a_throttle_is_sound(run_of):
    assert troubles(run_of()) == []


def test_without_the_word_its_pressures_are_accused(run_of):
    assert {(11, "1"), (11, "2"), (11, "3")} <= set(troubles(run_of(throttle="false")))


def test_the_loss_of_the_cooler_is_up_to_the_throttle_only(run_of):
    loss = reduce_run(run_of())["cooler_pressure_loss"].value
    assert loss == pytest.approx([5e3, 4e3, 2e3])
    assert np.isnan(
        reduce_run(run_of((HEAD, HEAD.replace("throttle inlet", "another")))).estimates["cooler_pressure_loss"].value
    ).all()


def test_the_compressor_is_judged_by_its_own_outlet(run_of):
    found = reduce_run(run_of())
    assert found["pressure_ratio"].value == pytest.approx([250 / 98, 185 / 99, 140 / 99])
    ideal = 298.15 * ((250 / 98) ** (0.4 / 1.4) - 1)  # textbook rise without loss, K
    assert found["compressor_efficiency"].value[0] == pytest.approx(ideal / 126, abs=0.01)
    assert checks.evaluated(run_of())[6, 1] == ""  # 85 kPa at the outlet, though the manifold has 15


def test_with_no_outlet_pressure_the_throttle_and_the_loss_of_the_design_stand_in(run_of):
    run = run_of((HEAD, HEAD.replace("compressor outlet pressure [kPa gauge]", "spare")))
    full, *part = reduce_run(run)["pressure_ratio"].value
    assert full == pytest.approx(250 / 98)
    for found, with_the_whole_loss in zip(part, (186 / 99, 143 / 99), strict=True):  # less flow loses less
        assert with_the_whole_loss - 0.05 < found < with_the_whole_loss
    assert any("throttle inlet" in source for source in reduce_run(run).sources["compressor_outlet_pressure"])
    without = run_of(
        (HEAD, HEAD.replace("compressor outlet pressure [kPa gauge]", "spare").replace("throttle inlet", "other"))
    )
    assert np.isnan(reduce_run(without)["pressure_ratio"].value).all()


def test_the_theory_meets_the_throttle_as_it_was_read(run_of):
    """Outlet and effectiveness of the design, at the pressures that were read; density is p / (R T)."""
    found = reduce_run(run_of())
    outlet = 298.15 + 298.15 * ((250 / 98) ** (0.4 / 1.4) - 1) / 0.75
    manifold = outlet - 0.92 * (outlet - 318.15)
    assert found["theoretical_charge_gain"].value[0] == pytest.approx(192 / 100 * 298.15 / manifold - 1, abs=0.01)


def test_what_a_throttle_makes_untellable_is_said(run_of):
    found = reduce_run(run_of())
    for name in ("mass_flow_gain", "measured_aftercooling_density_gain"):
        assert np.isnan(found[name].value).all()
        assert "throttle" in found.missing[name]


@pytest.mark.parametrize(
    ("change", "check"), [((",150,145,92,", ",200,145,180,"), 40), ((",150,145,", ",130,145,"), 11)]
)
def test_what_cannot_be_behind_a_throttle_is_still_found(run_of, change, check):
    assert check in {number for number, _ in troubles(run_of(change))}


def test_behind_a_throttle_the_efficiency_is_told_from_the_pressure_before_it_and_no_unit_is_guessed(run_of):
    head = HEAD.replace("compressor outlet pressure [kPa gauge],", "cooler pressure loss [kPa],")
    changes = [
        (f",{outlet},{inlet},", f",{outlet - inlet},{inlet},") for outlet, inlet in ((150, 145), (85, 81), (40, 38))
    ]
    (flag,) = checks.check_run(run_of(*changes, (",151,52", ",127,52"), head=head))[:1]
    assert (flag.check, flag.level, flag.column) == (6, "amber", "compressor_outlet_temperature")
    assert "from throttle inlet pressure 145 kPa gauge, cooler pressure loss 5 kPa, ambient temp" in flag.reason
    assert "boost" not in flag.reason
    assert "fits" not in flag.reason  # 25 in °F would do, and it is 25 °C at the two other points
