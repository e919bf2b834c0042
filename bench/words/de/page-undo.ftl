# Was ein Eintrag getan hat, für die Knöpfe, die ihn rückgängig machen und wiederholen (frontend/parts/undo-words.js).

page-undo-undo = Rückgängig: { $deed }
page-undo-undo-short = Rückgängig
page-undo-undone = Rückgängig gemacht: { $deed }.
page-undo-redo = Wiederholen: { $deed }
page-undo-redo-short = Wiederholen
page-undo-redone = Wiederholt: { $deed }.

## Die Taten, nach Art des Eintrags

page-undo-lot = Lieferung { $number }
page-undo-line = Zeile
page-undo-step = Schritt
page-undo-taken-out = { $name }, { $mass } heraus
page-undo-left = { $name } so gelassen
page-undo-left-out = { $name } weggelassen
page-undo-scaled = { $way ->
    [down] herunterrechnen
   *[up] hochrechnen
}
page-undo-scale-reset = Waage auf 0
page-undo-weighing = { $weigh ->
    [tare] vor jeder Zeile tarieren
   *[running] mitlaufende Summe
}
page-undo-chose = Wahl, { $title }
page-undo-skipped = übersprungen, { $title }
page-undo-began = begonnen, { $title }
page-undo-heated = { $length } erhitzen, { $title }
page-undo-checked = Prüfung, { $title }
page-undo-portion = Teilmenge { $mass }
page-undo-good = { $count } gut
page-undo-count = Anzahl
page-undo-more = weitere { $length }
page-undo-weighed = gewogen { $mass }
page-undo-photo = Foto
page-undo-kept = { $count } zurückgestellt
page-undo-paper = Papier „{ $text }“
page-undo-worked = Handarbeit { $length }
page-undo-note = Anmerkung „{ $text }“
page-undo-finish = Abschluss
page-undo-card = Karte von { $name }
page-undo-corrected = Berichtigung auf { $amount }
page-undo-wrote-off = Ausbuchung von { $amount }
page-undo-entry = Eintrag
page-undo-air = Raumluft
page-undo-proof = Prüfgewicht
page-undo-mended = Angaben der Lieferung
page-undo-pieces = { $way ->
    [sold] { $count } verkauft
    [given] { $count } verschenkt
    [returned] { $count } zurück
    [binned] { $count } weggeworfen
    [shelved] { $count } als Lieferung
   *[sampled] { $count } zurückgestellt
}
page-undo-ordered = Bestellung { $amount }
page-undo-arrived = Ankunft
page-undo-quoted = Preis
page-undo-scale = andere Waage
page-undo-vessel = anderes Gefäß
page-undo-place = Lagerort „{ $text }“
page-undo-complaint = Reklamation
