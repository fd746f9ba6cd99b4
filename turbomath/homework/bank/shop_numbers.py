"""Numbers that students put in as the shop and its books print them: right ones in the wrong place, so never mended.

They are what is taught about, and no sizes of units: those come from `turbomath.units` alone.
"""

PETROL_AIR_FUEL_RATIO = 14.7  # kg of air to a kg of petrol, as every book on spark engines has it
WATER_TO_AIR = 0.622  # mass of vapour to mass of dry air at equal pressure, as charts print it
POWER_DIVISOR = {"us": 5252, "si": 9549}  # torque times rpm to hp, to kW: lbf·ft and N·m
HEAT_OF_PLAIN_WATER = 1000.0 * 4186.0  # J/(m^3 K)
