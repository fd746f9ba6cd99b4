"""The lessons on paper: the lesson itself, voting cards, and the sheet from which a substitute can teach it."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
