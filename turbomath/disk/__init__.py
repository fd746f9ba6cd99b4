"""Files on disk: whole writes, plain files, a journal."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
