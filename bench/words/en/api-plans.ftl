# Plans: asked for, looked at, in a calendar (api/plans.py, api/planner.py, api/plan_calendar.py).


## Cannot be planned

api-plans-title-refused = This cannot be planned
api-plans-fault-refused = This could not be planned. Ask again.
api-plans-nothing = Nothing to plan.
api-plans-name-one = Name a batch under runs, or a recipe under recipes.
api-plans-not-here = Some batches are not here.
api-plans-no-such-batch = No such batch. Leave it out.
api-plans-not-in-plan = That batch is not in this plan. Name it under runs.
api-plans-say-when = Say when it must be ready.
api-plans-past = That time has passed. Say a later one.
api-plans-too-far = A plan reaches { $count } days ahead at most. Ask nearer to the day.
api-plans-too-many = { $count } plans are in the making already. Ask again in { $length }. The bench goes on without.
api-plans-fault-stopped-server = The server stopped while this was planned. Ask again.
api-plans-fault-server = Something went wrong on the server while this was planned. Its log says what.
api-plans-no-calendar = No plan yet to write down. Ask for one: { $request }.

## How good a plan is

api-plans-none-yet = No plan yet.
api-plans-not-by-then = It can no longer be ready by then.
api-plans-begun = It has begun, and ends later.
api-plans-missed = { $count ->
    [one] One latest time is missed.
   *[other] { $count } latest times are missed.
}
api-plans-missed-proven = No order misses less.
api-plans-missed-found = Another order might miss less.
api-plans-order-latest-start = No order begins later and is ready in time.
api-plans-order-soonest = No order ends sooner.
api-plans-order-by-rule = By the plain rule: there may be a better order.
api-plans-order-best-found = Best found. There may be a better order.
api-plans-order-impossible = Not possible as it stands.
api-plans-order-unknown = No order was found that keeps every rule.
api-plans-cut-short = The search was stopped before its end.

## What one more of something would save

api-plans-saving-mould = One more set: { $name }.
api-plans-saving-extra-time = One hour more on { $at }, past { $closes }.
api-plans-saving-second-maker = A second maker.
api-plans-saves-length = Ends { $length } sooner.
api-plans-saves-sessions = { $count ->
    [one] Saves one session at the bench.
   *[other] Saves { $count } sessions at the bench.
}
api-plans-saves-nothing = Changes nothing.
api-plans-saves-unknown = No plan was found to compare.
api-plans-saves-as-found = As far as was found.

## In a calendar

api-plans-session = At the bench: { $names }
api-plans-ready = { $title }: ready
api-plans-ready-of = { $title }: ready ({ $name })

## A week from what is wanted

api-plans-week-busy = A week is being planned already. Ask again in { $length }.
api-plans-week-too-many-recipes = Ask for at most { $most } recipes at once.
api-plans-week-too-far = Ask for at most { $count } days ahead.
api-plans-week-no-recipe = There is no such recipe here. Choose one from the list.
api-plans-week-not-offered = This plan is offered no more. Read the week again.
