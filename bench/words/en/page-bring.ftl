# A recipe from a file or from pasted text (frontend/screens/bring.js).

page-bring-lead = Nothing is saved until you have seen its check and say so.
page-bring-file = A recipe file
page-bring-text = The recipe as text
page-bring-text-hint = or paste its JSON here
page-bring-check = Check it

## What cannot be brought in

page-bring-large-file = { $name } is larger than 4 MB. No recipe is. Pick the recipe’s own file.
page-bring-large-text = This is more than 4 MB. No recipe is. Paste the recipe alone.
page-bring-unread-file = { $name } could not be read. Pick it again.
page-bring-empty = Nothing here yet. Pick a recipe’s file, or paste what is in it.
page-bring-not-json = { $how ->
    [no-text] This is not a recipe’s file: it is not text.
    [cut-off] This is not a recipe’s file: it breaks off.
    [line] This is not a recipe’s file: it cannot be read past line { $line }.
   *[other] This is not a recipe’s file: it is not JSON, the form recipes are shared in.
} Pick the file as it was saved, or paste all of it.
page-bring-no-recipe = This studio’s file holds no recipe.
page-bring-other-format = This is not a recipe of Bowlside’s. One says "format": "{ $format }" and holds one recipe.
page-bring-cannot = It cannot be read as it is
page-bring-mend = Put it right here

## What was found

page-bring-which = Which of these?
page-bring-checking = Checking…
page-bring-parts = { $names }. Written for { $count }.
page-bring-nothing-found = The check finds nothing.

## What may become of it

page-bring-save = Save recipe
page-bring-same = This recipe is here already, word for word.
page-bring-save-again = Save a second copy
page-bring-here-by-id = Its file names a recipe that is here already: { $name }, version { $version }. Which shall it be?
page-bring-here-by-name = A recipe of this name is here already, version { $version }. Which shall it be?
page-bring-as-version = Save as its new version
page-bring-as-own = Save as a recipe of its own
