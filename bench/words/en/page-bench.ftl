# The bench's screen: what it says beside what the bench says now (frontend/screens/bench.js and its parts).

page-bench-now = Now
page-bench-answers = Answers
page-bench-what-each = What each answer does
page-bench-whole-batch = The whole batch
page-bench-round = { $part }, round { $round } of { $rounds }
page-bench-whole-day = The whole day
page-bench-by-plan = Next by the plan: “{ $title }”
page-bench-gather = Gather first

## When there is nothing to do

page-bench-nothing = Nothing to do just now
page-bench-nothing-says = The countdowns above say what comes next.
page-bench-finished = This batch is finished
page-bench-finished-says = Its record is saved.
page-bench-see-record = See the record
page-bench-practised = That was practice
page-bench-practised-says = Nothing was saved. A real batch would now have its record.
page-bench-write = Write a recipe
page-bench-bring = Bring one in
page-bench-practise-again = Practise again

## What else can be done

page-bench-say-again = Say again
page-bench-other = Other
page-bench-others = Other ({ $count })
page-bench-something-else = Something else
page-bench-will-it-ring = Will it ring?
page-bench-note = Write a note
page-bench-note-says = Saved with the batch
page-bench-note-title = A note
page-bench-record = The record so far
page-bench-record-says = Take photos there too
page-bench-skip = Skip it

## How it is weighed from now on. By how: running or tare

page-bench-weigh-running = Keep a running total
page-bench-weigh-tare = Zero before each
page-bench-weighed-running = Each line is added up to a higher reading
page-bench-weighed-tare = Zero the scale, then add the line's own weight

## What the scale shows

page-bench-reading = { $name }: what does it read?
page-bench-piece = Weigh a piece: is it dry?
page-bench-piece-says = Weigh one now, and the same one an hour later
page-bench-piece-again = Piece { $number } again
page-bench-piece-weighed = It weighed { $mass }
page-bench-piece-which = Which piece?
page-bench-piece-other = Another piece
page-bench-piece-weigh-again = Piece { $number } on { $scale }, { $before } before: what does it weigh?
page-bench-piece-weigh = Piece { $number } on { $scale }: what does it weigh?

## Finishing before the end

page-bench-finish = Finish here
page-bench-finish-says = Unfinished steps are recorded
page-bench-finish-title = Finish here?
page-bench-finish-undo = You can undo it
page-bench-undone = Not done yet: { $titles }.
page-bench-skipped = Skipped: { $titles }.
page-bench-steps-left = { $count ->
    [one] { $count } step is not done.
   *[other] { $count } steps are not done.
}

## Beneath the drawing

page-bench-mix = mix
page-bench-held = { $vessel }, { $held } of { $full }
page-bench-holds = { $vessel }: { $layers }.
page-bench-holds-nothing = { $vessel }: empty.
page-bench-next = Next: { $name } { $amount }.
page-bench-heated = { $word ->
    [burst] { $planned ->
        [one] { $given } of about { $planned } burst
       *[other] { $given } of about { $planned } bursts
    }
   *[heat] heated { $given } of about { $planned } times
}
page-bench-portions = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
page-bench-portion = { $state ->
    [next] { $name }: next
   *[empty] { $name }: empty
}
page-bench-made = { $good } of { $count } { $verb }
page-bench-small = { $count } small
page-bench-spoiled = { $count } spoiled
page-bench-checked = { $times ->
    [0] not checked yet
    [1] checked once
   *[other] checked { $times } times
}
page-bench-earliest = earliest

## What a countdown goes to

page-bench-until = { $what ->
    [check] until first check
    [usual] to the usual time
    [latest] to the latest
    [past-usual] past the usual time
    [past-latest] past the latest
    [stir] to go, then stir and rest
    [rest] of rest, then check
    [over] over: check
   *[end] to go
}
page-bench-phase = { $phase ->
    [counting] too early to check
    [look] may be ready: check
    [soon_late] nearly too late
    [late] late
   *[ready] ready
}

## Everything that counts

page-bench-countdowns = Countdowns
page-bench-all-counts = All that counts
page-bench-asks = { $phase ->
    [late] late
    [soon_late] soon late
    [ready] ready
    [look] check
   *[over] over
}
page-bench-more = +{ $count } more
page-bench-more-late = { $count } late
page-bench-humidity = Humidity of the room, in %
page-bench-warmth = Warmth of the room, in { -degrees }
