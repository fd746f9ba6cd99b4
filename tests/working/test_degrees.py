"""Where only a difference of temperatures counts, it is worked in °F or °C: no detour by absolute zero."""

import re

import pytest

from tests.variants_made import SYSTEMS, whole_class
from turbomath import working

IN_DEGREES = ("heat_rejected", "effectiveness_air_to_air", "manifold_temperature", "rise_over_core_air")
ABSOLUTE = ("manifold_density", "ideal_outlet_temperature", "outlet_temperature", "hot_day", "compressor_efficiency")


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("name", IN_DEGREES)
def test_a_difference_is_taken_between_readings_as_they_stand(name, system):
    variant = whole_class(name, system, 2)[0]
    said = working.solution(variant, units=system)
    assert not re.search(r"°R\b(?!\))|\d K\b|459\.67|273\.15", said), said
    hot = variant.givens.get("compressor_outlet_temperature") or variant.givens["manifold_temperature"]
    assert f"{hot.text} {hot.unit} − " in said


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("name", ABSOLUTE)
def test_a_ratio_or_a_power_counts_from_absolute_zero(name, system):
    said = working.solution(whole_class(name, system, 2)[0], units=system)
    assert ("459.67" if system == "us" else "273.15") in said


def test_degrees_come_to_the_same_numbers():
    """By hand, readings of one invented engine: 328 °F in, 130 °F out, 80 °F at the core: 198 / 248 = 0.798."""
    from turbomath.physics import cooling

    kelvins = {"inlet_temperature": 328, "outlet_temperature": 130, "medium_temperature": 80}
    chain = working.call(cooling.effectiveness, **{name: (one + 459.67) / 1.8 for name, one in kelvins.items()})
    said = working.solution(chain, units="us")
    assert "(328 °F − 130 °F) / (328 °F − 80 °F) = 0.79839" in said
