"""Hypothesis without a stopwatch: the first example pays for imports, and CI machines differ."""

from hypothesis import settings

settings.register_profile("bench", deadline=None)
settings.load_profile("bench")
