"""An engine with a sensor that counts from vacuum and no boost gauge: its boost is told all the same. INVENTED."""

from tests.lab.reference_case import written
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report.page_tables import headline_table


def test_boost_by_an_absolute_sensor_stands_beside_the_gain_it_made(tmp_path):
    run = written(tmp_path, {"manifold pressure [kPa abs]": "264"}, ("boost [psi]",))
    (row,) = headline_table(reduce_run(run), {}, "si").rows
    # 264 kPa less 29.10 inHg of 3.386389 kPa (NIST SP 811) is 165.5 kPa. 2 % of 400 kPa and 0.03 inHg are limits of
    # error, so a root of 3 over them is the standard uncertainty, and the ± is twice that (JCGM 100, 4.3.7): 9.2 kPa
    assert row[1] == "165 ± 9"
    (without,) = headline_table(reduce_run(written(tmp_path, drop=("boost [psi]",))), {}, "si").rows
    assert without[1] == "–"
