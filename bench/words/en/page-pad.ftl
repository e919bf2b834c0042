# The pad of keys for a reading or a count (frontend/parts/number-pad.js).

## What the number means. amount: “…” while nothing is typed

page-pad-it-reads = It reads { $amount }
page-pad-it-count = It's { $amount }
page-pad-it-weighs = It weighs { $amount }
page-pad-it-take = Take { $amount }
page-pad-it-left = { $amount } left
page-pad-it-took = It took { $amount } min

## The keys

page-pad-point = point
page-pad-rub = rub out

## How far off it is. near: yes or no

page-pad-target = Target { $goal }
page-pad-shelf-says = The shelf says { $goal }
page-pad-on-target = on target
page-pad-over = { $near ->
    [yes] { $gap } too much, near enough
   *[no] { $gap } too much, target { $goal }
}
page-pad-under = { $near ->
    [yes] { $gap } too little, near enough
   *[no] { $gap } too little, target { $goal }
}
page-pad-before = { $least } was already in
page-pad-only = only { $most } there
page-pad-whole-grams = this scale shows whole grams
page-pad-whole-ounces = this scale shows whole ounces
page-pad-whole-pieces = whole pieces only
