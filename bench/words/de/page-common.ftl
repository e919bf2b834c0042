# Was mehrere Seiten sagen.

page-common-back = Zurück
page-common-save = Speichern
page-common-home = Rezepte und Chargen
page-common-undo = Rückgängig
page-common-redo = Wiederholen
page-common-no-connection = Keine Verbindung.
page-common-not-saved = Nicht gespeichert
page-common-print = Drucken
page-common-settings = Einstellungen
page-common-reason = Grund (wenn du willst)
