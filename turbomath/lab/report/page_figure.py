"""From a picture as data to a figure of a page: its drawing, its words and its table twin."""

from turbomath.paper.parts import Figure, Head, Table
from turbomath.pictures import printed
from turbomath.pictures.picture import Picture


def page_figure(picture: Picture, height: float = printed.HEIGHT) -> Figure:
    """Return a `Picture` ready for a page that prints, so many px high."""
    heads = tuple(Head(head) for head in picture.heads)
    return Figure(picture.title, picture.alt, printed.svg(picture, height), Table(picture.title, heads, picture.rows))
