# What is known of an ingredient by its name (frontend/parts/known.js, frontend/parts/combo.js).

page-known-list = What it may be
page-known-taken-for = Taken for: { $name }.
page-known-card = The shelf’s card knows it.
page-known-class = Its class: { $hazards } ({ $source }).
page-known-fact = { $field }: { $value }
page-known-density = { $density } g/ml ({ $source })
page-known-leave = Remove what was known of it: { $fields }
page-known-take = Take over: { $fields }
page-known-stays = What you wrote stays:
page-known-other = { $field }: yours { $mine }, known { $known }
page-known-instead = { $count ->
    [one] Take what is known instead
   *[other] Take all { $count } instead
}
page-known-field = { $field ->
    [kind] what it is
    [form] form
    [inci] INCI name
    [cas] CAS number
    [density] density
    [hazards] cautions
    [fragrance] fragrance limit
    [most_c] not warmer than
    [active] active share
   *[heat] heat data
}
page-known-ask = Not known here. Say it once, and the shelf keeps it.
page-known-keep = Keep it
page-known-kept = Kept on the shelf’s card.
page-known-own = measured here
