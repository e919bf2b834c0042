"""Hypothesis without a stopwatch: the first example pays for imports, and CI machines differ."""

from hypothesis import settings

settings.register_profile("bench", deadline=None)
# A mutant is tried by few examples, and each by the same ones.
settings.register_profile("mutants", deadline=None, derandomize=True, database=None, max_examples=20)
settings.load_profile("bench")
