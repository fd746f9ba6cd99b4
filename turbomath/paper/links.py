"""Links within a page, and the places that they lead to. Words are escaped, ids are the kit's own names."""

from collections.abc import Iterable

from markupsafe import Markup


def link(place: str, words: str) -> Markup:
    """Return words that lead to the place of this id."""
    return Markup('<a href="#{}">{}</a>').format(place, words)


def target(place: str, words: str) -> Markup:
    """Return words to which the links of this id lead."""
    return Markup('<span id="{}">{}</span>').format(place, words)


def joined(parts: Iterable[str], between: str = ", ") -> Markup:
    """Return texts and links one after the other."""
    return Markup(between).join(parts)
