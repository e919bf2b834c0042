# The kit: what stands on the bench (frontend/screens/kit.js).

page-kit-lead = What stands on the bench. Batches already begun keep the kit they began with.
page-kit-save = Save kit
page-kit-saved = Saved.
page-kit-remove = Remove
page-kit-removed-elsewhere = Removed elsewhere. Saving brings it back.
page-kit-new = new

## What there is

page-kit-group-scales = Scales
page-kit-group-vessels = Bowls and jugs
page-kit-group-moulds = Moulds
page-kit-group-heaters = Heaters
page-kit-group-mixers = Mixers
page-kit-add-scales = Add a scale
page-kit-add-vessels = Add a vessel
page-kit-add-moulds = Add a mould
page-kit-add-heaters = Add a heater
page-kit-add-mixers = Add a mixer

## What is said of it

page-kit-field-name = Name
page-kit-field-capacity = Up to
page-kit-field-division = In steps of
page-kit-field-kind = Kind
page-kit-field-empty = Weighs empty
page-kit-field-holds = Holds
page-kit-field-shape = Shape
page-kit-field-cavities = Cavities
page-kit-field-sets = How many of it
page-kit-field-cavity = One cavity holds
page-kit-field-absorbed-w = Watts that reach the food
page-kit-example-round = round
page-kit-example-microwave = microwave
page-kit-field-material = made of
page-kit-material-unsaid = not said
page-kit-material-steel = steel
page-kit-material-enamel = enamel
page-kit-material-aluminium = aluminium
page-kit-material-copper = copper
page-kit-material-glass = glass
page-kit-material-porcelain = porcelain
page-kit-material-polypropylene = polypropylene (PP, 5)
page-kit-material-silicone = silicone
page-kit-material-wood = wood
page-kit-material-other = something else
page-kit-field-test-weight = Test weight
