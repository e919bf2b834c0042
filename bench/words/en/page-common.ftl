# What several pages say.

page-common-back = Back
page-common-save = Save
page-common-home = Recipes and batches
page-common-undo = Undo
page-common-redo = Redo
page-common-no-connection = No connection.
page-common-not-saved = Not saved
page-common-print = Print
page-common-settings = Settings
page-common-reason = Reason (optional)
