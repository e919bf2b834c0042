# Was im Haus ist (frontend/screens/shelf.js, frontend/parts/shelf-forms.js, frontend/parts/stock.js).

page-shelf-empty = Noch nichts im Vorrat. Einbuchen, was kommt: was es ist, Losnummer, wie viel.
page-shelf-no-match = Kein Treffer. Nur einen Teil des Namens eingeben.
page-shelf-find = Suchen nach Name, Losnummer oder Code
page-shelf-scan = Scannen
page-shelf-scan-lot = Lieferung scannen
page-shelf-scan-package = Packung scannen

## Eine Zutat. name: wie geschrieben.

page-shelf-used-up = { $count } aufgebraucht
page-shelf-receive = Lieferung einbuchen
page-shelf-receive-of = Lieferung einbuchen: { $name }
page-shelf-card = Karte
page-shelf-card-of = Karte: { $name }
page-shelf-note = Notiz
page-shelf-note-on = Notiz: { $name }
page-shelf-fact = { $fact ->
    [inci] INCI
    [cas] CAS
    [density] Dichte
    [limits] Grenzwerte
    [hazards] Hinweise
    [note] Notiz
   *[answers_to] Heißt auch
}
page-shelf-density = { $density } g/mL, { $source }

## Eine Lieferung. name: ihre Losnummer.

page-shelf-pieces = { $count } Stück
page-shelf-best-before = mindestens haltbar bis { $day }
page-shelf-past = Datum überschritten, { $day }
page-shelf-received = eingebucht { $day }
page-shelf-paid = { $tax ->
    [included] { $price }, { $percent } % Steuer enthalten
    [added] { $price } zuzüglich { $percent } % Steuer
   *[none] { $price }
}
page-shelf-left-of = { $left } von { $whole }
page-shelf-wrote-off = { $day }: { $amount } ausgebucht, { $why }
page-shelf-correct = Berichtigen
page-shelf-correct-lot = Berichtigen: { $name }
page-shelf-write-off = Ausbuchen
page-shelf-write-off-lot = Ausbuchen: { $name }
page-shelf-where = Wohin es ging
page-shelf-where-lot = Wohin es ging: { $name }
page-shelf-here = Chargen auf diesem Handy:
page-shelf-in-none = In keiner Charge.
page-shelf-recall = Rückrufliste als Datei
page-shelf-how-much-left = { $name }: wie viel ist noch da?

## Wenn es gespeichert ist

page-shelf-saved-card = Karte gespeichert.
page-shelf-saved-loss = Ausgebucht.
page-shelf-saved-lot = Eingebucht.
page-shelf-saved-correction = Berichtigt.
page-shelf-saved-note = Notiz gespeichert.

## Eine Lieferung einbuchen

page-shelf-what = Was gekommen ist
page-shelf-new = Etwas Neues
page-shelf-trade-name = Handelsname
page-shelf-inci = INCI-Name
page-shelf-inci-hint = wie auf dem Etikett
page-shelf-much = Wie viel
page-shelf-much-hint = 1 kg
page-shelf-number = Losnummer des Lieferanten
page-shelf-supplier = Lieferant
page-shelf-best = Mindestens haltbar bis
page-shelf-received-on = Gekommen am
page-shelf-price = Gezahlter Preis
page-shelf-price-hint = 12,50
page-shelf-currency = Währung
page-shelf-tax = Steuer, Prozent
page-shelf-tax-included = Im Preis enthalten
page-shelf-code = Strichcode oder QR-Text
page-shelf-put = Einbuchen

## Eine Karte

page-shelf-card-new = Neue Karte
page-shelf-cas = CAS-Nummer
page-shelf-answers = In Rezepten auch genannt, je Zeile ein Name
page-shelf-limits = Grenzwerte des Lieferanten, je Zeile einer
page-shelf-hazards = Übliche Hinweise
page-shelf-hazard-note = Gefahren und anderes, aus dem Sicherheitsdatenblatt
page-shelf-density-ml = Dichte, g/mL
page-shelf-density-hint = 0,92
page-shelf-density-from = Dichte laut
page-shelf-density-from-hint = das Datenblatt
page-shelf-save-card = Karte speichern

## Ausbuchen

page-shelf-loss = Ausbuchen: { $name }
page-shelf-gone = Wie viel fehlt
page-shelf-gone-hint = { $measure ->
    [mg] 20 g
   *[count] 3 Stück
}
page-shelf-why = Warum
page-shelf-why-hint = verschüttet

## Was so nicht gespeichert werden kann

page-shelf-need-much = Menge schreiben: 1 kg oder 50 Stück.
page-shelf-need-mass-or-pieces = Menge als Masse oder in Stück schreiben: 1 kg oder 50 Stück.
page-shelf-need-mass = Diese Lieferung wird gewogen. Eine Masse schreiben, etwa 20 g.
page-shelf-need-pieces = Diese Lieferung wird gezählt. Stück schreiben, etwa 3 Stück.
page-shelf-need-currency = Währung schreiben, etwa EUR.
page-shelf-no-currency = Eine Währung hat drei Buchstaben, etwa EUR, GBP oder USD.
page-shelf-need-name = Handelsnamen schreiben.
page-shelf-need-number = Losnummer des Lieferanten schreiben: danach geht ein Rückruf.
page-shelf-need-day = Tag schreiben, an dem es kam.
page-shelf-need-source = Schreiben, woher die Dichte stammt.
page-shelf-need-why = Grund schreiben: in einem Jahr fragt das Protokoll danach.
page-shelf-sticker = Aufkleber
page-shelf-sticker-of = Aufkleber für Los { $name }

## Beurteilte Lieferungen, und Papiere

page-shelf-verdict = { $verdict ->
    [held] gesperrt
    [accepted] angenommen
   *[rejected] verworfen
}
page-shelf-judged = { $verdict ->
    [held] Gesperrt { $at }
    [accepted] Angenommen { $at }
   *[rejected] Verworfen { $at }
}
page-shelf-judged-by = { $verdict ->
    [held] Gesperrt: { $name }, { $at }
    [accepted] Angenommen: { $name }, { $at }
   *[rejected] Verworfen: { $name }, { $at }
}
page-shelf-judge = Beurteilen
page-shelf-judge-lot = Losnummer { $name } beurteilen
page-shelf-judge-title = Darf Losnummer { $name } verwendet werden?
page-shelf-saved-judgement = Das Urteil ist gespeichert.
page-shelf-status = Darf es verwendet werden?
page-shelf-status-none = Nicht beurteilt
page-shelf-status-accepted = Ja, Papiere gesehen
page-shelf-status-held = Gesperrt, bis beurteilt ist
page-shelf-held-why = Beim Einbuchen gesperrt.
page-shelf-paper = Papier
page-shelf-paper-on = Papier zu { $name }
page-shelf-paper-kind = { $paper ->
    [safety_sheet] Sicherheitsdatenblatt
    [ifra_certificate] IFRA-Zertifikat
    [analysis] Analysenzertifikat
   *[other] Anderes Papier
}
page-shelf-paper-what = Welches Papier
page-shelf-paper-reference = Seine Nummer, oder wo es liegt
page-shelf-paper-file = Datei, PDF oder Foto (freiwillig)
page-shelf-paper-open = Öffnen: { $kind }
page-shelf-paper-reading = Die Datei wird noch gelesen. Gleich noch einmal speichern.
page-shelf-paper-too-large = Die Datei hat über 8 MB. Kleiner speichern, dann noch einmal wählen.
page-shelf-paper-dated = Datum
page-shelf-paper-expires = Gültig bis
page-shelf-paper-amendment = IFRA-Amendment
page-shelf-paper-category = IFRA-Kategorie
page-shelf-need-reference = Ein Verweis fehlt. Seine Nummer schreiben, oder wo es liegt.
page-shelf-saved-paper = Das Papier ist gespeichert.
page-shelf-paper-line = { $kind }: { $reference }
page-shelf-paper-amended = Amendment { $amendment }
page-shelf-paper-of-category = Kategorie { $category }
page-shelf-paper-until = gültig bis { $day }
page-shelf-paper-over = war gültig bis { $day }
page-shelf-paper-of = vom { $day }
page-shelf-papers-past = abgelaufen: { $names }
page-shelf-papers-soon = endet am { $day }: { $name }
page-shelf-delivery = Versand

## A lot that was written wrong

page-shelf-mend = Angaben ändern
page-shelf-mend-lot = Angaben der Lieferung { $name } ändern
page-shelf-saved-mending = Geändert. Daneben steht, was vorher galt.
page-shelf-need-change = Nichts ist anders. Ändere, was falsch war, oder geh zurück.
page-shelf-mended = { $day }: geändert; { $fields }
page-shelf-was = { $field ->
    [ingredient] war { $before }
    [much] Eingang war { $before }
    [number] Losnummer war { $before }
    [supplier] Lieferant war { $before }
    [best] Haltbar bis war { $before }
    [received] Eingangstag war { $before }
    [price] Preis war { $before }
   *[code] Code war { $before }
}
page-shelf-bring-list = Liste eines Lieferanten aufnehmen
page-shelf-supply = Einkauf
page-shelf-supply-of = Einkauf: { $name }
