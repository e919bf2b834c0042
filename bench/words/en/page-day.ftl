# The day (frontend/screens/day.js, frontend/parts/day-ahead.js, day-picture.js, hours-form.js). when: a clock time, with its day where that is another.

## What is next

page-day-title = The day
page-day-next = Next
page-day-nothing-left = No hand work left
page-day-bench-opens = The bench opens { $when }
page-day-hands-free = Hands are free until { $when }
page-day-rest = Start nothing else: { $step } begins { $when }.
page-day-follow = Follow the timers
page-day-to-bench = To the bench
page-day-done = All is done { $when }.
page-day-stretch = { $from } to { $until }

page-day-this-batch = this batch
page-day-first = First { $step }.

## What is late, and what would be

# length: how late at the least.
page-day-late = { $length } late: { $step }.
page-day-least-bad = { $length } late for { $step } in any order. This one is best.
page-day-slow-hands = With slow hands, { $step } starts { $length } late. Make fewer pieces, or ask for a second pair of hands.
page-day-stay = Stay { $length } past { $at }: this does not keep.
page-day-order-changed = The planned step would now break a time limit, or end the day later.
page-day-no-hours = No bench hours left. Set some under “Bench hours”.
page-day-begin-later = Start at { $when }.
page-day-begin-later-of = Start { $name } at { $when }.
page-day-leave = Leave { $step } for now: you finish sooner.
page-day-past-hours = { $step } would end after { $when }.
page-day-no-room = { $step } now leaves no room for the rest.
page-day-too-late = { $step } now, and { $next } could start { $length } too late.
page-day-next-start = Next start { $when }.

## To be ready by some time. name: of the batch where there are several.

page-day-due-not = Not ready by { $when }.
page-day-due-not-of = { $name }: not ready by { $when }.
page-day-due-still = Can still be ready by { $when }.
page-day-due-still-of = { $name } can still be ready by { $when }.
page-day-due-begin = Ready by { $when }: start { $begins }.
page-day-due-begin-of = { $name } ready by { $when }: start { $begins }.
page-day-ready-by = Ready by
page-day-which-batch = Which batch
page-day-day-and-time = Day and time
page-day-as-late = Start as late as possible
page-day-as-soon = Finish as soon as possible

## If you stop

page-day-stop = If you stop
page-day-stop-no-hours = Stop until { $when }: you won't finish in your bench hours.
page-day-stop-later = Stop until { $when }: { $length } later, done { $finish }.
page-day-stop-same = Stop until { $when }: still done { $finish }.

## The plan

page-day-age-none = Quick order from this phone. No full plan yet.
page-day-age-now = Planned just now.
page-day-age = Planned { $length } ago.
page-day-age-offline = No connection. The plan is { $length } old.
page-day-age-behind = This phone adds what happened since.

# aim: what a better plan would have.
page-day-looking = { $aim ->
    [finish] Looking for a sooner end…
    [start] Looking for a later start…
    [sessions] Looking for fewer sessions…
    [span] Looking for shorter sessions…
    [changes] Looking for fewer changes of part…
   *[other] Looking for a better order…
}
page-day-looking-ends = Follow the best so far. It stops within { $seconds } s.
page-day-looking-stop = Stop looking
page-day-calendar = Add to the phone's calendar
page-day-in-plan = Batches in this plan
page-day-touched = { $name } was last touched { $when }. Is it in this plan?
page-day-take-in = Plan it
page-day-leave-out = Leave it out
page-day-sessions = Sessions at the bench
page-day-session-step = { $at }  { $letter }  { $title }
page-day-session-step-of = { $at }  { $letter }  { $title }, { $name }
page-day-session-steps = { $count ->
    [one] { $count } step
   *[other] { $count } steps
}
page-day-save-time = What would save time
page-day-work-out = Work it out

## A batch that is not begun

page-day-time-no-hours = { $length } of hand work. You won't finish in your bench hours.
page-day-time-done = { $length } until done, { $when }.
page-day-time-hands = { $length } of hand work.

# count: of other batches on the bench.
page-day-time-by-server = { $count ->
    [0] Planned by the server.
    [one] Planned by the server, beside the batch on the bench.
   *[other] Planned by the server, beside the { $count } batches on the bench.
}
page-day-time-by-phone = { $count ->
    [0] Quick order from this phone.
    [one] Quick order from this phone, beside the batch on the bench.
   *[other] Quick order from this phone, beside the { $count } batches on the bench.
}

## The picture

page-day-picture = The day as a picture. Plus and minus zoom, the arrows move along.
page-day-show-more = Show more of the day
page-day-show-larger = Show it larger
page-day-to-now = Now
page-day-now = now
page-day-left = { $hands ->
    [one] { $hands } step by hand left.
   *[other] { $hands } steps by hand left.
}
page-day-waits-left = { $count ->
    [one] { $count } wait left.
   *[other] { $count } waits left.
}
page-day-next-is = Next: { $letter }, { $title }.
page-day-ends-in = It ends in { $length }.

## Bench hours

page-day-hours = Bench hours
page-day-hours-pair = { $opens } to { $closes }
page-day-closed = closed
page-day-maker = Maker
page-day-second-maker = Second maker
page-day-whose-hands = Whose hands
page-day-each-day = Each day
page-day-other-days = Other hours on some days
page-day-other-day = closed
page-day-hours-save = Save hours
page-day-hours-makers = Only a maker can change them.
page-day-hours-offline = No connection. Change them once there is one.
page-day-hours-away = No connection. You can save once there is one.
page-day-hours-zone = By the clock of { $zone }. This phone's is another.
page-day-one-pair = One pair of hands again
page-day-second-pair = Add a second pair of hands
