"""The table [air_meter] of bench.toml: in SI, or refused in one sentence."""

import pytest

from turbomath.lab.run.bench import read_bench
from turbomath.table.errors import RefusedFileError

ORIFICE = 'kind = "orifice"\npipe_diameter = "6.065 in"\nbore_diameter = "3.75 in ± 0.01 in"\ntappings = "flange"\n'
LAMINAR = 'kind = "laminar"\nconstant = "98 cfm per inH2O"\nat = "70 °F"\n'


def meter(tmp_path, lines):
    """Return the air meter of a file with these lines under [air_meter]."""
    path = tmp_path / "bench.toml"
    path.write_text(f"[air_meter]\n{lines}", encoding="utf-8")
    return read_bench(path).air_meter


def test_an_orifice_is_read_in_si(tmp_path):
    found = meter(tmp_path, ORIFICE)
    assert (found.kind, found.tappings) == ("orifice", "flange")
    assert found.pipe_diameter.value == pytest.approx(0.154051)
    assert (found.bore_diameter.value, found.bore_diameter.tolerance) == pytest.approx((0.09525, 0.000254))


@pytest.mark.parametrize("written", ["98 cfm per inH2O", "98 cfm/inH2O", "98 cfm / in. H2O", "98 ft³/min per inH2O"])
def test_a_laminar_element_is_read_in_si(tmp_path, written):
    found = meter(tmp_path, LAMINAR.replace("98 cfm per inH2O", written))
    # NIST SP 811: 98 ft3/min is 0.0462508 m3/s, an inch of water 249.0889 Pa
    assert found.constant.value == pytest.approx(0.04625085 / 249.0889, rel=1e-6)
    assert found.at == pytest.approx(294.261, abs=1e-3)


REFUSED = {
    "no kind": (ORIFICE.replace('kind = "orifice"\n', ""), 'expected kind = "orifice" or kind = "laminar" as well'),
    "another kind": (ORIFICE.replace('"orifice"', '"venturi"'), 'one of "orifice", "laminar"'),
    "no bore": (ORIFICE.replace('bore_diameter = "3.75 in ± 0.01 in"\n', ""), "expected bore_diameter as well"),
    "no tappings": (ORIFICE.replace('tappings = "flange"\n', ""), "expected tappings as well"),
    "no temperature": (LAMINAR.replace('at = "70 °F"\n', ""), "expected at as well"),
    "a key of the other kind": (ORIFICE + 'at = "70 °F"\n', "found 'at', expected kind, pipe_diameter"),
    "no such key": (LAMINAR + 'konstant = "1"\n', "the nearest is 'constant'"),
    "a bore wider than the pipe": (ORIFICE.replace("3.75", "6.1"), "0.1 to 0.75 of the pipe"),
    "a small pipe": (ORIFICE.replace("6.065 in", "45 mm").replace("3.75 in ± 0.01 in", "25 mm"), "50 to 1000 mm"),
    "a number alone": (LAMINAR.replace("98 cfm per inH2O", "98"), "constant'"),
    "a flow alone": (LAMINAR.replace("98 cfm per inH2O", "98 cfm"), "cfm per inH2O"),
    "a negative constant": (LAMINAR.replace("98", "-98"), "above 0"),
    "other tappings": (ORIFICE.replace('"flange"', '"pipe"'), '"D and D/2"'),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_is_refused_in_one_sentence(tmp_path, case):
    lines, words = REFUSED[case]
    with pytest.raises(RefusedFileError) as refused:
        meter(tmp_path, lines)
    assert words in str(refused.value)
    assert "[air_meter]" in str(refused.value)
    assert "\n" not in str(refused.value)
