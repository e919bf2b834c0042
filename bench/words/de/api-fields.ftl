# Was an einem Feld einer Anfrage nicht stimmt (api/field_words.py, api/schemas.py).


## Bei jedem Feld

api-fields-missing = Das fehlt. Ergänzen.
api-fields-null = Das ist null. Einen Wert angeben oder weglassen.
api-fields-unusable = Das ist nicht verwendbar. Etwas anderes senden.
api-fields-unknown = Dieser Name ist hier unbekannt. Herausnehmen.

## Was dort stehen sollte

api-fields-text = Text senden.
api-fields-number = Eine Zahl senden.
api-fields-whole = Eine ganze Zahl senden.
api-fields-flag = true oder false senden.
api-fields-date = Einen Tag senden, etwa 2026-11-28.
api-fields-uuid = Eine UUID senden, wie sie in der Adresse steht.
api-fields-list = Eine Liste senden.
api-fields-object = Ein Objekt senden.
api-fields-pattern = Das ist nicht so geschrieben wie verlangt. Schreiben, wie die Beschreibung der API sagt.
api-fields-one-of = Möglich ist eins davon: { $choices }.
api-fields-equal = Das muss sein: { $other }.

## Zu viel, zu wenig

api-fields-least = Das ist zu klein. Mindestens { $min }.
api-fields-most = Das ist zu groß. Höchstens { $max }.
api-fields-between = Eine Zahl von { $min } bis { $max } senden.
api-fields-shortest = Das ist zu kurz. Mindestens { $min }.
api-fields-longest = Das ist zu lang. Höchstens { $max }.
api-fields-length = Hier passen { $min } bis { $max }. Kürzer oder länger schreiben.
api-fields-exactly = Die Länge muss { $equal } sein.
api-fields-too-many = Hier sind { $count }. Höchstens { $most }.
api-fields-too-many-entries = Höchstens { $max } Einträge auf einmal senden.

## Bestimmte Felder

api-fields-identifier = Eine Kennung des Rezepts nehmen, etwa base.fragrance.
api-fields-sha256 = 64 hexadezimale Ziffern senden oder weglassen.
api-fields-device-name = Einen Namen in einer Zeile geben, bis 60 Buchstaben.
api-fields-client-id = So senden, wie es in den Einträgen steht.
api-fields-air = Temperatur und Luftfeuchte zusammen angeben oder keine.
api-fields-needed-by = Für die Größe nach { $by } wird das gebraucht. Ergänzen.
api-fields-search = Suchwörter schreiben.
api-fields-plain-name = Einfache Buchstaben verwenden.
