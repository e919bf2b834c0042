# How an ingredient is bought (frontend/parts/supply-forms.js). name: as its card has it.

page-supply-title = Buying: { $name }
page-supply-pack = In one pack
page-supply-lead = Days until it comes
page-supply-price = Price of a pack
page-supply-again = Order again at
page-supply-again-hint = 2 kg
page-supply-again-why = Left empty, it follows from your own use and those days.
page-supply-due = To come on
page-supply-need-pack = Write what is in a pack: the price is for that.
page-supply-need-days = Write whole days, 0 to 366.
