"""Units as people write them on a sheet: each is read, and means what the tables of the trade say."""

import pytest

from turbomath import units

# (as it is written, quantity, SI size of one): NIST SP 811, appendix B; the inch of water is the conventional one
WRITTEN = (
    ("horsepower", "power", 745.6999),
    ("HP", "power", 745.6999),
    ("brake horsepower", "power", 745.6999),
    ("kilowatts", "power", 1000.0),
    ("BTUs/min", "power", 17.58427),
    ("BTU/min", "power", 17.58427),
    ("pph", "fuel_flow", 1.259979e-4),
    ("#/hr", "fuel_flow", 1.259979e-4),
    ("lbs/hr", "fuel_flow", 1.259979e-4),
    ("#/min", "mass_flow", 7.559873e-3),
    ("pounds per minute", "mass_flow", 7.559873e-3),
    ("pcf", "density", 16.01846),
    ("lbs/cu ft", "density", 16.01846),
    ("in. Hg", "barometer", 3386.38),
    ("inches of mercury", "barometer", 3386.38),
    ("inches of water", "intake_restriction", 249.08891),
    ("psig", "boost", 6894.757),
    ("PSIA", "pressure", 6894.757),
    ("ft-lbs", "torque", 1.355818),
    ("CFM", "volume_flow", 4.719474e-4),
)


@pytest.mark.parametrize(("unit", "quantity", "size"), WRITTEN)
def test_it_is_read(unit, quantity, size):
    assert units.to_si(1.0, unit, quantity) == pytest.approx(size, rel=2e-5)
