"""The pooled readings of several groups put to the fault finder, and what pooling makes surer. All are INVENTED."""

import shutil

import numpy as np
import pytest

from turbomath.disk import files
from turbomath.engine.faults.observed import Observed
from turbomath.lab.faults.pooled import pooled
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.run.readings import read_run
from turbomath.lab.several import pool
from turbomath.table.errors import TurbomathError

LOADS = np.array([0.25, 0.6, 1.0])
SOUND = "faults/sound"


def pool_of(folder, *names, beside=SOUND):
    """Return (what the pool of some runs says on a terminal, its page), each with its runs of spaces as one."""
    said, _ = pool.write([reduce_run(read_run(name)) for name in names], folder, "us", beside and read_run(beside))
    page = (folder / "pool.html").read_text(encoding="utf-8")
    return " ".join(" ".join(said).split()), " ".join(page.split())


def test_the_pooled_readings_go_through_the_fault_finder(tmp_path):
    """Two groups at one engine with the same INVENTED fault: named, with what pooling does to the repeatability."""
    second = shutil.copytree(files.shipped("data") / "faults" / "plugged_filter", tmp_path / "second")
    for text in pool_of(tmp_path / "pool", "faults/plugged_filter", second):
        assert "The readings fit one fault on the list best: plugged air filter or intake" in text
        assert "2 groups together" in text
        assert "Look at filter and intake (10 minutes)." in text
        assert "ten groups at one gauge have one gauge" in text
        assert "differ by more than their gauges allow in" not in text


def test_groups_that_differ_are_told_so_before_the_answer(tmp_path):
    for text in pool_of(tmp_path / "pool", "faults/plugged_filter", "faults/dirty_aftercooler"):
        assert "The groups differ by more than their gauges allow in boost, effectiveness. Look there first" in text
    for text in pool_of(tmp_path / "alone", "faults/plugged_filter", "faults/dirty_aftercooler", beside=None):
        assert "Only gross faults can be told so" in text


def test_a_pool_that_cannot_say_gives_one_sentence(tmp_path):
    for text in pool_of(tmp_path / "pool", "faults/plugged_filter", SOUND, beside="generator_jacket_water"):
        assert "What fault would show the pooled readings cannot be said yet. " in text
        assert "found a run of another engine" in text
        assert "All percentages are from a simulation" not in text


def group(boost, load=LOADS, drive="fuel_flow"):
    """Return readings of one group: a boost with 3 Pa new at each reading and 4 Pa in all."""
    read = {"boost": np.full(3, boost), drive: np.full(3, 0.01)}
    each, every = ({name: np.full(3, width) for name in read} for width in (3.0, 4.0))
    return Observed({"ambient_pressure": np.full(3, 1e5)}, read, every, each, load)


def test_pooling_lessens_only_what_is_new_at_each_reading_and_only_as_far_as_the_groups_agree():
    """The mean of n readings has the standard deviation of one over the root of n (GUM, 4.2.3)."""
    same = pooled([group(1e5)] * 4)
    assert same.scatter["boost"] == pytest.approx(np.full(3, 3.0 / 2))
    assert same.unsure["boost"] == pytest.approx(np.full(3, 4.0))
    apart = pooled([group(1e5 - 30.0), group(1e5 + 30.0)])
    assert apart.read["boost"] == pytest.approx(np.full(3, 1e5))
    assert apart.scatter["boost"] == pytest.approx(np.full(3, np.std([-30, 30], ddof=1) / np.sqrt(2)))


@pytest.mark.parametrize(
    ("other", "words"),
    [
        (group(1e5, np.array([0.25, 0.7, 0.9])), "found 1 loads that all have read"),
        (group(1e5, drive="power"), "found fuel flow in some and power in others"),
    ],
)
def test_groups_that_share_too_little_are_refused_in_a_sentence(other, words):
    with pytest.raises(TurbomathError, match=words):
        pooled([group(1e5), other])
    assert pooled([other]) is other, "one group alone is as it is"
