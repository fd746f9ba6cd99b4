"""Pictures as plain data: axes, series with a role, words, alt text and a table twin; drawn live or printed."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
