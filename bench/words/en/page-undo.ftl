# What an entry did, for the buttons that undo it and do it again (frontend/parts/undo-words.js).

page-undo-undo = Undo: { $deed }
page-undo-undo-short = Undo
page-undo-undone = Undone: { $deed }.
page-undo-redo = Redo: { $deed }
page-undo-redo-short = Redo
page-undo-redone = Done again: { $deed }.

## The deeds, by kind of entry

page-undo-lot = lot { $number }
page-undo-line = line
page-undo-step = step
page-undo-taken-out = { $name }, { $mass } taken out
page-undo-left = { $name } left as it is
page-undo-left-out = { $name } left out
page-undo-scaled = { $way ->
    [down] scale down
   *[up] scale up
}
page-undo-scale-reset = scale reset
page-undo-weighing = { $weigh ->
    [tare] zero before each
   *[running] running total
}
page-undo-chose = choice, { $title }
page-undo-skipped = skipped, { $title }
page-undo-began = started, { $title }
page-undo-heated = heating { $length }, { $title }
page-undo-checked = check, { $title }
page-undo-portion = portion { $mass }
page-undo-good = { $count } good
page-undo-count = count
page-undo-more = { $length } more
page-undo-weighed = weighed { $mass }
page-undo-photo = photo
page-undo-kept = { $count } kept back
page-undo-paper = paper “{ $text }”
page-undo-worked = hand work { $length }
page-undo-note = note “{ $text }”
page-undo-finish = finish
page-undo-card = card of { $name }
page-undo-corrected = correction to { $amount }
page-undo-wrote-off = write-off of { $amount }
page-undo-entry = entry
page-undo-air = the room’s air
page-undo-proof = test weight
page-undo-mended = mending of the lot
page-undo-pieces = { $way ->
    [sold] { $count } sold
    [given] { $count } given away
    [returned] { $count } back
    [binned] { $count } thrown away
    [shelved] { $count } as a lot
   *[sampled] { $count } put aside
}
page-undo-ordered = order of { $amount }
page-undo-arrived = arrival
page-undo-quoted = price
page-undo-scale = other scale
page-undo-vessel = other vessel
page-undo-place = place “{ $text }”
page-undo-complaint = complaint
