"""What people write around a number: about, name =, its own ±, x 10^n, to 1. It is taken away, and nothing else."""

import re

_ABOUT = re.compile(r"^(?:≈|≅|~|∼|=|about|approximately|approx\.?|around|roughly|circa|ca\.?)\s*", re.IGNORECASE)
_BEFORE_THE_NUMBER = r"(?=[~≈]?\s*(?:about\s|ca\.?\s)?[+\-−–]?\s?[.\d])"
_NAME = re.compile(r"^[^\W\d][^=≈:<>]{0,40}?\s*(?:=|≈|:)\s*" + _BEFORE_THE_NUMBER, re.IGNORECASE)
_EXPONENT = r"(?:(?:\^|\*\*)\s*\(?([+\-−–]?\d{1,2})\)?|([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,2}))"
_POWER = re.compile(r"(?<=[\d.,])\s*[x×*·]\s*10\s*" + _EXPONENT, re.IGNORECASE)
_RAISED = str.maketrans("⁺⁻⁰¹²³⁴⁵⁶⁷⁸⁹−–", "+-0123456789--")
_OWN_WIDTH = re.compile(r"\s*(?:±|\+/-|\+-|\+/−|plus or minus)\s*[\d.,]+\s*", re.IGNORECASE)
_TO_ONE = re.compile(r"(?<=\d)\s*(?::|to|/)\s*1(?:\.0*)?\s*$", re.IGNORECASE)


def bare_number(text: str, *, ratio: bool = False) -> str:
    """Return a number and its unit without what people write around them.

    Parameters
    ----------
    text : str
        As it was written.
    ratio : bool
        Whether a pure number is asked for, of which "to 1" says nothing more.

    Examples
    --------
    >>> bare_number("p3 = ≈45.6 psi abs ± 0.5 psi"), bare_number("3.28 x 10^1 %"), bare_number("2.94 to 1", ratio=True)
    ('45.6 psi abs', '3.28e1 %', '2.94')
    """
    text = text.strip()
    for _ in range(3):  # "about = ~ 45"
        text = _ABOUT.sub("", _NAME.sub("", text))
    text = _POWER.sub(lambda found: "e" + (found[1] or found[2]).translate(_RAISED), text)
    text = _without_own_width(text)
    return _TO_ONE.sub("", text) if ratio else text


def _without_own_width(text):
    before, found, after = text, _OWN_WIDTH.search(text), ""
    if found:
        before, after = text[: found.start()], text[found.end() :]
        says_unit = re.search(r"\d\s*([^\d\s.,].*)$", before)
        return before if says_unit else f"{before} {after}".strip()
    return text
