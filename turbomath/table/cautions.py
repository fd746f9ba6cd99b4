"""The safety texts, each with its public source. Sheets, reports, lessons and the README all use these.

The kit teaches arithmetic and judgement. It gives nobody leave to run an engine.
"""

from dataclasses import dataclass

from turbomath.table import prose


@dataclass(frozen=True)
class Caution:
    """One hazard: a short name, what to do about it, and the public source."""

    hazard: str
    text: str
    source: str


def _cautions(words: prose.Prose, name: str) -> tuple[Caution, ...]:
    return tuple(Caution(one.text("hazard"), one.text("text"), one.text("source")) for one in words.tables(name))


_WORDS = prose.read(__file__, "cautions.toml")
STANDING = _WORDS.text("standing")
FULL_TEXT = _WORDS.text("full_text")  # where they stand in short
STOP_TRIGGERS = _WORDS.texts("stop_triggers")
CAUTIONS = _cautions(_WORDS, "cautions")
SHOP_CAUTIONS = _cautions(_WORDS, "shop_cautions")  # beside and before a running engine
_WORDS.finished()
