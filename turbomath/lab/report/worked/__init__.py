"""One reading's reduction, worked step by step as on paper."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
