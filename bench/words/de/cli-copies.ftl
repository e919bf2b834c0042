# `bowlside backup`, `verify`, `restore`, `move`, `copies-key`.

cli-copies-copied = Gesichert: { $rows }.
cli-copies-whole = Vollständig, gemacht { $at }: { $rows }.
cli-copies-restored = Zurückgeholt: { $rows }.
cli-copies-moved = Umgezogen: { $rows }.
cli-copies-no-rows = nichts, denn nichts ist da
cli-copies-unreadable = Diese Version kann nicht lesen:
cli-copies-replace = Hier ist eine Werkstatt. Alles ersetzen?
cli-copies-kept = Was hier war, liegt in { $file }.
cli-copies-pair-again = Geräte neu koppeln: eine Sicherung enthält keine Geheimnisse.
cli-copies-back = Die Werkstatt ist wieder hier. Was seither in { $place } geschrieben wurde, fehlt hier.
cli-copies-say-where = Einmal sagen, wohin: eine SQLite-Datei oder eine Adresse postgresql://.
cli-copies-serve-new = Ab jetzt den neuen Ort anbieten. Der alte speichert nichts mehr.
cli-copies-passphrase = Ein Passwort für die Datei (leer: keins)
cli-copies-again = Noch einmal
cli-copies-passphrase-of = Das Passwort von { $file }
cli-copies-keep-away = { $file } nicht auf diesem Rechner lassen. Ohne sie geht keine Sicherung auf.
cli-copies-no-place = { $place } ist weder eine vorhandene SQLite-Datei noch eine Adresse postgresql://.

## Wie viele wovon


cli-copies-table-recipe = { $count ->
    [one] { $count } Rezept
   *[other] { $count } Rezepte
}
cli-copies-table-recipe-version = { $count ->
    [one] { $count } Rezeptfassung
   *[other] { $count } Rezeptfassungen
}
cli-copies-table-kit = { $count ->
    [one] { $count } Ausrüstung
   *[other] { $count } Ausrüstungen
}
cli-copies-table-run = { $count ->
    [one] { $count } Charge
   *[other] { $count } Chargen
}
cli-copies-table-entry = { $count ->
    [one] { $count } Eintrag
   *[other] { $count } Einträge
}
cli-copies-table-shelf-entry = { $count ->
    [one] { $count } Eintrag im Vorrat
   *[other] { $count } Einträge im Vorrat
}
cli-copies-table-lot-use = { $count ->
    [one] { $count } Verbrauch einer Lieferung
   *[other] { $count } Verbräuche von Lieferungen
}
cli-copies-table-picture = { $count ->
    [one] { $count } Bild
   *[other] { $count } Bilder
}
cli-copies-table-studio-settings = { $count } Einstellungen
cli-copies-table-bench-hours = { $count } Arbeitszeiten
cli-copies-table-plan = { $count ->
    [one] { $count } Plan
   *[other] { $count } Pläne
}
cli-copies-table-planned-run = { $count ->
    [one] { $count } geplante Charge
   *[other] { $count } geplante Chargen
}
cli-copies-table-device = { $count ->
    [one] { $count } Gerät
   *[other] { $count } Geräte
}
cli-copies-table-bench-owner = { $count ->
    [one] { $count } Gerätename
   *[other] { $count } Gerätenamen
}
cli-copies-table-run-note = { $count ->
    [one] { $count } Notiz
   *[other] { $count } Notizen
}
cli-copies-table-batch-pieces = { $count ->
    [one] { $count } Charge mit Stücken
   *[other] { $count } Chargen mit Stücken
}
cli-copies-table-batch-figures = { $count ->
    [one] { $count } Charge in Zahlen
   *[other] { $count } Chargen in Zahlen
}
cli-copies-table-outlet = { $count ->
    [one] { $count } Abnehmer
   *[other] { $count } Abnehmer
}
cli-copies-table-want = { $count ->
    [one] { $count } Zeile des Auftrags
   *[other] { $count } Zeilen des Auftrags
}
cli-copies-table-week-plan = { $count ->
    [one] { $count } Plan der Woche
   *[other] { $count } Pläne der Woche
}
cli-copies-table-duty-mark = { $count ->
    [one] { $count } Vermerk zu einer Pflicht
   *[other] { $count } Vermerke zu Pflichten
}
