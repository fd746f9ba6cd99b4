"""The columns of a readings sheet, and the instrument a shop usually has on each.

The instruments are common practice, no single published source: they stand in where bench.toml does
not say what is fitted, and a report then says that they are assumed.
"""

from turbomath.table.banks import BANKS, OF_EACH_BANK, of_bank

TEXT_COLUMNS = ("point", "condition", "time", "pass", "reader", "remark")

LIQUID_COOLED = ("jacket-water", "separate-circuit", "two-part")
AFTERCOOLERS = ("none", "jacket-water", "air-to-air", "separate-circuit", "two-part")

CONDITIONS = ("zero", "low idle", "high idle", "no load", "load", "cool down", "zero after")

_THERMOCOUPLE = {"kind": "thermocouple", "type": "K", "class": "standard", "resolution": "1 °F"}
_HOT_THERMOCOUPLE = {**_THERMOCOUPLE, "resolution": "5 °F"}
_GAUGE_60_PSI = {"kind": "bourdon", "span": "0..60 psi", "grade": "B", "resolution": "0.5 psi"}
_ONE_PER_CENT = {"accuracy": "1 % of reading"}
_THREE_PER_CENT = {"accuracy": "3 % of reading"}

# Column -> the keys of its [instruments] table, as they would be written in bench.toml
USUAL_INSTRUMENTS = {
    "load": _ONE_PER_CENT,
    "engine_speed": {"kind": "tachometer", "accuracy": "5 rpm", "resolution": "5 rpm"},
    "barometer": {"kind": "aneroid", "accuracy": "0.03 inHg", "resolution": "0.01 inHg"},
    "ambient_temperature": _THERMOCOUPLE,
    "relative_humidity": {"kind": "hygrometer", "accuracy": "3 %", "resolution": "1 %"},
    "wet_bulb_temperature": _THERMOCOUPLE,
    "intake_restriction": {
        "kind": "diaphragm",
        "span": "0..30 inH2O",
        "accuracy": "2 % of span",
        "resolution": "0.5 inH2O",
    },
    "compressor_inlet_temperature": _THERMOCOUPLE,
    "compressor_outlet_pressure": _GAUGE_60_PSI,
    "compressor_outlet_temperature": _THERMOCOUPLE,
    "boost": _GAUGE_60_PSI,
    "manifold_pressure": {
        "kind": "engine sensor",
        "span": "0..400 kPa",
        "accuracy": "2 % of span",
        "resolution": "1 kPa",
    },
    "throttle_inlet_pressure": _GAUGE_60_PSI,
    "cooler_outlet_temperature": _THERMOCOUPLE,
    "manifold_temperature": _THERMOCOUPLE,
    "cooling_medium_temperature": _THERMOCOUPLE,
    "cooling_medium_outlet_temperature": _THERMOCOUPLE,
    "cooling_medium_flow": _THREE_PER_CENT,
    "engine_coolant_temperature": _THERMOCOUPLE,
    "cooler_pressure_loss": {
        "kind": "differential",
        "span": "0..5 psi",
        "accuracy": "2 % of span",
        "resolution": "0.1 psi",
    },
    "air_meter_pressure_drop": {
        "kind": "manometer",
        "span": "0..20 inH2O",
        "accuracy": "1 % of span",
        "resolution": "0.1 inH2O",
    },
    "air_flow": _THREE_PER_CENT,
    "air_volume_flow": _THREE_PER_CENT,
    "fuel_flow": _ONE_PER_CENT,
    "fuel_mass": {"kind": "scale", "accuracy": "1 % of reading", "resolution": "0.05 lb"},
    "fuel_time": {"kind": "stopwatch", "accuracy": "0.5 s", "resolution": "0.1 s"},
    "torque": _ONE_PER_CENT,
    "power": _ONE_PER_CENT,
    "turbine_inlet_temperature": _HOT_THERMOCOUPLE,
    "turbine_outlet_temperature": _HOT_THERMOCOUPLE,
    "turbine_inlet_pressure": _GAUGE_60_PSI,
    "exhaust_back_pressure": {
        "kind": "manometer",
        "span": "0..6 inHg",
        "accuracy": "0.1 inHg",
        "resolution": "0.1 inHg",
    },
    "oil_pressure": {"kind": "bourdon", "span": "0..100 psi", "grade": "B", "resolution": "1 psi"},
}

# An engine with two turbochargers side by side has some of them once for each bank
USUAL_INSTRUMENTS |= {of_bank(name, bank): USUAL_INSTRUMENTS[name] for name in OF_EACH_BANK for bank in BANKS}

NUMBER_COLUMNS = tuple(USUAL_INSTRUMENTS)
