"""What the docstring of a formula says, part by part, in words for a reader who does not program."""

import functools
import inspect
import re
from collections.abc import Callable
from types import ModuleType

from turbomath.handbook.subjects import SUBJECTS

_HEAD = re.compile(r"^(\w+)\n-{3,}\n", re.MULTILINE)
_ENTRY = re.compile(r"^(\w+) : .*\n((?: {4}.*\n?)+)", re.MULTILINE)
_MARK = re.compile(r"`(?:[\w.]+\.)?(\w+)`")
_IN_WORDS = {"RangeWarning": "warning", "nan": "no value"}


def sections(function: Callable) -> dict[str, str]:
    """Return the title and the text of each section of a docstring; the first sentence is under "Summary"."""
    text = inspect.cleandoc(function.__doc__ or "")
    summary, _, rest = text.partition("\n")
    parts = _HEAD.split(rest)
    return {"Summary": summary, **dict(zip(parts[1::2], (part.strip("\n") for part in parts[2::2]), strict=True))}


def title(function: Callable) -> str:
    """Return the first sentence of a docstring without its unit and full stop."""
    return re.sub(r" \[[^\]]*\]", "", sections(function)["Summary"]).rstrip(".")


def notes(function: Callable) -> str:
    """Return the assumptions that a docstring states, as one paragraph."""
    return plain(sections(function).get("Notes", ""))


def parameters(function: Callable) -> dict[str, str]:
    """Return each parameter with what its docstring says it is, as part of a sentence."""
    return {
        name: within(plain(words)) for name, words in _ENTRY.findall(sections(function).get("Parameters", "") + "\n")
    }


def result(function: Callable) -> str:
    """Return what the docstring says of the result, as part of a sentence; its first sentence where it says no more."""
    return within(plain(sections(function).get("Returns", "").partition("\n")[2])) or within(title(function))


def within(sentence: str) -> str:
    """Return a sentence as it stands within another: a small letter at its start, no full stop."""
    starts_with_a_word = sentence[1:2].islower() or sentence[1:2] == " "
    return (sentence[:1].lower() + sentence[1:] if starts_with_a_word else sentence).rstrip(".")


def heading(module: ModuleType) -> tuple[str, str, str]:
    """Return the title of a subject, what it is about, and the rest: from the docstring of its module."""
    first, _, rest = inspect.cleandoc(module.__doc__ or "").partition("\n")
    return _name(module), plain(first.rstrip(".").partition(": ")[2]), plain(rest)


def _name(module: ModuleType) -> str:
    return (module.__doc__ or "").partition(":")[0]


def plain(text: str) -> str:
    """Return *text* on one line, with words in place of the names that only Python knows."""
    return _MARK.sub(lambda name: _words().get(name[1], name[1].replace("_", " ")), " ".join(text.split()))


@functools.cache
def _words() -> dict[str, str]:
    """Each name that a docstring may mention, in words: a subject by its title."""
    titles = {module.__name__.rpartition(".")[2]: f"“{_name(module)}”" for module in SUBJECTS}
    return {**titles, **_IN_WORDS}
