"""Equations as MathML, which every browser shows and reads aloud without a script."""

import functools
import re

from latex2mathml import converter
from markupsafe import Markup

from turbomath.table.errors import TurbomathError

_UPRIGHT = re.compile(r'<mrow>((?:<mi mathvariant="normal">[^<]</mi>)+)</mrow>')
_LETTER = re.compile(r"<mi[^>]*>([^<])</mi>")


@functools.cache
def mathml(latex: str, display: str = "inline") -> Markup:
    """Return an equation of the kit, written in LaTeX, as MathML; *display* is "inline" or "block".

    Raises
    ------
    TurbomathError
        If a command in it is not understood.
    """
    converted = _UPRIGHT.sub(_one_word, converter.convert(latex, display=display))
    if "\\" in converted:
        raise TurbomathError(f"found {latex!r}, expected an equation in plain LaTeX. Use simpler commands.")
    return Markup(converted)


def _one_word(match):
    """Write an upright subscript as one word, so that it is spaced and read as one."""
    return f"<mi>{''.join(_LETTER.findall(match[1]))}</mi>"
