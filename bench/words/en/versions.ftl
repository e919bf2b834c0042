# What another version of a recipe changed (bench/versions.py).

## Where

versions-recipe = The recipe
versions-assembly = Assembly
versions-ingredient = Ingredient { $name }
versions-in-part = { $part }, { $name }
versions-quoted = “{ $title }”

## What

versions-added = added
versions-added-part = added, a part of its own
versions-step-added = added, a step
versions-line-added = added, { $amount }
versions-removed = removed
versions-removed-part = removed, the whole part
versions-step-removed = removed, a step
versions-line-removed = removed, was { $amount }
versions-moved-first = moved to the front
versions-moved-behind = moved behind { $name }
versions-no-lines = still has no lines, written another way

## A field

versions-field-new = { $field }: { $now }, was not said
versions-field-new-long = { $field }: added
versions-field-gone = { $field }: removed, was { $was }
versions-field-gone-long = { $field }: removed
versions-field-rewritten = { $field }: rewritten
versions-field-changed = { $field }: { $now }, was { $was }
versions-changed = { $now }, was { $was }
versions-yes = yes
versions-no = no
versions-nothing = nothing

## What a field is called

versions-name-about = takes about
versions-name-active = active share
versions-name-after = comes after
versions-name-again = asked after each
versions-name-allergens = allergens
versions-name-amount = amount
versions-name-ask = the question
versions-name-assembly = assembly
versions-name-burst = heats for
versions-name-category = category
versions-name-caution = own caution
versions-name-changes_method = changes the method
versions-name-component = part
versions-name-components = parts
versions-name-count = how many
versions-name-density = density
versions-name-do = what helps
versions-name-does = what it does
versions-name-during = while this goes on
versions-name-earliest = earliest
versions-name-every = every
versions-name-form = form
versions-name-format = format
versions-name-fragrance = fragrance
versions-name-from = from
versions-name-from_c = from °C
versions-name-g_per_ml = g/ml
versions-name-hands = hands-on time
versions-name-hazards = cautions
versions-name-heat = heat
versions-name-heater = heater
versions-name-held = stays in the mould
versions-name-id = id
versions-name-inci = INCI name
versions-name-ingredient = ingredient
versions-name-ingredients = ingredients
versions-name-into = goes into
versions-name-kind = kind
versions-name-last_burst = heats last for
versions-name-latent_j_per_kg = latent heat, J/kg
versions-name-latest = latest
versions-name-limit = limit
versions-name-lines = lines
versions-name-liquid_j_per_kg_k = liquid heat, J/(kg K)
versions-name-look_for = what to look for
versions-name-looks_like_food = looks like food
versions-name-loss = lost on the way
versions-name-many = several
versions-name-mass = mass
versions-name-measures = measures
versions-name-melts_c = melts at °C
versions-name-most_c = warmest, in °C
versions-name-mould = mould
versions-name-name = name
versions-name-not_yet = when not yet
versions-name-note = note
versions-name-of = made of
versions-name-one = one
versions-name-one_by_one = counted one by one
versions-name-optional = may be left out
versions-name-part = one part
versions-name-partial = small pieces count
versions-name-piece = a piece
versions-name-portions = portions
versions-name-reason = the reason
versions-name-rescue = what to do when it was missed
versions-name-rest = rests between
versions-name-says = the words
versions-name-shape = shape
versions-name-share = share
versions-name-solid_j_per_kg_k = solid heat, J/(kg K)
versions-name-source = source
versions-name-spares = spares
versions-name-stake = what is at stake
versions-name-stays_behind = stays behind in the bowl
versions-name-sold_in = sold in
versions-name-use = used for
versions-name-stays_on = stays on the skin
versions-name-steps = steps
versions-name-substitutes = substitutes
versions-name-summary = summary
versions-name-takes = one piece takes
versions-name-tapped_g_per_ml = g/ml tapped down
versions-name-test = how to tell
versions-name-tips = is tipped in from
versions-name-title = title
versions-name-to_c = to °C
versions-name-tolerance = tolerance
versions-name-too_far = when too far
versions-name-tools = tools
versions-name-usual = usual
versions-name-verb = the word on the button
versions-name-vessel = vessel
versions-name-wait = leave it for
versions-name-ways = ways
versions-name-window = must follow soon
versions-name-word = the word for the wait
versions-name-written_for = written for
versions-name-yes = the button when right
