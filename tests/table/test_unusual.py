"""A number in a shop's unit where SI is asked for: it is warned of where the user wrote it, and changes nothing."""

import inspect
import warnings

import numpy as np
import pytest

from turbomath import RangeWarning, air, units
from turbomath.air import exhaust
from turbomath.engine import balance, path
from turbomath.engine.ready_engines import AIR_TO_AIR
from turbomath.physics import airflow, charge, compression, correction, fuel
from turbomath.table.errors import PACKAGE
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES
from turbomath.table.unusual import far_limits


def said(function, *arguments, **named):
    """The texts of a call's warnings, each given at the line of the call."""
    with warnings.catch_warnings(record=True) as caught:
        warnings.simplefilter("always")
        function(*arguments, **named)
        line = inspect.currentframe().f_lineno - 1
    assert {(one.category, one.filename, one.lineno) for one in caught} <= {(RangeWarning, __file__, line)}
    return [str(one.message) for one in caught]


def test_psi_and_fahrenheit_are_told_from_pascal_and_kelvin():
    assert said(compression.outlet_temperature, 14.5, 77.0, 40.0, 0.72) == [
        "outlet_temperature: inlet_pressure 14.5 Pa is far below what is usual, 50000 to 110000; in psi abs it would "
        "be usual. Convert it first: turbomath.to_si(14.5, 'psi abs', 'inlet_pressure').",
        "outlet_temperature: inlet_temperature 77 K is far below what is usual, 240 to 550; in °F or °C it would be "
        "usual. Convert it first: turbomath.to_si(77, '°F', 'inlet_temperature').",
        "outlet_temperature: outlet_pressure 40 Pa is far below what is usual, 80000 to 600000; in psi abs or inHg abs "
        "it would be usual. Convert it first: turbomath.to_si(40, 'psi abs', 'outlet_pressure').",
    ]


def test_the_number_is_left_as_it_is():
    with pytest.warns(RangeWarning, match="far below"):
        assert charge.density(14.5, 300.0) == 14.5 / (287.05287 * 300.0)


SHOP = {
    "a barometer in inHg": (compression.pressure_ratio, (29.1, 241e3), "inlet_pressure 29.1 Pa", "inHg abs"),
    "degrees Celsius": (charge.density, (1e5, 25.0), "temperature 25 K", "°C"),
    "kilopascal": (charge.density, (101.3, 300.0), "pressure 101.3 Pa", "kPa abs"),
    "pounds in a cubic foot": (charge.pressure, (0.165, 300.0), "density 0.165 kg/m^3", "lb/ft³"),
    "litres": (airflow.mass_flow, (1.9, 12.7, 30.0, 0.92), "displacement 12.7 m^3", "L"),
    "rpm": (airflow.mass_flow, (1.9, 0.0127, 1800.0, 0.92), "engine_speed 1800 rev/s", "rpm"),
    "pounds an hour": (fuel.specific_consumption, (142.0, 3e5), "fuel_flow 142 kg/s", "lb/h"),
    "grams for a kilowatt hour": (fuel.fuel_flow, (3e5, 210.0), "specific_fuel_consumption 210 kg/J", "g/kW·h"),
    "megajoule": (fuel.thermal_efficiency, (0.018, 3e5, 42.5), "fuel_lower_heating_value 42.5 J/kg", "MJ/kg"),
    "one of many": (charge.density, ([1e5, 98.0, np.nan], 300.0), "pressure 98 Pa", "kPa abs"),
    "a model of air": (air.choose("real").density, (14.5, 300.0), "pressure 14.5 Pa", "psi abs"),
    "a compressor of real air": (
        air.choose("real").outlet_temperature,
        (1e5, 100.0, 2e5, 0.7),
        "temperature 100 K",
        "°F or °C",
    ),
    "perfect air": (air.choose("perfect").entropy, (1e5, 77.0), "temperature 77 K", "°F"),
    "ideal air": (air.choose("ideal").enthalpy, (14.5, 300.0), "pressure 14.5 Pa", "psi abs"),
    "moist air": (air.choose("moist", humidity_ratio=0.0).density, (14.5, 300.0), "pressure 14.5 Pa", "psi abs"),
    "burnt gas": (exhaust.choose(1.8, 2.0).density, (30.0, 800.0), "pressure 30 Pa", "psi abs"),
}


@pytest.mark.parametrize(("function", "arguments", "what", "unit"), SHOP.values(), ids=SHOP)
def test_the_unit_is_named(function, arguments, what, unit):
    (text,) = said(function, *arguments)
    assert f"{what} is far" in text
    assert unit in text.split(" it would be usual")[0]


def test_the_path_and_the_balance_say_it_too_and_once_for_each_number():
    shop = dict(ambient_pressure=29.1, ambient_temperature=77.0, manifold_pressure=241e3, isentropic_efficiency=0.7)
    texts = said(path.charge_path, **shop, air=air.choose("perfect"))
    assert [text.split(" is far")[0] for text in texts if " is far" in text] == [
        "charge_path: ambient_pressure 29.1 Pa",
        "charge_path: ambient_temperature 77 K",
    ]
    site = dict(ambient_pressure=98e3, ambient_temperature=298.0, engine_speed=1800.0, power=2e5)
    assert said(balance.solve, AIR_TO_AIR, **site)[0].startswith("solve: engine_speed 1800 rev/s is far above")


NOT_DOUBTED = {
    "a large machine": (airflow.volume_flow, (28.0, 1.2)),
    "a ship's engine": (airflow.mass_flow, (2.0, 0.9, 1.7, 0.9)),
    "the stratosphere": (charge.density, (22_632.0, 216.65)),
    "a turbocharger's shaft": (correction.corrected_speed, (1500.0, 305.0)),
    "no unit fits": (charge.density, (0.001, 300.0)),
    "a missing reading": (charge.density, (np.nan, [np.nan, 300.0])),
}


@pytest.mark.parametrize(("function", "arguments"), NOT_DOUBTED.values(), ids=NOT_DOUBTED)
def test_what_can_be_is_not_doubted(function, arguments):
    named = {"reference_temperature": 298.0} if function is correction.corrected_speed else {}
    assert said(function, *arguments, **named) == []


def test_the_kit_does_not_doubt_itself():
    code = compile("answer = work(14.5, 77.0, 40.0, 0.72)", f"{PACKAGE}lab/any_file.py", "exec")
    assert said(exec, code, {"work": compression.outlet_temperature}) == []


def test_doubt_begins_outside_the_usual_range():
    for name, row in QUANTITIES.items():
        low, high = far_limits(name)
        assert low <= row.sensible[0] <= row.sensible[1] <= high, name


def test_a_usual_value_in_a_shop_unit_is_never_taken_for_one_in_si():
    # pressures and temperatures as gauges of a shop show them: each is doubted, or is as usual in SI as well
    for name in ("inlet_pressure", "ambient_pressure", "manifold_pressure"):
        low, high = QUANTITIES[name].sensible
        for unit in [
            one for one in units.spellings(name) if "gauge" not in one and "Pa" not in one and "H2O" not in one
        ]:
            shown = units.from_si(np.array([low, high]), unit, name)
            assert (shown < far_limits(name)[0]).all(), unit
    assert KINDS["temperature"].far == 2  # 77 °F and 25 °C are doubted as K; 300 °F cannot be
