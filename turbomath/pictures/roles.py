"""What a colour stands for, and the second sign that says the same to a photocopier."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Role:
    """A colour on white paper, the dash of a line and the shape of a marker ("" for none)."""

    colour: str
    dash: str
    marker: str


ROLES = {
    "ambient": Role("#5f6b76", "dotted", "square"),
    "hot": Role("#a8400a", "solid", "triangle"),
    "cooled": Role("#0b5fa5", "solid", "circle"),
    "theory": Role("#6a3d9a", "dashed", ""),
    "measured": Role("#1b1f24", "solid", "diamond"),
}
INK = "#1b1f24"
QUIET = "#57606a"
FAINT = "#dfe3e7"
