# How the studio stands, and what is asked of its runs and recipes (api/clock.py, health.py, live.py, runs.py …).


## Its clock

api-studio-clock-old = The server's clock says { $at }, before this version was made ({ $made }). Set it.
api-studio-clock-behind = The server's clock says { $at }, but it said { $before } before. It is behind now, or was ahead then. Set it.

## Whether it is well

api-studio-moved = The studio has moved to another place.
api-studio-no-database = No connection to the database.
api-studio-disk-full = The disk is full.
api-studio-lines-full = Enough lines are held. Ask now and then instead.

## Settings

api-studio-no-currency = This is no currency of ISO 4217, such as EUR, GBP or USD.
api-studio-currency-wanted = Say which currency the studio uses: { $request }.
api-studio-setting-choice = { $name }: { $value } is none of { $choices }.
api-studio-setting-whole = { $name } is { $value }. It must be a whole number.

## Batches and recipes

api-studio-other-text = Another text of this version is here already. Save this one as a recipe of its own.
api-studio-version-missing = The version before this one is missing. Import the file that has it first.
api-studio-other-batch = This id belongs to a batch of another recipe, size or kit. Use a new id.
api-studio-other-sheet = The server makes another sheet of this than the asker did. Reload the page and read the recipe again. Then begin the batch again.
api-studio-no-parquet = This server writes no Parquet. Install { $extra }, or ask for { $csv }.
api-studio-no-variant = That is no variant of this recipe. Read its trials again.
api-studio-after = That batch is not in this list. Ask for the first page.
