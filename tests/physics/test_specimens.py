"""Worked specimens of the homework bank, in shop units, by item number.

Unit sizes are those of NIST SP 811 (2008), app. B, written here again so that the kit's own door to
shop units is not what is tested. Each answer must hold within half of its last printed digit, or the
tolerance that the specimen is marked with.
"""

import pytest

from turbomath.physics import airflow, atmosphere, charge, compression, cooling, humidity

PSI, INHG, INH2O = 6_894.757, 3_386.389, 249.0889  # Pa; mercury at 0 C, water at 4 C
POUND, FOOT, LITRE = 0.45359237, 0.3048, 1e-3
HORSEPOWER, BTU = 745.6999, 1_055.056
BAROMETER = 28.60 * INHG


def kelvin(fahrenheit):
    return (fahrenheit + 459.67) / 1.8


def fahrenheit(kelvin):
    return kelvin * 1.8 - 459.67


def pound_per_cubic_foot(density):
    return density * FOOT**3 / POUND


def pound_per_minute(flow):
    return flow / POUND * 60


def test_item_6_pressure_ratio():
    inlet, outlet = BAROMETER - 18 * INH2O, BAROMETER + (22.0 + 1.8) * PSI
    assert inlet / 1e3 == pytest.approx(92.37, abs=0.005)  # item 4
    assert outlet / PSI == pytest.approx(37.85, abs=0.005)  # item 5
    assert compression.pressure_ratio(inlet, outlet) == pytest.approx(2.825, abs=0.0005)


def test_item_7_station_pressure():
    station = atmosphere.station_pressure(30.05 * INHG, 3_550 * FOOT)
    assert station / INHG == pytest.approx(26.39, abs=0.005)


def test_item_9_the_same_pressure_ratio_up_high():
    sea, up = atmosphere.pressure(0.0), atmosphere.pressure(5_280 * FOOT)
    ratio = compression.pressure_ratio(sea, sea + 25 * PSI)
    assert (ratio * up - up) / PSI == pytest.approx(20.6, abs=0.05)


def test_item_10_the_same_manifold_pressure_up_high():
    manifold, up = atmosphere.pressure(0.0) + 25 * PSI, atmosphere.pressure(5_280 * FOOT)
    assert (manifold - up) / PSI == pytest.approx(27.6, abs=0.05)
    assert compression.pressure_ratio(up, manifold) == pytest.approx(3.28, abs=0.005)


def test_item_15_ideal_outlet_temperature():
    assert fahrenheit(compression.ideal_outlet_temperature(1e5, kelvin(80), 2.5e5)) == pytest.approx(241.5, abs=0.05)


def test_item_16_real_outlet_temperature():
    assert fahrenheit(compression.outlet_temperature(1e5, kelvin(80), 2.5e5, 0.72)) == pytest.approx(304, abs=0.5)


def test_item_17_compressor_efficiency():
    efficiency = compression.isentropic_efficiency(1e5, kelvin(85), 2.6e5, kelvin(325))
    assert efficiency == pytest.approx(0.712, abs=0.0005)


def test_item_18_highest_pressure_ratio_below_a_limit():
    assert compression.outlet_pressure(1e5, kelvin(90), kelvin(400), 0.74) / 1e5 == pytest.approx(3.39, abs=0.005)


def test_item_19_a_worn_compressor():
    healthy = compression.outlet_temperature(1e5, kelvin(77), 2.5e5, 0.72)
    worn = compression.outlet_temperature(1e5, kelvin(77), 2.5e5, 0.60)
    assert fahrenheit(healthy) == pytest.approx(300, abs=0.5)
    assert fahrenheit(worn) == pytest.approx(345, abs=0.5)


def test_item_20_two_stages():
    first = compression.outlet_temperature(1e5, kelvin(77), 2e5, 0.74)
    between = cooling.outlet_temperature(first, kelvin(77), 0.80)
    cooled = compression.outlet_temperature(2e5, between, 4e5, 0.74)
    uncooled = compression.outlet_temperature(2e5, first, 4e5, 0.74)
    printed = [236, 109, 277, 442]
    assert [fahrenheit(T) for T in (first, between, cooled, uncooled)] == pytest.approx(printed, abs=0.5)


def test_item_22_ambient_density():
    density = charge.density(BAROMETER, kelvin(85))
    assert density == pytest.approx(1.115, abs=0.0005)
    assert pound_per_cubic_foot(density) == pytest.approx(0.0696, abs=0.00005)


def test_items_23_24_and_32_density_before_and_after_the_aftercooler():
    before = charge.density(BAROMETER + 23.8 * PSI, kelvin(330))
    after = charge.density(BAROMETER + 22 * PSI, kelvin(130))
    assert before == pytest.approx(2.072, abs=0.0005)
    assert after == pytest.approx(2.643, abs=0.0005)
    assert pound_per_cubic_foot(after) == pytest.approx(0.165, abs=0.0005)


def test_item_25_density_gain():
    gain = charge.density_gain(BAROMETER + 23.8 * PSI, kelvin(330), BAROMETER + 22 * PSI, kelvin(130))
    assert gain == pytest.approx(0.275, abs=0.0006)


def test_item_26_less_boost_and_more_air():
    # the specimen prints no barometer; 28.92 inHg gives its two densities
    hot = charge.density(28.92 * INHG + 20 * PSI, kelvin(300))
    cool = charge.density(28.92 * INHG + 15 * PSI, kelvin(120))
    assert pound_per_cubic_foot(hot) == pytest.approx(0.1215, abs=0.0001)
    assert pound_per_cubic_foot(cool) == pytest.approx(0.1360, abs=0.0001)
    assert cool / hot - 1 == pytest.approx(0.119, abs=0.0005)


def test_item_27_uncooled_boost_for_the_same_density():
    wanted = charge.density(BAROMETER + 22 * PSI, kelvin(130))
    assert (charge.pressure(wanted, kelvin(330)) - BAROMETER) / PSI == pytest.approx(34.2, abs=0.05)


def test_item_28_cooled_boost_for_the_same_density():
    wanted = charge.density(BAROMETER + 22 * PSI, kelvin(330))
    assert (charge.pressure(wanted, kelvin(130)) - BAROMETER) / PSI == pytest.approx(12.9, abs=0.05)


def test_item_29_break_even_pressure_loss():
    loss = cooling.break_even_pressure_loss(BAROMETER + 23.8 * PSI, kelvin(330), kelvin(130))
    assert loss / PSI == pytest.approx(9.6, abs=0.05)


def test_items_30_and_44_air_lost_to_a_fouled_aftercooler():
    clean, fouled = (cooling.outlet_temperature(kelvin(330), kelvin(85), share) for share in (0.80, 0.60))
    assert fahrenheit(clean) == pytest.approx(134, abs=0.5)
    assert fahrenheit(fouled) == pytest.approx(183, abs=0.5)
    assert charge.density_gain(2e5, clean, 2e5, fouled) == pytest.approx(-0.076, abs=0.0005)


def test_item_31_dry_air_lost_to_humidity():
    temperature, pressure = 32 + 273.15, 96.9e3
    ratio = humidity.humidity_ratio(pressure, temperature, 0.70)
    lost = 1 - humidity.dry_air_density(pressure, temperature, ratio) / charge.density(pressure, temperature)
    assert lost == pytest.approx(0.034, abs=0.0005)


def test_item_33_effectiveness_of_an_air_to_air_aftercooler():
    assert cooling.effectiveness(kelvin(330), kelvin(130), kelvin(85)) == pytest.approx(0.816, abs=0.0005)


def test_item_34_effectiveness_of_a_jacket_water_aftercooler():
    assert cooling.effectiveness(kelvin(330), kelvin(232), kelvin(190)) == pytest.approx(0.70, abs=0.0005)


def test_item_35_outlet_temperature_of_an_aftercooler():
    assert fahrenheit(cooling.outlet_temperature(kelvin(330), kelvin(85), 0.80)) == pytest.approx(134, abs=0.05)


def test_item_36_a_hot_day():
    hot = compression.outlet_temperature(1e5, kelvin(110), 2.6e5, 0.74)
    assert fahrenheit(hot) == pytest.approx(352, abs=0.5)
    assert fahrenheit(cooling.outlet_temperature(hot, kelvin(104), 0.78)) == pytest.approx(158, abs=0.6)


def test_item_37_two_aftercoolers_at_equal_pressure():
    ratio = charge.density(2e5, kelvin(134)) / charge.density(2e5, kelvin(232))
    assert ratio == pytest.approx(1.165, abs=0.0005)


def test_item_39_heat_rejected():
    heat = 60 * POUND / 60 * cooling.specific_heat_rejected(kelvin(330), kelvin(130))
    assert heat / 1e3 == pytest.approx(50.7, abs=0.1)  # the specimen takes 1.005 kJ/(kg K)
    assert heat * 60 / BTU == pytest.approx(2880, abs=5)


def test_items_45_46_and_47_air_flow():
    density = charge.density(BAROMETER + 22 * PSI, kelvin(130))
    flow = airflow.mass_flow(density, 12.7 * LITRE, 1800 / 60, 0.92)
    assert pound_per_minute(flow) == pytest.approx(61.3, abs=0.05)
    cubic_feet = airflow.volume_flow(flow, charge.density(BAROMETER, kelvin(85))) / FOOT**3 * 60
    assert cubic_feet == pytest.approx(880, abs=1)
    efficiency = airflow.volumetric_efficiency(58 * POUND / 60, density, 12.7 * LITRE, 1800 / 60)
    assert efficiency == pytest.approx(0.87, abs=0.005)


def test_item_54_compressor_power():
    power = 60 * POUND / 60 * compression.specific_work(kelvin(85), kelvin(330))
    assert power / 1e3 == pytest.approx(62, abs=0.5)
    assert power / HORSEPOWER == pytest.approx(83, abs=0.5)


def test_item_57_the_reading_that_cannot_be():
    with pytest.warns(UserWarning, match="a reading must be wrong"):
        assert compression.isentropic_efficiency(1e5, kelvin(85), 2.8e5, kelvin(250)) == pytest.approx(1.13, abs=0.005)
    assert compression.isentropic_efficiency(1e5, kelvin(85), 2.8e5, kelvin(420)) == pytest.approx(0.56, abs=0.005)
