# What several pages say.

## Buttons

page-common-back = Back
page-common-home = Recipes and batches

## What went wrong

page-common-no-connection = No connection.
page-common-not-saved = Not saved
