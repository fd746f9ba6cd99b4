"""Amounts as bench.toml states them, at the very edge of what is taken."""

import pytest

from turbomath.disk.plain_files import Place
from turbomath.lab.run.amounts import count, stated
from turbomath.table.errors import RefusedFileError

HERE = Place("bench.toml")


def test_a_filling_twice_the_swept_volume_is_the_most_that_is_taken():
    read = stated("volumetric_efficiency")
    assert read(2.0, HERE).value == 2.0
    for per_cent in (2.01, 92):
        with pytest.raises(RefusedFileError, match=r"a number such as 0\.8"):
            read(per_cent, HERE)


def test_a_hundred_is_the_most_that_is_counted():
    assert [count(number, HERE) for number in (1, 100)] == [1, 100]
    for number in (0, 101, True, 4.0):
        with pytest.raises(RefusedFileError, match="a whole number from 1 to 100"):
            count(number, HERE)


def test_an_amount_has_one_plus_or_minus():
    read = stated("boost")
    assert read("24 psi ± 1 psi", HERE).tolerance == pytest.approx(6894.757, rel=1e-6)
    with pytest.raises(RefusedFileError, match="± 1 psi ± 2 psi"):
        read("24 psi ± 1 psi ± 2 psi", HERE)
