"""Voting cards: a letter that can be read across a shop, six on a sheet, with lines to cut along."""

from turbomath.handouts.lesson_page import LETTERS
from turbomath.paper.page import page
from turbomath.widgets.lesson import Lesson

FEWEST = 4


def cards_page(lesson: Lesson) -> str:
    """Return the voting cards of a lesson as HTML: as many letters as its longest question has options."""
    asked = [*lesson.predictions.values(), *lesson.ticket]
    most = max(FEWEST, *(len(one.options) for one in asked))
    return page("cards.html", title=f"Voting cards: {lesson.heading}", invented=False, letters=LETTERS[:most])
