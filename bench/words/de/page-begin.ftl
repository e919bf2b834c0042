# An empty studio (frontend/parts/first-visit.js).

page-begin-title = Anfangen
page-begin-what = Das Handy neben die Schüssel stellen. Es sagt, was zu tun ist, wie viel, und was die Waage zeigt. Es führt jeden Timer und das Chargenprotokoll.
page-begin-sample = Beispiel ausprobieren
page-begin-sample-says = 10 Minuten, nichts zu wiegen. Kurze Wartezeiten, und nichts wird gespeichert.
page-begin-write = Rezept schreiben
page-begin-write-says = Mengen so eingeben, wie du sie sagst.
page-begin-bring-one = Eines einlesen
page-begin-bring-says = Eine Rezeptdatei, oder Text zum Einfügen.
page-begin-asks = Es fragt nach Rezept, Waagen und Schüsseln, und was die Waage zeigt. Kein Konto: alles bleibt in deiner Werkstatt.
page-begin-kit = Waagen und Schüsseln eintragen
# To a phone set to the United States.
page-begin-grams = Alles steht in Gramm und °C.
page-begin-ounces = Unzen und °F nehmen
