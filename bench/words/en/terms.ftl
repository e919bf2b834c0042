# What every room may refer to.

# Temperatures that stand in a text, as the reader asked for them: $degrees is given to every message.

-degrees = { $degrees ->
    [f] °F
   *[c] °C
}
-at-12 = { $degrees ->
    [f] 54 °F
   *[c] 12 °C
}
-at-25 = { $degrees ->
    [f] 77 °F
   *[c] 25 °C
}
-at-50 = { $degrees ->
    [f] 122 °F
   *[c] 50 °C
}
-at-60 = { $degrees ->
    [f] 140 °F
   *[c] 60 °C
}
