"""The exit ticket: three questions, each wrong option a usual mistake that is named when it is chosen, not before."""

import json

import pytest

from tests.widgets.told import tell
from turbomath.panels.hot_air_is_thin.two_manifolds import PREDICTION, TICKET, ticket_hot_air_is_thin
from turbomath.physics import charge

CODES = {f"M{number}" for number in range(1, 19)}


@pytest.mark.parametrize("question", TICKET, ids=lambda question: question.text[:20])
def test_one_option_is_right_and_each_wrong_one_carries_a_mistake(question):
    *options, last = question.options
    assert last.words == "my answer is not here"
    assert sum(one.right for one in options) == 1
    assert all(one.mistake in CODES for one in options if not one.right)
    assert all(one.reply for one in question.options)
    assert len({one.words for one in question.options}) == len(question.options)


def test_the_ticket_meets_the_three_great_mistakes():
    codes = {option.mistake for question in TICKET for option in question.options}
    assert {"M1", "M3", "M4"} <= codes
    assert "M4" in {option.mistake for option in PREDICTION.options}


def test_no_reply_is_on_the_page_before_an_answer():
    ticket = ticket_hot_air_is_thin()
    sent = json.dumps([ticket.opening, ticket.frame], ensure_ascii=False)
    assert all(option.reply not in sent for question in TICKET for option in question.options)
    assert '"M1"' not in sent


@pytest.mark.parametrize("number", range(3))
def test_each_option_gets_its_own_reply_and_can_be_tried_again(number):
    ticket = ticket_hot_air_is_thin()
    assert "choose one answer" in tell(ticket, "answer", question=number, text="")["asked"][number]["fault"].lower()
    for option in TICKET[number].options:
        asked = tell(ticket, "answer", question=number, text=option.words)["asked"]
        assert asked[number]["reply"] == option.reply
        assert [one["said"] for turn, one in enumerate(asked) if turn != number] == ["", ""]
        assert tell(ticket, "again", question=number)["asked"][number]["said"] == ""
    assert tell(ticket, "answer", question=7, text="x")["notice"]


def test_the_numbers_in_the_replies_are_true():
    """Absolute temperatures with the shop's 460 (common practice); density by the library."""
    assert pytest.approx(1.246, abs=5e-4) == (300 + 460) / (150 + 460)
    kelvin = [(fahrenheit + 459.67) / 1.8 for fahrenheit in (300, 150)]
    assert charge.density(2e5, kelvin[1]) / charge.density(2e5, kelvin[0]) == pytest.approx(1.246, abs=1e-3)
    assert pytest.approx(0.06, abs=0.005) == 1 - 32.2 / 34.2
