"""Random tests draw the same cases on every machine, and no case fails for being slow."""

from hypothesis import settings

settings.register_profile("same everywhere", deadline=None, derandomize=True)
settings.load_profile("same everywhere")
