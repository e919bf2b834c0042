# How many, and what that makes of each part (frontend/screens/size.js).

## By what

page-size-how = How many
page-size-by = Size by
page-size-by-pieces = Pieces
page-size-by-mass = Total mass
page-size-by-moulds = Moulds
page-size-by-stock = Use up
page-size-mass = { $unit ->
    [oz] ounces in all
   *[g] grams in all
}
page-size-mass-unit = { $unit ->
    [oz] oz in all
   *[g] g in all
}
page-size-moulds = moulds
page-size-moulds-unit = moulds filled
page-size-stock = { $unit ->
    [oz] ounces there are
   *[g] grams there are
}
page-size-stock-unit = { $unit ->
    [oz] oz there are
   *[g] g there are
}
page-size-moulds-of = Moulds of
page-size-all-of = All of what
page-size-one-ingredient = All of one ingredient
page-size-mix-left = A mix that is left
page-size-mixed = Mixed already: { $name }
page-size-makes = That makes { $pieces }.

## The recipe

page-size-absent = This recipe is not on this phone. It comes with the next connection.
page-size-no-kit = A sheet needs the kit: which scales, which bowls.
page-size-describe-kit = Describe the kit
page-size-about = About this recipe
page-size-edit = Edit this recipe
page-size-former = Version { $version }, not the newest
page-size-changed = The recipe was changed elsewhere: version { $version }.

## This time

page-size-choices = Choices
page-size-this-time = This time
page-size-with = With: { $name }
page-size-instead = Instead: { $name }
page-size-swap-away = No connection. What it changes in check and label comes later.
page-size-check-new = New in the check: { $what }
page-size-check-gone = No longer in the check: { $what }
page-size-label-new = New on the label: { $names }.
page-size-label-gone = Off the label: { $names }.
page-size-label-same = The label stays as it is.
page-size-weighing = Weighing
page-size-running = Keep a running total
page-size-tare = Zero before each ingredient

## What that makes

page-size-what = What that makes
page-size-spare = { $count } spare
page-size-rounds = { $count } rounds: { $counts }
page-size-goes-in = { $name }: what goes in
page-size-short = { $count ->
    [one] The shelf has too little of { $count } ingredient.
   *[other] The shelf has too little of { $count } ingredients.
}
page-size-short-of = { $name }: { $amount } missing
page-size-make-most = Make { $pieces }: enough for that
page-size-none-of-it = Not enough for one piece.
page-size-begin = Begin
page-size-begin-pieces = Begin { $pieces }
