"""What a panel works out for many places together is what it works out for each alone."""

import random

import numpy as np
import pytest

from turbomath.handouts.lesson_page import made
from turbomath.panels.registry import LESSONS
from turbomath.pocket import page, plan, record
from turbomath.table.errors import unwarned
from turbomath.widgets.cases import Cases

PLACES = 5
TOGETHER = (
    "panel_what_the_engine_gains",
    "panel_boost_in_time",
    "panel_same_manifold_pressure",
    "panel_same_pressure_ratio",
    "panel_closing_in",
    "panel_up_high",
    "panel_is_ideal_air_good_enough",
)
MADE = [(one, name) for one in LESSONS for name in page.panel_names(one) if name in TOGETHER]


def same(got, expected):
    """Hold numbers against each other to 1e-9, and all else as it is."""
    if isinstance(expected, dict):
        assert got.keys() == expected.keys()
        for name in expected:
            same(got[name], expected[name])
    elif isinstance(expected, list | tuple):
        assert len(got) == len(expected)
        for pair in zip(got, expected, strict=True):
            same(*pair)
    elif isinstance(expected, float | np.ndarray):
        np.testing.assert_allclose(got, expected, rtol=1e-9, atol=1e-9, equal_nan=True)
    elif hasattr(expected, "__dict__"):
        same(vars(got), vars(expected))
    else:
        assert got == expected


def test_every_panel_that_works_out_many_together_is_tried_here():
    panels = [(name, made(one, name).desk) for one in LESSONS for name in page.panel_names(one)]
    assert tuple(name for name, desk in panels if getattr(getattr(desk, "sheet", None), "together", None)) == TOGETHER


@pytest.mark.parametrize(("lesson", "name"), MADE, ids=TOGETHER)
def test_many_together_are_as_each_alone(lesson, name):
    desk = made(lesson, name).desk
    known = desk.sheet.together.__self__
    alone, together = (Cases(known._case, known._work) for _ in range(2))
    planned = plan.Plan(desk)
    rows = record.rows(desk, planned, random.Random(3).sample(planned.places(), PLACES))
    with unwarned():
        together.together(rows)
        assert len(together._known) > 1
        for one in rows:
            same(together(one), alone(one))
