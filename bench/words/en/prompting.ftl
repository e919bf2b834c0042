# What the bench says now (bench/prompting, frontend/bench/prompting).

## What can be answered at any step

prompting-done = Done
prompting-done-and-judged = Done. { $right }
prompting-skip-step = Skip this step
prompting-skip-weighing = Skip the whole step
prompting-skip-says = The record will show “{ $title }” as skipped.
prompting-ends-batch = The batch ends with it.
prompting-finish-title = Finish the batch
prompting-finish-label = Finish
prompting-finish-says = Everything on the sheet is done.
prompting-finish-skipped = Skipped: { $titles }. Was that meant?

## Why now, and what comes next

prompting-finish-first = Finish “{ $title }” first. After this, the next part can't wait.
prompting-finish-two-first = Finish “{ $title }” and “{ $other }” first. After this, the next part can't wait.
prompting-past-its-time = Past the latest. { $rescue }
prompting-stay-with-this = Stay with this. { $stake }
prompting-second-next = Leave it on the scale: somebody else looks next.
prompting-second-unweighed = Somebody else looks next.
prompting-second-no = One is wrong
prompting-second-went-in = went in
prompting-second-shows = went in: the scale reads { $reads }
prompting-second-who = Say who looked
prompting-judge-next = You judge it next. Right: { $right }
prompting-then = Then:

## Weighing: title, number, where it stands

prompting-add = { $name }: add { $amount }
prompting-top-up = { $name }: top up { $amount }
prompting-then-into = Then into { $vessel }.
prompting-zero-with = { $scale }. { $vessel } on, then zero.
prompting-zero-empty = { $scale }. Empty bowl on, then zero.
# By how it is weighed, or how it is judged where no scale shows it.
prompting-caption-running = stop here
prompting-caption-tare = zero the scale, then add
prompting-caption-cup = zero a small cup, then weigh
prompting-caption-spoons = levelled off
prompting-caption-by-spoon = by spoon
prompting-caption-by-eye = judged by eye
prompting-to-texture = as needed
# unit: drops or pieces.
prompting-counted = { $unit ->
    [drops] { $count ->
        [one] { $count } drop
       *[other] { $count } drops
    }
   *[pieces] { $count ->
        [one] { $count } piece
       *[other] { $count } pieces
    }
}

## Weighing: answers

prompting-reads = It reads { $reading }
prompting-reads-else = It reads something else
prompting-leave-out = Leave it out
prompting-scale-reset = Scale reset to 0
prompting-scale-reset-says = Starts again from 0. { $held } is already in.
prompting-added = Added
prompting-is-in = It is in
prompting-other-scale = Weigh the rest on { $scale }
prompting-other-vessel = I took { $vessel }

## Too little for any scale

prompting-too-little-for-scale = { $mass } is too little for { $scale }.
prompting-shows-from = From { $pieces } { $many } on it shows.
prompting-dilute = Or stir { $some } into { $into } of { $name }: { $take } of that holds { $mass }.

## Off target

prompting-in-and-target = { $held } in. Target { $target }.
prompting-too-much = { $name }: { $mass } too much
prompting-too-much-caption = too much
prompting-too-little = { $name }: { $mass } too little
prompting-take-out = Take { $mass } out
prompting-leave = Leave it
prompting-share-becomes = { $name }: { $share } of { $part }; recipe { $was }.
prompting-share-stays = { $name } stays { $share } of { $part }.
prompting-past-limit = { $ofPart } of { $part }, { $ofPiece } of the piece: its papers allow { $limit }.
prompting-entered-twice = Entered on two phones
prompting-entered-twice-says = Counts it once. The second entry is undone.

## The rest to match

prompting-match-up = Scale up the rest, × { $factor }
prompting-match-down = None left: scale down, × { $factor }
prompting-match-rest = Make less of the rest, × { $factor }
prompting-part-becomes = { $part } becomes { $mass }
prompting-part-becomes-enough = { $part } becomes { $mass }, enough for { $pieces }
prompting-top-up-lines = top up: { $lines }
prompting-top-up-line = { $name } { $mass }
prompting-share-moves = { $name } { $share } of it instead of { $was }
prompting-need-more = you need { $more } more of the rest

## Melting

# word: burst in a microwave, else heat.
prompting-heat-next = { $word ->
    [burst] burst { $number }, { $heater }
   *[heat] heat { $number }, { $heater }
}
prompting-heat-runs = { $word ->
    [burst] burst { $number }, then stir and check
   *[heat] heat { $number }, then stir and check
}
prompting-rest-then = rest, then { $length } more
prompting-stir-resting = Stir while it rests.
prompting-right = Right: { $right }
prompting-stir-look = Stir well and check: { $right }
prompting-stir-rest-look = Stir well, rest { $rest }, then check: { $right }
prompting-no-further = No further than { $warmth }.
prompting-bursts = { $count ->
    [one] { $count } burst
   *[other] { $count } bursts
}
prompting-heat-usual = Usually { $usual }.
prompting-heat-past-usual = Past the usual { $usual }: heat gently.
prompting-heat-begin = Begin { $length }
prompting-melted = It's melted
prompting-not-yet-rest = Not yet: rest { $length }
prompting-not-yet-more = Not yet: { $length } more

## Dividing a mix

prompting-rest-stays = The rest, { $mass }, stays as { $name }.
prompting-weigh-out-for = weigh out for { $name }

## Doing and judging

prompting-at-least = at the least
prompting-about = about
prompting-time-it = Time it: { $length }
prompting-not-yet = Not yet
prompting-not-yet-way = Not yet: { $way }
prompting-too-far = Too far
prompting-judge-again = then judge again
prompting-tried = { $times ->
    [1] Tried once.
   *[other] Tried { $times } times.
}

## Counting pieces. verb: what the recipe calls it, "pressed".

prompting-of-wanted = of { $wanted } { $verb }
prompting-made-one = One { $verb }
prompting-way-made-one = One { $verb }: { $way }
prompting-made-all = { $count ->
    [1] One { $verb }
   *[other] All { $count } { $verb }
}
prompting-way-made-all = { $count ->
    [1] One { $verb }: { $way }
   *[other] All { $count } { $verb }: { $way }
}
prompting-several-made = Several { $verb }
prompting-other-number = Some other number
prompting-dried = It has dried: spray and work in
prompting-sprayed-again = { $times ->
    [1] Sprayed again once.
   *[other] Sprayed again { $times } times.
}
prompting-small-piece = A small one
prompting-spoiled = One spoiled
prompting-none-left = None left: stop here
prompting-left-makes = { $pieces ->
    [one] { $mass } left: { $pieces } more piece.
   *[other] { $mass } left: { $pieces } more pieces.
}
prompting-from-portion = { $pieces ->
    [one] From { $name }: { $pieces } more piece in it.
   *[other] From { $name }: { $pieces } more pieces in it.
}
prompting-join-left = Join what is left: { $parts }. Makes { $pieces } more.
prompting-join-part = { $name } { $mass }
prompting-left-too-little = { $mass } left: too little for a { $piece } piece.

## Waiting. word: what the recipe calls the end of the wait, "dry"; heading: the same with a capital.

prompting-is-it-over = { $heading } yet?
prompting-over = It's { $word }
prompting-over-already = It's { $word } already
prompting-look-again = Not yet: check again in { $length }
prompting-before-earliest = { $length } before the earliest. Is it really { $word }?
prompting-really-over = Is it really { $word }?
prompting-over-first = “{ $title }” was over first.
prompting-may-be-over = may be { $word }: check
prompting-should-be-over = should be { $word }
prompting-soon-late = do not leave it much longer
prompting-late = past the latest time
prompting-metal = { $vessel } is metal. Tip it into glass before the microwave.
prompting-metal-ask = { $vessel } is metal, and sparks in a microwave. Start all the same?
prompting-burn-short = Burned? Cool tap water, 20 min.
prompting-burn-cool = At once, under the tap. It still helps within 3 hours. Rings and loose clothing off. No ice, no cream.
prompting-burn-cover = Then cling film, laid on and not wound. Keep the rest of you warm.
prompting-burn-call = Large, deep, in the face, or a child: call for help. What your local emergency service says goes first.
prompting-burn-source = From: British Burn Association, 2018. “No ice, no cream” is second-hand.
prompting-air-first = Read the room’s air first.
prompting-air = Note the air
prompting-damp = { $humidity } % humidity, and { $most } % is where a fizz spoils. Weigh all the same?
prompting-damp-now = { $humidity } % humidity: a fizz spoils from { $most } % on. Wait for drier air.
prompting-prove = { $weight } test weight on { $scale }
prompting-scale-off = { $scale } read { $reads } for { $weight }. Set it right first.

## The pH

prompting-ph-wanted = { $bounds ->
    [least] pH { $least } or more
    [most] pH { $most } or less
   *[both] pH { $least } to { $most }
}
prompting-ph = { $answer ->
    [yes] { $wanted }: it is
   *[no] { $wanted }: it is not
}
prompting-ph-says = Write what you read.
prompting-ph-first = Read the pH now: { $wanted } is wanted.
