"""Words written as Markdown, such as notebooks and teaching notes, as HTML for a page."""

from markupsafe import Markup


def markdown(text: str) -> Markup:
    """Return Markdown of the kit's own as HTML."""
    from nbconvert.filters import markdown2html  # slow to open, and few pages need it

    return Markup(markdown2html(text))
