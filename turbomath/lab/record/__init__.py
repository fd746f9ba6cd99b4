"""The run-up record: what was settled before a run, found during it, and put right after it."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
