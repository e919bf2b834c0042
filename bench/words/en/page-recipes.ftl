# Recipes and batches (frontend/screens/recipes.js).

page-recipes-title = Recipes
page-recipes-bench = On the bench
page-recipes-to-make = To make
page-recipes-write-new = Write a new recipe
page-recipes-bring = Bring in a recipe
page-recipes-all = All { $count } recipes
page-recipes-all-made = All { $count } batches made
page-recipes-find = Find anything: recipe, batch number, lot, ingredient, note
page-recipes-found = Found
page-recipes-tags = Tags
page-recipes-archived = { $count ->
    [one] { $count } archived recipe
   *[other] { $count } archived recipes
}
page-recipes-in-use = Back to recipes in use
page-recipes-made = Made
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
