# What a recipe being written says: its screen, fields, picture, merging and plain text (frontend/screens/recipe-edit.js, frontend/parts/recipe-*.js).

## Saving

page-recipe-new = New recipe
page-recipe-save = Save version
page-recipe-copy = Make a copy
page-recipe-drop = Remove this draft
page-recipe-drop-says = What you changed goes. The saved version stays.
page-recipe-drop-new-says = This recipe was never saved as a version. All of it goes.
page-recipe-drop-yes = Remove it
page-recipe-saving = Saving…
page-recipe-saved = Saved on this phone.
page-recipe-saved-version = Saved as version { $version }.
page-recipe-waits = No connection. Saved on this phone; sends later.
page-recipe-unchanged = Nothing has changed since the last version.
page-recipe-not-saved = Not saved as a version yet. Fix the marked field.
page-recipe-go-to-it = Go to it
page-recipe-now-at = { $name }: now { $place } of { $count }.
page-recipe-removed = Removed: { $name }. Undo brings it back.

## The sheet

page-recipe-itself = The recipe
page-recipe-more-about = More about it
page-recipe-from-text = From plain text
page-recipe-add-part = Add a part
page-recipe-a-part = A part
page-recipe-part-more = Spares, loss, mould
page-recipe-joining = Joining them
page-recipe-takes = { $name }: how many in one
page-recipe-takes-unnamed = This part: how many in one
page-recipe-as-written = { $mass } as written
page-recipe-a-piece = { $mass } a piece
page-recipe-needed = { $mass } needed
page-recipe-goes-in = What goes in
page-recipe-add-line = Add an ingredient
page-recipe-details = Details
page-recipe-about = About: { $name }
page-recipe-whole = The whole recipe
page-recipe-in-all = { $mass } in all.
page-recipe-in-all-and-piece = { $mass } in all, { $piece } a finished piece.
page-recipe-part-word = Say what one part is

## A new name

page-recipe-renamed = It is “{ $name }” by a new name. What was written of it stays.
page-recipe-is-another = It is another ingredient
page-recipe-used-elsewhere = “{ $name }” is used elsewhere too and keeps its name there. Here it is a new ingredient.
page-recipe-rename-all = Rename it everywhere
page-recipe-that-is-right = That is right

## Steps

page-recipe-steps = What is done
page-recipe-add-step = Add a step
page-recipe-more = More
page-recipe-move-to = Move to
page-recipe-how-and-more = How, and more
page-recipe-about-time = about { $length }
page-recipe-usually = { $earliest }, usually { $usual }
page-recipe-within = within { $length }
page-recipe-after-all = All that is made
page-recipe-after-before = The step before it
page-recipe-after-nothing = Nothing: it may begin at once
page-recipe-after-these = Steps picked here
page-recipe-kind-weigh = Weigh
page-recipe-kind-do = Do
page-recipe-kind-melt = Melt
page-recipe-kind-split = Split
page-recipe-kind-check = Check
page-recipe-kind-pieces = Pieces
page-recipe-kind-wait = Wait
page-recipe-kind-turn = Turn

## What an amount comes to

page-recipe-as-needed = As needed.
page-recipe-about-mass = about { $mass }
page-recipe-a-drop = 1/20 mL a drop (UCUM’s convention: droppers differ)
page-recipe-parts-no-mass = Parts have no mass yet. Say what one part is, or what a piece weighs.
page-recipe-density = density { $density } g/mL
page-recipe-density-source = density { $density } g/mL ({ $source })
page-recipe-no-density = no density: it stays in spoons
page-recipe-of-part = { $share } of the part
page-recipe-of-piece = { $share } of the piece
page-recipe-of-whole = { $share } of the whole

## What cannot be read, as far as the page itself sees it

page-recipe-fault-count = Say for how many pieces it is written: a whole number, such as 12.
page-recipe-fault-tiny-piece = A piece below 1 mg cannot be weighed. Write { $least } or more.
page-recipe-fault-per-cents = { $share } together: too much. The per cents must leave room for the rest.
page-recipe-fault-part-word = Parts stand beside weights. Say what one part is, such as 100 g.
page-recipe-fault-no-mass = Parts and per cents alone have no mass. Say what a piece weighs, or what one part is.

## The recipe check

page-recipe-check = Recipe check
page-recipe-check-begins = The check begins once something is written.
page-recipe-checking = Checking…
page-recipe-unread = Cannot be read yet
page-recipe-level-will-not-run = Cannot be made
page-recipe-level-look = Look at this
page-recipe-level-know = Good to know
page-recipe-no-findings = Nothing found by the rules of this check. Your suppliers’ papers rule.
page-recipe-go-there = Go there
page-recipe-air = Today’s air
page-recipe-air-temperature = Temperature, °C
page-recipe-air-humidity = Humidity, %
page-recipe-line = line { $count }
page-recipe-number = number { $count }

## Someone else’s change

page-recipe-changed = Someone changed this recipe
page-recipe-changed-saved = Someone changed this recipe. Yours is saved on this phone.
page-recipe-see-what-differs = See what differs
page-recipe-theirs-is = Version { $version } is theirs, and is saved. Yours is saved on this phone as a draft.
page-recipe-asked-here = What only one of you changed goes together. What both changed is asked here.
page-recipe-no-clash = Nothing was changed by both, so the two go together.
page-recipe-it-was = It was: { $was }
page-recipe-was = was { $was }
page-recipe-whose-theirs = Theirs
page-recipe-whose-mine = Yours
page-recipe-whose-both = Both
page-recipe-together = What goes together
page-recipe-save-both = Save both together
page-recipe-save-as-new = Save yours as a new recipe
page-recipe-second = { $title } (second)
page-recipe-take-theirs = Take theirs, remove yours
page-recipe-pick-first = Pick one first: { $where }.
page-recipe-quoted = “{ $title }”
page-recipe-order = order
page-recipe-nothing = nothing
page-recipe-yes = yes
page-recipe-no = no

## The picture

page-recipe-picture-begins = The picture begins with the first step.
page-recipe-picture-wait = wait

## Fields

page-recipe-not-said = Not said
page-recipe-choose-yes = Yes
page-recipe-choose-no = No
page-recipe-no-choices = Nothing to choose from yet.
page-recipe-row-add-substitute = Add a substitute
page-recipe-row-add-allergen = Add an allergen
page-recipe-row-add-portion = Add a portion
page-recipe-row-add-way = Add a way
page-recipe-row-remove-substitute = Remove this substitute
page-recipe-row-remove-allergen = Remove this allergen
page-recipe-row-remove-portion = Remove this portion
page-recipe-row-remove-way = Remove this way
page-recipe-unnamed = no name yet
page-recipe-move = Move: { $name }
page-recipe-drag = Drag, or arrow keys
page-recipe-remove = Remove
page-recipe-remove-it = Remove: { $name }
page-recipe-go-up = Up: { $name }
page-recipe-go-down = Down: { $name }

## What a field is called

page-recipe-field-use = What is it for?
page-recipe-field-sold-in = Where is it sold?
page-recipe-not-sold = Not sold
page-recipe-field-title = Title
page-recipe-field-written-for = Written for, pieces
page-recipe-field-one = One is called
page-recipe-field-many = Several are called
page-recipe-field-measures = Spoons and cups
page-recipe-field-summary = About it
page-recipe-field-stays-on = Stays on the skin
page-recipe-field-asks-air = Asks for the room’s air
page-recipe-field-looks-like-food = Could be taken for food
page-recipe-field-keeps-months = Keeps for so many months, unopened
page-recipe-field-good-mass-least = A good piece weighs at least
page-recipe-field-good-mass-most = A good piece weighs at most
page-recipe-field-good-ph-least = Its pH is at least
page-recipe-field-good-ph-most = Its pH is at most
page-recipe-field-good-look = How a good piece looks
page-recipe-field-good-set = How it has set
page-recipe-field-good-judge = Judged at the end, with commas between
page-recipe-field-before = Questions before the first weighing
page-recipe-field-components = Parts
page-recipe-field-part-name = Name of this part
page-recipe-field-weighs = One weighs
page-recipe-field-spares = Spare pieces
page-recipe-field-stays-behind = Stays in the bowl
page-recipe-field-loss = Lost in making
page-recipe-field-one-part = One part is
page-recipe-field-made-in = Made in
page-recipe-field-mould = Shape of the mould
page-recipe-field-mould-held = Stays in the mould until unmoulded
page-recipe-field-lines = Ingredients
page-recipe-field-ingredient = Ingredient
page-recipe-field-amount = Amount
page-recipe-field-tolerance = May be off by
page-recipe-field-note = Note
page-recipe-field-second-look = Somebody else looks too
page-recipe-field-left-out = May be left out
page-recipe-field-instead = Instead of it
page-recipe-field-other-amount = Amount, if another
page-recipe-field-what-changes = What changes
page-recipe-field-changes-method = Changes the method
page-recipe-field-ingredients = Ingredients
page-recipe-field-ingredient-name = Name, wherever it is used
page-recipe-field-kind = What it is
page-recipe-field-density = Density, g/mL
page-recipe-field-density-source = Density is from
page-recipe-field-density-tapped = Density tapped down
page-recipe-field-active = Active share
page-recipe-field-inci = INCI name
page-recipe-field-most-warm = Not above, °C
page-recipe-field-cautions = Cautions
page-recipe-field-form = It is
page-recipe-field-limit = Limit on its IFRA certificate
page-recipe-field-category = For category
page-recipe-field-allergens = Allergens it names
page-recipe-field-name = Name
page-recipe-field-of-fragrance = Share of the fragrance
page-recipe-field-steps = Steps
page-recipe-field-step-title = What to do
page-recipe-field-step-kind = Kind of step
page-recipe-field-after = Comes after
page-recipe-field-these-steps = These steps
page-recipe-field-how = How
page-recipe-field-within = Must follow within
page-recipe-field-or-else = Or else
page-recipe-field-if-missed = If missed
page-recipe-field-counted-from = Counted from
page-recipe-field-hands = Takes your hands for
page-recipe-field-does = What it does
page-recipe-field-tools = Tools, commas between
page-recipe-field-caution = Caution
page-recipe-field-reason = Why
page-recipe-field-usual-cautions = Usual cautions
page-recipe-field-ways = Ways to do it
page-recipe-field-skipped = May be skipped
page-recipe-field-weigh-in = Weigh in
page-recipe-field-into = Into
page-recipe-field-takes-about = Takes about
page-recipe-field-works-on = What it works on
page-recipe-field-tip-in = Tip in the jug or cup named
page-recipe-field-melt-these = Melt
page-recipe-field-melt-with = In
page-recipe-field-heat-for = Heat for
page-recipe-field-until = Until
page-recipe-field-last-time-for = Last time for
page-recipe-field-then-rest = Then rest
page-recipe-field-from-warm = From, °C
page-recipe-field-to-warm = To, °C
page-recipe-field-portions = Portions
page-recipe-field-shares = Shares
page-recipe-field-or-mass = Or mass
page-recipe-field-out-of = Out of
page-recipe-field-ask = Ask
page-recipe-field-if-so = If so, the button says
page-recipe-field-not-yet = If not yet
page-recipe-field-too-far = If too far
page-recipe-field-leave-for = If too far, leave it for
page-recipe-field-each-is = Each is
page-recipe-field-asked-after = Asked after each
page-recipe-field-one-by-one = Count them one by one
page-recipe-field-small-pieces = Count small pieces
page-recipe-field-from-portions = From portions
page-recipe-field-wait-until = Wait until it is
page-recipe-field-earliest = Earliest
page-recipe-field-usual = Usually
page-recipe-field-latest = Latest
page-recipe-field-how-to-tell = How to tell
page-recipe-field-left-longer = If left longer
page-recipe-field-every = Every
page-recipe-field-during = While this goes on
page-recipe-field-each-then = Each is then
page-recipe-field-takes = What it takes
page-recipe-field-count = How many in one

## Examples in empty fields: words alone; masses and times stand beside their fields

page-recipe-example-bar = bar
page-recipe-example-bars = bars
page-recipe-example-dome = dome
page-recipe-example-sheet = supplier’s sheet
page-recipe-example-microwave = microwave
page-recipe-example-pressed = pressed
page-recipe-example-dry = dry
page-recipe-example-turned = turned

## What may be chosen. Codes are those of the recipe’s format.

page-recipe-choice-measures-metric = Metric
page-recipe-choice-measures-us = US
page-recipe-choice-measures-imperial = Imperial
page-recipe-choice-vessel-bowl = bowl
page-recipe-choice-vessel-jug = jug
page-recipe-choice-vessel-cup = cup
page-recipe-choice-vessel-pan = pan
page-recipe-choice-vessel-bag = bag
page-recipe-choice-hazard-alcohol = Alcohol
page-recipe-choice-hazard-hot-fat = Hot butter or oil
page-recipe-choice-hazard-hot-soap = Hot soap
page-recipe-choice-hazard-mixer = Mixer
page-recipe-choice-hazard-powder = Powder
page-recipe-choice-hazard-slippery = Slippery
page-recipe-choice-hazard-superheated = Can boil over
page-recipe-choice-hazard-wet-sockets = Wet hands near mains
page-recipe-choice-does-grind = grind
page-recipe-choice-does-sift = sift
page-recipe-choice-does-mix = mix
page-recipe-choice-does-wipe = wipe
page-recipe-choice-does-whip = whip
page-recipe-choice-does-colour = colour
page-recipe-choice-does-spray = spray
page-recipe-choice-does-press = press
page-recipe-choice-does-pour = pour
page-recipe-choice-does-pipe = pipe
page-recipe-choice-does-unmould = unmould
page-recipe-choice-does-join = join
page-recipe-choice-does-sprinkle = sprinkle
page-recipe-choice-does-wrap = wrap
page-recipe-choice-does-label = label
page-recipe-choice-kind-acid = acid
page-recipe-choice-kind-carbonate = carbonate
page-recipe-choice-kind-humectant = humectant
page-recipe-choice-kind-preservative = preservative
page-recipe-choice-kind-wax = wax
page-recipe-choice-kind-alcohol = alcohol
page-recipe-choice-kind-bicarbonate = baking soda
page-recipe-choice-kind-botanical = botanical
page-recipe-choice-kind-butter = butter
page-recipe-choice-kind-citric-acid = citric acid
page-recipe-choice-kind-dye = dye
page-recipe-choice-kind-fragrance = fragrance
page-recipe-choice-kind-lake = lake
page-recipe-choice-kind-mica = mica
page-recipe-choice-kind-oil = oil
page-recipe-choice-kind-pigment = pigment
page-recipe-choice-kind-powder = powder
page-recipe-choice-kind-salt = salt
page-recipe-choice-kind-soap-base = soap base
page-recipe-choice-kind-solubiliser = solubiliser
page-recipe-choice-kind-surfactant = surfactant
page-recipe-choice-kind-water = water
page-recipe-choice-kind-whipping-base = whipping base
page-recipe-choice-kind-other = other
page-recipe-choice-form-anhydrous = anhydrous
page-recipe-choice-form-monohydrate = monohydrate

## Plain text

page-recipe-taken-unread = Not understood
page-recipe-taken-title = The title
page-recipe-taken-part = A part
page-recipe-taken-line = An ingredient
page-recipe-taken-step = A step
page-recipe-text = Ingredients and steps, a line for each
page-recipe-text-one = Citric acid 240 g
page-recipe-text-two = 480 g bicarbonate of soda
page-recipe-text-three = 1. Sift and mix
page-recipe-text-read = Read it
page-recipe-text-put = Put these into the recipe
page-recipe-text-left = { $open } of { $count } still to confirm or remove.
page-recipe-text-settled = All settled. Nothing is in the recipe yet.
page-recipe-text-what = Say what this is, or remove it.
page-recipe-text-no-words = Write the words.
page-recipe-text-no-part = Say which part it goes to.
page-recipe-text-range = “{ $said }” is a range. Write one amount, or “as needed”.
page-recipe-text-vague = “{ $said }” is no measure. Write one amount, or “as needed”.
page-recipe-text-no-amount = No amount understood. Write it, or “as needed”.
page-recipe-text-bad-amount = Amount not readable. Write a number and a unit, such as 240 g, or “as needed”.
page-recipe-text-new-title = It replaces the title “{ $title }”.
page-recipe-text-offered = Said at the end of the step before. Here it is a wait of its own.
page-recipe-text-time = A time is named: { $said }.
page-recipe-text-time-stays = It stays in the words.
page-recipe-text-time-about = Write how long it usually takes, or leave it.
page-recipe-text-time-earliest = Say the earliest too, here or in the recipe.
page-recipe-text-as = Understood as
page-recipe-text-words = Words
page-recipe-text-part = Goes to
page-recipe-text-which = Which part?
page-recipe-text-to = To: { $part }
page-recipe-text-to-unnamed = To the part without a name
page-recipe-text-drop = Remove it
