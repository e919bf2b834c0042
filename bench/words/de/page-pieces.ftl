# Fertige Stücke: was da ist und was daraus wird (frontend/screens/pieces.js, frontend/parts/pieces-forms.js).

page-pieces-none = Keine fertigen Stücke da. Sobald eine Charge fertig ist, stehen ihre Stücke hier.
page-pieces-never-seen = Auf diesem Handy noch nicht gesehen. Einmal verbinden.
page-pieces-away = Keine Verbindung. Später noch einmal versuchen.
page-pieces-out = Abgang
page-pieces-out-of = Abgang: { $name }
page-pieces-there-of = { $there } von { $made }
page-pieces-too-many = { $count } mehr abgegangen als gemacht. Nachzählen.
page-pieces-release = { $release ->
    [held] gesperrt
    [rejected] verworfen
   *[none] nicht freigegeben
}
page-pieces-duties = { $open ->
    [one] { $open } Pflicht beim Verkauf ist offen: siehe Rezept.
   *[other] { $open } Pflichten beim Verkauf sind offen: siehe Rezept.
}

## Eine Charge

page-pieces-record = Protokoll
page-pieces-place = Lagerort
page-pieces-complaint = Reklamation
page-pieces-as-lot = Als Lieferung einbuchen
page-pieces-recall = Rückruf
page-pieces-at = { $name }: { $count }
page-pieces-binned = { $day }: { $count } weggeworfen, { $why }
page-pieces-kept = { $count } Stück als Rückstellmuster
page-pieces-nowhere = Noch keins abgegangen.

## Abgang

page-pieces-what = Was geschieht
page-pieces-way = { $way ->
    [sold] Verkauft
    [given] Verschenkt
    [returned] Zurückgekommen
    [binned] Weggeworfen
   *[sampled] Als Muster zurückgestellt
}
page-pieces-how-many = Stück
page-pieces-outlet = Abnehmer
page-pieces-nobody = ohne Namen
page-pieces-why = Grund
page-pieces-of = Aus welcher Charge
page-pieces-first-out = Was zuerst abläuft, zuerst
page-pieces-from = { $count } aus { $name }
page-pieces-which = Charge wählen, aus der sie sind.
page-pieces-short = { $count } Stück können abgehen. Weniger eintragen oder eine Charge wählen.
page-pieces-why-needed = Grund schreiben.
page-pieces-saved = { $way ->
    [sold] Verkauft.
    [given] Verschenkt.
    [returned] Wieder im Bestand.
    [binned] Weggeworfen.
   *[sampled] Zurückgestellt.
}
page-pieces-saved-place = Lagerort gespeichert.

## Eine Reklamation

page-pieces-complaints = Reklamationen
page-pieces-no-complaints = Keine Reklamationen.
page-pieces-complaint-of = Reklamation: { $name }
page-pieces-sort-of = Was es ist
page-pieces-sort = { $sort ->
    [reaction] Hautreaktion oder andere Reaktion
   *[complaint] Reklamation
}
page-pieces-what-is-wrong = Was nicht stimmt
page-pieces-no-names = Hier keine Namen schreiben. Den Abnehmer unten nennen: Er kann gelöscht werden.
page-pieces-from-whom = Von wem
page-pieces-text-needed = Schreiben, was nicht stimmt.
page-pieces-saved-complaint = Reklamation gespeichert.
page-pieces-leads-to = Wohin sie führt

## Ein vorab gemachter Teil

page-pieces-as-lot-of = Als Lieferung einbuchen: { $name }
page-pieces-as-lot-says = Für einen vorab gemachten Teil: Er kommt in den Vorrat, eine andere Charge nimmt davon.
page-pieces-weighs = Wiegt zusammen (leer: gezählt)

## Abnehmer

page-pieces-outlets = Abnehmer
page-pieces-add-outlet = Abnehmer hinzufügen
page-pieces-change = Ändern
page-pieces-erase = Löschen
page-pieces-erased = ein gelöschter Abnehmer
page-pieces-name = Name
page-pieces-contact = Wie erreichbar (darf leer bleiben)
page-pieces-outlet-says = So wenig, wie ein Rückruf braucht. Es kann jederzeit gelöscht werden.
page-pieces-name-needed = Namen schreiben.
page-pieces-erase-title = { $name } löschen?
page-pieces-erase-stays = Name und Kontakt gehen. Alle Zahlen bleiben.
page-pieces-erase-copies = Kopien und Dateien von vorher haben den Namen noch.
page-pieces-erase-phones = Andere Geräte vergessen ihn, wenn sie die Stücke wieder öffnen.
page-pieces-erased-all = Gelöscht. Keine Kopie im Ordner hat den Namen.
page-pieces-erased-but = Gelöscht. Diese Kopien haben den Namen noch: { $names }.
