# Recipes and batches (frontend/screens/recipes.js).

page-recipes-title = Recipes
page-recipes-bench = On the bench
page-recipes-to-make = To make
page-recipes-write-new = Write a new recipe
page-recipes-bring = Bring in a recipe
page-recipes-find-recipe = Find a recipe by title, part or ingredient
page-recipes-no-recipe = No recipe has that. Try part of a word.
page-recipes-all = All { $count } recipes
page-recipes-made = Made
page-recipes-find = Find a batch by title or number
page-recipes-no-match = No match. Try part of the title or number.
page-recipes-more = { $count } more on the server. Add a word.
page-recipes-update = A newer page is ready.
page-recipes-update-use = Use it
page-recipes-copy-old = No new copy of the studio since { $at }.
page-recipes-copy-none = No copy of the studio yet.
page-recipes-copy-why = See why
page-recipes-waiting = Waiting
page-recipes-go-on = Go on
page-recipes-go-on-with = { $title }: { $now }. Go on
page-recipes-written-for = Written for { $pieces }
page-recipes-pieces = { $count ->
    [one] { $count } piece
   *[other] { $count } pieces
}
page-recipes-draft = Go on writing { $title }
page-recipes-draft-new = Go on writing a new recipe
page-recipes-draft-to-send = Saved on this phone; sends later.
page-recipes-draft-errors = Not saved as a version. Fix the marked field.
page-recipes-draft-changed = Someone changed this recipe meanwhile. Yours is saved here as a draft.
