"""Lesson 09: the words and prices of the jobs, as they stand in `job.toml`."""

from turbomath.lab.faults.next_test import TESTS
from turbomath.table import prose
from turbomath.table.quantities import QUANTITIES

_FILE = prose.read(__file__, "job.toml")


def _table(name):
    table = _FILE.table(name)
    return {one: table.raw(one) for one in table.names()}


def _prices():
    table = _FILE.table("minutes")
    return {one: int(str(table.value(one, int))) for one in table.names()}


EARLIER = _FILE.raw("earlier")
RUNS, SUSPECTS, BECAUSE, WORDS, HEADS = map(_table, ("runs", "suspects", "because", "words", "tables"))
PRICES = _prices()
_FILE.finished()

ANSWER = "answer"
OF_TEST = {f"test {turn}": test for turn, test in enumerate(TESTS)}
MINUTES = {**PRICES, **{key: test.minutes for key, test in OF_TEST.items()}, ANSWER: 0}


def name_of_item(key: str) -> str:
    """Return a reading or a test in words."""
    return OF_TEST[key].name if key in OF_TEST else QUANTITIES[key].plain_name
