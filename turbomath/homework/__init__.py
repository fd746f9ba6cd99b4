"""Homework that answers the mistake: a bank of questions, each seat's own numbers, and marking.

Individual numbers stop copying, not computing.
"""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
