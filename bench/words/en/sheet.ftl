# What a sheet says (bench/sheet_words.py, frontend/bench/sheet-words.js).

## Why a part is made in several rounds

sheet-moulds-hold = the { $shape } moulds hold { $held } at once
sheet-vessel-takes = { $vessel } takes { $mass } at once
sheet-scale-takes = scale { $scale } takes { $mass } at once
sheet-used-at-once = { $part } is made in { $rounds } rounds and must be used at once

## What to look at

sheet-no-mould = The kit has no { $shape } mould; sized as if there were enough.
sheet-no-scale = No scale takes { $mass }: weigh this in parts.
sheet-too-full = { $vessel } holds { $room }; { $mass } goes in.
sheet-for-two-parts = { $vessel } is needed for { $part } and for { $other }: empty it in between.
sheet-metal = { $vessel } is metal, and a melt goes into the microwave. Take glass or polypropylene.
sheet-needed-twice = { $vessel } is needed twice for { $part }: have another { $kind } ready.
sheet-less-than-one = { $name } comes to less than one a round; one is used.
sheet-less-than-a-spoon = { $name } comes to less than the smallest spoon.
sheet-drops-differ = Drops differ from dropper to dropper. Weigh them when the amount matters.
sheet-too-little = { $mass } of { $name } is too little for any scale here: { $scale } may be off by { $share }. Make more, or use a finer scale.

## Spoons. spoon: cup, tbsp or tsp.

sheet-spoons = { $spoon ->
    [cup] { $count ->
        [one] { $count } cup
       *[other] { $count } cups
    }
    [tbsp] { $count } tbsp
   *[tsp] { $count } tsp
}
sheet-spoon = { $spoon ->
    [cup] cup
    [tbsp] tbsp
   *[tsp] tsp
}
sheet-shares-of-spoon = { $count } × { $spoon }
sheet-off-more = { $spoons } ({ $percent } % more)
sheet-off-less = { $spoons } ({ $percent } % less)
sheet-part-of-spoon = { $percent } % of { $spoon }

## What a recipe leaves unsaid

sheet-instead-of = Instead of: { $name }.
sheet-second-look = Somebody else checks amount and label. Both right?
sheet-second-look-yes = Both right
sheet-second-look-not = Undo the weighing, or take out what is too much.
sheet-second-look-who = who looked
sheet-yes = Yes, it does
sheet-done = done
# What a piece is called where a recipe has no word of its own.
sheet-piece = { $count ->
    [one] piece
   *[other] pieces
}

## Before the first weighing, and what a good piece is

sheet-starts = Before the first weighing
sheet-good-piece = A good piece
sheet-criterion = { $criterion ->
    [mass] Mass
    [ph] pH
    [look] Look
   *[set] Set
}
sheet-between = { $least } to { $most }
sheet-at-least = at least { $bound }
sheet-at-most = at most { $bound }

## A sheet as plain text (bench/sheet/text.py).

sheet-text-round = Round { $round }: { $count ->
    [one] { $count } piece
   *[other] { $count } pieces
}, { $mass }
sheet-text-part = { $count } of { $piece }, { $mass } in all
sheet-text-rounds = in { $count } rounds, because { $reasons }
sheet-text-within = within { $span }: { $stake }
sheet-text-bursts = { $word ->
    [burst] bursts: { $spans }
   *[heat] heats: { $spans }
}
sheet-text-at-a-time = { $span } at a time
sheet-text-look = look for: { $look }
sheet-text-no-further = no further than { $warmth }
sheet-text-not-yet = Not yet: { $way }
sheet-text-wait = { $word }: earliest { $earliest }, usual { $usual }
sheet-text-wait-latest = { $word }: earliest { $earliest }, usual { $usual }, latest { $latest }
sheet-text-to-make = { $count } to make:
sheet-text-small-cup = { $scale }, small cup
sheet-text-too-far = Too far: { $way }
sheet-text-by-spoon = or { $spoons }
sheet-text-about = { $counted }, about { $mass }
sheet-text-tools = with { $tools }
sheet-text-loose = Weighed in no step:
sheet-text-fetch = To fetch, for the whole batch
sheet-text-takes = about { $span }
sheet-text-optional = May be left out.
sheet-text-reads = scale reads { $reading }
sheet-text-within-of = within { $span } of { $steps }: { $stake }
sheet-text-latest = At the latest: { $stake }
sheet-text-after-each = After each: { $again }
sheet-text-warnings = Look at this
sheet-assembly = Assembly
