"""How questions fall on pages: in their order, none lost, few pages, none filled beyond its room."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath.homework.course.paging import LARGE, USUAL, lines, pages

ROOM = 100.0
heights = st.lists(st.floats(1.0, ROOM), min_size=1, max_size=25)


@given(heights, st.floats(0.0, 60.0))
def test_each_block_stands_on_one_page_in_its_order_and_no_page_is_too_full(blocks, above):
    found = pages(blocks, above, ROOM)
    assert list(itertools.chain.from_iterable(found)) == list(range(len(blocks)))
    for number, these in enumerate(found):
        filled = sum(blocks[place] for place in these) + (above if number == 0 else 0.0)
        assert filled <= ROOM + 1e-6 or len(these) == 1


@given(heights)
def test_there_are_no_more_pages_than_filling_each_in_turn_takes(blocks):
    count, left = 1, ROOM
    for one in blocks:
        count, left = (count, left - one) if one <= left else (count + 1, ROOM - one)
    assert len(pages(blocks, 0.0, ROOM)) == count


def test_pages_are_filled_evenly():
    assert [len(one) for one in pages([20.0] * 6, 0.0, ROOM)] == [3, 3]  # not five and one


def test_a_word_that_does_not_fit_begins_a_line():
    assert lines("", 10.0) == 1
    assert lines("oooo oooo", 2 * 4 * 0.62 + 0.32) == 1
    assert lines("oooo oooo", 2 * 4 * 0.62 + 0.31) == 2
    assert lines("iiii iiii", 2 * 4 * 0.62 / 2 + 0.5) == 1  # narrow letters


@pytest.mark.parametrize("face", [USUAL, LARGE])
def test_large_letters_take_more_and_a_box_is_never_lower_than_a_gloved_hand_needs(face):
    assert face.boxes(["x"]) == face.box >= 13
    assert face.boxes(["a name that is so long that it takes several lines of its box"]) > face.box
    assert face.answering(["x"] * 6) >= face.boxes(["x"] * 6)
    assert LARGE.line / USUAL.line > 18 / 11.01
