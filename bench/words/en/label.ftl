# What was looked at on a label, and what stands on it (bench/label.py, frontend/bench/label.js).
# market: us or eu. What is printed on a US label is English in every language (21 CFR 701.2, from memory).

label-law = This is what was checked, and no more: the law where it is sold rules.

## On the label itself

label-slippery = { $market ->
    [us] Makes the bath or tray slippery.
   *[eu] Makes the bath or tray slippery.
}
label-eyes = { $market ->
    [us] Keep out of the eyes; rinse with water.
   *[eu] Keep out of the eyes; rinse with water.
}

## What to look at

label-blends = No shares are known within { $names }. So their places are a guess. Ask the supplier for them. Write them into the INCI name, as in “Aqua 40 %, Glycerin 30 %”.
label-no-inci = { $name } has no INCI name, so its own name stands.
label-unweighed = { $name } was not weighed: its place in the list is yours to judge.
label-skin = Stays on the skin, or not? The recipe does not say. So the stricter limit for naming an allergen was taken: 0.001 %.
label-foam = If it makes foam in a bath, the caution of 740.17 belongs on it. Write it word for word from the rule as it stands. Not needed if labelled for adults only.
label-colour-index = A colour index number alone is not a US name: write the listed colour's name.
label-soap = Soap or cosmetic? The rules differ. Soap is mostly alkali salts of fatty acids and sold only as soap.
label-unproven = Has the safety of each ingredient and of the whole been substantiated? If not, the rule asks for a warning of its own.
label-more-allergens = More fragrance allergens are to be named, 80 in all. New products: from 31 July 2026. All products: from 31 July 2028. Only those the recipe names were looked at.
label-like-food = It looks like food: weigh up whether a child could take it for food.
label-too-small = { $of ->
    [list] The letters of the ingredient list are too small: { $has } µm, at least { $least } µm.
   *[net] The letters of the net content are too small: { $has } µm, at least { $least } µm.
}

## What has to stand on it

label-need-what = what it is
label-need-net-us = net content, ounces and grams
label-need-place = name and place of business
label-need-list = ingredient list
label-need-contact = a contact for adverse events
label-need-responsible = responsible person, name and address
label-need-net-eu = nominal content (not below 5 g)
label-need-date = best before, or the period after opening past 30 months
label-need-precautions = precautions
label-need-batch = batch number
label-need-function = function, unless it is plain to see
label-need-ingredients = ingredients

## What was checked

label-checked-order-us = descending order by what was weighed
label-checked-order-eu = descending order by weight at the time of addition
label-checked-free-us = any order at or below 1 %
label-checked-free-eu = any order below 1 %
label-checked-colours = colours last
label-checked-letters = letter heights of list and net content
label-checked-allergens = fragrance allergens above 0.001 % (stays on) or 0.01 % (rinsed off)
label-checked-net = net content rounded down

## Where a rule is from

label-source-shares = descending order needs each share
label-source-weight = descending order needs a weight
label-source-maker = the maker's own
label-source-practice = common practice
label-source-us = 21 CFR { $section }
label-source-us-second-hand = 21 CFR { $section }, read second-hand
label-source-us-memory = 21 CFR { $section }, from memory
label-source-colours = 21 CFR 701.3 and Parts 73, 74, 82; from memory
label-source-contact = 21 USC 364, read second-hand
label-source-inci = 21 CFR 701.3; Regulation (EC) 1223/2009, Art. 19(1)(g)
label-source-eu = Regulation (EC) 1223/2009, Art. 19(1)({ $point })
label-source-eu-second-hand = Regulation (EC) 1223/2009, Art. 19(1)({ $point }), read second-hand
label-source-allergens = Regulation (EC) 1223/2009, Annex III, read second-hand
label-source-more-allergens = Regulation (EU) 2023/1545, read second-hand
label-source-food = Regulation (EU) 2023/988, Art. 6(1)(f), read second-hand
