"""Live panels for lessons: Python works everything out, the script beside it draws and reports what the reader does."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
