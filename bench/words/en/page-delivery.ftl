# A list from a supplier (frontend/screens/delivery.js). name: as the list has it.

page-delivery-lead = Nothing is on the shelf before you have seen each row.
page-delivery-file = The list as a file: CSV or text
page-delivery-text = The supplier's list
page-delivery-text-hint = or paste it: a table, or a lot a line
page-delivery-empty = Nothing here yet. Pick a file, or paste the list.
page-delivery-large = This is more than 200 000 letters. Bring it in as several lists.
page-delivery-whose = Fluid ounces and spoons
page-delivery-measures = { $measures ->
    [us] US
    [imperial] Imperial
    [metric] metric
   *[none] ask me
}
page-delivery-cost = Delivery paid
page-delivery-shared = Shared over the lots
page-delivery-by = { $by ->
    [mass] by mass
   *[value] by price
}
page-delivery-look = Look at it
page-delivery-rows = What came
page-delivery-columns = What each column is
page-delivery-column = Column { $number }
page-delivery-field = { $field ->
    [name] Name
    [amount] Amount
    [unit] Unit
    [packs] Number of packs
    [number] Lot number
    [best_before] Best before
    [price] Price paid
    [unit_price] Price a pack
    [currency] Currency
    [inci] INCI name
    [cas] CAS number
   *[nothing] not read
}
page-delivery-nameless = No name
page-delivery-new = is new on the shelf
page-delivery-is = is { $name }
page-delivery-lot = lot { $number }
page-delivery-paid = { $price }, and { $delivery } of the delivery
page-delivery-leave = Leave out
page-delivery-leave-row = Leave out: { $name }
page-delivery-take = Take in
page-delivery-take-row = Take in: { $name }
page-delivery-change = Put it right
page-delivery-change-row = Put it right: { $name }
page-delivery-again = It came again
page-delivery-same = It is { $name }
page-delivery-other = It is something new
page-delivery-open = { $count ->
    [one] { $count } question is open
   *[other] { $count } questions are open
}
page-delivery-put = { $count ->
    [one] Put { $count } lot on the shelf
   *[other] Put { $count } lots on the shelf
}
page-delivery-entered = { $count ->
    [one] { $count } lot is on the shelf.
   *[other] { $count } lots are on the shelf.
}
page-delivery-to-shelf = Go to the shelf
