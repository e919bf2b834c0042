# A batch that is not on this phone (frontend/seek.js).

page-seek-title = Diese Charge ist nicht auf diesem Handy
page-seek-away = Keine Verbindung. Mit Verbindung öffnet diese Charge. Alles auf diesem Handy geht.
page-seek-none = Diese Charge gibt es in der Werkstatt nicht.
page-seek-no-number = Keine Charge hat die Nummer { $number }.
page-seek-several = { $count } Chargen haben diese Nummer
