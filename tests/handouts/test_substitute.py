"""The substitute's sheet: question, options, three steps, numbers, ticket and answers, from the lesson's own words."""

import functools
import re

import pytest

from tests.handouts.test_lesson_page import each_lesson, plain
from tests.lab.page_reader import Report
from tests.panels.opening import BY_NAME, notes
from turbomath.handouts import substitute, texts
from turbomath.table.cautions import STANDING, STOP_TRIGGERS
from turbomath.table.prose import ProseError


@functools.cache
def sheet(lesson):
    return Report(substitute.substitute_page(lesson))


@each_lesson
def test_it_says_what_to_ask_and_why_each_answer_appeals(lesson):
    text, first = plain(sheet(lesson).text), next(iter(lesson.predictions.values()))
    assert lesson.question in text
    assert plain(first.text) in text
    for one in first.options:
        assert one.words.partition(": ")[2] in text
        assert not one.mistake or plain(one.reply) in text
    assert text.count("(right)") == sum(one.right for asked in (first, *lesson.ticket) for one in asked.options)


@each_lesson
def test_three_steps_fill_the_lesson_and_the_last_is_the_ticket(lesson):
    parts = texts.sections(notes(lesson.name))
    _, rows = texts.table(parts["Without a projector"], "minutes", lesson.notebook)
    spans = [tuple(map(int, re.findall(r"\d+", minutes))) for minutes, *_ in rows]
    assert len(rows) == 3
    assert spans[0][0] == 0
    assert [end for _, end in spans[:-1]] == [start for start, _ in spans[1:]]
    assert spans[-1][1] <= int(re.match(r"\d+", lesson.minutes)[0])
    assert "ticket" in rows[-1][1]
    for row in rows:
        assert all(plain(cell) in plain(sheet(lesson).text) for cell in row)


@each_lesson
def test_the_ticket_stands_with_its_answers_and_the_cautions_in_short(lesson):
    text = plain(sheet(lesson).text)
    for one in lesson.ticket:
        assert plain(one.text) in text
        assert all(option.words in text for option in one.options if option.right or option.mistake)
    assert STANDING in text
    assert all(one in text for one in STOP_TRIGGERS)


def test_numbers_for_the_board_are_in_both_systems():
    """20 psi at 300 °F over 14.2 psi: 2.70 × 34.2 ÷ 760 = 0.1215 lb/ft³, worked in the shop's way; × 16.0185 in SI."""
    text = plain(sheet(BY_NAME["hot_air_is_thin"]).text)
    assert "0.1215 lb/ft³ (1.946 kg/m³)" in text
    by_hand = 2.70 * 34.2 / 760 * 16.0185
    assert abs(by_hand - 1.946) < 0.001
    assert "2.70 × 34.2 ÷ 760 = 0.1215 lb/ft³" in text


def test_codes_of_mistakes_are_not_on_it():
    assert not re.search(r"\(M\d+\)", sheet(BY_NAME["hot_air_is_thin"]).text)


def test_notes_without_three_steps_are_refused(monkeypatch):
    monkeypatch.setattr(texts, "notes", lambda lesson: {"In class": ""})
    with pytest.raises(ProseError, match="03_hot_air_is_thin"):
        substitute.substitute_page(BY_NAME["hot_air_is_thin"])
