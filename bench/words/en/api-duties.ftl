# What was said of the duties of selling (api/duties.py).

api-duties-about = Some duties are of the whole studio, some of a recipe. Name the recipe in “about”, or nothing.
api-duties-unknown = There is no such duty. /api/v1/recipes/…/duties lists them.
api-duties-another = Something else was said under this id. Use a new one.
