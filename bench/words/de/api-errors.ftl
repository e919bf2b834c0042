# Wie die API ablehnt, in Fehlermeldungen (api/errors.py, api/wire.py).


## Überschriften

api-errors-title-recipe = Das Rezept stimmt nicht
api-errors-title-entry = Der Eintrag stimmt nicht
api-errors-title-made = So lässt es sich nicht machen
api-errors-title-moved = Die Werkstatt ist umgezogen

## Gleich, was gefragt wird

api-errors-fields-wrong = Einige Felder stimmen nicht. Jedes steht unter errors.
api-errors-and-more = Mehr als diese { $most } stimmen nicht. Erst diese berichtigen, dann noch einmal senden.
api-errors-not-found = { $what ->
    [device] Dieses Gerät gibt es nicht. Geräte stehen hier: { $where }.
    [recipe] Dieses Rezept gibt es nicht. Rezepte stehen hier: { $where }.
    [version] Diese Fassung gibt es nicht. Fassungen stehen hier: { $where }.
    [ingredient] Diese Zutat gibt es nicht. Zutaten stehen hier: { $where }.
    [lot] Diese Lieferung gibt es nicht. Lieferungen stehen hier: { $where }.
    [picture] Dieses Bild gibt es nicht. Im Chargenprotokoll stehen die Bilder: { $where }.
    [plan] Diesen Plan gibt es nicht. Der Plan einer Charge steht hier: { $where }.
    [outlet] Diesen Abnehmer gibt es nicht. Abnehmer stehen hier: { $where }.
    [want] Diese Zeile gibt es im Auftrag nicht. Sie stehen hier: { $where }.
    [complaint] Diese Reklamation gibt es nicht. Reklamationen stehen hier: { $where }.
   *[run] Diese Charge gibt es nicht. Chargen stehen hier: { $where }.
}
api-errors-no-address = Unter dieser Adresse ist nichts. Was es gibt: { $where }.
api-errors-no-method = Diese Adresse nimmt { $method } nicht an. Der Kopf Allow nennt, was sie annimmt.
api-errors-too-large = Der Inhalt ist größer als { $most } Bytes. Weniger auf einmal senden.
api-errors-file-too-large = Die Datei ist größer als { $most } Bytes. Auf dem Rechner der Werkstatt: `bowlside import FILE`. Oder die Grenze anheben: BOWLSIDE_IMPORT_LIMIT.
api-errors-fault = Auf dem Server ging etwas schief. Nichts wurde gespeichert. Sein Log sagt, was: { $request }.
api-errors-other = So lässt sich das nicht beantworten. Berichtigen und noch einmal senden.

## Die Datenbank kann nicht speichern

api-errors-storage-full = Die Platte des Servers ist voll. Nichts wurde gespeichert. Platz schaffen, dann noch einmal senden.
api-errors-storage-failed = Die Platte des Servers versagt. Nichts wurde gespeichert. Platte prüfen, dann noch einmal senden.
api-errors-storage-readonly = Der Server darf seine Datenbank nicht schreiben. Nichts wurde gespeichert. Rechte prüfen.
api-errors-storage-busy = Die Datenbank ist beschäftigt. Nichts wurde gespeichert. Gleich noch einmal senden.
api-errors-storage-unreachable = Keine Verbindung zur Datenbank. Nichts wurde gespeichert. Gleich noch einmal senden.

## Was hereinkommt

api-errors-send-json = JSON senden, mit dem Kopf Content-Type: application/json.
api-errors-not-json = Der Inhalt ist kein JSON in UTF-8.
api-errors-not-json-at = Der Inhalt ist kein JSON in UTF-8. Nicht lesbar: Zeile { $line }, Spalte { $column }.
api-errors-not-an-object = Ein JSON-Objekt senden.
api-errors-too-deep = Das ist tiefer als { $most } Ebenen verschachtelt. Flacher senden.
api-errors-unfit = Einige Werte lassen sich so nicht speichern.
api-errors-unfit-text = NUL oder kaputte Zeichen herausnehmen. Sie lassen sich nicht speichern.
api-errors-unfit-name = NUL oder kaputte Zeichen aus den Namen nehmen. Sie lassen sich nicht speichern.
api-errors-unfit-float = Eine ganze Zahl ohne Punkt senden (400, nicht 400.0). Oder die Menge als Text: "1.5 g".
api-errors-unfit-whole = Eine Zahl zwischen { $least } und { $most } senden.

## Wenn jemand anders geändert hat

api-errors-here-already = { $what ->
    [recipe] Dieses Rezept gibt es schon. „If-None-Match: *“ legt ein neues an.
    [kit] Die Ausrüstung gibt es schon. „If-None-Match: *“ legt eine neue an.
    [want] Diese Zeile des Auftrags gibt es schon. „If-None-Match: *“ legt eine neue an.
    [hours] Die Arbeitszeiten gibt es schon. „If-None-Match: *“ legt neue an.
   *[settings] Die Einstellungen gibt es schon. „If-None-Match: *“ legt neue an.
}
api-errors-read-first = { $what ->
    [recipe] Vor dem Ändern das Rezept lesen. Dann If-Match mit seinem ETag senden.
    [kit] Vor dem Ändern die Ausrüstung lesen. Dann If-Match mit ihrem ETag senden.
    [want] Vor dem Ändern die Zeile des Auftrags lesen. Dann If-Match mit ihrem ETag senden.
    [hours] Vor dem Ändern die Arbeitszeiten lesen. Dann If-Match mit ihrem ETag senden.
   *[settings] Vor dem Ändern die Einstellungen lesen. Dann If-Match mit ihrem ETag senden.
}
api-errors-changed-since = { $what ->
    [recipe] Dieses Rezept wurde inzwischen geändert. Neu lesen, dann ändern.
    [kit] Die Ausrüstung wurde inzwischen geändert. Neu lesen, dann ändern.
    [want] Diese Zeile des Auftrags wurde inzwischen geändert. Neu lesen, dann ändern.
    [hours] Die Arbeitszeiten wurden inzwischen geändert. Neu lesen, dann ändern.
   *[settings] Die Einstellungen wurden inzwischen geändert. Neu lesen, dann ändern.
}
api-errors-would-replace = { $what ->
    [kit] Das würde die Ausrüstung der Werkstatt ersetzen. Dafür: { $request }.
    [hours] Das würde die Arbeitszeiten der Werkstatt ersetzen. Dafür: { $request }.
   *[settings] Das würde die Einstellungen der Werkstatt ersetzen. Dafür: { $request }.
}
api-errors-whole-etag = If-Match enthält nur die Nummer einer Fassung. Den ganzen ETag aus der Antwort senden.
api-errors-other-generation = Die Werkstatt wurde inzwischen aus einer Sicherung zurückgeholt. Alles neu lesen, dann noch einmal senden.
