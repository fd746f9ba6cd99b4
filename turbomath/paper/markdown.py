"""Words written as Markdown, such as notebooks and teaching notes, as HTML for a page."""

import re

from markupsafe import Markup

from turbomath.paper.unbroken import unbroken

_CODE = re.compile(r"(```.*?```|`[^`]*`)", re.DOTALL)  # what is typed as it stands keeps its spaces


def markdown(text: str) -> Markup:
    """Return Markdown of the kit's own as HTML, with numbers and units that no line parts."""
    from nbconvert.filters import markdown2html  # slow to open, and few pages need it

    parts = _CODE.split(text)
    parts[::2] = map(unbroken, parts[::2])
    return Markup(markdown2html("".join(parts)))
