"""From a picture as data to a figure of a page: its drawing, its words and its table twin."""

from turbomath.paper.parts import Figure, Head, Table
from turbomath.pictures import air_path_printed, printed
from turbomath.pictures.air_path import AirPath
from turbomath.pictures.picture import Picture


def page_figure(picture: Picture, height: float = printed.HEIGHT) -> Figure:
    """Return a `Picture` ready for a page that prints, so many px high."""
    heads = tuple(Head(head) for head in picture.heads)
    return Figure(picture.title, picture.alt, printed.svg(picture, height), Table(picture.title, heads, picture.rows))


def engine_figure(engine: AirPath, height: float, *, strip: bool = False) -> Figure:
    """Return the drawing of an engine ready for a page that prints, so many px high; a *strip* without its exhaust."""
    heads = tuple(Head(head) for head in engine.heads)
    drawn = air_path_printed.svg(engine, height, strip=strip)
    return Figure(engine.title, engine.alt, drawn, Table(engine.title, heads, engine.rows))
