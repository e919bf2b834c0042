# Was aus einer Datei eingelesen wird (api/exchange.py, api/piecewise.py).

api-exchange-not-ours = Das ist keine Datei von Bowlside.
api-exchange-formats = Möglich ist eins davon: { $names }.
api-exchange-database-stopped = { $count ->
    [one] Die Datenbank kam nicht weiter ({ $why }). Eins aus dieser Datei wurde gespeichert. Noch einmal senden: was schon da ist, wird übersprungen.
   *[other] Die Datenbank kam nicht weiter ({ $why }). { $count } Dinge aus dieser Datei wurden gespeichert. Noch einmal senden: was schon da ist, wird übersprungen.
}

## Was kein JSON ist

api-exchange-not-json-twice = Kein JSON in UTF-8: { $name } kommt zweimal.
api-exchange-not-json-too-long = Kein JSON in UTF-8: ein Teil ist länger als { $most } Zeichen.
api-exchange-not-json-utf8 = Die Datei ist nicht UTF-8.
api-exchange-not-json-at = Kein JSON in UTF-8: Zeichen { $at } ist nicht lesbar.
