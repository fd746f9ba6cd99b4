"""A lesson in one file for any phone: what its panels show is recorded before, and their own script replays it."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
