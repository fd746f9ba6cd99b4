"""The lab: what the shop hands in (bench and readings), read whole or refused, then reduced, checked and reported."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
