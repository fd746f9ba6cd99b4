"""Ready INVENTED engines: one for each sort of aftercooling, each with its own turbine, and one with a wastegate.

Each is fitted, at 1800 rpm, 29.10 inHg and 77 °F, to readings that a shop would call usual (common practice): boost,
intake restriction, exhaust back pressure, exhaust temperature and power, effectiveness and pressure loss.
"""

from dataclasses import replace

from turbomath.engine.turbocharged_engine import Aftercooler, TurbochargedEngine, Wastegate

# 24 psi, 12 inH2O, 2.3 inHg, 1000 °F, 291 kW from 131.0 lb/h; effectiveness 0.80, loss 1.5 psi
AIR_TO_AIR = TurbochargedEngine(
    name="air-to-air",
    rated_power=291e3,
    rated_fuel_flow=0.0165057,
    turbine_area=1.20099e-3,
    intake_coefficient=1.58628e4,
    exhaust_coefficient=1.67981e4,
    coolant_share=0.16470,
    best_indicated_efficiency=0.49678,
    best_compressor_flow=0.513,
    aftercooler=Aftercooler("air-to-air", conductance=811.9, pressure_loss_coefficient=1.18436e5),
)

# 24 psi, 9 inH2O, 1.9 inHg, 1143 °F, 248 kW from 122.8 lb/h; effectiveness 0.75, loss 0.8 psi
JACKET_WATER = TurbochargedEngine(
    name="jacket-water",
    rated_power=248e3,
    rated_fuel_flow=0.0154725,
    turbine_area=1.28858e-3,
    intake_coefficient=1.59157e4,
    exhaust_coefficient=1.63962e4,
    coolant_share=0.19602,
    best_indicated_efficiency=0.46849,
    best_compressor_flow=0.440,
    aftercooler=Aftercooler("jacket-water", conductance=613.0, pressure_loss_coefficient=7.8214e4),
)

# 14 psi, 7 inH2O, 1.6 inHg, 1160 °F, 190 kW from 98.4 lb/h
NOT_AFTERCOOLED = TurbochargedEngine(
    name="none",
    rated_power=190e3,
    rated_fuel_flow=0.0123982,
    turbine_area=1.46379e-3,
    intake_coefficient=2.40697e4,
    exhaust_coefficient=2.49025e4,
    coolant_share=0.23207,
    best_indicated_efficiency=0.47437,
    best_compressor_flow=0.314,
)

# a smaller turbine that gives boost early, and a gate that keeps it down at full load
WITH_WASTEGATE = replace(
    AIR_TO_AIR,
    name="air-to-air with wastegate",
    turbine_area=0.85 * AIR_TO_AIR.turbine_area,
    wastegate=Wastegate(area=1.36e-4),
)

READY = {engine.name: engine for engine in (NOT_AFTERCOOLED, JACKET_WATER, AIR_TO_AIR, WITH_WASTEGATE)}
