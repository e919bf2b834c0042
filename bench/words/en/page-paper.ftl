# A recipe, or a sheet, on paper (frontend/screens/card.js, frontend/parts/paper-leaf.js, paper-plan.js).

## Ways to hand it on

page-paper-title = On paper
page-paper-needs-kit = A sheet needs the kit: which scales, which bowls.
page-paper-set-kit = Set up the kit
page-paper-pieces = Pieces
page-paper-sheet-for = Sheet for so many
page-paper-as-written = The card as written
page-paper-save-file = Save as a file
page-paper-versions = Versions
page-paper-make = Make it
page-paper-only-here = To share a link or code, open this page by its network address.
page-paper-copied = The link is copied.
page-paper-share-link = Share the link
page-paper-copy-link = Copy the link
page-paper-code = QR code of this recipe's address

## The sheet's head and foot

page-paper-batch = Batch
page-paper-date = Date
page-paper-made-by = Made by
page-paper-end = At the end
page-paper-good = Good
page-paper-small = Small pieces
page-paper-spoiled = Spoiled
page-paper-finished = Finished
page-paper-notes = Notes
page-paper-fetch = To fetch, for the whole batch
page-paper-in-all = in all
page-paper-lot = lot
page-paper-ingredient = ingredient
page-paper-sheet-version = recipe version { $number }
page-paper-weigh-tare = zero the scale before each ingredient
page-paper-weigh-running = running total: do not zero between ingredients
page-paper-written-for = written for { $pieces }
page-paper-card-version = version { $number }

## Columns

page-paper-weigh = weigh
page-paper-scale-reads = scale reads
page-paper-weighed = weighed
page-paper-written = as written
page-paper-by-scale = { $unit ->
    [oz] in ounces
   *[g] in grams
}

## A part

page-paper-of-mass = { $count } of { $mass }
page-paper-of-them-spare = { $count } of them spare
page-paper-mass-in-all = { $mass } in all
page-paper-stays = { $mass } stays in the bowl
page-paper-each = { $mass } a piece
page-paper-spare = { $count } spare
page-paper-stays-behind = { $mass } stays behind
page-paper-lost = { $mass } lost on the way
page-paper-mould = { $shape } mould
page-paper-round = { $count ->
    [one] Round { $number }: { $count } piece, { $mass }
   *[other] Round { $number }: { $count } pieces, { $mass }
}
page-paper-loose = { $part }, not weighed in a step

## A step

page-paper-optional = May be left out.
page-paper-about = about { $length }
page-paper-within = Within { $length }.
page-paper-within-of = Within { $length } of { $steps }.
page-paper-quoted = “{ $title }”
page-paper-tools = To hand: { $tools }
page-paper-at-a-time = { $length } at a time:
page-paper-look-for = Look for:
page-paper-no-further = No further than { $warmth }.
page-paper-not-yet = Not yet:
page-paper-too-far = Too far:
page-paper-checked = Checked
page-paper-after-each = After each:
page-paper-to-make = { $count } to make
page-paper-made = made
page-paper-count-spoiled = spoiled
page-paper-latest = At the latest:
page-paper-began = began
page-paper-ended = ended
page-paper-wait = earliest { $earliest }, usual { $usual }
page-paper-wait-latest = earliest { $earliest }, usual { $usual }, latest { $latest }

## A line

page-paper-into = into { $vessel }
page-paper-cup-into = small cup, then into { $vessel }
page-paper-stays-in-bowl = stays in the bowl
page-paper-parts = { $count ->
    [one] { $count } part
   *[other] { $count } parts
}
page-paper-or = Or { $name }.
page-paper-again = { $count ->
    [one] caution { $numbers }
   *[other] cautions { $numbers }
}
