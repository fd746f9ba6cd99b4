"""Which one or two gauges more would tell most: those that stand between these readings and the most results."""

from collections.abc import Mapping
from itertools import combinations

NOT_READ = "no reading of "  # how a reason names a gauge that would do
BETWEEN = "; "
LEAST = 3  # results, for fewer it is not worth a word


def next_gauges_sentence(missing: Mapping[str, str]) -> str:
    """Return in a sentence what to read next, from the reasons of `Reduced.missing`; "" where no gauge tells more."""
    wanting = [set(reason.split(BETWEEN)) for reason in missing.values()]
    wanting = [one for one in wanting if all(part.startswith(NOT_READ) for part in one)]
    picked, told = _most_telling(wanting)
    if told < LEAST:
        return ""
    first, *then = (reason.removeprefix(NOT_READ) for reason in picked)
    second = f", then {then[0]}" if then else ""
    return f"What would tell most: {first}{second}. With that, {told} results more can be worked out."


def _most_telling(wanting: list[set[str]]) -> tuple[list[str], int]:
    """Return the gauge or the two gauges that open the most results, the better one first, and how many they open.

    A second gauge is named only if it opens a result more than the first alone.
    """
    gauges = list(dict.fromkeys(part for one in wanting for part in sorted(one)))

    def opened(*picked):
        return sum(one <= set(picked) for one in wanting)

    alone = max(gauges, key=opened, default="")
    pair = max(combinations(gauges, 2), key=lambda two: opened(*two), default=())
    if not pair or opened(*pair) <= opened(alone):
        return [alone], opened(alone)
    return sorted(pair, key=opened, reverse=True), opened(*pair)
