"""What is packed comes out of it as it was, whatever changes from frame to frame."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.pocket.unpacked import plain, unpacked
from turbomath.pocket.columns import Packing

words = st.sampled_from(["", "boost", "−", " °F: ", "007", "1.", "12345678901"])
texts = st.tuples(words, st.decimals(0, 99999, places=2), words, st.integers(0, 10**9)).map(
    lambda one: "".join(map(str, one))
)
wholes = st.lists(st.integers(-(2**30), 2**30), max_size=4).map(lambda one: np.array(one, dtype=np.int64))
frames = st.fixed_dictionaries(
    {
        "sentence": texts,
        "size": st.floats(0, 1e3) | st.none() | st.booleans() | st.integers(-9, 9),
        "x": wholes,
        "same": st.just({"role": "hot"}),
        "rows": st.lists(st.fixed_dictionaries({"text": texts, "y": wholes}), max_size=3),
    }
)


@given(st.lists(frames, min_size=1, max_size=6))
def test_every_frame_comes_back(several):
    packing = Packing(len(several))
    head, frame = unpacked(packing.packed({"frame": packing.node(several), "systems": ["us"]}))
    assert head["systems"] == ["us"]
    assert [frame(turn) for turn in range(len(several))] == plain(several)


def test_a_number_that_moves_evenly_takes_next_to_nothing():
    several = [{"said": f"{20 + turn / 10:.1f} psi, that is {34.2 + turn / 10:.1f} psi abs"} for turn in range(1000)]
    packing = Packing(len(several))
    text = packing.packed({"frame": packing.node(several)})
    assert len(text) < 400
    assert unpacked(text)[1](999) == several[999]


def test_a_name_that_only_some_frames_have_is_refused_and_not_dropped():
    with pytest.raises(ValueError, match="other names than x in some"):
        Packing(2).node([{"x": 1}, {"x": 2, "height": 262}])
