"""The one place where the tests learn which lessons there are."""

from pathlib import Path

from turbomath.disk import files
from turbomath.panels import registry


def lessons() -> dict[str, Path]:
    """Return name -> the shipped notebook of each lesson, lowest number first."""
    return {one.notebook: files.shipped("lessons") / f"{one.notebook}.ipynb" for one in registry.LESSONS}
