"""More boost is more air, but each psi brings less than the one before it."""

import numpy as np

import turbomath as tm

barometer = tm.to_si(29.10, "inHg", "barometer")
path = tm.charge_path(
    ambient_pressure=barometer,
    ambient_temperature=tm.to_si(77.0, "°F", "ambient_temperature"),
    manifold_pressure=barometer + tm.to_si(np.arange(5.0, 41.0, 5.0), "psi", "boost"),
    isentropic_efficiency=0.74,  # and no aftercooler, as no effectiveness is given
)
heads = ["manifold pressure [psi abs]", "manifold temperature [°F]", "charge gain [%]"]
print(path.to_frame("us")[heads].round(1).to_string())
