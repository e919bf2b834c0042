# The search over all (frontend/parts/find-all.js).

page-find-of-batch = Batches
page-find-of-recipe = Recipes
page-find-of-ingredient = Ingredients
page-find-of-lot = Lots
page-find-of-note = Notes
page-find-more = Show more
page-find-nothing = Nothing found on this phone or the server. Try part of a word.
page-find-here = No connection. Looked on this phone only.
page-find-version = Version { $version }
page-find-archived = archived
page-find-on-shelf = on the shelf
