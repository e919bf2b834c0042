# Das Etikett einer Charge (frontend/screens/label.js, frontend/parts/label-plate.js).

page-label-sold-in = Verkauft in
page-label-market = { $market ->
    [us] Vereinigte Staaten
    [uk] Vereinigtes Königreich
   *[eu] Europäische Union
}
page-label-shape = { $shape ->
    [rectangle] Flach: Schachtel, Papier
    [cylinder] Rund: Glas, Dose. Breite ist einmal rundherum.
   *[other] Andere Form
}
page-label-print = In wahrer Größe drucken
page-label-print-says = Manche Browser drucken etwas größer. Die gedruckte Strecke messen. Nicht 50 mm? Noch einmal drucken, mit 5000 ÷ gemessene mm in Prozent.
page-label-language = { $market ->
    [us] Ein US-Etikett ist englisch (21 CFR 701.2, Ausgabe 2015).
    [uk] Ein britisches Etikett ist englisch (aus dem Gedächtnis).
   *[eu] Es spricht die Sprache dieser Seite. Das Land des Verkaufs kann seine eigene verlangen (Art. 19 Abs. 5, aus dem Gedächtnis).
}

## Was darauf geschrieben wird

page-label-on-it = Was darauf steht
page-label-width = Breite, mm
page-label-height = Höhe, mm
page-label-goes-on = Worauf es kommt
page-label-identity = Was es ist
page-label-purpose = Üblicher Name oder Zweck
page-label-use = Wofür es ist
page-label-use-unsaid = Wie im Rezept
page-label-single = Wird es sofort verbraucht?
page-label-single-is = { $single ->
    [yes] Ja
    [no] Nein
   *[unsaid] Nicht gesagt
}
page-label-keeps = Ungeöffnet haltbar, Monate
page-label-meant = Für wen es ist
page-label-meant-for = { $meant ->
    [adults] Nur Erwachsene, und das Etikett sagt es
    [children] Kinder
   *[all] Alle
}
page-label-purpose-hint = Badestück
page-label-opened = Nach dem Öffnen haltbar, Monate
page-label-maker = Name und Anschrift
page-label-precautions = Eigene Vorsichtsmaßnahmen, je Zeile eine
page-label-origin = Ursprungsland, wenn eingeführt
page-label-leaflet = Liste und Vorsichtsmaßnahmen
page-label-leaflet-is = { $leaflet ->
    [yes] Auf einem Beipackzettel (EU, UK)
   *[no] Auf dem Etikett
}
page-label-leaflets = Beipackzettel als PDF
page-label-no-fit = Die Wörter passen nicht auf ein Etikett dieser Größe. Ein größeres nehmen oder einen Beipackzettel.

## Was angesehen wurde

page-label-open = Nicht geprüft
page-label-shortfall = Eine Packung darf um { $mass } zu leicht sein, das Mittel einer Charge nicht.
page-label-look = Ansehen
page-label-unsure = Ihr Platz ist geschätzt: { $names }
page-label-missing = Fehlt noch darauf
page-label-letters = Schrift
page-label-letter = { $of ->
    [list] Schrift der Zutatenliste: ein kleines o ist { $has } hoch.
    [digits] Ziffern der Füllmenge: eine Ziffer ist { $has } hoch.
   *[net] Schrift der Füllmenge: ein kleines o ist { $has } hoch.
}
page-label-letter-least = Die Regel verlangt { $least }.
page-label-letter-no-least = Eine Mindesthöhe ist hier nicht bekannt.
page-label-checked = Was geprüft wurde

## Auf dem Etikett selbst. market: us, eu oder uk; US- und UK-Etiketten bleiben englisch.

page-label-plate = Das Etikett
page-label-plate-opened = Nach dem Öffnen { $count ->
    [one] { $count } Monat
   *[other] { $count } Monate
} haltbar

## Auf einem Etikettenbogen

page-label-sheet = Etikettenbogen
page-label-one = Ein Etikett auf blankem Papier
page-label-start = Erster Platz
page-label-count = Wie viele
page-label-own-sheet = Ein eigener Bogen
page-label-sheet-name = Wie er heißt
page-label-sheet-hint = Dosenetiketten
page-label-paper-kind = Papier
page-label-paper = { $paper ->
    [letter] Letter
   *[a4] A4
}
page-label-unit-kind = Gemessen in
page-label-unit = { $unit ->
    [in] Zoll
   *[mm] Millimetern
}
page-label-columns = Spalten
page-label-rows = Zeilen
page-label-length = { $of ->
    [width_um] Etikett, Breite
    [height_um] Etikett, Höhe
    [left_um] Linker Rand bis zum ersten Etikett
    [top_um] Oberer Rand bis zum ersten Etikett
    [across_um] Schritt zur nächsten Spalte
   *[down_um] Schritt zur nächsten Zeile
}
page-label-sheet-wants = Name und alle Maße sind nötig. Wo nichts ist, 0 schreiben.
page-label-sheet-keep = Bogen speichern
page-label-pdf = Als PDF
page-label-trial = Probe des Bogens
page-label-count-them = Etiketten zählen
page-label-counted = Etiketten, gezählt
page-label-printed = Gedruckt
page-label-on-pieces = Auf Stücken
page-label-binned = Weggeworfen
page-label-too-many = Auf Stücken und weggeworfen sind mehr als gedruckt. Noch einmal zählen.
page-label-pdf-says = Das PDF zeichnet die Werkstatt. Mit 100 % drucken. Den Bogen erst auf blankem Papier versuchen.
page-label-stickers = Aufkleber: { $name }
page-label-code-says = Im PDF steht auch der Code der Lieferung, wenn einer gescannt wurde.
