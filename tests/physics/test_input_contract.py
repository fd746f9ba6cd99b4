"""What every formula does with good, missing, odd and impossible input; walked, so that none is forgotten."""

import importlib
import inspect
import pkgutil
import warnings

import numpy as np
import pytest

from turbomath import OutOfRangeError, RangeWarning, physics
from turbomath.physics import airflow, atmosphere, compression, cooling, humidity
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES

TYPICAL = {name: sum(row.sensible) / 2 for name, row in QUANTITIES.items()} | {
    "temperature": 305.0,
    "pressure": 98_000.0,
    "inlet_pressure": 97_000.0,
    "outlet_pressure": 241_000.0,
    "inlet_temperature": 300.0,
    "outlet_temperature": 421.0,
    "wet_bulb_temperature": 297.0,
    "strokes": 4,
    "vapour_pressure": 2_300.0,
    "humidity_ratio": 0.011,
    "fuel_delivery": 0.15,
    "pressure_ratio": 3.0,
    "medium_capacity_rate": 450.0,
    "expansion_ratio": 1.73,
}
OPTIONS = {
    "tappings": "flange",
    "strokes": 4,
    "arrangement": "crossflow, both unmixed",
    "aspiration": "turbocharged",
    "engine": "turbocharged and aftercooled",
}
COOLING = {"inlet_temperature": 431.0, "outlet_temperature": 329.0, "medium_temperature": 303.0}
NO_NUMBERS = ["300", None, 1j, True, [[1.0], [2.0, 3.0]], {"a": 1.0}, np.array(["x"])]

# Arrays and single numbers may differ in the last digit (a processor's own arithmetic for arrays); where a result is
# the difference of near-equal numbers, such as an elevation from a pressure, that grows some thirtyfold.
LAST_DIGITS = 1e-13


def all_formulas():
    names = [info.name for info in pkgutil.iter_modules(physics.__path__, "turbomath.physics.")]
    members = [member for name in names for member in vars(importlib.import_module(name)).values()]
    return sorted({member for member in members if hasattr(member, "formula")}, key=label)


def label(function):
    return f"{function.__module__.rsplit('.', 1)[1]}.{function.__name__}"


def typical(function):
    """Arguments that give no warning, with a word or a whole number for each option."""
    chosen = TYPICAL | (COOLING if function.__module__.endswith(("cooling", "exchanger")) else {})
    names = inspect.signature(function).parameters
    return {name: (chosen | OPTIONS)[name] for name in names if name in QUANTITIES or name in OPTIONS}


def arrays(function):
    return [name for name in typical(function) if name not in OPTIONS]


def impossible(name):
    kind = KINDS[QUANTITIES[name].kind]
    yield from (np.inf, -np.inf)
    if np.isfinite(kind.low):
        yield kind.low - 0.01 if kind.low_allowed else kind.low
    if np.isfinite(kind.high):
        yield kind.high + 0.01


FUNCTIONS = all_formulas()
each_formula = pytest.mark.parametrize("function", FUNCTIONS, ids=label)


# What holds for every argument of every formula, as (function, name)


def every_argument_matters(function, name):
    changed = typical(function) | {name: typical(function)[name] * 0.99}
    if function.__name__ == "condensate":  # at the typical humidity there is none
        changed |= {"humidity_ratio": 0.06}
        assert function(**changed) != function(**typical(function) | {"humidity_ratio": 0.0601})
    elif name.endswith("vapour_pressure") and "engine" in changed:  # it counts for one sort of engine only
        breathing = {"engine": "naturally aspirated, excess air"}
        assert function(**changed | breathing) != function(**typical(function) | breathing)
    else:
        assert function(**changed) != function(**typical(function))


def an_array_gives_what_its_elements_give(function, name):
    values = typical(function)[name] * np.array([0.995, 1.0, 1.002])
    one_by_one = [function(**typical(function) | {name: value}) for value in values]
    answer = function(**typical(function) | {name: values})
    assert isinstance(answer, np.ndarray)
    np.testing.assert_allclose(answer, one_by_one, rtol=LAST_DIGITS)
    np.testing.assert_array_equal(function(**typical(function) | {name: values.tolist()}), answer)


def two_dimensions_broadcast(function, name):
    grid = typical(function)[name] * np.array([[0.995], [1.002]])
    answer = function(**typical(function) | {name: grid + np.zeros(3)})
    assert answer.shape == (2, 3)
    np.testing.assert_array_equal(answer[:, 0], answer[:, 2])


def a_missing_value_stays_missing_and_spoils_nothing_else(function, name):
    good = typical(function)[name]
    assert np.isnan(function(**typical(function) | {name: np.nan}))
    for values in (np.array([good, np.nan]), np.ma.array([good, good], mask=[False, True])):
        answer = function(**typical(function) | {name: values})
        assert not np.ma.isMaskedArray(answer)
        np.testing.assert_array_equal(np.isnan(answer), [False, True])
        assert answer[0] == pytest.approx(function(**typical(function)), rel=LAST_DIGITS)


def the_input_is_left_as_it_was(function, name):
    values = np.array([typical(function)[name], typical(function)[name] * 0.999])
    kept = values.copy()
    values.flags.writeable = False
    function(**typical(function) | {name: values})
    np.testing.assert_array_equal(values, kept)


def impossible_values_are_refused_in_the_same_words_alone_and_in_an_array(function, name):
    good = typical(function)[name]
    for bad in impossible(name):
        with pytest.raises(OutOfRangeError) as alone:
            function(**typical(function) | {name: bad})
        with pytest.raises(OutOfRangeError) as among:
            function(**typical(function) | {name: [good, bad, bad]})
        rule, found = str(alone.value).split("; ")
        assert rule.startswith(f"{name} must be ")
        assert f"[{QUANTITIES[name].unit}]" in rule
        assert found == f"found {bad:g}."
        assert str(among.value) == f"{rule}; 2 of 3 values are not, the first is {bad:g}."


def what_is_no_number_is_refused(function, name):
    left_out = {key: value for key, value in typical(function).items() if key != name}
    for bad in NO_NUMBERS:
        if bad is None and inspect.signature(function).parameters[name].default is None:
            assert function(**left_out, **{name: None}) == function(**left_out)
            continue
        with pytest.raises(OutOfRangeError, match=rf"^{name} must be .*not a number\.$"):
            function(**left_out, **{name: bad})


def an_argument_left_out_or_given_twice_is_named(function, name):
    parameter = inspect.signature(function).parameters[name]
    left_out = {key: value for key, value in typical(function).items() if key != name}
    if parameter.default is parameter.empty:
        with pytest.raises(TypeError, match=rf"^{function.__name__} takes .*\b{name}\b.*; missing: {name}\.$"):
            function(**left_out)
    if parameter.kind is not parameter.KEYWORD_ONLY:
        values = list(typical(function).values())[: list(typical(function)).index(name) + 1]
        with pytest.raises(TypeError, match=rf"^{function.__name__} takes .*; given twice: {name}[.;]"):
            function(*values, **{name: values[-1]})


RULES = (
    every_argument_matters,
    an_array_gives_what_its_elements_give,
    two_dimensions_broadcast,
    a_missing_value_stays_missing_and_spoils_nothing_else,
    the_input_is_left_as_it_was,
    impossible_values_are_refused_in_the_same_words_alone_and_in_an_array,
    what_is_no_number_is_refused,
    an_argument_left_out_or_given_twice_is_named,
)


def offences(function):
    """Yield what does not hold for a formula: the rule, the argument and why."""
    for rule in RULES:
        for name in arrays(function):
            try:
                rule(function, name)
            except (Exception, pytest.fail.Exception) as trouble:
                yield f"{rule.__name__}, {name}: {trouble}"


@each_formula
def test_a_formula_keeps_the_contract_of_its_input(function):
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        answer = function(**typical(function))
    assert type(answer) is float
    assert np.isfinite(answer)
    assert list(offences(function)) == []
    with pytest.raises(TypeError, match=rf"^{function.__name__} takes .*; not among them: colour\.$"):
        function(**typical(function), colour=1.0)
    with pytest.raises(TypeError, match=rf"^{function.__name__} takes .*; too many: 40 values for \d+ places\.$"):
        function(*[1.0] * 40)


def test_what_breaks_the_contract_is_seen():
    def careless(inlet_pressure, outlet_pressure):
        if isinstance(outlet_pressure, np.ndarray):
            outlet_pressure += 0
        return float(np.max(outlet_pressure))

    broken = "\n".join(offences(careless))
    assert [rule.__name__ for rule in RULES if rule.__name__ not in broken] == []


def test_shapes_that_do_not_fit_are_named():
    for function in (one for one in FUNCTIONS if len(arrays(one)) > 1):
        first, second = arrays(function)[:2]
        clash = {first: np.full(2, typical(function)[first]), second: np.full((4, 3), typical(function)[second])}
        with pytest.raises(OutOfRangeError) as refusal:
            function(**typical(function) | clash)
        assert f"{first} (2,)" in str(refusal.value)
        assert f"{second} (4, 3)" in str(refusal.value)


@pytest.mark.parametrize("function", [airflow.mass_flow, airflow.volumetric_efficiency], ids=label)
def test_only_two_and_four_strokes_are_known(function):
    for strokes in (3, 2.5, 0.5, [4, 4], np.nan):
        with pytest.raises(OutOfRangeError, match="strokes must be one of 2, 4; found"):
            function(**typical(function) | {"strokes": strokes})


def test_other_strokes_are_refused_too():
    for strokes in (0, -4, "four", None, np.inf):
        with pytest.raises(OutOfRangeError, match="strokes must be"):
            airflow.mass_flow(2.643, 0.0127, 30.0, 0.92, strokes)


def test_only_water_and_ice_are_known():
    for over in ("Water", "steam", "", None, ["ice"]):
        with pytest.raises(OutOfRangeError, match="over must be one of 'water', 'ice'; found"):
            humidity.saturation_pressure(270.0, over=over)


@pytest.mark.parametrize("function", [atmosphere.pressure, atmosphere.temperature, atmosphere.density], ids=label)
def test_the_standard_atmosphere_stops_at_its_limits(function):
    for elevation in (-5000.01, 11000.01):
        with pytest.raises(OutOfRangeError, match=r"elevation must be a height from -5000 to 11000 \[m\]"):
            function(elevation)
    assert np.isfinite(function([-5000.0, 11000.0])).all()


WARNED = {
    "no compressor": (compression.ideal_outlet_temperature, (1e5, 300.0, 0.9e5), "gauge against absolute"),
    "no compressor, real": (compression.outlet_temperature, (1e5, 300.0, 0.9e5, 0.7), "gauge against absolute"),
    "too good": (compression.isentropic_efficiency, (1e5, 300.0, 2.8e5, 390.0), "efficiency .* outside 0 to 1"),
    "cooled by compression": (compression.isentropic_efficiency, (1e5, 300.0, 2e5, 290.0), "efficiency .* outside"),
    "too cool": (cooling.effectiveness, (430.0, 300.0, 303.0), "effectiveness .* outside 0 to 1"),
    "heated": (cooling.effectiveness, (430.0, 431.0, 303.0), "effectiveness .* outside 0 to 1"),
    "one of many": (cooling.effectiveness, ([430.0, 430.0], [320.0, 431.0], 303.0), "effectiveness .* outside"),
    "very cold": (humidity.saturation_pressure, (233.14,), "outside 233.15 to 647.096 K"),
    "above the critical point": (humidity.saturation_pressure, (647.1,), "outside 233.15 to 647.096 K"),
    "warm ice": (humidity.saturation_pressure, (273.17, "ice"), "outside 50 to 273.16 K"),
    "coldest ice": (humidity.saturation_pressure, (49.9, "ice"), "outside 50 to 273.16 K|far below what is usual"),
    "very dry": (humidity.dew_point, (1e5, 1e-4), "dew point is outside 233.15"),
    "all but dry": (humidity.dew_point, (1e5, 1e-6), "dew point is outside 233.15"),
    "fog": (humidity.relative_humidity, (1e5, 300.0, 0.03), "relative humidity is outside 0 to 1"),
    "wet above dry": (humidity.relative_humidity_from_wet_bulb, (1e5, 300.0, 301.0), "outside 0 to 1"),
    "wet far below dry": (humidity.relative_humidity_from_wet_bulb, (1e5, 310.0, 283.0), "outside 0 to 1"),
    "ice on the wick": (humidity.relative_humidity_from_wet_bulb, (1e5, 275.0, 268.0), "outside 0 to 1"),
    "no such elevation": (atmosphere.elevation, (22_000.0,), "no elevation from -5000 to 11000 m"),
    "deeper than any mine": (atmosphere.elevation, (178_000.0,), "no elevation from -5000 to 11000 m"),
}


@pytest.mark.parametrize(("function", "arguments", "text"), WARNED.values(), ids=WARNED)
def test_odd_readings_warn_at_the_line_that_gave_them(function, arguments, text):
    with pytest.warns(RangeWarning, match=text) as caught:
        function(*arguments)
    line = inspect.currentframe().f_lineno - 1
    assert {(warning.filename, warning.lineno) for warning in caught} == {(__file__, line)}


NOT_WARNED = {
    "no boost": (compression.isentropic_efficiency, (1e5, 300.0, 1e5, 300.0)),
    "perfect compressor": (compression.isentropic_efficiency, (1e5, 300.0, 1e5 * 2**3.5, 600.0)),
    "perfect aftercooler": (cooling.effectiveness, (430.0, 303.0, 303.0)),
    "useless aftercooler": (cooling.effectiveness, (430.0, 430.0, 303.0)),
    "nothing to cool": (cooling.effectiveness, (303.0, 303.0, 303.0)),
    "coldest water": (humidity.saturation_pressure, (233.15,)),
    "warmest ice": (humidity.saturation_pressure, (273.16, "ice")),
    "dry air": (humidity.dew_point, (1e5, 0.0)),
    "missing reading": (humidity.saturation_pressure, (np.nan,)),
}


def test_the_very_limit_does_not_warn():
    for function, arguments in NOT_WARNED.values():
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            function(*arguments)
