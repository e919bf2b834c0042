# What a stand-in changes (bench/swaps.py, bench/sheet/chosen.py, frontend/bench/sheet/chosen.js).

swaps-how = { $by ->
    [amount] The recipe gives its own amount for it.
    [active] Weighed to the same active share.
    [volume] The same volume, through its own density.
    [mass] The same mass.
    [count] The same count.
   *[texture] As needed, like the other.
}
swaps-weights = In the batch as written: { $after } of { $new } for { $before } of { $old }.
swaps-scaled = The other lines are scaled a little, so that a piece weighs the same.
swaps-not-weighed = { $name } is not weighed: it has no density.
swaps-method = { $changes ->
    [yes] The method changes.
   *[no] The method stays as it is.
}

## Refused

swaps-no-line = The recipe has no line “{ $line }”. Write it as part.line, such as base.shea.
swaps-other = “{ $ingredient }” does not stand in for “{ $line }”. It could be { $could }.
swaps-none = “{ $ingredient }” does not stand in for “{ $line }”. It has no substitutes.
swaps-not-optional = “{ $line }” is not an optional line: it can't be left out.
