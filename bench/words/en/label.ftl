# What was looked at on a label, and what stands on it (bench/label.py, frontend/bench/label.js).
# market: us, eu or uk. What is printed on a US or UK label is English in every language (21 CFR 701.2, from memory).

label-kept-back = { $verdict ->
    [rejected] This batch is rejected: no piece of it goes out.
   *[held] This batch is held: its pieces wait.
}
label-kept-back-source = its record
label-law = This is what was checked, and no more: the law where it is sold rules.

## On the label itself

label-slippery = { $market ->
    [us] Makes the bath or tray slippery.
    [uk] Makes the bath or tray slippery.
   *[eu] Makes the bath or tray slippery.
}
label-eyes = { $market ->
    [us] Keep out of the eyes; rinse with water.
    [uk] Keep out of the eyes; rinse with water.
   *[eu] Keep out of the eyes; rinse with water.
}

# The words that a law gives, in the language of its market. The US text is 21 CFR 740.17, edition of 2015.
label-law-foam = Caution—Use only as directed. Excessive use or prolonged exposure may cause irritation to skin and urinary tract. Discontinue use if rash, redness, or itching occurs. Consult your physician if irritation persists. { $meant ->
    [children] Keep out of reach of children except under adult supervision.
   *[all] Keep out of reach of children.
}
label-law-formaldehyde = releases formaldehyde
label-law-peroxide = { $market ->
    [uk] Contains hydrogen peroxide. Avoid contact with eyes. Rinse immediately if product comes into contact with them.
   *[eu] Contains hydrogen peroxide. Avoid contact with eyes. Rinse immediately if product comes into contact with them.
}

## What to look at

label-blends = No shares are known within { $names }. So their places are a guess. Ask the supplier for them. Write them into the INCI name, as in “Aqua 40 %, Glycerin 30 %”.
label-no-inci = { $name } has no INCI name, so its own name stands.
label-unweighed = { $name } was not weighed: its place in the list is yours to judge.
label-skin = Stays on the skin, or not? The recipe does not say. So the stricter limit for naming an allergen was taken: 0.001 %.
label-soap = Soap or cosmetic? The rules differ. Soap is mostly alkali salts of fatty acids and sold only as soap.
label-foam = Does it foam in a bath? Then the caution of 21 CFR 740.17 belongs on it. Say what it is for. Not needed if labelled for adults only.
label-foam-directions = A foaming bath product also needs directions for use. They are yours to write.
label-colour-index = A colour index number alone is not a US name: { $names }. Write the listed colour's name.
label-colour-unlisted = Not listed for cosmetics in the US: { $names }.
label-english = Not known here as English names: { $names }. Look each one up for a US label.
label-which-number = Which colour index numbers? The EU and the UK want them for { $names }.
label-allergens-untold = No allergens are known for { $names }. Ask the supplier for them.
label-not-asked-allergens = Not on the older UK list, so not named: { $names }.
label-goods = What only scents the air or decorates is no cosmetic. There the general rules on goods count.
label-air = What only scents the air is no cosmetic. There the law on mixtures rules (CLP), and its label.
label-eye-mixture = { $share } of it counts as eye irritant. From 10 % the mixture is Eye Irrit. 2.
label-formaldehyde = Above 0.05 % free formaldehyde a UK label says “contains formaldehyde”. Its preservative frees some: ask the supplier.
label-past = The best before date is past. Take a later one, or do not sell it.
label-beyond-lots = The best before date is later than the earliest of its lots: { $day }.
label-opened-idle = The open jar is left out: what is used up at once is never open.
label-unproven = Has the safety of each ingredient and of the whole been substantiated? If not, it needs this: “Warning—The safety of this product has not been determined.”
label-more-allergens = More fragrance allergens are to be named, 80 in all. New products: from 31 July 2026. All products: from 31 July 2028. Only those the recipe names were looked at.
label-like-food = It looks like food: weigh up whether a child could take it for food.
label-too-small = { $of ->
    [list] The letters of the ingredient list are too small: { $has } µm, at least { $least } µm.
   *[net] The letters of the net content are too small: { $has } µm, at least { $least } µm.
}

## What has to stand on it

label-need-what = what it is
label-need-net-us = net content, ounces and grams
label-need-place = name, city, state and ZIP code
label-need-contact = a US address, telephone or web contact for adverse events
label-need-responsible = { $market ->
    [uk] responsible person in the UK, name and address
   *[eu] responsible person, name and address
}
label-need-maker = { $market ->
    [uk] name and address of who made it
   *[eu] name, postal and electronic address of who made it
}
label-need-list = ingredient list
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
label-checked-digits = height of the digits of the net content
label-checked-net-letters = height of the letters of the net content
label-checked-net = net content rounded down
label-checked-low = net content in the lower 30 %, along the base
label-checked-leaflet = the label refers to the leaflet for list and precautions

## What was not looked at

label-open-duties = { $count ->
    [one] { $count } duty of selling is open.
   *[other] { $count } duties of selling are open.
}
label-open-ahead = Not weighed yet: { $names }. Until then their places are the recipe's.
label-open-goods = Dangers to who uses it, and the words for them, were not looked at.
label-open-net = Net content: no finished piece was weighed. The mass of the recipe stands here.
label-open-use = What it is for: the recipe does not say. Some cautions hang on it.
label-open-place = Net content stands in the lower 30 % of the front, along its base. Not on fronts up to 5 square inches.
label-open-language = English: the title, the purpose and your own words were not looked at.
label-open-made-for = Did somebody else make it? Then “Manufactured for” or “Distributed by” stands before the name.
label-open-single = Is it used up at once? Then the open jar does not belong on it.
label-open-life = Does it keep for more than 30 months? Up to 30, it needs a date.
label-open-origin = Is it imported? Then its country of origin stands on it.
label-open-leaflet = A leaflet is for what cannot stand on the label itself. It goes in with each piece, or hangs on it. A web page or a catalogue is no leaflet. The hand on an open book may stand in place of the words. Soap, bath balls, small pieces: a notice beside them may hold the list.
label-open-language-eu = Language: each country sets its own for these words. INCI names stay as they are.
label-open-northern-ireland = Northern Ireland follows the EU's rules. There, take the EU's label, in English. Its responsible person is in Northern Ireland or the EEA.
label-open-lots = The best before dates of its lots were not compared.

## What is due before it is sold


## Where a rule is from

label-source-duties = as the studio has said of each
label-source-shares = descending order needs each share
label-source-weight = descending order needs a weight
label-source-maker = the maker's own
label-source-practice = common practice
label-source-us = 21 CFR { $section }, edition of 2015
label-source-goods = { $of ->
    [identity] 16 CFR 500.4, read in a copy
    [place] 16 CFR 500.5, read in a copy
    [letters] 16 CFR 500.21, edition of 2015
   *[net] 16 CFR 500.6, its heading read
}
label-source-safety = { $of ->
    [uk] General Product Safety Regulations 2005, regulation 7, from memory
    [batch] Regulation (EU) 2023/988, Art. 9(5), read in a copy
    [language] Regulation (EU) 2023/988, Art. 9(7), from memory
   *[maker] Regulation (EU) 2023/988, Art. 9(6), from memory
}
label-source-hazards = { $market ->
    [us] 16 CFR 1500, from memory
   *[other] Regulation (EC) 1272/2008, from memory
}
label-source-origin = 19 CFR 134.44 and 134.45, copies of 2024 and 2022; 134.11 read second-hand
label-source-leaflet = Regulation (EC) 1223/2009, Art. 19(2) and (3), from memory. That it goes in or hangs on: Court of Justice, C-667/19, its heading
label-source-contact = 21 USC 364a and 364e, read second-hand
label-source-colours = 21 CFR 701.3, 73 and 74, edition of 2015
label-source-english = 21 CFR 701.2(b) and 701.3(c), edition of 2015
label-source-uk = Regulation (EC) 1223/2009 as kept in Great Britain, Art. 19(1)({ $point }), read second-hand
label-source-northern-ireland = GOV.UK guidance of May 2023
label-source-formaldehyde = Regulation (EU) 2022/1194, above 0.001 % in all; read second-hand
label-source-formaldehyde-uk = Annex V of Regulation (EC) 1223/2009 as kept in Great Britain, from memory
label-source-peroxide = Regulation (EU) 2019/831, Annex III 12; that percarbonate counts is inferred
label-source-former-allergens = Annex III before Regulation (EU) 2023/1545, from memory
label-source-air = what a cosmetic is, from memory
label-source-mixture = CLP limits for mixtures, read second-hand
label-source-opened = Commission note 04/ENTR/COS/28, read second-hand
label-source-digits = German FPackV, section 38(2)
label-source-language-eu = Regulation (EC) 1223/2009, Art. 19(5), from memory
label-source-inci = 21 CFR 701.3; Regulation (EC) 1223/2009, Art. 19(1)(g)
label-source-eu = Regulation (EC) 1223/2009, Art. 19(1)({ $point })
label-source-eu-second-hand = Regulation (EC) 1223/2009, Art. 19(1)({ $point }), read second-hand
label-source-allergens = Regulation (EC) 1223/2009, Annex III, read second-hand
label-source-more-allergens = Regulation (EU) 2023/1545, read second-hand
label-source-food = Regulation (EU) 2023/988, Art. 6(1)(f), read second-hand

## What a mixture bears under CLP. The statements are word for word the law's, read second-hand (Annexes III and IV).

label-statement-danger = { $market ->
    [uk] Danger
   *[eu] Danger
}
label-statement-warning = { $market ->
    [uk] Warning
   *[eu] Warning
}
label-statement-h314 = { $market ->
    [uk] Causes severe skin burns and eye damage.
   *[eu] Causes severe skin burns and eye damage.
}
label-statement-h315 = { $market ->
    [uk] Causes skin irritation.
   *[eu] Causes skin irritation.
}
label-statement-h318 = { $market ->
    [uk] Causes serious eye damage.
   *[eu] Causes serious eye damage.
}
label-statement-h319 = { $market ->
    [uk] Causes serious eye irritation.
   *[eu] Causes serious eye irritation.
}
label-statement-p102 = { $market ->
    [uk] Keep out of reach of children.
   *[eu] Keep out of reach of children.
}
label-statement-p264 = { $market ->
    [uk] Wash hands thoroughly after handling.
   *[eu] Wash hands thoroughly after handling.
}
label-statement-p305-p351-p338 = { $market ->
    [uk] IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and easy to do. Continue rinsing.
   *[eu] IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and easy to do. Continue rinsing.
}
label-statement-p337-p313 = { $market ->
    [uk] If eye irritation persists: Get medical advice/attention.
   *[eu] If eye irritation persists: Get medical advice/attention.
}
label-statement-p302-p352 = { $market ->
    [uk] IF ON SKIN: Wash with plenty of water.
   *[eu] IF ON SKIN: Wash with plenty of water.
}
label-statement-p332-p313 = { $market ->
    [uk] If skin irritation occurs: Get medical advice/attention.
   *[eu] If skin irritation occurs: Get medical advice/attention.
}
label-clp-need-supplier = supplier: name, address and telephone
label-clp-need-net = nominal quantity
label-clp-need-identifier = product identifier
label-clp-need-pictogram = pictogram { $code }: it is not drawn here, put it there yourself
label-clp-need-statements = precautionary statements of what does serious damage: choose them yourself
label-clp-need-ufi = UFI code, if it is classified for health. Write it into your own precautions as “UFI: …”.
label-clp-open-reckoned = Classes for eyes and skin were added up: a calculation, to be confirmed.
label-clp-open-unclassed = No class is known here, so not counted: { $names }. Look into their safety sheets.
label-clp-open-rest = Not looked at: allergic reactions to the scent (H317, EUH208), airways (H335), fire, waters.
label-clp-open-choice = Which precautionary statements fit, at most six, is yours to choose. P101 and P280 were left out.
label-skin-mixture = { $share } of it counts as skin irritant. From 10 % the mixture is Skin Irrit. 2.
label-clp-less = Acids, bases, salts and surfactants may count from 3 %. What does damage may from 1 %. Have it looked at.
label-clp-worst = It adds up to serious damage of eyes or skin. Have it looked at before you go on.
label-clp-small = If possible, this label is at least 52 × 74 mm.
label-checked-classes = classes of the substances known here, for eyes and skin, by adding up
label-source-clp = Regulation (EC) 1272/2008, Art. 17(1)({ $point }), read in a copy of September 2025
label-source-clp-language = Regulation (EC) 1272/2008, Art. 17(2), read in a copy of September 2025
label-source-clp-size = Regulation (EC) 1272/2008, Annex I, Table 1.3, read in a copy
label-source-clp-memory = Regulation (EC) 1272/2008, from memory

## In which order it stands there

label-plate-list = Ingredients: { $names }.
label-plate-leaflet = { $market ->
    [uk] Ingredients and precautions: see the leaflet.
   *[eu] Ingredients and precautions: see the leaflet.
}
label-plate-origin = { $market ->
    [us] Made in { $country }
    [uk] Made in { $country }
   *[eu] Made in { $country }
}
label-plate-batch = { $market ->
    [us] Batch { $number }
    [uk] Batch { $number }
   *[eu] Batch { $number }
}
label-plate-best = { $market ->
    [us] Best before { $year }-{ $month }-{ $day }
    [uk] Best used before the end of { $day }/{ $month }/{ $year }
   *[eu] Best used before the end of { $day }/{ $month }/{ $year }
}

## Sheets of labels

label-sheet-title = { $paper ->
    [letter] { $columns } × { $rows } of { $width } × { $height } in, Letter
   *[a4] { $columns } × { $rows } of { $width } × { $height } mm, A4
}
label-sheet-fault = { $fault ->
    [over_across] The labels lie over each other. Step across: at least the label’s width.
    [over_down] The labels lie over each other. Step down: at least the label’s height.
    [too_wide] The columns reach beyond the paper’s right edge. Measure again.
   *[too_high] The rows reach beyond the paper’s lower edge. Measure again.
}
label-bar = This bar is 50 mm at true size.

## Stickers for lots

label-lot-number = Lot { $number }
label-lot-received = Received { $day }
label-lot-best = Best before { $day }
label-lot-opened = Opened ____________
