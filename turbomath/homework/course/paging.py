"""How a sheet falls on pages of paper: nothing is split, and what a page has left over is room for working.

All lengths are in mm. The page is as narrow as A4 and as short as Letter, and a line holds what it holds in a wide
typeface, so that a sheet has as many pages on either paper and in any browser. `homework.css` draws the same lengths.
"""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Face:
    """How a sheet is set; `beside` puts the boxes beside the working."""

    page: float  # below a single line at the top
    size: float  # of the letters
    width: float  # of the text
    name: float  # of the name of a box
    box: float  # the least height of a box
    working: float  # the least room for working
    most: float  # a larger one looks empty
    reason: float  # the most room for why a letter was chosen
    beside: bool
    gap: float  # below a question

    @property
    def line(self) -> float:
        """The height of a line."""
        return LINE * self.size

    def room(self, top: str) -> float:
        """Return what a page holds below its top, whose words may take more than one line beside the page's number."""
        return self.page - self.line * (lines(top, self.width / (BOLD * self.size) - NUMBER) - 1)

    def text(self, text: str, times: float = 1.0) -> float:
        """Return the height of a paragraph, in letters so many times the usual size."""
        return times * self.line * lines(text, self.width / (times * self.size)) + PARAGRAPH

    def boxes(self, names: Sequence[str]) -> float:
        """Return the height of the boxes for values, one below the other."""
        width = self.name / (BOLD * self.size)
        return sum(max(self.box, self.line * lines(name, width) + INSIDE) for name in names)

    def answering(self, names: Sequence[str]) -> float:
        """Return the least height of the place for working and the boxes in it."""
        boxes = self.boxes(names)
        return max(self.working, boxes) if self.beside else self.working + boxes

    def columns(self, options: Sequence[str]) -> int:
        """Return how many options of a question stand in a line: all of them if they are short, or two, or one."""
        for count in (len(options), 2):
            if count and all(lines(one, self.width / count / self.size - LETTER) == 1 for one in options):
                return count
        return 1

    def options(self, options: Sequence[str]) -> float:
        """Return the height of the options of a question."""
        listed = options[:: self.columns(options)]
        return sum(lines(one, self.width / self.size - LETTER) for one in listed) * self.line + PARAGRAPH


LINE = 1.3  # heights of a line and widths, in sizes of the letters
TITLE = 1.4
HINTS = 1.2
BOLD = 1.12
LETTER = 2.5  # before an option, and the gap behind it
NUMBER = 9.5  # "page 10 of 12" and the gap before it
PARAGRAPH = 1.5  # below a paragraph
INSIDE = 2.4  # above and below the name in a box, together
USUAL = Face(page=249, size=3.88, width=180, name=40, box=13, working=24, most=60, reason=30, beside=True, gap=3.5)
LARGE = Face(page=247, size=6.35, width=173, name=70, box=16, working=40, most=140, reason=50, beside=False, gap=6)
WIDTHS = {  # of letters, about as in DejaVu Sans, which is wider than most
    0.32: "ijl.,:;'|!I ",
    0.41: "ftr()-",
    0.88: "mwMW%→",
    0.72: "ABCDEFGHKLNOPQRSTUVXYZ",
}
WIDTH = 0.62  # of any other
_WIDTHS = {letter: width for width, letters in WIDTHS.items() for letter in letters}


def lines(text: str, width: float) -> int:
    """Return how many lines a text takes in so many sizes of its letters."""
    found, left = 1, width
    for word in text.split():
        own = sum(_WIDTHS.get(letter, WIDTH) for letter in word)
        if own > left:
            found, left = found + 1 + int(own // width), width
        left -= own + _WIDTHS[" "]
    return found


def pages(heights: Sequence[float], first: float, page: float) -> list[range]:
    """Return which blocks stand on each page: on as few pages as they need in their order, filled evenly.

    Parameters
    ----------
    heights : sequence of float [mm]
        Of the blocks.
    first : float [mm]
        What stands above the first of them.
    page : float [mm]
        What a page holds; a block that is higher has a page for itself.
    """
    found = _filled(heights, first, page)
    while page > first and len(lower := _filled(heights, first, page - 1)) == len(found):
        found, page = lower, page - 1
    return found


def _filled(heights, first, page):
    """Return the pages where each takes all that it can hold."""
    starts, left = [0], page - first
    for place, height in enumerate(heights):
        if height > left and place > starts[-1]:
            starts.append(place)
            left = page
        left -= height
    return [range(start, end) for start, end in zip(starts, [*starts[1:], len(heights)], strict=True)]
