"""The nearest name to a wrong one."""

from collections.abc import Sequence


def did_you_mean(name: object, options: Sequence[str], most: int = 6) -> str:
    """Return the end of a refusal: "did you mean 'boost'?", or the first of the options where none is near."""
    from difflib import get_close_matches

    near = get_close_matches(str(name), options, 1)
    more = f" and {len(options) - most} others" if len(options) > most else ""
    return f"did you mean {near[0]!r}?" if near else f"there are {', '.join(options[:most])}{more}."
