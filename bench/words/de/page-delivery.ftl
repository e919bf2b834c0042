# A list from a supplier (frontend/screens/delivery.js). name: as the list has it.

page-delivery-lead = Nichts steht im Regal, bevor du jede Zeile gesehen hast.
page-delivery-file = Die Liste als Datei: CSV oder Text
page-delivery-text = Liste des Lieferanten
page-delivery-text-hint = oder einfügen: eine Tabelle, oder eine Lieferung je Zeile
page-delivery-empty = Hier ist noch nichts. Wähl eine Datei, oder füge die Liste ein.
page-delivery-large = Das sind mehr als 200 000 Zeichen. Nimm es als mehrere Listen auf.
page-delivery-whose = Flüssigunzen und Löffel
page-delivery-measures = { $measures ->
    [us] amerikanisch
    [imperial] britisch
    [metric] metrisch
   *[none] frag mich
}
page-delivery-cost = Lieferkosten
page-delivery-shared = Auf die Lieferungen verteilt
page-delivery-by = { $by ->
    [mass] nach Masse
   *[value] nach Preis
}
page-delivery-look = Ansehen
page-delivery-rows = Was kam
page-delivery-columns = Was jede Spalte ist
page-delivery-column = Spalte { $number }
page-delivery-field = { $field ->
    [name] Name
    [amount] Menge
    [unit] Einheit
    [packs] Anzahl Packungen
    [number] Losnummer
    [best_before] Haltbar bis
    [price] Bezahlt
    [unit_price] Preis je Packung
    [currency] Währung
    [inci] INCI-Name
    [cas] CAS-Nummer
   *[nothing] nicht gelesen
}
page-delivery-nameless = Kein Name
page-delivery-new = ist neu im Regal
page-delivery-is = ist { $name }
page-delivery-lot = Los { $number }
page-delivery-paid = { $price }, dazu { $delivery } der Lieferung
page-delivery-leave = Weglassen
page-delivery-leave-row = Weglassen: { $name }
page-delivery-take = Aufnehmen
page-delivery-take-row = Aufnehmen: { $name }
page-delivery-change = Richtigstellen
page-delivery-change-row = Richtigstellen: { $name }
page-delivery-again = Kam noch einmal
page-delivery-same = Es ist { $name }
page-delivery-other = Es ist etwas Neues
page-delivery-open = { $count ->
    [one] { $count } Frage ist offen
   *[other] { $count } Fragen sind offen
}
page-delivery-put = { $count ->
    [one] { $count } Lieferung ins Regal stellen
   *[other] { $count } Lieferungen ins Regal stellen
}
page-delivery-entered = { $count ->
    [one] { $count } Lieferung steht im Regal.
   *[other] { $count } Lieferungen stehen im Regal.
}
page-delivery-to-shelf = Zum Regal
