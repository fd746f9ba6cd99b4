"""The closed list of units against definitions in Pint and NIST SP 811, and the spellings of a shop."""

import pint
import pytest

from turbomath import units
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES
from turbomath.units.spellings import FAMILIES, UNITS, by_spelling

# One quantity of each family, its SI unit for Pint, and for each unit a definition typed here in Pint's long names.
# Columns of liquid: height, density of mercury 13 595.1 or of water 1000 kg/m³, standard gravity (conventional,
# NIST SP 811, B.8).
# fmt: off
DEFINITIONS = {
    "boost": ("pascal", {
        "psi": "force_pound / inch**2", "kPa": "1000 pascal", "Pa": "newton / meter**2", "bar": "1e5 pascal",
        "mbar": "100 pascal", "hPa": "100 pascal", "kgf/cm²": "9.80665 newton / centimeter**2",
        "inHg": "25.4 millimeter * 13595.1 kilogram / meter**3 * 9.80665 meter / second**2",
        "mmHg": "millimeter * 13595.1 kilogram / meter**3 * 9.80665 meter / second**2",
        "inH2O": "25.4 millimeter * 1000 kilogram / meter**3 * 9.80665 meter / second**2",
        "mmH2O": "millimeter * 1000 kilogram / meter**3 * 9.80665 meter / second**2"}),
    "temperature_rise": ("kelvin", {"F°": "5/9 kelvin", "C°": "kelvin", "K": "kelvin", "R°": "5/9 kelvin"}),
    "engine_speed": ("turn / second", {"rpm": "turn / minute", "rev/s": "turn / second"}),
    "air_flow": ("kilogram / second", {
        "lb/min": "pound / minute", "lb/h": "pound / hour", "kg/s": "kilogram / second", "kg/min": "kilogram / minute",
        "kg/h": "kilogram / hour", "g/s": "gram / second", "g/min": "gram / minute"}),
    "air_volume_flow": ("meter**3 / second", {
        "cfm": "foot**3 / minute", "m³/h": "meter**3 / hour", "m³/min": "meter**3 / minute",
        "m³/s": "meter**3 / second", "L/s": "liter / second", "L/min": "liter / minute", "L/h": "liter / hour",
        "US gal/min": "231 inch**3 / minute", "US gal/h": "231 inch**3 / hour"}),
    "laminar_flow_constant": ("meter**3 / second / pascal", {
        "cfm per inH2O": "foot**3 / minute / (249.08891 pascal)", "m³/h per kPa": "meter**3 / hour / kilopascal",
        "L/s per kPa": "liter / second / kilopascal", "L/min per Pa": "liter / minute / pascal",
        "m³/s per Pa": "meter**3 / second / pascal"}),
    "dynamic_viscosity": ("pascal * second", {"cP": "0.01 gram / centimeter / second", "Pa s": "pascal * second"}),
    "torque": ("newton * meter", {"lbf·ft": "force_pound * foot", "N·m": "newton * meter"}),
    "power": ("watt", {
        "hp": "550 foot * force_pound / second", "kW": "kilowatt", "W": "watt",
        "Btu/min": "2326 joule / kilogram * pound / minute"}),
    "specific_fuel_consumption": ("kilogram / joule", {
        "lb/hp·h": "pound / (550 foot * force_pound / second * hour)", "g/kW·h": "gram / (kilowatt * hour)",
        "kg/kW·h": "kilogram / (3.6e6 joule)", "kg/J": "kilogram / joule"}),
    "displacement": ("meter**3", {
        "L": "decimeter**3", "in³": "inch**3", "cm³": "centimeter**3", "m³": "meter**3"}),
    "density": ("kilogram / meter**3", {
        "lb/ft³": "pound / foot**3", "kg/m³": "kilogram / meter**3", "kg/L": "gram / centimeter**3"}),
    "load": ("dimensionless", {"-": "dimensionless", "fraction": "dimensionless", "%": "0.01"}),
    "humidity_ratio": ("kilogram / kilogram", {
        "g/kg": "gram / kilogram", "kg/kg": "kilogram / kilogram", "gr/lb": "1/7000", "lb/lb": "pound / pound"}),
    "elevation": ("meter", {
        "ft": "0.3048 meter", "m": "meter", "in": "25.4 millimeter", "mm": "millimeter", "cm": "centimeter"}),
    "piston_speed": ("meter / second", {
        "ft/min": "0.3048 meter / minute", "m/s": "meter / second", "ft/s": "0.3048 meter / second"}),
    "rotor_energy": ("joule", {
        "Btu": "2326 joule / kilogram * pound", "kJ": "1000 newton * meter", "J": "newton * meter"}),
    "rotor_inertia": ("kilogram * meter**2", {
        "lb·ft²": "0.45359237 kilogram * (0.3048 meter)**2", "kg·m²": "kilogram * meter**2"}),
    "fuel_time": ("second", {"ms": "millisecond", "s": "second", "min": "60 second"}),
    "fuel_mass": ("kilogram", {"lb": "0.45359237 kilogram", "kg": "kilogram", "g": "gram"}),
    "enthalpy": ("joule / kilogram", {
        "Btu/lb": "2.326 kilojoule / kilogram", "kJ/kg": "kilojoule / kilogram", "MJ/kg": "megajoule / kilogram",
        "J/kg": "joule / kilogram"}),
    "specific_heat": ("joule / kilogram / kelvin", {
        "J/(kg K)": "joule / kilogram / kelvin", "kJ/(kg K)": "kilojoule / kilogram / kelvin"}),
    "conductance": ("watt / kelvin", {
        "Btu/(h·°F)": "2326 joule / kilogram * pound / hour / (5/9 kelvin)", "W/K": "watt / kelvin",
        "kW/K": "kilowatt / kelvin"}),
}

# NIST SP 811 (2008), Appendix B.8, factors as printed: the result must agree in every printed digit.
NIST = (
    ("boost", "psi", "6.894757E+03"), ("boost", "inHg", "3.386389E+03"), ("boost", "mmHg", "1.333224E+02"),
    ("boost", "inH2O", "2.490889E+02"), ("boost", "mmH2O", "9.80665E+00"), ("boost", "kgf/cm2", "9.80665E+04"),
    ("boost", "mbar", "1.0E+02"), ("boost", "bar", "1.0E+05"),
    ("temperature_rise", "°F", "5.555556E-01"), ("temperature_rise", "°R", "5.555556E-01"),
    ("air_flow", "lb/min", "7.559873E-03"), ("air_flow", "lb/h", "1.259979E-04"),
    ("air_volume_flow", "cfm", "4.719474E-04"), ("cooling_medium_flow", "US gal/min", "6.309020E-05"),
    ("torque", "lbf·ft", "1.355818E+00"), ("power", "hp", "7.456999E+02"),
    ("specific_fuel_consumption", "lb/hp·h", "1.689659E-07"), ("displacement", "in³", "1.638706E-05"),
    ("density", "lb/ft³", "1.601846E+01"), ("elevation", "ft", "3.048E-01"), ("fuel_mass", "lb", "4.535924E-01"),
    ("enthalpy", "Btu/lb", "2.326E+03"), ("rotor_energy", "Btu", "1.055056E+03"), ("tip_speed", "ft/s", "3.048E-01"),
    ("rotor_inertia", "lb·ft²", "4.214011E-02"),
)

# What a shop types, beside the spelling that the kit shows.
TYPED = {
    "boost": {
        "psi": "PSI, Psi, p.s.i., lb/in2, lb/in², lbf/in^2, lbs/sq. in., psig, psi gauge, psi g, psi(g), PSI-G",
        "kPa": "kpa, KPA, kPa gauge, kPa(gauge), kPag, k Pa", "Pa": "pa, Pa gauge", "bar": "BAR, barg, bar(g), bar g",
        "kgf/cm²": "kg/cm2, kgf/cm^2, KG/CM², kp/cm2, kgf / cm2",
        "inHg": 'in.Hg, in. Hg, in Hg, INHG, inches of mercury, inches Hg, "Hg, ″Hg, inHg gauge, in-Hg',
        "mmHg": "mm Hg, MMHG, mm of mercury",
        "inH2O": 'in. H2O, in H2O, inH₂O, inches of water, inches of water column, inWC, in. W.C., "H2O, inches WC',
        "mmH2O": "mm H2O, mmH₂O, mm WC", "mbar": "MBAR, m bar", "hPa": "HPA, hpa"},
    "temperature_rise": {
        "F°": "°F, degF, deg F, F, f°, ΔF, Δ°F, delta F, F deg", "C°": "°C, degC, deg C, C, Δ°C, ℃",
        "K": "k, kelvin, delta K", "R°": "°R, degR"},
    "engine_speed": {
        "rpm": "RPM, rev/min, r/min, rev per minute, min-1, min⁻¹, R.P.M.", "rev/s": "rps, r/s, rev/sec, 1/s"},
    "air_flow": {
        "lb/min": "LB/MIN, lbs/min, lb per min, lbm/min, pounds per minute, lb / min", "lb/h": "lb/hr, lbs/hour, lb/H",
        "kg/s": "KG/S, kg/sec, kg per second", "kg/h": "kg/hr, kg/hour", "kg/min": "Kg/Min",
        "g/s": "G/S", "g/min": "g/minute"},
    "air_volume_flow": {
        "cfm": "CFM, ft3/min, ft³/min, ft^3/min, cu ft/min, cu. ft. per min, cubic feet per minute, C.F.M.",
        "m³/h": "m3/h, m^3/h, M3/HR, cubic metres per hour", "m³/min": "m3/min, m^3/min", "m³/s": "m3/s, m3/sec",
        "L/s": "l/s, litres per second", "L/min": "l/min, LPM, liters/min", "L/h": "l/h, L/hr, lph",
        "US gal/min": "gpm, GPM, US gpm, gal/min, gallons per minute, U.S. gal/min",
        "US gal/h": "gph, gal/hr, us gal/hour"},
    "torque": {
        "lbf·ft": "lbf ft, lbf-ft, lb-ft, lb.ft, ft-lb, ft lbf, ft·lbf, ft*lbf, ft lbs, FT-LBS, ft.-lbs., lb⋅ft, "
        "lb×ft, foot-pounds",
        "N·m": "Nm, N m, N-m, N*m, N⋅m, newton metre, NM"},
    "power": {"hp": "HP, h.p., bhp, BHP", "kW": "KW, kw", "W": "w, watt", "Btu/min": "BTU/min, btu/minute"},
    "specific_fuel_consumption": {
        "lb/hp·h": "lb/hp-h, lb/hp-hr, lb/(hp h), lb/(hp·h), lbs/hp.hr, lb/hph, lb/bhp-hr, LB/HP-HR",
        "g/kW·h": "g/kWh, g/kW-h, g/(kW h), g/kW-hr, G/KWH, g per kWh", "kg/kW·h": "kg/kWh"},
    "displacement": {
        "L": "l, litre, liter, Litres", "in³": "in3, in^3, cu in, cu. in., cubic inches, CU.IN.",
        "cm³": "cm3, cc, CC, cm^3",
        "m³": "m3, m^3, cubic metre"},
    "density": {
        "lb/ft³": "lb/ft3, lb/ft^3, lbs/cu ft, lb per cubic foot", "kg/m³": "kg/m3, kg/m^3, KG/M3",
        "kg/L": "kg/l, kg/litre"},
    "load": {"%": "percent, per cent, pct, Percent", "-": "–, −, ratio", "fraction": "Fraction"},
    "humidity_ratio": {"g/kg": "G/KG, g per kg", "gr/lb": "grains/lb, grains per pound", "kg/kg": "Kg/Kg"},
    "elevation": {"ft": "FT, ft., feet, foot", "m": "M, metre, meters"},
    "fuel_time": {"ms": "MS, msec, milliseconds", "s": "S, sec, sec., seconds", "min": "MIN, minutes, min."},
    "fuel_mass": {"lb": "LB, lbs, lb., pounds", "kg": "KG, Kg", "g": "G"},
    "enthalpy": {"Btu/lb": "BTU/lb, Btu/lbm, btu per pound", "kJ/kg": "KJ/KG, kj/kg"},
    "specific_heat": {"J/(kg K)": "J/kg K, J/(kg·K), J/kg-K, J/kg/K, j/(kg*k)", "kJ/(kg K)": "kJ/kg·K, kJ/kg K"},
}
# fmt: on
REGISTRY = pint.UnitRegistry()


def measured(name, number, definition):
    si_unit, _ = DEFINITIONS[name]
    return number * REGISTRY.Quantity(definition).to(si_unit).magnitude


@pytest.mark.parametrize("name", DEFINITIONS)
def test_a_unit_agrees_with_its_definition_in_pint(name):
    _, rows = DEFINITIONS[name]
    found = {unit: units.to_si(3.7, unit, name) for unit in rows}
    assert found == pytest.approx({unit: measured(name, 3.7, rows[unit]) for unit in rows}, rel=1e-13)


def test_every_listed_unit_has_a_definition_here():
    kinds = {QUANTITIES[name].kind: rows for name, (_, rows) in DEFINITIONS.items()}
    families = {FAMILIES.get(kind, kind): rows for kind, rows in kinds.items()}
    listed = {family: {row[0] for row in rows} for family, rows in UNITS.items() if family != "temperature"}
    assert listed == {family: set(rows) for family, rows in families.items()}


def test_units_agree_with_nist_in_every_printed_digit():
    for name, unit, printed in NIST:
        figures, power = printed.split("E")
        half_of_last_digit = 0.5 * 10.0 ** (int(power) - len(figures.split(".")[1]))
        assert abs(units.to_si(1.0, unit, name) - float(printed)) <= half_of_last_digit, unit


def test_btu_is_the_international_table_one():
    # NIST SP 811, B.8: Btu(IT) per second 1.055056E+03 W; the thermochemical one is 1.054350E+03
    assert units.to_si(60.0, "Btu/min", "power") == pytest.approx(1055.056, abs=5e-4)


@pytest.mark.parametrize("name", TYPED)
def test_a_usual_spelling_means_the_unit(name):
    for unit, texts in TYPED[name].items():
        for typed in texts.split(", "):
            assert units.to_si(3.7, typed, name) == units.to_si(3.7, unit, name), typed


def test_no_break_spaces_are_spaces():
    assert units.to_si(1.0, "US\u00a0gal/min", "cooling_medium_flow") == units.to_si(1.0, "gpm", "cooling_medium_flow")


def test_fahrenheit_is_spelt_many_ways():
    expected = REGISTRY.Quantity(211.3, "degF").to("kelvin").magnitude
    for typed in ("F", "f", "degF", "deg F", "° F", "ºF", "˚F", "℉", "degrees Fahrenheit", "Deg. F"):
        assert units.to_si(211.3, typed, "manifold_temperature") == pytest.approx(expected, rel=1e-13), typed


def test_celsius_is_not_coulomb():
    for typed in ("C", "degC", "degrees Celsius", "°c"):
        assert units.to_si(24.5, typed, "manifold_temperature") == pytest.approx(297.65, abs=1e-12), typed


def test_cfm_is_not_a_length():
    assert units.to_si(1.0, "cfm", "air_volume_flow") == pytest.approx(4.719e-4, abs=5e-8)


def test_every_kind_has_units():
    assert {FAMILIES.get(kind, kind) for kind in KINDS} == set(UNITS)


def test_no_spelling_of_one_family_means_two_sizes():
    sizes = {}
    for family, rows in UNITS.items():
        for shown, _, others in rows:
            for spelling in [shown, *filter(None, others.split(", "))]:
                key = (family, spelling.lower())
                assert sizes.setdefault(key, shown) == shown
    assert all("" not in units for units in by_spelling().values())
