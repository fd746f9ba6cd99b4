"""An INVENTED log to find the steady stretches in: its true values are known, its formulas are none of the kit's."""

import numpy as np

HEADER = (
    "time [s],load [%],engine speed [rpm],barometer [inHg],ambient temperature [°F],intake restriction [inH2O],"
    "boost [psi],compressor outlet temperature [°F],manifold temperature [°F],cooling medium temperature [°F]"
)
LOADS = (25.0, 50.0, 75.0, 100.0, 60.0)  # %
NOISE = {"load": 0.3, "speed": 3.0, "boost": 0.1, "temperature": 0.5}
SLOW = 40.0  # s: how lazily a temperature follows


def truth(load):
    """Return (boost [psi], compressor outlet [°F], manifold [°F]) where the engine rests at a load [%]."""
    return 0.24 * load, 90.0 + 2.6 * load, 80.0 + 0.5 * load


def log(rows, step=1.0, seed=5, loads=LOADS, resting=True):
    """Return (text of readings.csv, times [s] between which each load was held)."""
    noise, time = np.random.default_rng(seed), step * np.arange(rows)
    held = rows * step / len(loads)
    turn = np.minimum((time / held).astype(int), len(loads) - 1)
    load = np.array(loads)[turn] if resting else 50 + 40 * np.sin(time / 40)
    wanted = np.stack(truth(load))
    for row in wanted[1:]:
        goal = row.copy()
        for index in range(1, rows):
            row[index] = row[index - 1] + (goal[index] - row[index - 1]) * min(1.0, step / SLOW)
    columns = [
        time,
        load + NOISE["load"] * noise.standard_normal(rows),
        1800 + NOISE["speed"] * noise.standard_normal(rows),
        np.full(rows, 29.1),
        np.full(rows, 77.0),
        0.12 * load,
        wanted[0] + NOISE["boost"] * noise.standard_normal(rows),
        *(row + NOISE["temperature"] * noise.standard_normal(rows) for row in wanted[1:]),
        np.full(rows, 79.0),
    ]
    lines = "\n".join(",".join(f"{cell:.2f}" for cell in cells) for cells in zip(*columns, strict=True))
    return f"{HEADER}\n{lines}\n", [(held * n, held * (n + 1)) for n in range(len(loads))]
