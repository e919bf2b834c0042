# `bowlside backup`, `verify`, `restore`, `move`, `copies-key`.

cli-copies-copied = Copied { $rows }.
cli-copies-whole = Whole, made { $at }: { $rows }.
cli-copies-restored = Restored { $rows }.
cli-copies-moved = Moved { $rows }.
cli-copies-no-rows = nothing, for nothing is there
cli-copies-unreadable = This version cannot read:
cli-copies-replace = There is a studio here. Replace all of it?
cli-copies-kept = What was here is in { $file }.
cli-copies-pair-again = Devices have to be paired again: a copy holds no secrets.
cli-copies-back = The studio is here again. What was written at { $place } since is not here.
cli-copies-say-where = Say once where it is to go: a SQLite file, or a postgresql:// address.
cli-copies-serve-new = Serve the new place from now on. The old one saves nothing more.
cli-copies-passphrase = A passphrase for the file (empty: none)
cli-copies-again = Once more
cli-copies-passphrase-of = The passphrase of { $file }
cli-copies-keep-away = Keep { $file } away from this computer. No copy can be opened without it.
cli-copies-no-place = { $place } is neither a SQLite file that is there nor a postgresql:// address.

## How many of what


cli-copies-table-recipe = { $count ->
    [one] { $count } recipe
   *[other] { $count } recipes
}
cli-copies-table-recipe-version = { $count ->
    [one] { $count } recipe version
   *[other] { $count } recipe versions
}
cli-copies-table-kit = { $count ->
    [one] { $count } kit
   *[other] { $count } kits
}
cli-copies-table-run = { $count ->
    [one] { $count } batch
   *[other] { $count } batches
}
cli-copies-table-entry = { $count ->
    [one] { $count } entry
   *[other] { $count } entries
}
cli-copies-table-shelf-entry = { $count ->
    [one] { $count } shelf entry
   *[other] { $count } shelf entries
}
cli-copies-table-lot-use = { $count ->
    [one] { $count } use of a lot
   *[other] { $count } uses of lots
}
cli-copies-table-picture = { $count ->
    [one] { $count } picture
   *[other] { $count } pictures
}
cli-copies-table-studio-settings = { $count } settings
cli-copies-table-bench-hours = { $count } bench hours
cli-copies-table-plan = { $count ->
    [one] { $count } plan
   *[other] { $count } plans
}
cli-copies-table-planned-run = { $count ->
    [one] { $count } planned batch
   *[other] { $count } planned batches
}
cli-copies-table-device = { $count ->
    [one] { $count } device
   *[other] { $count } devices
}
cli-copies-table-bench-owner = { $count ->
    [one] { $count } bench name
   *[other] { $count } bench names
}
cli-copies-table-run-note = { $count ->
    [one] { $count } note
   *[other] { $count } notes
}
cli-copies-table-batch-pieces = { $count ->
    [one] { $count } batch of pieces
   *[other] { $count } batches of pieces
}
cli-copies-table-batch-figures = { $count ->
    [one] { $count } batch in figures
   *[other] { $count } batches in figures
}
cli-copies-table-outlet = { $count ->
    [one] { $count } outlet
   *[other] { $count } outlets
}
cli-copies-table-want = { $count ->
    [one] { $count } line of the order
   *[other] { $count } lines of the order
}
cli-copies-table-week-plan = { $count ->
    [one] { $count } plan of the week
   *[other] { $count } plans of the week
}
cli-copies-table-duty-mark = { $count ->
    [one] { $count } note of a duty
   *[other] { $count } notes of duties
}
