# What several pages say.

page-common-again = Try again
page-common-asking = Asking the server…
page-common-back = Back
page-common-home = Recipes and batches
page-common-no-connection = No connection.
page-common-not-saved = Not saved
page-common-print = Print
page-common-reason = Reason (optional)
page-common-redo = Redo
page-common-save = Save
page-common-settings = Settings
page-common-undo = Undo
page-common-part = part { $letter }
page-common-finished = finished { $at }
page-common-unfinished = not finished
page-common-release = { $verdict ->
    [released] released
    [held] held
   *[rejected] rejected
}
