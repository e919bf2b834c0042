# A recipe, or a sheet, on paper (frontend/screens/card.js, frontend/parts/paper-leaf.js, paper-plan.js).

## Ways to hand it on

page-paper-title = Auf Papier
page-paper-needs-kit = Ein Blatt braucht die Ausrüstung: welche Waagen, welche Schüsseln.
page-paper-set-kit = Ausrüstung eintragen
page-paper-pieces = Stück
page-paper-sheet-for = Blatt für so viele
page-paper-as-written = Die Karte, wie geschrieben
page-paper-save-file = Als Datei speichern
page-paper-versions = Fassungen
page-paper-make = Machen
page-paper-only-here = Für Link oder Code diese Seite unter ihrer Netzadresse öffnen.
page-paper-copied = Der Link ist kopiert.
page-paper-share-link = Link teilen
page-paper-copy-link = Link kopieren
page-paper-code = QR-Code der Adresse dieses Rezepts

## The sheet's head and foot

page-paper-batch = Charge
page-paper-date = Datum
page-paper-made-by = Gemacht von
page-paper-end = Am Ende
page-paper-good = Gut
page-paper-small = Kleine Stücke
page-paper-spoiled = Verdorben
page-paper-finished = Fertig um
page-paper-notes = Notizen
page-paper-fetch = Bereitstellen, für die ganze Charge
page-paper-in-all = insgesamt
page-paper-lot = Los
page-paper-ingredient = Zutat
page-paper-sheet-version = Rezeptfassung { $number }
page-paper-weigh-tare = vor jeder Zutat tarieren
page-paper-weigh-running = mitlaufende Summe: dazwischen nicht tarieren
page-paper-written-for = geschrieben für { $pieces }
page-paper-card-version = Fassung { $number }

## Columns

page-paper-weigh = wiegen
page-paper-scale-reads = Anzeige
page-paper-weighed = gewogen
page-paper-written = wie geschrieben
page-paper-by-scale = { $unit ->
    [oz] in Unzen
   *[g] in Gramm
}

## A part

page-paper-of-mass = { $count } zu { $mass }
page-paper-of-them-spare = davon { $count } Reserve
page-paper-mass-in-all = { $mass } insgesamt
page-paper-stays = { $mass } bleibt in der Schüssel
page-paper-each = { $mass } je Stück
page-paper-spare = { $count } Reserve
page-paper-stays-behind = { $mass } bleibt zurück
page-paper-lost = { $mass } Schwund
page-paper-mould = Form: { $shape }
page-paper-round = Durchgang { $number }: { $count } Stück, { $mass }
page-paper-loose = { $part }, in keinem Schritt gewogen

## A step

page-paper-optional = Kann wegbleiben.
page-paper-about = etwa { $length }
page-paper-within = Innerhalb von { $length }.
page-paper-within-of = Innerhalb von { $length } nach { $steps }.
page-paper-quoted = „{ $title }“
page-paper-tools = Zur Hand: { $tools }
page-paper-at-a-time = je { $length }:
page-paper-look-for = Achten auf:
page-paper-no-further = Nicht über { $warmth }.
page-paper-not-yet = Noch nicht:
page-paper-too-far = Zu weit:
page-paper-checked = Geprüft
page-paper-after-each = Nach jedem:
page-paper-to-make = { $count } zu machen
page-paper-made = gemacht
page-paper-count-spoiled = verdorben
page-paper-latest = Spätestens:
page-paper-began = begonnen
page-paper-ended = beendet
page-paper-wait = frühestens { $earliest }, üblich { $usual }
page-paper-wait-latest = frühestens { $earliest }, üblich { $usual }, spätestens { $latest }

## A line

page-paper-into = in: { $vessel }
page-paper-cup-into = Becherchen, dann in: { $vessel }
page-paper-stays-in-bowl = bleibt in der Schüssel
page-paper-parts = { $count ->
    [one] { $count } Teil
   *[other] { $count } Teile
}
page-paper-or = Oder { $name }.
page-paper-again = { $count ->
    [one] Hinweis { $numbers }
   *[other] Hinweise { $numbers }
}
