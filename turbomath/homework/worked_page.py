"""A worked solution as a page that prints, with its equations as MathML."""

from turbomath import __version__, working
from turbomath.paper.page import page
from turbomath.table import constants


def worked_page(variant, *, units):
    """Return the worked solution of a variant as HTML, in the units "us" or "si"."""
    return page(
        "worked.html",
        title=variant.question.name.replace("_", " "),
        invented=True,
        code=f"Sheet {variant.code}",
        question=variant.text.split("\n"),
        lines=working.lines(variant.chain, units),
        colophon=(f"turbomath {__version__}", f"constants {constants.EDITION}"),
    )
