"""Questions to choose in cannot be passed by a cheap rule: not by length, not by place, not by a name or a word."""

import functools

import pytest

from turbomath.homework.asking import variants
from turbomath.homework.bank import SUBJECTS, before_and_after

SEATS, MORE_THAN_CHANCE = 1_200, 0.05
WORDS = ("neither", "both", "Ana", "Ben", "manifold", "compressor outlet", "air filter plugged", "fuel", "core")


def at(options, key):
    """The place of the option that a rule prefers, the first among equals."""
    values = [key(one.words) for one in options]
    return values.index(max(values))


RULES = {
    "the longest": lambda options: at(options, len),
    "the shortest": lambda options: at(options, lambda words: -len(words)),
    "the first": lambda options: 0,
    "the last": lambda options: len(options) - 1,
    **{f"the one with {word}": lambda options, word=word: at(options, lambda words: word in words) for word in WORDS},
}


@functools.cache
def whole(question):
    return variants.make_all(question, secret="s", assignment="rules", seats=[f"s{n}" for n in range(SEATS)])


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("question", [one.name for one in (*SUBJECTS["choices"], *before_and_after.QUESTIONS)])
def test_no_cheap_rule_does_better_than_chance(question, rule):
    made = whole(question)
    right = sum(not one.asked[RULES[rule](one.asked)].code for one in made) / SEATS
    chance = sum(1 / len(one.asked) for one in made) / SEATS
    assert right <= chance + MORE_THAN_CHANCE, (rule, right)
