"""A number and its unit stay on one line, wherever a page breaks its lines."""

import functools
import re

from turbomath import units
from turbomath.table.quantities import QUANTITIES

NO_BREAK = "\u00a0"


def unbroken(text: str) -> str:
    """Return a text in which no number can part from its unit, nor from the ± before its own uncertainty.

    Examples
    --------
    >>> unbroken("At 80 % and 45.6 psi abs ± 0.5 psi, 0.4 ft³ in 3 steps").replace(NO_BREAK, "_")
    'At 80_% and 45.6_psi_abs_±_0.5_psi, 0.4_ft³ in 3 steps'
    """
    return re.sub(after_a_number(), lambda found: found[0].replace(" ", NO_BREAK), text)


@functools.cache
def after_a_number() -> str:
    """Return the pattern, as a browser reads it too, of a space and what may not stand alone behind it.

    That is a unit of the kit, or ± and a number.
    """
    known = {unit for row in QUANTITIES for unit in units.spellings(row)} - {"-"}
    listed = "|".join(re.escape(unit) for unit in sorted(known, key=lambda one: (-len(one), one)))
    unit = rf"(?:{listed})[²³]?(?![\w/·])|[^\W\d][\w°]*[/·][^\s.,;:]+"  # or one put together, such as Btu/(lb·F°)
    return rf"(?<=\d) (?:{unit})(?: ± ?(?=\d))?|(?<=\d) ± ?(?=\d)"
