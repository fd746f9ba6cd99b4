"""Answers read and marked, up to the gradebook."""

from turbomath.homework.marking.marking import mark

__all__ = ["mark"]
