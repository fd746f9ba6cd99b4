"""The handbook: every formula of the kit on one page, and the ones for class on a sheet, from the code itself."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
