"""Numbers as they are shown: as many digits as their ± allows, and a real minus."""

import math

NO_VALUE = "–"


def with_plus_or_minus(value: float, plus_or_minus: float) -> str:
    """Return "value ± width" with the digits the width allows; a value alone has four; "–" where there is none.

    Examples
    --------
    >>> with_plus_or_minus(-0.4237, 0.0191), with_plus_or_minus(143.2, 5.3)
    ('−0.424 ± 0.019', '143 ± 5')
    """
    if not math.isfinite(value):
        return NO_VALUE
    if not math.isfinite(plus_or_minus) or plus_or_minus <= 0:
        return rounded(value)
    places = decimals(plus_or_minus)
    return f"{fixed(value, places)} ± {fixed(plus_or_minus, places)}"


def decimals(plus_or_minus: float) -> int:
    """Return how many decimals a value with this ± deserves: to the first figure of half of it (GUM 7.2.6)."""
    return max(0, -math.floor(math.log10(plus_or_minus / 2)))


def fixed(value: float, places: int) -> str:
    """Return *value* with so many decimals, a real minus, and no minus before a zero; "–" where there is none."""
    if not math.isfinite(value):
        return NO_VALUE
    text = f"{value:.{places}f}"
    return text.lstrip("-") if float(text) == 0 else text.replace("-", "−")


def rounded(value: float) -> str:
    """Return *value* to four figures, without noughts at the end.

    Examples
    --------
    >>> rounded(25.0), rounded(-1.23456), rounded(143_212.0)
    ('25', '−1.235', '143212')
    """
    if not math.isfinite(value):
        return NO_VALUE
    if value == 0:
        return "0"
    places = max(0, 3 - math.floor(math.log10(abs(value))))
    text = fixed(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text
