"""What prints: pages from templates, the print style, the cautions block, tables, equations as MathML."""

from turbomath.table.doors import door_of_room

__getattr__, __dir__ = door_of_room(__name__, __path__[0])
