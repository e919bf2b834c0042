# What a batch will cost, before it is made (frontend/parts/cost-ahead.js). name: as its card has it.

page-cost-about = About { $total }, { $each } a piece.
page-cost-row = { $name }, { $amount } of lot { $number }: { $cost }
page-cost-row-to-buy = { $name }, { $amount } to buy: { $cost }
page-cost-part = { $what ->
    [materials] Material
    [sprays] What goes in unweighed
    [hands] Hand work, by the recipe
    [cleaning] Cleaning
    [labelling] Labelling
    [wrap] Wrap
    [packaging] Packaging
   *[overhead] Overhead
}
page-cost-price = Price of one piece, by your margin: { $price }
page-cost-unpriced = No price, not counted: { $names }
