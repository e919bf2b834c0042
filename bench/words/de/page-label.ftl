# Das Etikett einer Charge (frontend/screens/label.js, frontend/parts/label-plate.js).

page-label-sold-in = Verkauft in
page-label-market = { $market ->
    [us] Vereinigte Staaten
   *[eu] Europäische Union
}
page-label-shape = { $shape ->
    [rectangle] Flach: Schachtel, Papier
    [cylinder] Rund: Glas, Dose. Breite ist einmal rundherum.
   *[other] Andere Form
}
page-label-measure = Diese Strecke ist in wahrer Größe 50 mm lang.
page-label-print = In wahrer Größe drucken
page-label-print-says = Manche Browser drucken etwas größer. Die gedruckte Strecke messen. Nicht 50 mm? Noch einmal drucken, mit 5000 ÷ gemessene mm in Prozent.
page-label-language = { $market ->
    [us] Ein US-Etikett ist englisch (21 CFR 701.2, aus dem Gedächtnis).
   *[eu] Es spricht die Sprache dieser Seite. Das Land des Verkaufs kann seine eigene verlangen (Art. 19 Abs. 5, aus dem Gedächtnis).
}

## Was darauf geschrieben wird

page-label-on-it = Was darauf steht
page-label-width = Breite, mm
page-label-height = Höhe, mm
page-label-goes-on = Worauf es kommt
page-label-identity = Was es ist
page-label-purpose = Wozu es dient
page-label-purpose-hint = Badestück
page-label-opened = Nach dem Öffnen haltbar, Monate
page-label-maker = Name und Anschrift
page-label-precautions = Eigene Vorsichtsmaßnahmen, je Zeile eine
page-label-no-fit = Die Wörter passen nicht auf ein Etikett dieser Größe. Ein größeres nehmen oder einen Beipackzettel.

## Was angesehen wurde

page-label-look = Ansehen
page-label-unsure = Ihr Platz ist geschätzt: { $names }
page-label-missing = Fehlt noch darauf
page-label-letters = Schrift
page-label-letter = { $of ->
    [list] Schrift der Zutatenliste: ein kleines o ist { $has } hoch.
   *[net] Schrift der Füllmenge: ein kleines o ist { $has } hoch.
}
page-label-letter-least = Die Regel verlangt { $least }.
page-label-letter-no-least = Eine Mindesthöhe ist hier nicht bekannt.
page-label-checked = Was geprüft wurde

## Auf dem Etikett selbst. market: us oder eu; ein US-Etikett bleibt englisch.

page-label-plate = Das Etikett
page-label-plate-list = Ingredients: { $names }.
page-label-plate-batch = { $market ->
    [us] Batch { $number }
   *[eu] Charge { $number }
}
page-label-plate-best = { $market ->
    [us] Best before { $day }
   *[eu] Mindestens haltbar bis { $day }
}
page-label-plate-opened = Nach dem Öffnen { $count ->
    [one] { $count } Monat
   *[other] { $count } Monate
} haltbar
