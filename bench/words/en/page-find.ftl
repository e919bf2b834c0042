# The search over all (frontend/parts/find-all.js).

page-find-batch = Batches
page-find-recipe = Recipes
page-find-ingredient = Ingredients
page-find-lot = Lots
page-find-note = Notes
page-find-more = Show more
page-find-nothing = Nothing found on this phone or the server. Try part of a word.
page-find-here = No connection. Looked on this phone only.
page-find-version = Version { $version }
page-find-archived = archived
page-find-on-shelf = on the shelf
