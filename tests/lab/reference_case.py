"""The reference case worked by hand, as a bench and one row of readings; INVENTED."""

from turbomath.lab.run.readings import read_run

# Reference worked case (12.0 L, 1800 rpm, 29.10 inHg, 77 °F, 12 inH2O, 24 psi, air-to-air), read by perfect gauges
REFERENCE = {
    "point": "1",
    "condition": "load",
    "load [%]": "100",
    "engine speed [rpm]": "1800",
    "barometer [inHg]": "29.10",
    "ambient temperature [°F]": "77",
    "intake restriction [inH2O]": "12",
    "compressor inlet temperature [°F]": "80",
    "compressor outlet temperature [°F]": "336.5",
    "boost [psi]": "24",
    "manifold temperature [°F]": "128.9",
    "cooling medium temperature [°F]": "77",
    "cooler pressure loss [psi]": "1.5",
}
BENCH = """
[run]
title = "INVENTED"
invented = true
[site]
barometer = "station"
[engine]
displacement = "12.0 L"
aftercooler = "air-to-air"
volumetric_efficiency = 0.92
[design]
compressor_efficiency = "0.74"
effectiveness = "0.80"
cooler_pressure_loss = "1.5 psi"
[instruments.boost]
span = "0..60 psi"
grade = "2A"
"""


def written(folder, change=None, drop=(), bench=BENCH):
    """Return the run of the reference case with some cells changed, and some columns left out."""
    row = {head: text for head, text in {**REFERENCE, **(change or {})}.items() if head not in drop}
    (folder / "bench.toml").write_text(bench, encoding="utf-8")
    (folder / "readings.csv").write_text(f"{','.join(row)}\n{','.join(row.values())}\n", encoding="utf-8")
    return read_run(folder)
