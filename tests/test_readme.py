"""README stays short: whoever opens it wants to begin."""

from pathlib import Path

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")
MOST_WORDS = 1_200


def test_it_is_at_most_1200_words():
    assert len(README.split()) <= MOST_WORDS
