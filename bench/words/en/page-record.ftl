# The batch record (frontend/screens/record.js, frontend/parts/record-parts.js, record-bars.js).

## Facts

page-record-title = Batch record
page-record-batch = Batch
page-record-no-number = no number
page-record-also-numbered = also numbered { $number }
page-record-caution = Caution
page-record-alike = { $count ->
    [one] Another batch has this number too: { $batches }
   *[other] { $count } other batches have this number too: { $batches }
}
page-record-planned = Planned
page-record-made = Made
page-record-small = { $count } small
page-record-spoiled = { $count } spoiled
page-record-good = { $count } good
page-record-weighed-in = Weighed in
page-record-weighed-in-of = { $mass }, planned { $planned }
page-record-began = Began
page-record-not-yet = not yet
page-record-finished = Finished
page-record-open = still open
page-record-took = Took
page-record-recipe = Recipe
page-record-version = version { $number }
page-record-signed = Signed
page-record-signed-missing = { $count ->
    [one] { $count } of the signed entries is not here yet
   *[other] { $count } of the signed entries are not here yet
}
page-record-unsigned = Signature undone
page-record-unsigned-by = { $name } had signed, { $signed }; undone { $at }

## Weights, and when each step was done

page-record-weights = Weights of { $part }
page-record-target = target
page-record-weighed = weighed
page-record-off = off
page-record-by-sheet = sheet { $mass }
page-record-round = round { $number }
page-record-in-round = round { $number }: { $title }
page-record-instead-of = instead of { $name }

# status: how a line that is not weighed went in.
page-record-status = { $status ->
    [in] in
    [by_hand] by hand
    [left_out] left out
   *[open] –
}
page-record-waited = { $off ->
    [early] after { $length }, earlier than written
    [late] after { $length }, later than written
   *[none] after { $length }
}
page-record-not-within = after { $length }, meant within { $most }

# word: burst in a microwave, else heat.
page-record-bursts = { $word ->
    [burst] { $count ->
        [one] { $count } burst, { $length } in all
       *[other] { $count } bursts, { $length } in all
    }
   *[heat] { $count ->
        [one] heated { $count } time, { $length } in all
       *[other] heated { $count } times, { $length } in all
    }
}
page-record-tries = { $count ->
    [one] after { $count } try
   *[other] after { $count } tries
}
page-record-too-much = { $mass } too much
page-record-too-little = { $mass } too little
page-record-on-target = on target
page-record-allowed = { $off }, { $mass } allowed

## What was checked, corrected, skipped

page-record-checks = Checks

# answer: yes, not_yet or too_far.
page-record-look = { $answer ->
    [yes] { $at } yes
    [not_yet] { $at } not yet
   *[too_far] { $at } too far
}
page-record-corrections = Corrections
page-record-taken-out = { $mass } taken out again
page-record-left = left as it was
page-record-left-off = left as it was, { $off }
page-record-left-out = left out
page-record-placed = from then on weighed on { $scale }
page-record-took-instead = instead used { $vessel }
page-record-scaled = { $way ->
    [up] the rest scaled up to match, × { $factor }
   *[down] the rest scaled down to match, × { $factor }
}
page-record-scaled-for = { $name } came to { $mass }, target { $planned }
page-record-skipped = Skipped
page-record-no-reason = no reason given
page-record-longer = Waited longer
page-record-longer-by = { $length } more, from { $at }
page-record-notes = Notes
page-record-unread = Not understood
page-record-unread-entries = { $count ->
    [one] { $count } entry of an unknown kind. Saved with the batch.
   *[other] { $count } entries of an unknown kind. Saved with the batch.
}

## Hand work

page-record-hands = Hand work
page-record-hands-told = { $length }, as entered.
page-record-hands-counted = { $length }, counted from the entries, breaks left out.
page-record-hands-correct = Correct it
page-record-hands-minutes = Minutes of hand work in all

## Photographs

page-record-pictures = Photographs
page-record-take-picture = Take a photograph
page-record-picture-of = Photograph, { $at }
page-record-picture-elsewhere = Taken on another device. See it with a connection.
page-record-picture-shows = What does it show?
page-record-picture-save = Save photograph
page-record-picture-caption = Caption (optional)

## Digest

page-record-digest = Digest
page-record-digest-signed = { $count ->
    [one] Of { $count } signed entry and the signature.
   *[other] Of { $count } signed entries and the signature.
}
page-record-digest-all = { $count ->
    [one] Of { $count } entry.
   *[other] Of all { $count } entries.
}
page-record-digest-changes = Change, add or remove one, and the digest changes.
page-record-digest-how = Anybody can check it from the JSON file. Take the entries listed in “sealed”, or all. Write each as JSON, keys sorted, no spaces. Sort them by id, end each with a line feed, take SHA-256. In a terminal:

## Signing, and what can be done here

page-record-sign-name = Signed off by
page-record-sign-name-needed = Write your name: it signs the record.
page-record-sign = Sign the record
page-record-sign-locks = Signing locks the record. You can add dated remarks.
page-record-refused-signing = Your signature was refused. { $why }
page-record-refused-undo = An undo was refused. { $why }
page-record-refused-do = Settings lets you send it again or set it aside.
page-record-to-bench = Back to the bench
page-record-remark-add = Add a remark
page-record-note-add = Write a note
page-record-weigh-piece = Weigh a finished piece
page-record-weigh-left = Weigh what was left
page-record-weigh-spoiled = Weigh what is spoiled
page-record-unsign = Undo the signature
page-record-unsign-says = The record opens again. It will say it was signed before.
page-record-signed-by = Signed by { $name }
page-record-label = Label
page-record-gathered = Gathered
page-record-remark = A remark
page-record-note = A note
page-record-remark-says = The record is signed. This is added below it, with its own time.

## Lots

page-record-lots = Lots
page-record-lots-used = Lots used
page-record-used = used
page-record-booked = booked
page-record-wrap = Wrap
page-record-lot = lot { $number }
page-record-over-booked = { $mass } more than was booked

## Waits

page-record-waits = Waits, planned and real
page-record-waits-picture = Above: planned, with its usual end. Below: what really passed.

# off: earlier or later than the recipe has it, or neither.
page-record-wait = { $off ->
    [early] { $title }: { $length }, earlier than written
    [late] { $title }: { $length }, later than written
   *[none] { $title }: { $length }
}
page-record-wait-open = { $title }: not ended
page-record-wait-planned = { $earliest } to { $latest } planned, usually { $usual }
page-record-wait-bar = { $word }: planned { $earliest } to { $latest }, usually { $usual }; really { $length }
page-record-wait-bar-open = { $word }: planned { $earliest } to { $latest }, usually { $usual }; not ended

## Mass balance

page-record-balance = Mass balance
page-record-mass = mass
page-record-went-in = Went in
page-record-in-good = { $weighed ->
    [0] In { $count } good pieces, by their planned weight
   *[other] In { $count } good pieces, { $weighed } of them weighed
}
page-record-in-spoiled = Spoiled
page-record-in-spares = In spare parts
page-record-in-bowl = Left in the bowl
page-record-lost = Lost or unexplained
page-record-lost-expected = Lost or unexplained ({ $mass } expected)
page-record-closes = Adds up to the scale's { $mass }.

## Cost

page-record-cost = Cost
page-record-cost-none = No lot has a price, and no currency is set. Settings has the currency, the hourly rate and the wrap.
page-record-cost-by-lot = Material by lot
page-record-cost-lot = lot { $number }, { $much }
page-record-cost-in = In { $currency }
page-record-cost-material = Material
page-record-cost-lost = of it lost on the way
page-record-cost-spoiled = of it spoiled
page-record-cost-hands = Hand work, { $length }
page-record-cost-batch = The batch
page-record-cost-part = { $what ->
    [sprays] What goes in unweighed
    [cleaning] Cleaning
    [labelling] Labelling
    [packaging] Packaging
   *[overhead] Overhead
}
page-record-cost-kept = of this, samples kept back
page-record-price = Price of one piece in { $currency }
page-record-price-each = Price, tax and all
page-record-price-tax = tax
page-record-price-fees = fees
page-record-price-cost = cost
page-record-price-margin = left over
page-record-cost-each = { $count ->
    [one] The { $count } good piece
   *[other] Each of { $count } good pieces
}
page-record-cost-no-rate = Hand work costs nothing here: set an hourly rate in Settings.
page-record-cost-unpriced = Not in these sums, for want of a price: { $names }.

## Yield, kit, people

page-record-yield = Yield over batches
page-record-yield-picture = Good pieces of { $count } batches of this recipe, oldest first. The line: planned. The darkest: this batch.
page-record-yield-bar = { $spoiled ->
    [0] { $name }: { $good } good of { $planned }
   *[other] { $name }: { $good } good of { $planned }, { $spoiled } spoiled
}
page-record-kit = Kit
page-record-kit-scale = up to { $most }, in steps of { $division }
page-record-kit-vessels = Vessels
page-record-kit-heat = Heat
page-record-device-this = this device with no name, …{ $end }
page-record-device-other = a device with no name, …{ $end }
page-record-who = Who
page-record-who-entries = { $count ->
    [one] { $count } entry, { $first }
   *[other] { $count } entries, { $first } to { $last }
}
page-record-level = { $percent } % left

## After signing, and received late

page-record-remarks = Remarks after signing
page-record-remark-at = Remark, { $at }
page-record-a-picture = a photograph
page-record-late = Received late

# how: sent or given back by somebody who is not the device's own name.
page-record-late-entry = { $how ->
    [given] Entered { $at }, received { $received }, given back by { $sender }, { $device }.
    [sent] Entered { $at }, received { $received }, sent by { $sender }, { $device }.
   *[plain] Entered { $at }, received { $received }, { $device }.
}
page-record-late-more = And { $count } more. The CSV has all.

# kind: of an entry of the journal.
page-record-kind = { $kind ->
    [numbered] Number
    [gathered] Gathered
    [ticked] Ticked
    [weighed] Weighed
    [taken_out] Taken out
    [left] Left as it was
    [left_out] Left out
    [carried] Rest scaled
    [zeroed] Scale zeroed
    [placed] Other scale
    [took] Other vessel
    [switched] Way of weighing
    [chose] Choice
    [done] Done
    [skipped] Skipped
    [began] Started
    [heated] Heated
    [looked] Checked
    [portioned] Portion
    [counted] Counted
    [extended] Waited longer
    [measured] Weighed afterwards
    [aired] Room’s air
    [proved] Test weight
    [labelled] Labels counted
    [pictured] Photograph
    [worked] Hand work
    [noted] Note
    [kept] Samples kept
    [met] Good piece
    [judged] Judged
    [finished] Finished
    [signed] Signed
    [undone] Undone
   *[other] Another entry
}

## Judging: the batch, its deviations, what a good piece is

page-record-release = Release
page-record-kept = Samples kept back
page-record-keep-back = Keep samples back
page-record-kept-count = { $count } kept back
page-record-judge-batch = Judge the batch
page-record-judge-it = Judge
page-record-judge-of = Judge: { $name }
page-record-judge-name = Who judges
page-record-judge-why = Why
page-record-judge-name-needed = A name is missing. Write who judges.
page-record-judge-why-needed = A reason is missing. Write why.
page-record-judge-sign-first = Only a signed record is released. Sign it first.
page-record-judge-departs = { $count ->
    [one] 1 deviation is not accepted.
   *[other] { $count } deviations are not accepted.
}
page-record-judge-unsaid = { $count ->
    [one] 1 point of a good piece is not said.
   *[other] { $count } points of a good piece are not said.
}
page-record-judge = { $verdict ->
    [released] Release
    [held] Hold
    [rejected] Reject
    [accepted] Accept
   *[not_accepted] Do not accept
}
page-record-judged = { $verdict ->
    [released] Released by { $name }, { $at }
    [held] Held by { $name }, { $at }
    [rejected] Rejected by { $name }, { $at }
    [accepted] Accepted by { $name }, { $at }
   *[not_accepted] Not accepted by { $name }, { $at }
}
page-record-judged-none = not judged yet
page-record-judged-anew = Released { $at }, but not as it is signed now. Judge it again.
page-record-deviations = Deviations
page-record-deviation = { $kind ->
    [weight] off its target
    [left_out] left out
    [early] ended early
    [late] ended late
    [window] not in time
    [skipped] skipped
    [start] nobody said so
   *[criterion] not as the recipe wants it
}
page-record-met = { $answer ->
    [yes] Yes
   *[no] No
}
page-record-met-of = { $answer ->
    [yes] Yes: { $name }
   *[no] No: { $name }
}
page-record-found = { $answer ->
    [yes] { $at } yes
   *[no] { $at } no
}
page-record-met-what = What was measured or seen
page-record-not-said = nobody said
page-record-room = Room and scales
page-record-air = { $humidity } % humidity, { $warmth }
page-record-air-damp = { $humidity } % humidity, too damp for a fizz
page-record-air-plain = { $humidity } % humidity
page-record-labels = Labels
page-record-labels-told = { $market ->
    [us] US
    [eu] EU
   *[uk] UK
}: { $printed } printed, { $on } on pieces, { $binned } binned, { $left } left
page-record-proved = { $scale } read { $reads } for { $weight }
page-record-cost-ahead = Expected before: { $total }, { $each } a piece
