# Zeitspannen.

span-days = { $count ->
    [one] { $count } Tag
   *[other] { $count } Tage
}
