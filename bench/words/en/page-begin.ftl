# An empty studio (frontend/parts/first-visit.js).

page-begin-title = Begin
page-begin-what = Prop this phone beside the bowl. It says what to do now and how much to add. It says what the scale will read. It keeps every timer and writes the batch record.
page-begin-sample = Try a sample
page-begin-sample-says = 10 minutes, nothing to weigh. Waits are short, and nothing is saved.
page-begin-write = Write a recipe
page-begin-write-says = Type your amounts as you say them.
page-begin-bring-one = Bring one in
page-begin-bring-says = A recipe file, or text to paste.
page-begin-asks = It asks for your recipe, scales and bowls, and what the scale reads. No account: everything stays in your studio.
page-begin-kit = Set up scales and bowls
# To a phone set to the United States.
page-begin-grams = All is in grams and °C.
page-begin-ounces = Use ounces and °F
