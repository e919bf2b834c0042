# A recall: where the pieces are (frontend/screens/recall.js).

page-recall-rehearsal = Rehearsal: nothing is recalled.
page-recall-found = { $found } of { $made } pieces found: { $share } %
page-recall-unknown = { $count ->
    [one] { $count } piece left, and no outlet is named.
   *[other] { $count } pieces left, and no outlet is named.
}
page-recall-shown = { $here } of { $all } batches.
page-recall-none = No batch has any of it.
page-recall-made = { $count } made
page-recall-uncounted = not counted yet
page-recall-here = { $count } here
page-recall-binned = { $count } thrown away
page-recall-shelved = { $count } on the shelf as a lot
page-recall-print = Print the list
page-recall-file = Save as a file
page-recall-rehearse = Rehearse
page-recall-real = End the rehearsal
page-recall-lots = Lots in it
page-recall-alike = Batches with one of these lots
page-recall-others-said = Other complaints of these batches
