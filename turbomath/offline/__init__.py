"""The kit for a PC without a network: wheels, lessons, data and scripts that install them and start."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
