"""What a class does before the wall: hands are counted, the gate opens without a prediction, drawings grow."""

import json

import pytest

from tests.widgets.told import PREDICTION, opened, tell
from turbomath.panels.hot_air_is_thin import LESSON, panel_hot_air_is_thin

WORDS = [one.words for one in PREDICTION.options]
TICKET = LESSON.ticket[0]


def asked(frame, question=0):
    return frame["asked"][question]


def test_hands_are_kept_by_option_and_stay_when_the_question_is_asked_again():
    panel = panel_hot_air_is_thin()
    for option, hands in ((WORDS[1], "12"), (WORDS[0], "7"), (WORDS[1], " 13 ")):
        frame = tell(panel, "vote", option=option, hands=hands)
    assert asked(frame)["votes"] == [7, 13, 0, 0]
    tell(panel, "answer", text=WORDS[0])
    assert asked(tell(panel, "again"))["votes"] == [7, 13, 0, 0]


def test_hands_that_go_up_one_by_one_are_all_counted_and_never_fall_below_none():
    panel, ticket = panel_hot_air_is_thin(), LESSON.exit_ticket()
    for more in (1, 1, 1, -1):
        frame = tell(panel, "hand", option=WORDS[1], more=more)
    assert asked(tell(panel, "hand", option=WORDS[0], more=-1))["votes"] == [0, 2, 0, 0]
    assert frame["shown"] is None
    assert asked(tell(ticket, "hand", option=TICKET.options[1].words, more=1, question=0))["votes"][1] == 1


@pytest.mark.parametrize("hands", ["", "-1", "2.5", "many", "1000", "٣"])
def test_what_is_no_count_is_refused_in_words_and_changes_nothing(hands):
    panel = panel_hot_air_is_thin()
    tell(panel, "vote", option=WORDS[0], hands="4")
    found = asked(tell(panel, "vote", option=WORDS[0], hands=hands))
    assert "is no count of hands" in found["miscount"]
    assert found["fault"] == ""
    assert found["votes"] == [4, 0, 0, 0]
    assert asked(tell(panel, "vote", option=WORDS[0], hands="5"))["miscount"] == ""


def test_counting_hands_tells_nothing_of_the_outcome():
    panel = panel_hot_air_is_thin()
    frame = tell(panel, "vote", option=WORDS[1], hands="9")
    assert frame["shown"] is None
    assert asked(frame)["right"] == []
    assert "0.1360" not in json.dumps(frame)
    assert "no_such" in tell(panel, "vote", option="no_such", hands="9")["notice"]


def test_the_gate_opens_without_a_prediction_and_says_so_by_saying_nothing():
    frame = tell(panel_hot_air_is_thin(), "go on")
    assert frame["shown"]["engines"]
    found = asked(frame)
    assert (found["open"], found["said"], found["reply"]) == (True, "", "")
    assert "0.1360" in found["outcome"]
    assert found["told"] == found["outcome"]
    assert found["right"] == [one.right for one in PREDICTION.options]


def test_again_closes_a_gate_that_was_opened_without_a_prediction():
    panel = panel_hot_air_is_thin()
    tell(panel, "go on")
    assert tell(panel, "again")["shown"] is None


def test_a_ticket_opens_with_the_reply_to_the_right_option():
    ticket = LESSON.exit_ticket()
    assert asked(ticket.frame)["told"] == ""
    tell(ticket, "vote", option=TICKET.options[0].words, hands="3", question=0)
    found = asked(tell(ticket, "go on", question=0))
    assert found["told"] == next(one.reply for one in TICKET.options if one.right)
    assert found["votes"][0] == 3
    assert not asked(ticket.frame, 1)["open"]


def test_on_a_wall_the_same_engines_are_drawn_with_larger_letters_and_a_page_gets_its_own_back():
    panel = opened()
    page = panel.frame["shown"]["engines"]
    wall = tell(panel, "wall", on=True)["shown"]["engines"]
    assert [one["title"] for one in wall] == [one["title"] for one in page]
    assert [one["rows"] for one in wall] == [one["rows"] for one in page]
    for one in wall:  # as wide as 1366 px, less the margins of the present mode
        smallest = min(word["size"] for word in one["wide"]["words"])
        assert smallest * 0.97 * 1366 / one["wide"]["size"][0] >= 24
        assert one["wide"]["size"][1] * 0.97 * 1366 / one["wide"]["size"][0] <= 260  # two above each other fit 768 px
    assert tell(panel, "wall", on=False)["shown"]["engines"] == page


def test_how_the_reader_explains_it_now_is_kept_until_the_question_is_asked_again():
    panel = opened()
    assert asked(tell(panel, "now", text="mass counts"))["now"] == "mass counts"
    assert asked(tell(panel, "slide", name="boost", text="12"))["now"] == "mass counts"
    assert asked(tell(panel, "again"))["now"] == ""
