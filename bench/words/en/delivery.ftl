# What a supplier's list leaves open (bench/delivery.py). name and written: as they stand in the list.

delivery-too-long = { $most } rows are read at once. Bring in the rest as a second list.
delivery-nothing = No row of it is a lot. Paste a name and an amount in each row.
delivery-no-name = A name is missing. Write what it is.
delivery-no-number = The supplier's lot number is missing. A recall goes by it.
delivery-which-cell = “{ $written }” may be several things. Which one?
delivery-which-card = Is “{ $name }” the same as { $names }?
delivery-had = Lot { $number } is on the shelf since { $day }. Leave it out, or say it came again.
delivery-same-row = This row stands twice. Leave it out, or say it came again.
delivery-no-amount = An amount is missing. Write one such as 1 kg, or 50 pieces.
delivery-pieces = Write whole pieces, { $most } at the most.
delivery-too-much = That is more than a tonne. Write the amount again.
delivery-no-mass = “{ $written }” is no mass, volume or number of pieces. Write 1 kg, or 50 pieces.
delivery-whose-measure = “{ $written }” differs between places. Say above whose it is: US, or Imperial.
delivery-no-density = “{ $written }” is a volume, and the card has no density. Write the mass, such as 920 g.
delivery-packs = “{ $written }” is no number of packs. Write a whole number.
delivery-no-day = “{ $written }” is no date. Write one such as 2027-03-31.
delivery-two-days = “{ $written }” may be two days. Which one?
delivery-which-currency = “{ $written }” may be of several currencies. Which one?
delivery-no-currency = “{ $written }” names no currency. Write one such as 12.50 EUR.
delivery-no-money = “{ $written }” cannot be read as a price. Write one such as 12.50 EUR.
delivery-no-coin = “{ $written }” is finer than the smallest coin. Write what was paid.
delivery-currencies = Not all is paid in { $currency }. Write each lot's share of the delivery by hand.
delivery-unshared = { $by ->
    [mass] A lot has no mass to share the delivery by. Share it by value.
   *[value] A lot has no price to share the delivery by. Share it by mass.
}
