"""The table [rated] of bench.toml: in SI, with the standard day where none is stated, or refused in one sentence."""

import pytest

from turbomath.lab.run.bench import read_bench
from turbomath.table.errors import RefusedFileError

RATED = 'boost = "24 psi ± 1 psi"\nengine_speed = "1800 rpm"\nfuel_flow = "131 lb/h"\n'


def bench(tmp_path, lines):
    """Return the bench of a file with these lines under [rated]."""
    path = tmp_path / "bench.toml"
    path.write_text(f"[rated]\n{lines}", encoding="utf-8")
    return read_bench(path)


def test_the_figures_are_read_in_si(tmp_path):
    rated = bench(tmp_path, RATED + 'power = "291 kW ± 3 kW"\nbarometer = "29.10 inHg"\n').rated
    assert (rated.boost.value, rated.boost.tolerance) == pytest.approx((165_474.2, 6_894.76), rel=1e-5)
    assert (rated.engine_speed, rated.fuel_flow.value) == pytest.approx((30.0, 0.01650572), rel=1e-5)
    assert (rated.power.value, rated.power.tolerance, rated.barometer) == pytest.approx(
        (291e3, 3e3, 98_543.9), rel=1e-5
    )


def test_a_sheet_without_a_day_has_the_standard_one(tmp_path):
    rated = bench(tmp_path, RATED).rated
    assert (rated.barometer, rated.ambient_temperature) == (100_000.0, 298.0)  # ISO 15550


def test_a_bench_without_the_table_has_no_boost(tmp_path):
    (tmp_path / "bench.toml").write_text("[run]\n", encoding="utf-8")
    assert read_bench(tmp_path / "bench.toml").rated.boost is None


REFUSED = {
    "no speed": ('boost = "24 psi"\nfuel_flow = "131 lb/h"\n', "expected engine_speed as well"),
    "nothing that works": ('boost = "24 psi"\nengine_speed = "1800 rpm"\n', "expected fuel_flow or power as well"),
    "no boost": ('engine_speed = "1800 rpm"\n', "expected boost and fuel_flow or power as well"),
    "no such key": (RATED + 'load = "100 %"\n', "found 'load'"),
    "boost below nothing": (RATED.replace("24 psi ± 1 psi", "-3 psi"), "expected an amount above 0"),
    "no speed at all": (RATED.replace("1800", "0"), "expected an amount above 0"),
    "a ± on the speed": (RATED.replace("1800 rpm", "1800 ± 5 rpm"), "one amount without ±"),
    "an absolute boost": (RATED.replace("24 psi ± 1 psi", "24 psia"), "psi"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_is_refused_in_one_sentence(tmp_path, case):
    lines, words = REFUSED[case]
    with pytest.raises(RefusedFileError) as refused:
        bench(tmp_path, lines)
    assert words in str(refused.value)
    assert "[rated]" in str(refused.value)
