# What to buy (frontend/screens/buying.js). name: as its card has it.

page-buying-for = What it is for
page-buying-open-too = Open batches count too: what they have not gathered yet.
page-buying-recipe = Recipe
page-buying-pieces = Pieces
page-buying-on = Begin on
page-buying-add = Add a recipe
page-buying-remove = Remove
page-buying-no-recipe = There is no recipe yet. Write one first.
page-buying-need = Write 1 to 10 000 pieces, and the day to begin.
page-buying-to-buy = To buy
page-buying-nothing = Nothing to buy: the shelf is enough.
page-buying-on-order = On order
page-buying-unjoined = Not on the shelf
page-buying-by-hand = As needed, or by the spoon: look whether enough is here
page-buying-to-cards = Go to the cards
page-buying-enough = What is enough
page-buying-ordered = Ordered
page-buying-ordered-of = Ordered: { $name }
page-buying-arrived = Arrived
page-buying-arrived-of = Arrived: { $name }
page-buying-saved-order = Noted as ordered.
page-buying-due = due { $day }
page-buying-was-due = was due { $day }
page-buying-bring = { $count ->
    [one] Bring in { $count } that came
   *[other] Bring in { $count } that came
}
page-buying-copy = Copy as text
page-buying-copied = Copied. Paste it anywhere.
page-buying-low = Low: order again
page-buying-too-late = Too late: order by { $day }
page-buying-needed = Needed { $day }; how long delivery takes isn’t known
page-buying-order-by = Order by { $day }
page-buying-wanted = { $wanted } wanted, { $free } here for it
page-buying-coming = { $amount } comes in time
page-buying-unusable = Lot { $number } goes off too soon, on { $day }
page-buying-left = { $amount } left
page-buying-no-point = { $count ->
    [one] { $count } batch used it: too few to say when
   *[other] { $count } batches used it: too few to say when
}
page-buying-point-own = order again at { $amount }, your figure
page-buying-point-use = order again at { $amount }, by { $week } a week used
page-buying-about = about { $price }
page-buying-no-card = { $name }: no card ({ $titles }).
page-buying-maybe = Is it { $names }? Say so on that card.
page-buying-comes-late = { $amount } comes too late: { $name }
