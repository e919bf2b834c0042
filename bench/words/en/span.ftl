# Lengths of time. Hours, minutes and seconds are h, min and s in every language.

span-days = { $count ->
    [one] { $count } day
   *[other] { $count } days
}
