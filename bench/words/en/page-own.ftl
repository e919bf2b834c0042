# A form that somebody else saved meanwhile (frontend/parts/own-draft.js).

page-own-elsewhere = Saved elsewhere: { $value }.
page-own-use-that = Use that
page-own-ticked = ticked
page-own-not-ticked = not ticked
page-own-empty = empty
