"""The recipe: a document as the maker wrote it, read into whole numbers.

`read_recipe` takes the written document (`RECIPE_SCHEMA` publishes its shape) and returns the
*measured* recipe: the same recipe with every amount, duration and share as a whole number, every
default filled in and every reference checked. What comes after (size, sheet, run) works on the
measured recipe only, so the phone never has to read an amount to make a sheet without a network.
"""

from bench.recipe.reading import read_recipe
from bench.states import ASSEMBLY

__all__ = ["ASSEMBLY", "read_recipe"]
