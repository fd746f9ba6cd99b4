"""An entry is never changed: what stands is worked out from all of them, and what is taken back can be brought back."""

from dataclasses import FrozenInstanceError, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath.lab.entry.entry import Entry, counting, from_record, record, standing

BOOST = ("3A", "boost")
TEXTS = st.text(max_size=20)


def boost(text):
    return Entry(*BOOST, text, "psi")


def test_an_entry_cannot_be_changed():
    with pytest.raises(FrozenInstanceError):
        boost("24").text = "25"


def test_two_entries_of_the_same_words_are_two_entries():
    names = {boost("24").name for _ in range(1_000)}
    assert len(names) == 1_000


@given(TEXTS, TEXTS, TEXTS, TEXTS)
def test_a_record_gives_the_entry_again_to_the_letter(text, reader, remark, unit):
    entry = Entry("3A", "boost", text, unit, reader, remark)
    assert from_record(record(entry)) == entry


@pytest.mark.parametrize(
    "found",
    [None, [], "text", {}, {"row": "3A"}, record(boost("24")) | {"text": 24.5}, record(boost("24")) | {"more": ""}],
)
def test_what_is_no_entry_gives_none(found):
    assert from_record(found) is None


def test_the_last_entry_of_a_cell_stands_and_the_others_are_kept():
    first, other, last = boost("24"), Entry("3A", "load", "50", "%"), boost("24.5")
    assert standing([first, other, last]) == {BOOST: last, ("3A", "load"): other}


def test_taking_back_uncovers_what_stood_before_and_can_be_taken_back_itself():
    first, second = boost("24"), boost("42")
    undo = second.taken_back("seat 4")
    assert standing([first, second, undo]) == {BOOST: first}
    assert undo.reader == "seat 4"
    redo = undo.taken_back()
    assert standing([first, second, undo, redo]) == {BOOST: second}
    assert standing([first, second, undo, redo, redo.taken_back()]) == {BOOST: first}


def test_taking_back_what_is_not_there_changes_nothing():
    first = boost("24")
    assert standing([first, replace(boost("42").taken_back(), undoes="nobody")]) == {BOOST: first}


STEPS = st.lists(
    st.tuples(st.sampled_from(["enter", "undo", "redo"]), st.sampled_from("abc"), st.sampled_from("123")), max_size=25
)


@given(STEPS)
def test_any_order_of_entering_and_taking_back_gives_what_a_plain_list_gives(steps):
    """Against the plainest model: a list of what was entered, one of what was taken back, the last of a cell wins."""
    done, gone, entries, undos = [], [], [], []
    for step, column, text in steps:
        if step == "enter":
            done, gone, undos = [*done, (column, text)], [], []
            entries.append(Entry("1A", column, text))
        elif step == "undo" and done:
            gone.append(done.pop())
            undos.append([one for one in counting(entries) if not one.undoes][-1].taken_back())
            entries.append(undos[-1])
        elif step == "redo" and gone:
            done.append(gone.pop())
            entries.append(undos.pop().taken_back())
    assert {column: one.text for (_, column), one in standing(entries).items()} == dict(done)
