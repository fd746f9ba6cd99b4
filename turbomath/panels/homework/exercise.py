"""What practice and an assignment's sheet have in common: a question as the page shows it, and a disk that refuses."""

from typing import Any

from turbomath.homework.asking.variant import LETTERS, Variant
from turbomath.homework.bank.question import Choice
from turbomath.table.quantities import QUANTITIES


def exercise(variant: Variant) -> dict[str, Any]:
    """Return a variant as the page shows it: its words, its boxes or its options, and a key that is its own."""
    if isinstance(variant.question, Choice):
        options = [[letter, one.words] for letter, one in zip(LETTERS, variant.asked, strict=False)]
        parts = [box("", "your answer", "")]
    else:
        options = []
        parts = [box(one.name, plain(one.name), one.unit(variant.units)) for one in variant.asked]
    return {"key": variant.code, "wording": variant.wording.split("\n"), "options": options, "parts": parts}


def box(name: str, label: str, unit: str) -> dict[str, Any]:
    """Return one box: its name, its label, and how an answer is written."""
    written = "a number without a unit" if unit == "-" else f"number and unit: {unit}, or another that fits"
    return {"name": name, "label": label, "written": written if unit else ""}


def plain(name: str) -> str:
    """Return the name of a value of the chain in words."""
    return QUANTITIES[name].plain_name if name in QUANTITIES else name.replace("_", " ")
