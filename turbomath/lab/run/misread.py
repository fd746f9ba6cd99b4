"""Marks that a program took for others: UTF-8 opened as another code page, so that °F became Â°F and was saved so."""

import re

_CODE_PAGES = ("cp1252", "latin-1", "mac_roman", "cp850")
_LETTERS = "".join(map(chr, range(0xC0, 0x100)))
_MARKS = _LETTERS + "\u00a0°º¹²³±·µ½–—−‘’“”…€₂≥≤≈Δ∆ηρφ"
_BYTE_ORDER_MARK = "\ufeff"


def as_meant(text: str) -> str:
    """Return a text with every mark that was taken for two or three others as what it was.

    Examples
    --------
    >>> as_meant("ambient temperature [Â°F]"), as_meant("50 °F ± 1"), as_meant("JosÃ©")
    ('ambient temperature [°F]', '50 °F ± 1', 'José')
    """
    return text if text.isascii() else _TAKEN_FOR.sub(lambda found: _MEANT[found[0]], text)


def _as_seen(text, code_page):
    """Return what a program shows that takes the UTF-8 of a text for text of a code page."""
    return "".join(_letter(byte, code_page) for byte in text.encode())


def _letter(byte, code_page):
    try:
        return bytes([byte]).decode(code_page)
    except UnicodeDecodeError:
        return chr(byte)  # as such programs do


def _taken_for():
    """Return what is seen -> what it was; a file may go through the same mistake twice."""
    meant = {mark: mark for mark in _MARKS} | {_BYTE_ORDER_MARK: ""}
    once = {page: {_as_seen(mark, page): was for mark, was in meant.items()} for page in _CODE_PAGES}
    twice = {page: {_as_seen(seen, page): was for seen, was in once[page].items()} for page in _CODE_PAGES}
    return {seen: was for found in (*once.values(), *twice.values()) for seen, was in found.items()}


_MEANT = _taken_for()
_TAKEN_FOR = re.compile("|".join(map(re.escape, sorted(_MEANT, key=len, reverse=True))))
