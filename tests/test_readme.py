"""README stays short: whoever opens it wants to begin."""

import re
from pathlib import Path

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")
MOST_WORDS = 1_200


def test_it_is_at_most_1200_words():
    assert len([word for word in README.split() if re.search(r"\w", word)]) <= MOST_WORDS
