# Plans: why a step is now, why a day cannot be done, and what of it cannot be read (bench/planning, frontend/bench/tasks.js).

# A step by its title; name: its batch, where several are planned.
planning-step = “{ $title }”
planning-step-of = “{ $title }” of { $name }

## Why a step is now

planning-why-window = Start within { $length } of { $step }.
planning-why-starts-wait = Starts { $step } ({ $length }).
planning-why-starts-last-wait = Starts { $step } ({ $length }), which sets your finish.
planning-why-frees = Empties “{ $vessel }” for { $step }.
planning-why-frees-moulds = Empties the { $shape } moulds for { $step }.
planning-why-opens = After it, { $step } has { $length }. There is room for that now.
planning-why-late-last = Delay this and you finish later.
planning-why-meanwhile = Hands are free during { $step }.
planning-why-next = It is next in its part.

## Why a day cannot be done

planning-circle = These steps wait for each other in a circle: { $steps }.
planning-circle-after = { $steps } after { $step }
planning-too-long = { $step } takes { $length }. No bench hours are longer than { $longest }.
planning-only-later = Not ready by then: at the earliest { $length } later.
planning-only-later-at = Not ready by then. Earliest: { $day } { $at }, { $length } later.
planning-no-hours = No bench hours left for { $step }. Give more, or plan further ahead.
planning-no-hours-last = No bench hours left for the last step. Give more, or plan further ahead.
planning-rule = { $step } must start within { $length } of { $before }.
planning-not-fitting = What is left does not fit.
planning-hours-end = { $day }: bench hours end at { $at }.
planning-not-possible = Not possible with these hands, hours and moulds.
planning-change = { $count ->
    [one] This would do:
   *[other] Any one of these would do:
}
planning-change-late = Let { $steps }.
planning-change-late-by = { $step } start { $length } late
planning-change-start-by = Start by { $at }.
planning-change-start-earlier = Start { $length } earlier.
planning-change-hours = Add { $length } to the bench hours.
planning-due-past = That time has passed.
planning-due-unfound = No order was found that is ready in time.

## Bench hours as they are written

planning-hours-reach = A plan reaches { $count } days ahead at most.
planning-hours-day = A day is one of { $days }.
planning-hours-zone = Bench hours need a time zone by its name, such as “Europe/London”.
planning-hours-list = Bench hours are a list of pairs, such as [[“9:00”, “12:30”]].
planning-hours-pair = { $opens } to { $closes }
planning-hours-overlap = { $hours } overlaps { $other }. Make them one.
planning-hours-two = Bench hours have a beginning and an end.
planning-hours-backwards = { $hours } ends before it begins. Past midnight, write two: to 24:00, and from 0:00 on the next day.
planning-hours-clock = “{ $written }” is not a time of day from 0:00 to 24:00. Write it as 19:30.
planning-hours-date = A date is written as 2026-11-28.

## What cannot be planned

planning-over-a-year = “{ $title }” takes more than a year. Plan what comes before it.
planning-not-within = “{ $title }” takes { $length }, but must be done within { $most }. Make fewer pieces at a time, or give it more time.
planning-too-many-steps = A plan takes { $most } steps at most. These are { $count }. Plan fewer batches at once.
planning-same-id = Two steps have one id. Give each batch its own name.
planning-no-maker = A plan needs a maker. Say whose hands they are, and their bench hours.
planning-past = That time has passed. Give a later one.
planning-not-in-kit = The kit has no “{ $key }”.
planning-hold = A hold is of something in the kit, from one step until another.
planning-stretch-backwards = These bench hours end before they begin.
planning-stretch-overlap = These bench hours overlap those before.
planning-no-stretch = No bench hours left in the time to be planned. Give some, or plan further ahead.
planning-no-step = There is no step “{ $key }”.
planning-gap-from = A gap is counted from the end of a step. Name one.
planning-gap-over-a-year = That wait is longer than a year. Plan what comes before it.
planning-gap-backwards = The latest comes before the earliest. Turn them round.
planning-aim = A plan aims at { $aims }.
planning-say-when = Say when it must be ready.
planning-makers = A bench has from 1 to { $most } makers.
planning-until-backwards = The time to plan ends before it begins.
