"""Which way each gauge moves with each fault, in INVENTED engines of all sorts: signs that hold wherever they run.

The table is from a simulated study of 400 engines, 0 to 3000 m, 60 to 100 % load, with equations written apart from the
kit's; only what held there in 99 of 100 stands in it. The rows that service manuals have too (trouble charts of
turbocharged diesels, common practice) are in `COMMON`.
"""

from dataclasses import replace

import numpy as np
import pytest

from turbomath.engine.faults.engine_faults import ENGINE_FAULTS
from turbomath.engine.faults.observed import GAUGES, shown
from turbomath.engine.ready_engines import AIR_TO_AIR, WITH_WASTEGATE

ENGINES = 60
HEADS = ("restriction", "p2", "T2", "boost", "T3", "loss", "EGT", "back-pressure", "power", "p4")
COLUMNS = dict(
    zip(
        HEADS,
        (
            "intake_restriction",
            "compressor_outlet_pressure",
            "compressor_outlet_temperature",
            "boost",
            "manifold_temperature",
            "cooler_pressure_loss",
            "turbine_inlet_temperature",
            "exhaust_back_pressure",
            "power",
            "turbine_inlet_pressure",
        ),
        strict=True,
    )
)
# Fuel given. "." is either way, or too near to nothing
SIGNS = {  # restr p2 T2 boost T3 loss EGT back power p4
    "filter_plugged": "+ - . - . - + - - -",
    "charge_leak_after": "+ - - - - + + - - -",
    "charge_leak_before": "+ - - - - - + - - -",
    "cooler_fouled": "- + + + + . + . . .",
    "cooler_restricted": "- . . - - + + - - -",
    "compressor_fouled": "- - . - . - + - - -",
    "turbine_worn": "- - - - - - + - - -",
    "turbine_closed": ". + + + + + . . - +",
    "turbine_open": "- - - - - - + - . -",
    "exhaust_leak": "- - - - - - + - . -",
    "exhaust_restricted": "- - - - - - + + - .",
    "late_timing": "+ + + + + + + + - +",
    "wastegate_open": "- - - - - - + - . -",
    "wastegate_closed": "+ + + + + + - + . +",
}
# (fault, gauge): what trouble charts of the trade say as well; common practice
COMMON = {
    ("filter_plugged", "restriction"): "+",
    ("charge_leak_after", "boost"): "-",
    ("charge_leak_after", "EGT"): "+",
    ("charge_leak_before", "loss"): "-",
    ("cooler_fouled", "T3"): "+",
    ("cooler_restricted", "loss"): "+",
    ("cooler_restricted", "boost"): "-",
    ("compressor_fouled", "boost"): "-",
    ("turbine_worn", "boost"): "-",
    ("wastegate_open", "EGT"): "+",
    ("wastegate_open", "boost"): "-",
    ("wastegate_closed", "boost"): "+",
    ("wastegate_closed", "T2"): "+",
    ("exhaust_leak", "boost"): "-",
    ("exhaust_leak", "EGT"): "+",
    ("exhaust_restricted", "back-pressure"): "+",
    ("exhaust_restricted", "EGT"): "+",
    ("late_timing", "EGT"): "+",
    ("late_timing", "power"): "-",
    ("late_timing", "boost"): "+",
}
LEAST_TRUE = 0.99


def engines(gated):
    """Return (engine of arrays, site, fuel) of many engines, each with its numbers, its height and its load."""
    random = np.random.default_rng(20261129)
    ready = WITH_WASTEGATE if gated else AIR_TO_AIR

    def about(value, share):
        return value * random.uniform(1 - share, 1 + share, (ENGINES, 1))

    cooler = replace(ready.aftercooler, conductance=about(ready.aftercooler.conductance, 0.1))
    cooler = replace(cooler, pressure_loss_coefficient=about(cooler.pressure_loss_coefficient, 0.1))
    names = {
        "turbine_area": 0.04,
        "turbine_efficiency": 0.03,
        "best_compressor_efficiency": 0.03,
        "coolant_share": 0.05,
    }
    names |= {"intake_coefficient": 0.1, "exhaust_coefficient": 0.1, "volumetric_efficiency": 0.03}
    engine = replace(ready, aftercooler=cooler, **{name: about(getattr(ready, name), by) for name, by in names.items()})
    pressure = np.exp(-random.uniform(0, 3000, (ENGINES, 1)) / 8400) * 101_325.0
    site = dict(
        ambient_pressure=pressure, ambient_temperature=random.uniform(275, 312, (ENGINES, 1)), engine_speed=30.0
    )
    return engine, site, ready.rated_fuel_flow * random.uniform(0.75 if gated else 0.6, 1.0, (ENGINES, 1))


@pytest.fixture(scope="module")
def moved():
    """Return {fault: what each gauge shows more, of shape (engines, gauges)}."""
    found = {}
    random = np.random.default_rng(3)
    for fault in ENGINE_FAULTS:
        if fault.name not in SIGNS:
            continue
        gated = fault.part == "gate"
        engine, site, fuel = engines(gated)
        size = random.uniform(0.15, 0.6, (ENGINES, 1)) * fault.most
        if fault.name == "wastegate_open":  # wider than the control holds it: else nothing changes
            size = random.uniform(0.9, 1.0, (ENGINES, 1))
        sound = shown(engine, site, fuel).gauges
        found[fault.name] = (shown(fault.made(engine, size), site, fuel).gauges - sound)[:, :, 0]
    return found


@pytest.mark.parametrize("fault", SIGNS)
def test_each_gauge_moves_as_the_table_says(moved, fault):
    for head, sign in zip(HEADS, SIGNS[fault].split(), strict=True):
        if sign == ".":
            continue
        more = moved[fault][:, list(GAUGES).index(COLUMNS[head])]
        share = np.mean(more > 0 if sign == "+" else more < 0)
        assert share >= LEAST_TRUE, (head, sign, share)


def test_the_table_agrees_with_the_trouble_charts_of_the_trade():
    for (fault, head), sign in COMMON.items():
        assert SIGNS[fault].split()[HEADS.index(head)] == sign, (fault, head)


def test_a_gate_stuck_less_open_than_its_control_holds_it_changes_nothing():
    """At full load the control opens the gate of this engine by 0.44 of its way, in the closed form of the opening."""
    engine, site, fuel = WITH_WASTEGATE, dict(ambient_pressure=98_544.0, ambient_temperature=298.15), 0.0165057
    site = {name: np.array([value]) for name, value in (site | {"engine_speed": 30.0}).items()}
    stuck = next(one for one in ENGINE_FAULTS if one.name == "wastegate_open").made(engine, 0.3)
    fuels = np.array([fuel])
    assert np.allclose(shown(stuck, site, fuels).gauges, shown(engine, site, fuels).gauges, rtol=1e-7)
    half = shown(engine, site, fuels / 2).gauges - shown(stuck, site, fuels / 2).gauges
    assert half[0, list(GAUGES).index("boost"), 0] > 1000.0  # where the gate should be shut it shows
