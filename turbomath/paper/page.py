"""Pages from templates. Every text from outside is escaped, and marks that would hide or turn text are shown."""

import base64
import functools
import json
import unicodedata
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup

from turbomath.paper.equations import mathml
from turbomath.paper.unbroken import unbroken
from turbomath.table import cautions

_HERE = Path(__file__).resolve().parent
_REPLACEMENT = "\ufffd"
# Marks that turn the direction of the text around them (Unicode Bidirectional Algorithm, UAX #9)
_TURNING = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"


def page(template: str, **content: Any) -> str:
    """Return the HTML text of a template of this room, such as "report.html", with its content put in.

    Raises
    ------
    jinja2.UndefinedError
        If the template asks for content that was not given.
    """
    return _environment().get_template(template).render(content)


def in_script(content: Any) -> Markup:
    """Return JSON that can stand within a script of a page."""
    return Markup(json.dumps(content, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c"))


def visible(text: object) -> str:
    """Return *text* with every mark that is unseen, turns text around or cannot be stored shown as "\ufffd"."""
    text = str(text)
    return text if text.isprintable() else "".join(mark if _is_visible(mark) else _REPLACEMENT for mark in text)


def _is_visible(mark):
    return mark in "\n\t" or (unicodedata.category(mark) not in ("Cc", "Cs", "Cn") and mark not in _TURNING)


def _at_the_door(value):
    """Pass what the kit itself has marked as safe, and make every other text visible; escaping comes after."""
    return value if isinstance(value, Markup) else visible(value)


def _image(svg):
    """Return an SVG as an address that holds it, so that the page asks nobody for anything."""
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode()).decode()}"


@functools.cache
def _environment():
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(_HERE),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        finalize=_at_the_door,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters.update(mathml=mathml, image=_image, unbroken=unbroken)
    environment.globals.update(cautions=cautions)
    return environment
