# What the recipe check finds (bench/checks).

## Today's air

checks-dew-point = Dew point { $dew }, at { $temperature } and { $humidity } %.
checks-dew-point-why = Water settles on whatever is colder: a chilled part, a cold tray, a cold wrap.
checks-dew-point-by = { $mass } of water in a cubic metre of air
checks-dew-point-do = Let every part warm to the room, covered. Then dry, join or wrap it.
checks-damp-fizz-stop = The air is too damp to dry a fizzing part well.
checks-damp-fizz = Damp air for a fizzing part. It dries slowly and may begin to react.
checks-damp-fizz-why = Citric acid alone took up water at 69.9 %, bicarbonate alone between 76 and 88 %. A mixture does so sooner. No figure for a mixture was found. This check warns from { $share } %, below the published figures.
checks-damp-over = { $points } points over { $share } %
checks-damp-fizz-do = Dry the air, or wait for a drier day. Wrap as soon as the piece is dry. Never dry it in a warm oven.
checks-dry-for-fizz = Drier than { $share } %, where this check warns of slow drying.
checks-dry-for-fizz-why = That figure is below the published ones for single substances. From { $share } % it warns more plainly.
checks-dry-for-fizz-by = { $points } points under
checks-dry-for-fizz-do = Dry in the open, and wrap once dry.
checks-damp-soap = Soap parts are likely to sweat in this air.
checks-damp-soap-why = Glycerol takes up water at any ordinary humidity. No limit is published. This one is the check's own.
checks-damp-soap-do = Wrap each piece as soon as it is cool.

## A piece like food

checks-like-food = The piece could be taken for something to eat.
checks-like-food-why = Weigh that risk before it is sold, above all where there are children.
checks-like-food-do = Change the look or the wrap. Say on the label that it is not food. Write down what you decided.
checks-like-food-unknown = Could the piece be taken for something to eat? The recipe does not say.
checks-like-food-unknown-why = A piece that looks like a cake or a sweet is a risk.
checks-like-food-unknown-do = Say yes or no in the recipe.

## Colours

checks-colour = { $kind ->
    [lake] { $name } is a lake.
    [dye] { $name } is a dye.
    [mica] { $name } is a mica.
   *[pigment] { $name } is a pigment.
}
checks-colour-why-lake = In the piece it colours by its particles and does not bleed. In the water it stays as fine specks, and can mark tub and cloth. Where US rules apply, each batch of it is certified.
checks-colour-do-lake = Wet it well, and keep the lot's certificate. Write the lot number down with the batch.
checks-colour-why-dye = In the piece it bleeds into the part beside it. In the water it colours all of it, and may stain tub and skin. Where US rules apply, each batch of it is certified.
checks-colour-do-dye = Try it in a white tub, and keep the lot's certificate. Write the lot number down with the batch.
checks-colour-why-mica = In the piece it shimmers and does not bleed. In the water it does not dissolve: without a solubiliser it leaves a ring. Where US rules apply, mica needs no batch certificate.
checks-colour-do-mica = Check that its own coating or colour needs none either. Write the lot number down with the batch.
checks-colour-why-pigment = In the piece it gives an even, flat colour and does not bleed. In the water it does not dissolve. It can leave a ring in the tub.
checks-colour-do-pigment = Ask the supplier: is this grade meant for cosmetics, and where may it be used?

## Fizz

checks-citric-form = Is the citric acid anhydrous or the monohydrate? The recipe does not say.
checks-citric-form-why = The monohydrate holds 8.6 % water, so the same weight fizzes less.
checks-citric-form-do = Read the bag, and set the form of the ingredient.
checks-fizz-balance-do = Nothing, if that is what you meant.
checks-citric-form-by = { $anhydrous } if anhydrous; { $monohydrate } if monohydrate
checks-fizz-left-nothing = nothing left over
checks-fizz-left = { $of ->
    [acid] { $mass } of acid left over, { $share } of it
   *[carbonate] { $mass } of bicarbonate left over, { $share } of it
}
checks-fizz-balance = Bicarbonate to acid is { $ratio } : 1 by mass. When they have reacted: { $left }.
checks-fizz-balance-as-anhydrous = The acid is taken as anhydrous.
checks-fizz-balance-why = The trade mixes about 2 : 1 (common practice). The reaction balances at { $ratio } : 1. Bicarbonate left over makes the water mildly alkaline. Acid left over makes it sour.
checks-fizz-balance-by = { $base } can take { $takes } mol of acid; { $acid } gives { $gives } mol. At most { $gas } L of gas at { -at-25 } from the batch as written

## Fragrance and allergens

checks-fragrance-no-weight = { $name } has a line with no weight. Its share of the piece is unknown.
checks-fragrance-no-weight-why = Its certificate limits it by weight.
checks-fragrance-no-weight-do = Write the line as a weight, or give its density.
checks-fragrance-no-limit = { $share } of “{ $part }” is { $name }. What is its limit?
checks-fragrance-no-limit-why = No limit given does not mean unlimited.
checks-fragrance-no-limit-do = Copy the limit for this kind of product from the fragrance's own IFRA certificate.
checks-fragrance-no-limit-of = Copy the limit of category { $categories } from the fragrance's own IFRA certificate.
checks-fragrance-share = { $name } is { $share } of “{ $part }”. Its certificate allows { $limit }.
checks-fragrance-share-why = Each part is looked at by itself, and the fullest counts. It is not an assessment of the product.
checks-fragrance-share-over = { $share } of the part too much
checks-fragrance-share-used = { $share } % of what it allows
checks-fragrance-share-do = Use less of it, in one part or in all.
checks-fragrance-together = { $names } are each below their own limit, but not together.
checks-fragrance-together-why = Where the same material limits both, their shares of it add up.
checks-fragrance-together-by = { $share } % of one limit between them
checks-fragrance-together-do = Ask the suppliers whether the same material sets both limits, or use less.
checks-stays-on = Does the product stay on the skin, or is it rinsed off? The recipe does not say.
checks-stays-on-why = The share above which a label names an allergen differs tenfold.
checks-stays-on-do = Say in the recipe whether it stays on. Until then the stricter share is used.
checks-allergen = { $name }: { $share } of the part that holds most. An EU or UK label names it.
checks-allergen-by = { $share } above
checks-allergen-do = Name it among the ingredients.
checks-fragrance-heated = { $name } is heated with the melt.
checks-fragrance-heated-why = Fragrance flashes off in the heat. The scent is lost, and its vapour can light.
checks-fragrance-heated-do = Add it after the melt, cooled to what the supplier's sheet allows.
checks-fragrance-warm-why = Fragrance flashes off in too warm a melt. The scent is lost, and its vapour can light.
checks-fragrance-warm-unknown-do = Copy the warmest it may go into from the supplier's sheet. Let the melt cool to that.
checks-fragrance-warm = { $name } goes into a melt of { $reached }. Its own sheet allows { $most }.
checks-fragrance-warm-do = Add a wait for the melt to cool, or end the melt sooner.
checks-fragrance-share-source = the limit you copied from its IFRA certificate, category { $category }
checks-fragrance-share-source-unnamed = the limit you copied from its IFRA certificate, category not named
checks-allergen-why = { $product ->
    [rinsed] Above { $share } a label names it, in a product that is rinsed off.
    [stays] Above { $share } a label names it, in a product that stays on.
   *[open] Above { $share } a label names it, if the product stays on. This one may.
}
checks-fragrance-own-limit-unknown = { $name } goes into a fresh melt. Its own limit is not given.
checks-fragrance-melt-unknown = { $name } goes into a fresh melt. The recipe does not say how warm that is.

## Heat

checks-melt-ends-at = the melt ends at { $temperature }
checks-too-warm = { $by } too warm
checks-base-limit-unknown = What is the warmest that { $name } may get? The recipe does not say.
checks-base-end-unknown = The recipe does not say how warm { $name } gets.
checks-base-limit-unknown-why = Past its limit a base dries out, yellows and turns rubbery. The limit differs from base to base.
checks-base-limit-unknown-do = Copy the limit from the base's own sheet.
checks-base-end-unknown-do = Give the melt its end temperature.
checks-base-too-warm = { $name } is taken to { $reached }. Its own sheet allows { $most }.
checks-base-too-warm-why = { $kind ->
    [soap_base] Past its limit a base dries out, yellows and turns rubbery.
    [whipping_base] Past its limit a base dries out, yellows and turns rubbery.
    [preservative] Past its limit it breaks down and no longer preserves.
   *[other] Past its limit it spoils: it darkens, smells or breaks down.
}
checks-base-too-warm-do = Lower the end temperature of the melt.
checks-warm-fizz = What is melted in “{ $title }” reaches the bicarbonate at up to { $reached }.
checks-warm-fizz-unknown = How warm does the melt of “{ $title }” meet the bicarbonate? The recipe does not say.
checks-warm-fizz-why = Bicarbonate begins to give off its gas near { -at-50 }. That fizz is lost before the bath.
checks-warm-fizz-by = { $by } over { -at-50 }
checks-warm-fizz-do = Melt it no further than it needs. Let it cool before it meets the dry mix.
checks-warm-fizz-unknown-do = Give the melt its end temperature, and keep that below { -at-50 }.
checks-water-in-fizz = { $name } goes into a dry fizzing mix as a set amount.
checks-water-in-fizz-why = Water poured in starts the fizz at once. A fine spray, little by little, hardly does.
checks-water-in-fizz-do = Write it as “as needed” and spray it, or leave it out.
checks-water-bath = Nothing is wiped dry between “{ $title }” and the dry mix.
checks-water-bath-why = A vessel out of a water bath drips, and one drop starts the fizz.
checks-water-bath-do = Add a step that wipes the outside and the foot dry. Or say of one that it wipes.
checks-alcohol = Alcohol is out in { $sprays }. Nothing keeps it apart from { $melts }.
checks-alcohol-why = Alcohol vapour lights easily: the flash point of 2-propanol is near { -at-12 }.
checks-alcohol-do = Heaters off and a window open before you spray. Or put one after the other.
checks-melted-early = “{ $title }” may come before “{ $weighing }”, which weighs what it melts.
checks-melted-early-why = The bench goes by the order of the steps.
checks-melted-early-do = Move the melt behind it, or say that it comes after.
checks-more-steps = { $count ->
    [one] { $count } more step
   *[other] { $count } more steps
}
checks-quoted = “{ $title }”

## Numbers

checks-two-ways = “{ $written }”: { $read } or { $other }?
checks-two-ways-why = It is read as { $read }.
checks-two-ways-do = Write one of them.
checks-sums = { $name }: its lines add up to { $written }. { $count ->
    [one] { $count } piece, with what stays behind, takes { $needs }.
   *[other] { $count } pieces, with what stays behind, take { $needs }.
}
checks-sums-why = A batch is sized by its pieces, so every line is scaled to match.
checks-sums-by = { $share } apart
checks-sums-do = Check the amounts, the piece, the spares and what stays behind.
checks-too-small = { $mass } is too little for any scale of the kit: { $name }.
checks-too-small-why = { $least } or more is needed on { $scale }, to weigh to { $share }.
checks-too-small-do = Make a larger batch, use a finer scale, or weigh it mixed into something.
checks-no-density = { $name } has no density, so it stays in spoons.
checks-no-density-why = A spoon of the same thing varies more than a weight does.
checks-no-density-do = Give its density, with a source, to have it weighed.
checks-drops = { $name } is counted in drops.
checks-drops-why = A drop is 0.05 ml by convention only. Real droppers differ.
checks-drops-by = 15 % either way even from a calibrated dropper
checks-drops-do = Weigh it where the amount matters.
checks-spoons = { $written } of { $name }: { $low } loose, { $high } tapped down.
checks-spoons-why = A spoon of powder holds what it is filled with. The loose figure is used.
checks-spoons-by = { $share } more when tapped
checks-spoons-do = Write the line as a weight.
checks-by-volume = { $name } is measured by volume.
checks-by-volume-why = A spoon of powder holds more when it is tapped down.
checks-by-volume-by = 58 % more for bicarbonate, as one published case
checks-by-volume-do = Write the line as a weight. Or give the tapped density to see the range.
checks-unknown = { $count ->
    [one] What is { $names }? The recipe does not say what kind of ingredient it is.
   *[other] What are { $names }? The recipe does not say what kinds of ingredient they are.
}
checks-unknown-why = Rules go by kind: fizz, fragrance, colour, soap base, alcohol. What has none is passed by.
checks-unknown-do = Choose its kind in the recipe, “other” where none fits.
checks-too-small-by = { $scale } may be off by { $share }
checks-under-1-mg = less than 1 mg

## What the steps leave out

checks-window-wait = “{ $title }” must follow “{ $opened }” within { $latest }. A longer wait lies between.
checks-window-wait-by = { $span } too long at the least
checks-window-wait-do = Give it more time, let it begin later, or move the wait.
checks-window-hands = “{ $title }” must follow “{ $opened }” within { $latest }. The hand work between takes { $working }.
checks-window-hands-by = { $span } too long, for the batch as written
checks-window-hands-do = Make fewer pieces at a time, do more beforehand, or give it more time.
checks-unkept = Nothing says how soon “{ $title }” must follow “{ $opened }”.
checks-unkept-by = usually within { $span }
checks-unkept-do = Give it a time of your own. Until then the usual time counts, { $span }.
checks-no-wait-pour-why = A poured part must set before it is turned out.
checks-no-wait-press-why = A pressed part must dry before it is handled or wrapped.
checks-no-wait-do = Add a wait: earliest and usual time, and how to tell it is over.
checks-unwrapped-soap = There is a soap part, and no step wraps it.
checks-unwrapped-soap-why = The glycerol in a soap base takes up water at any ordinary humidity. The piece sweats.
checks-unwrapped-fizz = There is a fizzing part, and no step wraps it.
checks-unwrapped-fizz-why = It draws water from the air and reacts. It swells, cracks and loses its fizz.
checks-whipped-alone = { $name } is a whipped base alone. It never hardens.
checks-whipped-alone-why = It dents in the hand and dries out in the air. It must be wrapped.
checks-whipped-alone-do = Leave room in the wrap, or fold in melted soap base for hold.
checks-heavy-embed = { $part } weighs more than what it is set into: { $top }. Will that hold it?
checks-heavy-embed-why = A soft top sinks or leans under a heavy part until it has set.
checks-heavy-embed-by = { $heavy } on { $light }
checks-heavy-embed-do = Try one piece first.
checks-unasked = No step of { $part } asks for { $name }.
checks-unasked-why = What goes in as needed is added while you judge the mix. Nothing is judged here.
checks-unasked-do = Add a step that checks the mix. Say there what to add while it is not right.
checks-no-wait = No wait follows “{ $title }”.
checks-no-wait-between = “{ $next }” follows “{ $title }” with no wait between.
checks-unwrapped-do = Add a step that wraps, with a latest time. Or say of one that it wraps.
checks-place-piece = the whole piece

## Where a rule comes from

checks-fizz-balance-sour-do = Use less acid or more bicarbonate. A sour bath stings.
checks-fizz-unknown = { $name } is not in the table. What it does in the fizz is not worked out.
checks-fizz-unknown-why = Each acid and each carbonate balances at another weight.
checks-fizz-unknown-do = Give its INCI name, or work it out by hand.
checks-sealed = “{ $title }” shuts a fizzing piece in tight.
checks-sealed-open = Never shut a fizzing piece in tight: film or paper, no closed jar.
checks-sealed-why = Damp sets gas free, and the reaction makes its own water. A shut jar can burst.
checks-sealed-by = At most { $gas } L of gas from the batch. One per cent of it is { $part } L
checks-sealed-by-itself = { $name } gives gas by itself, as soon as it is damp
checks-sealed-do = Wrap in film or paper that lets gas out. Leave any lid loose.
checks-in-fizz-baking-powder = { $name } holds acid and starch: it is not pure bicarbonate.
checks-why-in-fizz-baking-powder = It fizzes by itself, and less. It is not counted in the balance.
checks-do-in-fizz-baking-powder = Use sodium bicarbonate, or leave it out.
checks-in-fizz-alkali = { $name } makes the water strongly alkaline.
checks-why-in-fizz-alkali = It is a cleaner’s alkali: hard on skin and eyes.
checks-do-in-fizz-alkali = Use sodium bicarbonate. Do not take the one for the other.
checks-in-fizz-sulfide = { $name } and acid do not go together.
checks-why-in-fizz-sulfide = Acid breaks ultramarine down. It fades, and smells of bad eggs.
checks-do-in-fizz-sulfide = Colour this part with something that stands acid.
checks-in-fizz-draws-water = { $name } draws water into the fizz.
checks-why-in-fizz-draws-water = It takes water from the air. The piece softens, swells or starts early.
checks-do-in-fizz-draws-water = Leave it out, or use only a trace. Wrap at once.
checks-unpreserved = Nothing preserves this part. It holds { $names }.
checks-unpreserved-why = Microbes grow where there is water and food for them. It may not show.
checks-unpreserved-by = { $share } % of the part
checks-unpreserved-do = Ask your supplier for a preservative that fits its pH, and have it tested. Or leave the water out.
checks-largest-share = { $share } of the part that holds most of it
checks-trait-borate = { $name } is a borate.
checks-ban-borate-eu = The EU and the UK forbid it in cosmetics.
checks-why-borate = It may harm fertility and the unborn child.
checks-do-trait-borate = Leave it out.
checks-trait-microplastic = { $name } may be a microplastic.
checks-ban-microplastic-eu = The EU ends the sale of glitter that is plastic and does not degrade.
checks-ban-microplastic-uk = England and Wales forbid bits of plastic in what is rinsed off.
checks-ban-microplastic-us = The US forbids plastic beads that scrub, in what is rinsed off.
checks-why-microplastic = Bits of plastic stay in the water for good.
checks-do-trait-microplastic = Use mica, or glitter whose papers show that it degrades.
checks-trait-food-colour = { $name } is made for food.
checks-why-trait-food-colour = It is mostly water, and stains tub and skin. It may not be listed for cosmetics.
checks-do-trait-food-colour = Use a colour whose papers say cosmetics and this use.
checks-trait-airways = { $name } can take a small child’s breath.
checks-why-trait-airways = Menthol, camphor and cineole act on the airways. They can set off asthma too.
checks-do-trait-airways = Say on the label: not for children under 3. Use as little as the papers allow.
checks-allergens-unlisted = The allergens of { $name } are not entered.
checks-allergens-unlisted-why = A label must name them from a small share on. Without them none is named.
checks-allergens-unlisted-do = Copy them from its allergen declaration.
checks-one-twice = { $names } are one substance.
checks-one-twice-why = Its shares and its lots are counted apart, and a label names it twice.
checks-one-twice-do = Make one ingredient of them.
checks-odd-density = The density of { $name } is out of its range.
checks-odd-density-table = The table has { $low } to { $high } g/ml.
checks-odd-density-strength = Of this strength it has { $low } to { $high } g/ml.
checks-odd-density-kind = Things of its kind have about { $low } to { $high } g/ml.
checks-odd-density-do = Read the sheet again: g/ml, not kg/m³.
checks-colour-use = { $use ->
    [eye] { $name } holds { $colour }, which the United States do not list for the eye area.
    [none] { $name } holds { $colour }, which the United States do not list for cosmetics.
   *[external] { $name } holds { $colour }, which the United States list for outside use only.
}
checks-colour-use-why = { $use ->
    [eye] For the eye area a colour must be listed by name (21 CFR 70.5).
    [none] A colour must be listed for what it is used in.
   *[external] Outside use leaves out lips and inner skin. Bath water reaches more than the outside.
}
checks-colour-use-do = Ask for a colour listed for general use, where it is sold there.
checks-listed-in = 21 CFR { $section }, { $read ->
    [memory] from memory: check today’s
    [second-hand] as others quote it (second-hand): check today’s
   *[text] annual edition 2015: check today’s
}
checks-colour-annex = { $use ->
    [no_eyes] { $name } holds { $colour }, which the EU keeps from the eyes.
    [no_mucosa] { $name } holds { $colour }, which the EU keeps from lips and inner skin.
   *[rinse_off] { $name } holds { $colour }, which the EU allows in rinse-off products alone.
}
checks-colour-annex-why = Bath water reaches more than the outside. Great Britain began with the same list.
checks-colour-annex-do = Look up its row in Annex IV, and take another colour.
checks-annex-iv = Regulation (EC) 1223/2009 Annex IV, { $read ->
    [memory] from memory: check today’s
   *[second-hand] as others quote it (second-hand): check today’s
}
checks-alcohol-water-why = { $strength } % by volume holds { $water } water by weight. Water starts the fizz.
checks-alcohol-strength-why = The rest of an alcohol’s strength is water. Water starts the fizz.
checks-crystal-water = { $name } holds { $share } water in its crystals.
checks-crystal-water-why = Warmth lets that water go, and it starts the fizz.
checks-crystal-water-do = Keep the mix cool and dry. Or use a salt with no water in it.

## Melting

checks-long-burst = “{ $title }” heats for { $span } at a time in the microwave.
checks-long-burst-why = Microwaves heat unevenly. The middle can boil or scorch unseen.
checks-long-burst-by = usual: 10 to 30 s
checks-long-burst-do = Shorten the burst. Stir and check after each.
checks-too-cool-to-melt = { $name } does not melt at { $reached }.
checks-melting-range = The table has it melt from { $low } to { $high }.
checks-too-cool-by = { $by } short of that
checks-too-cool-to-melt-do = Raise the end temperature, or mend the number.
checks-odd-warmth = { $name } is taken to { $reached }. That is out of the usual.
checks-odd-warmth-by = { $by } past the end of its range
checks-grainy = { $name } can turn grainy, or grow a grey bloom.
checks-grainy-why = It sets in several crystal forms, which melt apart. Cooled slowly it sets in the wrong ones.
checks-grainy-do = Melt it through, stir as it thickens, and set it quickly in the cold.
checks-odd-warmth-do = Melt it no further than it needs.
checks-least-heat = “{ $title }” needs { $needs }. The bursts as planned give { $gives }.
checks-least-heat-why = By the numbers it would end at { $ends }, where { $most } is the most.
checks-least-heat-by = { $heater }, { $watts } into the melt
checks-least-heat-do = Shorten the last burst, turn the power down, or take a water bath.
checks-alcohol-heated = { $name } is in the vessel that is heated.
checks-alcohol-heated-do = Add it after the melt, off the heat. Or use another vessel.
checks-metal = A microwave melt, and the kit has only metal for it: { $names }.
checks-metal-why = Metal sparks in a microwave, and the melt stays cold.
checks-metal-do = Put a glass or polypropylene one into the kit. Or choose a water bath.

## Drying

checks-short-drying = { $span } to dry between “{ $title }” and the wrap. Is that hours?
checks-short-drying-why = A pressed piece that is wrapped damp swells and reacts in its wrap.
checks-short-drying-by = usual: { $span } or more
checks-long-wait = “{ $title }” takes { $span }. That is longer than usual.
checks-long-wait-why = Fizz draws damp from the room, and soap base sweats, the longer it lies.
checks-long-wait-by = usual: { $span } at the most
checks-odd-wait-do = Check the number and its unit.

## What does not add up

checks-own-substitute = { $name } is named to stand in for itself.
checks-own-substitute-why = A substitute is for when this is not there.
checks-own-substitute-do = Choose another, or take it out.
checks-unused-portion = Nothing uses { $names } after the split.
checks-unused-portion-why = It is weighed out and stays in its vessel.
checks-unused-portion-do = Name it in a later step, or split into fewer.
checks-wide-tolerance = { $name } has a tolerance of { $share }.
checks-wide-tolerance-why = The bench would take nearly any weight for right.
checks-wide-tolerance-by = usual: 1 to 5 %. This check asks above { $share }
checks-wide-tolerance-do = Write a smaller one, or leave it out: 2 % is taken then.
checks-unmixed-fat = Much fat in a bath piece, and no solubiliser: { $names }.
checks-unmixed-fat-why = The fat floats. It makes the tub slippery, and leaves a ring.
checks-unmixed-fat-by = { $share } of the part
checks-unmixed-fat-do = Use less, or add a solubiliser. Say on the label that the tub gets slippery.
checks-scent-floats = Nothing lets the scent mix with the bath water: { $names }.
checks-scent-floats-why = It floats, and reaches the skin neat. That can irritate, or burn.
checks-scent-floats-do = Add a solubiliser. Salt, milk or alcohol is none.
checks-sealed-glass = Glass bursts into splinters.
checks-trait-candle-colour = { $name } is made for candles or crayons, not for skin.
checks-why-trait-candle-colour = Nobody looked at it for skin, and no list allows it in cosmetics.
checks-do-trait-candle-colour = Use a colour whose papers say cosmetics and this use.

## What the steps forget

checks-late-weighing = “{ $title }” comes after “{ $made }”. Nothing puts it on the pieces.
checks-late-weighing-why = The pieces are made by then. It can no longer be mixed in.
checks-late-weighing-do = Weigh it before the pieces are made. Or say in a step how it goes on.
checks-damp-after-press = “{ $title }” comes after “{ $pressed }”.
checks-damp-after-press-why = Dry mix does not hold in a press. A spray then wets the face alone.
checks-order-do = Change their order.
checks-nothing-follows = The joining does not wait for “{ $title }”.
checks-nothing-follows-why = The parts may be joined before it is done.
checks-nothing-follows-do = In the step that needs it, say that it comes after this one.
checks-uncounted = No step makes the pieces.
checks-uncounted-why = The bench then never asks how many came out well. The yield stays unknown.
checks-uncounted-do = Add a step that presses, pours or fills them, one for all pieces.
checks-unmixed = Nothing mixes what is weighed into “{ $name }”.
checks-unmixed-why = The first piece gets what lies on top, the last one what lies below.
checks-unmixed-do = Add a step that mixes.
checks-left-standing = No step tips out what “{ $title }” weighs.
checks-left-standing-why = It stands in its own vessel and is easily left behind.
checks-left-standing-do = In the step that adds it, say which vessel it tips out.
checks-tips-nothing = “{ $title }” tips out a vessel that nothing went into.
checks-tips-nothing-why = The bench would ask for an empty vessel.
checks-tips-nothing-do = Name the vessel that was filled, or take this out.
checks-twice-in-one = { $name } stands twice in “{ $title }”.
checks-twice-in-one-why = Both are weighed, one after the other. That is seldom meant.
checks-twice-in-one-do = Take one out, or make one line of the two.
checks-unused = Nothing uses { $name }.
checks-unused-why = It is in the list, and no line takes it.
checks-unused-do = Add a line with its amount, or take it off the list.
checks-other-side = { $stand_in } cannot stand in for { $name }.
checks-other-side-why = A fizz needs its acid and its carbonate. One does not do what the other does.
checks-other-side-do = Choose another stand-in.
checks-long-hands = “{ $title }” keeps hands busy for { $span }. Is that minutes?
checks-long-hands-why = The plan counts on hands for all that time.
checks-long-window = “{ $title }” may follow as late as { $span }.
checks-long-window-by = usual: { $span }
checks-soon-layer = “{ $title }” gives the first layer { $span }.
checks-soon-layer-why = Without a skin the second layer breaks through, and the colours bleed.
checks-soon-layer-by = usual: { $span } or more
checks-dry-layer = Nothing is sprayed before “{ $title }”.
checks-dry-layer-why = Alcohol helps two layers grip. Without it they part more easily.
checks-dry-layer-do = Add a step that sprays the first layer, with the heater off.
checks-much-colour = { $share } of “{ $part }” is { $name }. Is its amount right?
checks-much-colour-why = So much colour comes off on skin and tub, and weakens the piece.
checks-much-colour-by = usual: 2 % at the most. This check asks above { $share }
checks-much-colour-do = Check the number and its unit.
checks-like-food-named = It bears the name of food. The recipe says that it does not look like food.
checks-like-food-named-why = What looks or smells like food gets eaten, above all by children.
checks-like-food-named-do = Look at a finished piece and answer again.
checks-allergens-over = The allergens of { $name } add up to { $share }.
checks-allergens-over-why = They are shares of the fragrance, so all of them together stay within 100 %.
checks-allergens-over-do = Copy them again. On some papers they stand in mg/kg: 10,000 are 1 %.

## What it is for, and where it is sold

checks-use-unsaid = { $missing ->
    [use] What is it for? The recipe does not say.
    [sold_in] Where is it sold? The recipe does not say.
   *[both] What is it for, and where is it sold? The recipe does not say.
}
checks-use-unsaid-why = The law, the scent’s category, the label and the duties follow from it.
checks-use-unsaid-do = Say it first thing in the recipe. “Not sold” is an answer too.
checks-use-stays-on = { $stays ->
    [yes] The recipe says that it stays on the skin. Its use says that it does not.
   *[no] The recipe says that it is rinsed off. Its use says that it stays on.
}
checks-use-stays-on-do = Mend one of the two.
checks-use-by-title = { $stays ->
    [yes] “{ $title }” is said to stay on the skin. Is it not rinsed off?
   *[no] “{ $title }” is said to be rinsed off. Does it not stay on?
}
checks-use-by-title-do = Say what it is for.
checks-category-unsaid = Of which category is the limit of { $name }?
checks-category-other = The limit of { $name } is of category { $category }. That is for something else.
checks-category-other-why = For this use it is category { $categories }.
checks-category-hands-why = For a hand cream it is category { $category }.
checks-category-other-do = Copy the limit of the right category from its certificate.
checks-annex-forbidden = { $rinsed ->
    [no] { $name } may not be in it (EU, UK).
   *[yes] { $name } may not be in what stays on the skin (EU, UK).
}
checks-annex-forbidden-why = { $annex ->
    [II] Annex II forbids it in cosmetics: { $substance }.
    [V] Annex V lists it for what is rinsed off alone: { $substance }.
   *[other] Annex { $annex } lists it for nothing of this kind: { $substance }.
}
checks-annex-forbidden-do = { $annex ->
    [V] Take another preservative. Or make it to be rinsed off.
   *[other] Take one without it. Ask your supplier.
}
checks-annex-limit = { $name }: more than the { $limit } that Annex { $annex } allows (EU, UK).
checks-annex-why = Each part is looked at by itself, and the fullest counts.
checks-annex-by = { $share } of the part, counted as the annex counts it
checks-annex-limit-do = Use less of it, or sell it elsewhere.

## What does not go together

checks-oily-base = { $share } of a part with a soap base is { $names }.
checks-oily-base-why = A base holds little oil. More stays soft, weeps out and kills the lather.
checks-oily-base-by = usual: 3 to 5 %. This check asks above 10 %
checks-oily-base-do = Use less, as the base's own sheet has it.
checks-two-phases = { $wet } with { $fats }, and nothing that binds them.
checks-two-phases-why = Water and fat part again. In hot fat water can also spit.
checks-two-phases-do = Add an emulsifier, as its supplier says. Or leave the water out.
checks-much-preservative = { $share } of “{ $part }” is { $name }.
checks-much-preservative-why = More than its sheet allows irritates the skin, and most have a legal limit.
checks-much-preservative-by = usual: 0.5 to 1.5 %. This check asks above 2 %
checks-much-preservative-do = Read its sheet for the most in this kind of product.
checks-sour = { $share } acid and no carbonate: { $names }.
checks-sour-why = Nothing uses the acid up. It stings skin and eyes, and nothing fizzes.
checks-sour-do = Add the bicarbonate, or take the acid out.
checks-never-melted = Nothing melts { $names } before “{ $title }”.
checks-never-melted-why = It is solid as it comes.
checks-never-melted-do = Add a melt before the pour.
checks-short-setting = “{ $title }” comes { $span } after the pour.
checks-short-setting-why = Soap turned out before it is hard tears and dents.
checks-short-setting-by = usual: { $span } or more
checks-dried-hot = “{ $title }” dries a fizz with heat.
checks-dried-hot-do = Dry it in cool dry air.
checks-alcohol-into-hot = { $name } goes into “{ $title }” while that is hot.
checks-alcohol-into-hot-why = Hot, it turns to vapour at once. One flame or spark lights it.
checks-alcohol-into-hot-do = Let it cool first, and turn the heater off. Or leave it out.
checks-shut-melt = “{ $title }” heats with the lid shut.
checks-shut-melt-why = Steam builds up until the lid or the glass gives way.
checks-shut-melt-do = Lay the lid on loosely, or a plate.
checks-strong-airways = { $share } of a part is { $name }. Is that meant?
checks-strong-airways-by = usual: 1 to 3 %. This check asks above 5 %
checks-strong-airways-do = Check the number and its unit. Use as little as does it.
checks-sour-spray = { $name } is acid and water at once.
checks-sour-spray-why = Each drop of it starts the fizz.
checks-sour-spray-do = Spray alcohol or witch hazel, or add the acid as a dry powder.
checks-metal-said = “{ $title }” is in a microwave, and its words name metal.
checks-metal-said-do = Take glass or polypropylene. Or choose a water bath.
checks-cold-glass = “{ $title }” puts something hot into cold glass.
checks-cold-glass-why = Glass can crack where hot meets cold.
checks-cold-glass-do = Warm the glass first, and let the melt cool a little.

## What a second set of planted faults asked for

checks-trait-gives-gas = { $name } turns into gas by itself.
checks-why-trait-gives-gas = In anything shut it bursts it. It burns the skin by cold, and takes the air of a small room.
checks-do-trait-gives-gas = Leave it out of the piece.
checks-trait-strong-acid = { $name } is a strong acid.
checks-why-trait-strong-acid = Its dust burns eyes and skin. What is left over stays sour in the water.
checks-do-trait-strong-acid = Use citric acid.
checks-claims = “{ $words }” promises what only a drug may.
checks-claims-why = In the US what treats a disease or kills germs is a drug. Other markets have rules of their own.
checks-claims-do = Say what it smells and feels like. Or ask the authority first.
checks-too-alkaline = { $name } does not keep a soap.
checks-too-alkaline-why = It works below about pH 6. Soap is at 9 to 10.
checks-too-alkaline-do = Ask the supplier for one that works at the pH of soap.
checks-long-heat = “{ $title }” heats for { $span } before anybody looks.
checks-long-heat-why = Fat on a plate or flame goes on getting hotter. Left alone, it can catch fire.
checks-long-heat-by = this check asks above { $span }
checks-long-heat-do = Use a water bath. Stay with it, and check it every few minutes.
checks-cold-phase = { $wet } goes in cold, where { $wax } is melted.
checks-cold-phase-why = The wax sets at once in lumps, and the two part.
checks-cold-phase-do = Warm both to the same temperature before they meet.
checks-dried-cold = “{ $title }” dries a fizz in the cold.
checks-dried-cold-why = A fridge is damp, and a cold piece draws damp from the room.
checks-dried-cold-do = Dry it in cool dry air, in the room.
checks-colour-unnamed = Which colours are in { $name }?
checks-colour-unnamed-why = Lips and eyes take only colours that are listed for them. Craft and neon pigments often are not.
checks-colour-unnamed-do = Write its INCI names from its papers, with each CI number.
