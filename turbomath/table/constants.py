"""Constants in SI units, grouped by how they are known; `SOURCES` names where each is printed."""

EDITION = "2026.1"  # printed on every report; changes whenever a value below does

# Exact by definition
STANDARD_GRAVITY = 9.80665  # m/s^2
STANDARD_PRESSURE = 101_325.0  # Pa, never a stand-in for the station barometer
STANDARD_TEMPERATURE = 288.15  # K, at sea level
STANDARD_LAPSE_RATE = 0.0065  # K/m, fall of temperature with geopotential height below 11 km
ZERO_CELSIUS = 273.15  # K
MOLAR_GAS_CONSTANT = 8.31446261815324  # J/(mol K)
AIR_HEAT_CAPACITY_RATIO = 7 / 5  # that of a perfect gas of two-atom molecules

# Adopted by a standard
AIR_GAS_CONSTANT = 287.05287  # J/(kg K), dry air

# Measured
WATER_MOLAR_MASS = 0.01801528  # kg/mol

# Derived from those above
AIR_SPECIFIC_HEAT = AIR_GAS_CONSTANT * AIR_HEAT_CAPACITY_RATIO / (AIR_HEAT_CAPACITY_RATIO - 1)
VAPOUR_GAS_CONSTANT = MOLAR_GAS_CONSTANT / WATER_MOLAR_MASS  # J/(kg K)
VAPOUR_MASS_RATIO = AIR_GAS_CONSTANT / VAPOUR_GAS_CONSTANT  # kg vapour per kg dry air at equal pressure

SOURCES = {
    "STANDARD_GRAVITY": "ISO2533",
    "STANDARD_PRESSURE": "ISO2533",
    "STANDARD_TEMPERATURE": "ISO2533",
    "STANDARD_LAPSE_RATE": "ISO2533",
    "ZERO_CELSIUS": "NISTSP811",
    "MOLAR_GAS_CONSTANT": "CODATA2018",
    "AIR_HEAT_CAPACITY_RATIO": "ISO2533",
    "AIR_GAS_CONSTANT": "ISO2533",
    "WATER_MOLAR_MASS": "CIPM2007",
    "AIR_SPECIFIC_HEAT": "ISO2533",
    "VAPOUR_GAS_CONSTANT": "CODATA2018",
    "VAPOUR_MASS_RATIO": "ISO2533",
}
