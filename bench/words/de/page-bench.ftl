# Die Ansicht am Arbeitstisch: was sie neben dem sagt, was jetzt zu tun ist (frontend/screens/bench.js und seine Teile).

page-bench-now = Jetzt
page-bench-answers = Antworten
page-bench-what-each = Was jede Antwort bewirkt
page-bench-whole-batch = Die ganze Charge
page-bench-round = { $part }, Durchgang { $round } von { $rounds }
page-bench-whole-day = Der ganze Tag
page-bench-by-plan = Nach Plan als Nächstes: „{ $title }“
page-bench-gather = Zuerst bereitlegen

## Wenn nichts zu tun ist

page-bench-nothing = Gerade nichts zu tun
page-bench-nothing-says = Die Zeiten oben zeigen, was als Nächstes kommt.
page-bench-finished = Diese Charge ist fertig
page-bench-finished-says = Das Protokoll ist gespeichert.
page-bench-see-record = Protokoll ansehen
page-bench-practised = Das war Übung
page-bench-practised-says = Nichts ist gespeichert. Eine echte Charge hätte jetzt ihr Protokoll.
page-bench-write = Rezept schreiben
page-bench-bring = Rezept einlesen
page-bench-practise-again = Noch einmal üben

## Was sonst noch geht

page-bench-say-again = Ansagen
page-bench-other = Mehr
page-bench-others = Mehr ({ $count })
page-bench-something-else = Etwas anderes
page-bench-will-it-ring = Klingelt es?
page-bench-note = Anmerkung schreiben
page-bench-note-says = Steht dann im Protokoll
page-bench-note-title = Anmerkung
page-bench-record = Protokoll bis jetzt
page-bench-record-says = Dort auch Fotos machen
page-bench-skip = Überspringen

## Wie ab jetzt gewogen wird. Nach Art: running oder tare

page-bench-weigh-running = Mitlaufende Summe anzeigen
page-bench-weigh-tare = Vor jeder Zeile tarieren
page-bench-weighed-running = Mit jeder Zeile steigt die Anzeige
page-bench-weighed-tare = Waage tarieren, dann das Gewicht der Zeile zugeben

## Was die Waage zeigt

page-bench-reading = { $name }: Was zeigt die Waage?
page-bench-piece = Stück wiegen: schon trocken?
page-bench-piece-says = Eins jetzt wiegen, dasselbe in einer Stunde noch einmal
page-bench-piece-again = Stück { $number } noch einmal
page-bench-piece-weighed = Zuletzt { $mass }
page-bench-piece-which = Welches Stück?
page-bench-piece-other = Ein anderes Stück
page-bench-piece-weigh-again = Stück { $number } auf { $scale }, zuletzt { $before }: Was wiegt es?
page-bench-piece-weigh = Stück { $number } auf { $scale }: Was wiegt es?

## Vor dem Ende abschließen

page-bench-finish = Hier abschließen
page-bench-finish-says = Offene Schritte stehen im Protokoll
page-bench-finish-title = Hier abschließen?
page-bench-finish-undo = Rückgängig zu machen
page-bench-undone = Noch offen: { $titles }.
page-bench-skipped = Übersprungen: { $titles }.
page-bench-steps-left = { $count ->
    [one] { $count } Schritt ist offen.
   *[other] { $count } Schritte sind offen.
}

## Unter der Zeichnung

page-bench-mix = Masse
page-bench-held = { $vessel }, { $held } von { $full }
page-bench-holds = { $vessel }: { $layers }.
page-bench-holds-nothing = { $vessel }: leer.
page-bench-next = Als Nächstes: { $name } { $amount }.
page-bench-heated = { $word ->
    [burst] { $planned ->
        [one] { $given } von etwa { $planned } Intervall
       *[other] { $given } von etwa { $planned } Intervallen
    }
   *[heat] { $given } von etwa { $planned } Mal erhitzt
}
page-bench-portions = { $count ->
    [one] { $count } Teilmenge
   *[other] { $count } Teilmengen
}
page-bench-portion = { $state ->
    [next] { $name }: als Nächstes
   *[empty] { $name }: leer
}
page-bench-made = { $good } von { $count } { $verb }
page-bench-small = { $count } klein
page-bench-spoiled = { $count } misslungen
page-bench-checked = { $times ->
    [0] noch nicht geprüft
    [1] einmal geprüft
   *[other] { $times }-mal geprüft
}
page-bench-earliest = frühestens

## Worauf eine Zeit läuft

page-bench-until = { $what ->
    [check] bis zur ersten Prüfung
    [usual] bis zur üblichen Zeit
    [latest] bis zur spätesten Zeit
    [past-usual] über die übliche Zeit
    [past-latest] über die späteste Zeit
    [stir] noch, dann umrühren und ruhen
    [rest] Ruhe, dann prüfen
    [over] vorbei: prüfen
   *[end] noch
}
page-bench-phase = { $phase ->
    [counting] zu früh zum Prüfen
    [look] vielleicht fertig: prüfen
    [soon_late] fast zu spät
    [late] zu spät
   *[ready] fertig
}

## Alles, was läuft

page-bench-countdowns = Laufende Zeiten
page-bench-all-counts = Alles, was läuft
page-bench-asks = { $phase ->
    [late] zu spät
    [soon_late] bald zu spät
    [ready] fertig
    [look] prüfen
   *[over] vorbei
}
page-bench-more = +{ $count }
page-bench-more-late = { $count } spät
page-bench-humidity = Luftfeuchte im Raum, in %
page-bench-warmth = Wärme im Raum, in { -degrees }
