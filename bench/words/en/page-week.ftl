# The week: what is wanted by when, and the plan of it (frontend/screens/week.js, frontend/parts/week-*.js).

page-week-away = No connection. The week is planned on the server.
page-week-none = Nothing is wanted yet. Add a market, an order or a shelf.
page-week-add = Add what is wanted
page-week-wanted = Wanted
page-week-line = { $count } × { $title }
page-week-gone-recipe = a recipe that is not here
page-week-there = { $count } there
page-week-coming = { $count } on the bench
page-week-made = { $count } planned
page-week-short = { $count } missing
page-week-past = This time has passed. Met, moved or removed?
page-week-later = Planned later: too far off, or too much at once.
page-week-change = Change
page-week-met = Met
page-week-drop = Remove
page-week-of = { $does }: { $line }
page-week-is-met = Met. Enter what was sold under Pieces.
page-week-is-dropped = Removed.
page-week-put-back = Put back
page-week-send-again = Send again
page-week-saved = Saved.

## Asking for what is wanted

page-week-when = By
page-week-whom = For whom (optional)
page-week-nobody = Nobody in particular
page-week-note = Note (optional)
page-week-note-hint = Saturday’s market
page-week-pieces = Pieces
page-week-pieces-of = Pieces: { $title }
page-week-find = Find a recipe
page-week-change-of = Change: { $title }
page-week-need-when = Say by when.
page-week-need-later = That time has passed. Choose a later one.
page-week-need-pieces = Say how many, 1 to 10000, of at least one recipe.

## The plan

page-week-plan = The plan
page-week-planning = Planning. This takes up to 20 s.
page-week-again = Plan again
page-week-new = Something has changed. Here is a new plan:
page-week-take = Take the new plan
page-week-changed = Something has changed since this plan.
page-week-begin-at = Begin { $at }
page-week-begin-by = { $at } at the latest
page-week-too-late = The latest start has passed
page-week-ready = ready { $at }
page-week-likely = { $count } likely good
page-week-part-of = Made ahead for { $lines }
page-week-parts = Steps at the bench
page-week-sitting = { $at }, { $length }: { $name }
page-week-by = { $says }, { $maker }
page-week-ahead = { $says } (can be made ahead)
page-week-begin = Begin
page-week-begin-this = Begin { $line }
page-week-go-on = Go on
page-week-done = { $count } good pieces made
page-week-uncounted = Finished, pieces not counted
page-week-cannot = Cannot be made with this kit and hours: { $title }

## Where it cannot be

page-week-instead = Instead, all of this could be ready:
page-week-helps = What would help:
page-week-help = { $what ->
    [hours] { $short } missing with an hour more for { $name }, past { $at }
    [later] { $short } missing if { $name } may be a day later
    [equipment] { $short } missing with more of this: { $name }
   *[lot] { $short } missing with more of this: { $name }
}
page-week-no-help = No single change was found that helps.

## What to buy

page-week-buy = To buy
page-week-buy-line = { $much }: { $name }
page-week-buy-packs = { $count ->
    [one] { $count } pack
   *[other] { $count } packs
}
page-week-buy-by = order by { $day }
page-week-buy-late = order by { $day }: that has passed
page-week-buy-pieces = { $count ->
    [one] { $count } piece
   *[other] { $count } pieces
}
page-week-buy-unknown = In no card, so not counted: { $names }

## Home

page-week-next = { $line }: begin { $at }
page-week-next-by = { $line }: begin { $at }, { $by } at the latest
