"""What lesson 10 says where an engine goes past a limit, or where the model is outside what it was fitted to."""

from collections.abc import Mapping
from typing import Any

from turbomath.engine import limits
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.paper.limits_told import outside_words, passed_by_each


def beyond(engines: Mapping[str, tuple[TurbochargedEngine, Any]], names: Mapping[str, str], system: str) -> str:
    """Return in words which limits the engines pass, and what is outside the fit; "" where nothing is.

    *engines* holds each engine and its balance, or None; *names* what each is called ("" where there is but one).
    """
    there = {name: one for name, one in engines.items() if one[1] is not None}
    passed = {_lead(names[name]): limits.passed(*one) for name, one in there.items()}
    far = {
        past.quantity: past
        for engine, found in there.values()
        for past in limits.outside(limits.tried(engine, "fuel_flow"), found)
    }
    return joined(passed_by_each(passed, system), outside_words(tuple(far.values()), system))


def joined(*sentences: str) -> str:
    """Return sentences one after the other, without those that say nothing."""
    return " ".join(filter(None, sentences))


def _lead(name):
    return f"{name.capitalize()}: " if name else ""
