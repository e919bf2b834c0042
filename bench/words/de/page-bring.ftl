# Ein Rezept aus einer Datei oder aus eingefügtem Text (frontend/screens/bring.js).

page-bring-lead = Nichts wird gespeichert, bevor du die Prüfung gesehen hast und es willst.
page-bring-file = Eine Rezeptdatei
page-bring-text = Das Rezept als Text
page-bring-text-hint = oder sein JSON hier einfügen
page-bring-check = Prüfen

## Was nicht eingelesen werden kann

page-bring-large-file = { $name } ist größer als 4 MB. So groß ist kein Rezept. Die Datei des Rezepts wählen.
page-bring-large-text = Das ist mehr als 4 MB. So groß ist kein Rezept. Nur das Rezept einfügen.
page-bring-unread-file = { $name } ist nicht lesbar. Noch einmal wählen.
page-bring-empty = Noch nichts da. Eine Rezeptdatei wählen oder ihren Inhalt einfügen.
page-bring-not-json = { $how ->
    [no-text] Das ist keine Rezeptdatei: es ist kein Text.
    [cut-off] Das ist keine Rezeptdatei: sie bricht ab.
    [line] Das ist keine Rezeptdatei: nach Zeile { $line } ist sie nicht lesbar.
   *[other] Das ist keine Rezeptdatei: es ist kein JSON, die Form für Rezepte.
} Die Datei wählen, wie sie gespeichert wurde, oder alles daraus einfügen.
page-bring-no-recipe = In dieser Datei der Werkstatt ist kein Rezept.
page-bring-other-format = Das ist kein Rezept von Bowlside. Darin steht "format": "{ $format }" und genau ein Rezept.
page-bring-cannot = So nicht lesbar
page-bring-mend = Hier richtigstellen

## Was gefunden wurde

page-bring-which = Welches davon?
page-bring-checking = Wird geprüft …
page-bring-parts = { $names }. Geschrieben für { $count }.
page-bring-nothing-found = Die Prüfung findet nichts.

## Was daraus wird

page-bring-save = Rezept speichern
page-bring-same = Dieses Rezept ist schon da, Wort für Wort.
page-bring-save-again = Ein zweites Mal speichern
page-bring-here-by-id = Die Datei nennt ein Rezept, das schon da ist: { $name }, Fassung { $version }. Was soll es werden?
page-bring-here-by-name = Ein Rezept dieses Namens ist schon da, Fassung { $version }. Was soll es werden?
page-bring-as-version = Als neue Fassung speichern
page-bring-as-own = Als eigenes Rezept speichern
