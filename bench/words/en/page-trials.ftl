# Trials of a recipe (frontend/screens/trials.js).

page-trials-new = New variants
page-trials-as-it-is = A is the recipe as it is. Each other variant changes 1 thing.
page-trials-of = Change
page-trials-to = To
page-trials-choice = { $name }: { $value }
page-trials-more = Add a variant
page-trials-judges = Judged at the end, with commas between
page-trials-usual = Hardness, Fizz time, Feel, Scent
page-trials-try = Try variants
page-trials-made = Saved. Begin a small batch of each.
page-trials-variant = Variant { $letter }
page-trials-unchanged = As the recipe is.
page-trials-former = Taken from version { $of }; the recipe is at { $version } now.
page-trials-begin = Make some 100 g
page-trials-win = Make this the recipe
page-trials-win-of = Make this the recipe: { $letter }
page-trials-won = Variant { $letter } is the recipe now. Its trial is archived.
page-trials-open = { $count ->
    [one] 1 batch on the bench.
   *[other] { $count } batches on the bench.
}
page-trials-no-batch = No finished batch yet. Each is judged in its record.
page-trials-beside = { $now }, the first { $before }
page-trials-why = 3 batches show what can happen, not what will. Air, hands and lots change too.
