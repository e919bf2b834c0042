# Wie die Werkstatt steht und was von Chargen und Rezepten verlangt wird (api/clock.py, health.py, live.py, runs.py …).


## Ihre Uhr

api-studio-clock-old = Die Uhr des Servers zeigt { $at }, vor dem Datum dieser Version ({ $made }). Stellen.
api-studio-clock-behind = Die Uhr des Servers zeigt { $at }, vorher zeigte sie { $before }. Sie geht jetzt nach oder ging damals vor. Stellen.

## Ob es ihr gut geht

api-studio-moved = Die Werkstatt ist umgezogen.
api-studio-no-database = Keine Verbindung zur Datenbank.
api-studio-disk-full = Die Platte ist voll.
api-studio-lines-full = Genug Verbindungen sind offen. Stattdessen ab und zu fragen.

## Einstellungen

api-studio-no-currency = Das ist keine Währung nach ISO 4217 wie EUR, GBP oder USD.
api-studio-currency-wanted = Die Währung der Werkstatt angeben: { $request }.
api-studio-setting-choice = { $name }: { $value } ist nicht dabei: { $choices }.
api-studio-setting-whole = { $name } ist { $value }. Es muss eine ganze Zahl sein.

## Chargen und Rezepte

api-studio-other-text = Ein anderer Text dieser Fassung ist schon da. Diesen als eigenes Rezept speichern.
api-studio-version-missing = Die Fassung davor fehlt. Erst die Datei mit ihr einlesen.
api-studio-other-batch = Diese Kennung gehört einer Charge mit anderem Rezept, anderer Größe oder Ausrüstung. Eine neue nehmen.
api-studio-other-sheet = Der Server rechnet ein anderes Blatt als der Fragende. Seite neu laden und Rezept neu lesen. Dann die Charge neu beginnen.
api-studio-no-parquet = Dieser Server schreibt kein Parquet. { $extra } installieren oder { $csv } nehmen.
api-studio-no-variant = Das ist keine Variante dieses Rezepts. Die Versuche neu laden.
api-studio-after = Diese Charge steht nicht in der Liste. Frag die erste Seite an.
