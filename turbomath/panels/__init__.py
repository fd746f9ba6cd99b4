"""The lessons: one folder each, with its panels, its pictures and its words; `registry` has them in order."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
