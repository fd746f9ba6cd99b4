"""Two stacks of lying bars beside each other, for more groups than one stack has room for."""

from collections.abc import Sequence
from dataclasses import replace

from turbomath.pictures.lying_bars import LABELS, Group, LyingBars, picture_lying_bars

APART, WIDE = 0.52, 0.48  # from one stack to the other, and the width of one; shares of the whole
NAMES = 0.36  # of a stack, for the names before its bars: words do not shrink with it


def picture_bars_side_by_side(title: str, left: Sequence[Group], right: Sequence[Group]) -> LyingBars:
    """Return the picture of two stacks of groups of bars; units stand in the headings, so that numbers stay short."""
    stacks = [
        _narrow(picture_lying_bars(title, [_unit_above(group) for group in groups]), turn * APART)
        for turn, groups in enumerate((left, right))
    ]
    return replace(
        max(stacks, key=lambda stack: stack.height),
        series=sum((stack.series for stack in stacks), ()),
        texts=sum((stack.texts for stack in stacks), ()),
        facts=sum((stack.facts for stack in stacks), ()),
    )


def _unit_above(group):
    """Return a group whose heading holds its unit."""
    heading = group.heading if group.unit == "-" else f"{group.heading} [{group.unit}]"
    return replace(group, heading=heading, unit="")


def _narrow(stack, left):
    """Return a stack made narrower, with its left edge at *left*."""

    def across(x):
        return left + WIDE * (x if x < LABELS else NAMES + (x - LABELS) * (1 - NAMES) / (1 - LABELS))

    series = tuple(replace(one, x=tuple(map(across, one.x))) for one in stack.series)
    return replace(stack, series=series, texts=tuple(replace(one, x=across(one.x)) for one in stack.texts))
