# Recipes and batches (frontend/screens/recipes.js).

page-recipes-title = Rezepte
page-recipes-bench = Auf dem Arbeitstisch
page-recipes-to-make = Zum Machen
page-recipes-write-new = Neues Rezept schreiben
page-recipes-bring = Rezept einlesen
page-recipes-all = Alle { $count } Rezepte
page-recipes-all-made = Alle { $count } gemachten Chargen
page-recipes-find = Alles finden: Rezept, Chargennummer, Losnummer, Zutat, Notiz
page-recipes-found = Gefunden
page-recipes-tags = Schlagwörter
page-recipes-archived = { $count ->
    [one] { $count } Rezept im Archiv
   *[other] { $count } Rezepte im Archiv
}
page-recipes-in-use = Zurück zu den Rezepten in Gebrauch
page-recipes-made = Gemacht
page-recipes-update = Eine neuere Seite ist bereit.
page-recipes-update-use = Übernehmen
page-recipes-copy-old = Keine neue Sicherung der Werkstatt seit { $at }.
page-recipes-copy-none = Noch keine Sicherung der Werkstatt.
page-recipes-copy-why = Warum?
page-recipes-waiting = Warten
page-recipes-go-on = Weiter
page-recipes-go-on-with = { $title }: { $now }. Weiter
page-recipes-written-for = Geschrieben für { $pieces }
page-recipes-pieces = { $count ->
    [one] { $count } Stück
   *[other] { $count } Stück
}
page-recipes-draft = Weiterschreiben: { $title }
page-recipes-draft-new = Neues Rezept weiterschreiben
page-recipes-draft-to-send = Auf diesem Handy gespeichert; wird später gesendet.
page-recipes-draft-errors = Nicht als Fassung gespeichert. Das markierte Feld berichtigen.
page-recipes-draft-changed = Jemand hat dieses Rezept inzwischen geändert. Deines steht hier als Entwurf.
