"""The only door between shop units and SI, and how numbers are written."""

from turbomath.units.door import display, family, from_si, number, spellings, to_si
from turbomath.units.spellings import LONGEST

__all__ = ["LONGEST", "display", "family", "from_si", "number", "spellings", "to_si"]
