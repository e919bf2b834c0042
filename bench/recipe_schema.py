"""The published JSON Schema (draft 2020-12) of a recipe as written, `bowlside-recipe/1`: written out from its shape."""

from bench.shapes.recipe import WrittenRecipe
from bench.shapes.schema import schema_of
from bench.shapes.units import JsonObject

RECIPE_SCHEMA: JsonObject = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "title": "Bowlside recipe",
    "description": "A recipe as its maker wrote it: components made apart, and the assembly that joins them.",
    **schema_of(WrittenRecipe),
}
