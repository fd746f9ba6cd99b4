"""Which option somebody chose: its letter with bracket or dot or without, its words, or both."""

import re

_LETTER = re.compile(r"^[(\[]?\s*([a-h])\s*[)\].:]*$", re.IGNORECASE)
_LETTER_AND_WORDS = re.compile(r"^(?:[(\[]\s*([a-h])\s*[)\]]|([a-h])\s*[).:])\s*(.+)$", re.IGNORECASE)


def option(text: str) -> tuple[str, str]:
    """Return (letter, words) of a chosen option, each "" where it is not said; with bracket or dot or without.

    Examples
    --------
    >>> option("(B)"), option("b) worn compressor"), option("worn compressor.")
    (('B', ''), ('B', 'worn compressor'), ('', 'worn compressor'))
    """
    text = " ".join(text.split())
    alone, both = _LETTER.fullmatch(text), _LETTER_AND_WORDS.fullmatch(text)
    if alone:
        return alone[1].upper(), ""
    if both:
        return (both[1] or both[2]).upper(), both[3].strip().rstrip(".")
    return "", text.rstrip(".")
