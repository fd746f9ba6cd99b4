"""The same boost on a cold day and on a hot one: the gauge does not move, and the manifold holds less air."""

import numpy as np

import turbomath as tm

path = tm.charge_path(
    ambient_pressure=101_325.0,
    ambient_temperature=tm.to_si(np.arange(-15.0, 46.0, 15.0), "°C", "ambient_temperature"),
    manifold_pressure=101_325.0 + tm.to_si(150.0, "kPa", "boost"),
    isentropic_efficiency=0.74,
    effectiveness=0.80,
    air="perfect",
)
heads = ["ambient temperature", "ambient density", "manifold temperature", "manifold density"]
print(path.to_frame("si").filter(regex="|".join(rf"^{head} \[" for head in heads)).round(3).to_string())
