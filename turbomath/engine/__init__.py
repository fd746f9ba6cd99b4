"""The engine as a path for air: from ambient to manifold, and what flows along it."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
