# What every room may refer to.

# Temperaturen in einem Text, wie gewünscht: $degrees hat jede Nachricht.

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
