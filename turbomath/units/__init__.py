"""The only door between shop units and SI, and how numbers are written."""

from turbomath.table.doors import door_of_room
from turbomath.units.door import display, family, from_si, number, spellings, to_si
from turbomath.units.spellings import LONGEST

__all__ = ["LONGEST", "display", "family", "from_si", "number", "spellings", "to_si"]
__getattr__, __dir__ = door_of_room(__name__, __path__[0], __all__)
