"""An INVENTED run folder for the tests of the lab; no engine was measured."""

import pytest

BENCH = """\
[run]
title = "INVENTED: test run of a shop engine"
invented = true
date = 2026-03-12
units = "us"

[site]
elevation = "350 m"
barometer = "station"

[engine]
displacement = "12.0 L"
cylinders = 6
strokes = 4
aftercooler = "air-to-air"
egr = false
volumetric_efficiency = 0.92
compression_ratio = 16.5
fuel = "diesel"
fuel_lower_heating_value = "42.8 MJ/kg"
fuel_density = "840 kg/m³"

[design]
compressor_efficiency = "0.74 ± 0.02"
effectiveness = "0.80 ± 0.03"
cooler_pressure_loss = "1.5 psi"

[instruments.boost]
kind = "bourdon"
span = "0..60 psi"
grade = "B"
resolution = ["..30 psi: 0.5 psi", "30..100 psi: 1 psi"]
calibrated = 2025-11-03
[instruments.compressor_outlet_temperature]
kind = "thermocouple"
type = "K"
class = "standard"

[limits]
boost = "..30 psi"
intake_restriction = "..25 inH2O"
oil_pressure_low_idle = "15.. psi"
low_idle_speed = "700 ± 25 rpm"
high_idle_speed = "1950 ± 50 rpm"
compressor_outlet_pressure = "..38 psi gauge"
manifold_temperature_load = "60..160 °F"
"""

HEADER = (
    "point,condition,time,pass,load [%],engine speed [rpm],barometer [inHg],ambient temperature [°F],"
    "relative humidity [%],intake restriction [inH2O],compressor inlet temperature [°F],"
    "compressor outlet pressure [psi gauge],compressor outlet temperature [°F],boost [psi],manifold pressure [kPa abs],"
    "manifold temperature [°F],cooling medium temperature [°F],cooling medium outlet temperature [°F],"
    "cooling medium flow [L/min],engine coolant temperature [°F],cooler pressure loss [psi],air flow [lb/min],"
    "air volume flow [cfm],fuel flow [lb/h],fuel mass [lb],fuel time [s],torque [lbf·ft],power [kW],"
    "turbine inlet temperature [°F],turbine outlet temperature [°F],turbine inlet pressure [psi gauge],"
    "exhaust back pressure [inHg],oil pressure [psi],reader,remark"
)
# One list for each reading, in the order of the header
_ROWS = (
    "z1,zero,08:05,A,0,0,29.10,77,45,0,77,0,77,0.5,98.5,77,77,77,0,78,0,0,0,0,0,0,0,0,80,80,0,0,0,seat 4,engine off",
    "1,low idle,08:31,A,0,700,29.10,77,45,1.5,78,1,100,0.5,103,95,77,80,0,165,0.1,12,170,9,0.3,"
    "120,0,0,400,390,1,0.1,22,seat 4,",
    "2,load,08:50,A,50,1800,29.09,78,44,7.5,80,14,240,13,188,118,78,130,0,180,0.8,42,590,76,"
    '5.1,240,610,155,930,760,12,0.8,55,seat 7,"steady, two readers"',
    "2,load,08:58,B,50,1800,29.09,78,44,7.5,80,14,241,13,189,118,78,131,0,180,0.8,42,590,76,"
    "5.1,240,610,155,930,760,12,0.8,55,seat 4,",
    "3,load,09:20,A,100,1799,29.08,79,43,12,81,26,337,24.5,268,129,79,132,12,183,1.5,61,862,"
    "129,6.5,181,1175,300,1105,820,>25,1.7,54,seat 7,gauge at its stop",
)
READINGS = "\n".join((HEADER, *_ROWS)) + "\n"


@pytest.fixture
def bench_text():
    """The bench.toml of readings.md with every table filled in."""
    return BENCH


@pytest.fixture
def readings_text():
    """A readings.csv that has every column the kit knows, save the wet bulb."""
    return READINGS


@pytest.fixture
def run_folder(tmp_path):
    """Write a run folder from texts or bytes and return its path."""

    def write(readings=READINGS, bench=BENCH):
        folder = tmp_path / "invented-run"
        folder.mkdir(exist_ok=True)
        for name, content in (("readings.csv", readings), ("bench.toml", bench)):
            if content is not None:
                (folder / name).write_bytes(content if isinstance(content, bytes) else content.encode())
        return folder

    return write


@pytest.fixture
def one_way(monkeypatch):
    """Leave out the second way to each ±, by 4,096 points: it takes a third of the time of a page."""
    monkeypatch.setattr("turbomath.lab.report.page.MOST_READINGS_TWICE", 0)
