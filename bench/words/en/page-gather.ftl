# Gathering, before the first weighing (frontend/screens/gather.js). name: of an ingredient; lot: its supplier's number.

page-gather-kind = { $kind ->
    [ingredients] What goes in
    [start] Before the first weighing
    [protection] To wear and have ready
    [scale] Scales
    [vessel] Bowls and jugs
    [mould] Moulds
    [heater] Heat
   *[tool] Tools
}
page-gather-tick-all = { $kind ->
    [start] All { $count } done
   *[other] All { $count } are here
}
page-gather-all-here = All here: to the bench
page-gather-start-without = { $count ->
    [one] Start without { $count } item
   *[other] Start without { $count } items
}
page-gather-go-on-without = { $count ->
    [one] Go on without { $count } item
   *[other] Go on without { $count } items
}

## The lots of an ingredient

page-gather-take-of = { $amount } of lot { $lot }
page-gather-lot = Lot { $lot }
page-gather-left = { $amount } left
page-gather-aside = { $amount } set aside for another batch
page-gather-not-here = not on this phone
page-gather-here = It's here
page-gather-not-on-shelf = not on the shelf: no lot is recorded
page-gather-none-left = no lot on the shelf has any left
page-gather-another = Another lot
page-gather-another-of = Another lot: { $name }
page-gather-missing = { $amount } missing
page-gather-past-left-out = { $count ->
    [one] A lot is past its date and left out.
   *[other] { $count } lots are past their date and left out.
}
page-gather-take-past = { $count ->
    [one] Take it too
   *[other] Take them too
}

## What is asked when one is taken

page-gather-which = { $name }: which lot?
page-gather-past-title = { $name }: this lot is past its date
page-gather-past-says = Best before { $day }. Whether to use it is yours to judge.
page-gather-take-anyway = Take it anyway
page-gather-record-shows = The record will show it
page-gather-barred-title = { $verdict ->
    [held] { $name }: this lot is held
   *[rejected] { $name }: this lot is rejected
}
page-gather-barred-left-out = { $count ->
    [one] A lot is held or rejected and left out.
   *[other] { $count } lots are held or rejected and left out.
}
page-gather-how-much = { $name }, lot { $lot }: how much?
page-gather-more-title = More than the shelf says
page-gather-more-says = The shelf says { $left }. The lot may hold more.

## A code that was scanned

page-gather-not-wanted = Not in this recipe
page-gather-not-wanted-says = Lot { $lot } is of something else. Scan another lot.
page-gather-unknown-code = Unknown code
page-gather-unknown-code-says = No lot on the shelf has this code. Scan another lot.

## Leaving with something not ticked

page-gather-go-title = Go without all of it?
page-gather-go-says = Not ticked: { $names }. The record will show it as not gathered.
page-gather-go-says-many = Not ticked: { $names }, and { $count } more. The record will show them as not gathered.
page-gather-go = Go to the bench
page-gather-note = Not gathered: { $names }.
