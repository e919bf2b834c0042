# Was mehrere Seiten sagen.

page-common-again = Noch einmal
page-common-asking = Der Server wird gefragt…
page-common-back = Zurück
page-common-home = Rezepte und Chargen
page-common-no-connection = Keine Verbindung.
page-common-not-saved = Nicht gespeichert
page-common-print = Drucken
page-common-reason = Grund (wenn du willst)
page-common-redo = Wiederholen
page-common-save = Speichern
page-common-settings = Einstellungen
page-common-undo = Rückgängig
page-common-part = Teil { $letter }
page-common-finished = abgeschlossen { $at }
page-common-unfinished = nicht abgeschlossen
page-common-release = { $verdict ->
    [released] freigegeben
    [held] gesperrt
   *[rejected] verworfen
}
