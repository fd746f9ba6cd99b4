"""The only door between shop units and SI, and how numbers are written."""

from turbomath.units.door import display, family, from_si, number, spellings, to_si

__all__ = ["display", "family", "from_si", "number", "spellings", "to_si"]
