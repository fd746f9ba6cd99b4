"""A lesson on paper: what it asks first, pictures and tables as its panels have them, its ticket without answers."""

import base64
import functools
import re

import pytest

from tests.lab.page_reader import Report
from tests.lessons import lessons
from tests.panels.opening import BY_NAME, words
from turbomath.handouts import cards, lesson_page, texts, written
from turbomath.handouts.shown import case_table
from turbomath.table.cautions import CAUTIONS, STANDING, STOP_TRIGGERS

PRINTED = written.lessons_asked(None)
each_lesson = pytest.mark.parametrize("lesson", PRINTED, ids=lambda one: one.number)


@functools.cache
def paper(lesson):
    return Report(lesson_page.lesson_page(lesson))


def before_the_answers(lesson):
    """What stands on the first sheet."""
    return paper(lesson).text.partition("On paper, answer the steps")[0]


def plain(text):
    """Words without the marks of Markdown, with single spaces."""
    return " ".join(re.sub(r"\*+|`", "", text).replace("\\", "").split())


def test_every_numbered_lesson_is_printed_and_no_other():
    assert [one.notebook for one in PRINTED] == [name for name in lessons() if name[0].isdigit()]


@each_lesson
def test_the_questions_stand_on_the_first_sheet_and_no_answer_does(lesson):
    above = plain(before_the_answers(lesson))
    assert lesson.question in above
    assert "What you will be able to do" not in above  # what is to be learned tells what is to be found
    assert above.count("the letter") == len(lesson.predictions)
    for one in lesson.predictions.values():
        assert plain(one.text) in above
        for option in one.options:
            assert option.words.partition(": ")[2] in above
            assert option.reply not in above


@each_lesson
def test_each_panel_has_its_outcome_its_pictures_and_the_tables_of_the_screen(lesson):
    found = paper(lesson)
    tables = [(one["caption"], [*map(tuple, one["rows"])]) for one in found.tables]
    for make in lesson.panels:
        panel = make()
        answer = panel.desk.printed("us")
        assert plain(panel.desk.asked.question.outcome("us")) in plain(found.text)
        panel.desk.asked.go_on()
        assert all(plain(step) in plain(found.text) for step, _ in panel.desk.frame().get("steps", []))
        for picture in (*answer.engines, *answer.pictures):
            assert picture.alt in [one["alt"] for one in found.named("img")]
        for twin in answer.twins():
            assert (twin.title, list(twin.rows)) in tables
    assert len(found.named("img")) >= len(lesson.panels)


@each_lesson
def test_worked_example_sources_and_the_whole_cautions_are_on_it(lesson):
    text = plain(paper(lesson).text)
    for part in ("Work it out", "Pitfalls", "Write it down", "Exit ticket", "What we learned", "Sources"):
        if f"## {part}" in words(lesson.name):
            assert part in text
    assert STANDING in text
    assert all(one.hazard in text and one.source in text for one in CAUTIONS)
    assert all(one in text for one in STOP_TRIGGERS)
    assert not re.search(r"arrow keys|You can try again", text)


@each_lesson
def test_the_ticket_is_asked_and_its_answers_are_not_given(lesson):
    text = plain(paper(lesson).text)
    for one in lesson.ticket:
        assert plain(one.text) in text
        assert not [option.words for option in one.options if plain(option.reply) in text]


def test_cases_are_told_in_both_systems():
    """20 psi and 15 psi over 14.2 psi, by hand: 34.2 and 29.2 psi abs, of 6.894757 kPa each (NIST SP 811)."""
    table = case_table(BY_NAME["hot_air_is_thin"].panels[0]())
    assert [one.name for one in table.heads] == ["", "A", "B"]
    assert dict((name, cells) for name, *cells in table.rows)["absolute pressure"] == [
        f"34.2 psi abs ({34.2 * 6.894757:.1f} kPa abs)",
        f"29.2 psi abs ({29.2 * 6.894757:.1f} kPa abs)",
    ]


def test_a_printed_lesson_asks_nobody_outside():
    found = paper(BY_NAME["hot_air_is_thin"])
    assert all(one["src"].startswith("data:image/svg+xml;base64,") for one in found.named("img"))
    assert not found.named("script")
    drawn = base64.b64decode(found.named("img")[0]["src"].partition(",")[2]).decode()
    assert drawn.startswith("<svg")


@each_lesson
def test_cards_have_a_letter_for_each_option(lesson):
    letters = re.findall(r"<li>(.)</li>", cards.cards_page(lesson))
    most = max(len(one.options) for one in (*lesson.predictions.values(), *lesson.ticket))
    assert letters == list("ABCDEF"[: max(4, most)])


def test_words_of_the_screen_stay_off_paper():
    parts = (
        "<details>\n<summary>About</summary>",
        "Try it. The key **t** shows the table.",
        "By the turbomath contributors.",
    )
    assert texts.on_paper("\n\n".join((*parts, "</details>"))) == "Try it."
