"""Which fault would show these readings: engine and gauge faults on a list, and how likely each is. A simulation."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
