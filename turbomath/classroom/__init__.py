"""How lessons open: work copies, JupyterLab's settings, the server, and the small extension that runs a lesson."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
