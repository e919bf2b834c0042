# Bereitlegen, vor dem ersten Wiegen (frontend/screens/gather.js). name: einer Zutat; lot: die Losnummer.

page-gather-kind = { $kind ->
    [ingredients] Was hineinkommt
    [start] Vor dem ersten Wiegen
    [protection] Anziehen und bereithalten
    [scale] Waagen
    [vessel] Schüsseln und Becher
    [mould] Formen
    [heater] Wärmequellen
   *[tool] Werkzeug
}
page-gather-tick-all = { $kind ->
    [start] Alle { $count } erledigt
   *[other] Alle { $count } sind da
}
page-gather-all-here = Alles da: zum Arbeitstisch
page-gather-start-without = { $count ->
    [one] Anfangen, { $count } Sache fehlt
   *[other] Anfangen, { $count } Sachen fehlen
}
page-gather-go-on-without = { $count ->
    [one] Weiter, { $count } Sache fehlt
   *[other] Weiter, { $count } Sachen fehlen
}

## Die Lieferungen einer Zutat

page-gather-take-of = { $amount } von Los { $lot }
page-gather-lot = Los { $lot }
page-gather-left = noch { $amount }
page-gather-aside = { $amount } für eine andere Charge vorgemerkt
page-gather-not-here = nicht auf diesem Handy
page-gather-here = Ist da
page-gather-not-on-shelf = nicht im Vorrat: ohne Losnummer
page-gather-none-left = im Vorrat ist nichts mehr davon
page-gather-another = Andere Lieferung
page-gather-another-of = Andere Lieferung: { $name }
page-gather-missing = { $amount } fehlen
page-gather-past-left-out = { $count ->
    [one] Eine Lieferung hat ihr Datum überschritten und bleibt weg.
   *[other] { $count } Lieferungen haben ihr Datum überschritten und bleiben weg.
}
page-gather-take-past = { $count ->
    [one] Auch nehmen
   *[other] Auch diese nehmen
}

## Was beim Nehmen gefragt wird

page-gather-which = { $name }: welche Lieferung?
page-gather-past-title = { $name }: Datum überschritten
page-gather-past-says = Mindestens haltbar bis { $day }. Ob es taugt, entscheidest du.
page-gather-take-anyway = Trotzdem nehmen
page-gather-record-shows = Steht dann im Protokoll
page-gather-barred-title = { $verdict ->
    [held] { $name }: diese Lieferung ist gesperrt
   *[rejected] { $name }: diese Lieferung ist verworfen
}
page-gather-barred-left-out = { $count ->
    [one] Eine Lieferung ist gesperrt oder verworfen und bleibt weg.
   *[other] { $count } Lieferungen sind gesperrt oder verworfen und bleiben weg.
}
page-gather-how-much = { $name }, Los { $lot }: wie viel?
page-gather-more-title = Mehr, als im Vorrat steht
page-gather-more-says = Im Vorrat stehen { $left }. Vielleicht ist mehr da.

## Ein gescannter Code

page-gather-not-wanted = Nicht in diesem Rezept
page-gather-not-wanted-says = Los { $lot } ist etwas anderes. Eine andere Lieferung scannen.
page-gather-unknown-code = Unbekannter Code
page-gather-unknown-code-says = Keine Lieferung im Vorrat hat diesen Code. Eine andere scannen.

## Gehen, ohne alles abgehakt zu haben

page-gather-go-title = Weiter, obwohl etwas fehlt?
page-gather-go-says = Nicht abgehakt: { $names }. Im Protokoll steht es als nicht bereitgelegt.
page-gather-go-says-many = Nicht abgehakt: { $names } und { $count } weitere. Im Protokoll stehen sie als nicht bereitgelegt.
page-gather-go = Zum Arbeitstisch
page-gather-note = Nicht bereitgelegt: { $names }.
