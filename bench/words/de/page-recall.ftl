# Ein Rückruf: wo die Stücke sind (frontend/screens/recall.js).

page-recall-rehearsal = Übung: Nichts wird zurückgerufen.
page-recall-found = { $found } von { $made } Stück gefunden: { $share } %
page-recall-unknown = { $count } Stück abgegangen, ohne Abnehmer.
page-recall-shown = { $here } von { $all } Chargen.
page-recall-none = In keiner Charge ist etwas davon.
page-recall-made = { $count } gemacht
page-recall-uncounted = noch nicht gezählt
page-recall-here = { $count } hier
page-recall-binned = { $count } weggeworfen
page-recall-shelved = { $count } als Lieferung im Vorrat
page-recall-print = Liste drucken
page-recall-file = Als Datei speichern
page-recall-rehearse = Üben
page-recall-real = Übung beenden
page-recall-lots = Lieferungen darin
page-recall-alike = Chargen mit einer dieser Lieferungen
page-recall-others-said = Weitere Reklamationen dieser Chargen
