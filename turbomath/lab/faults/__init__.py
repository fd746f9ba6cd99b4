"""From a run and an earlier one to the faults that would show it, in words, with the next test. A simulation."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
