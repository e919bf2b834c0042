# Was ein Ersatz ändert (bench/swaps.py, bench/sheet/chosen.py, frontend/bench/sheet/chosen.js).

swaps-how = { $by ->
    [amount] Das Rezept nennt dafür eine eigene Menge.
    [active] Auf gleichen Wirkstoffanteil gewogen.
    [volume] Gleiches Volumen, über die eigene Dichte.
    [mass] Gleiche Masse.
    [count] Gleiche Anzahl.
   *[texture] Nach Bedarf, wie das andere.
}
swaps-weights = In der Charge wie geschrieben: { $after } { $new } für { $before } { $old }.
swaps-scaled = Die anderen Zeilen ändern sich leicht, damit ein Stück gleich viel wiegt.
swaps-not-weighed = { $name } wird nicht gewogen: die Dichte fehlt.
swaps-method = { $changes ->
    [yes] Das Vorgehen ändert sich.
   *[no] Das Vorgehen bleibt gleich.
}

## Abgelehnt

swaps-no-line = Die Zeile „{ $line }“ steht nicht im Rezept. So schreiben: teil.zeile, etwa base.shea.
swaps-other = „{ $ingredient }“ ersetzt „{ $line }“ nicht. Möglich: { $could }.
swaps-none = „{ $ingredient }“ ersetzt „{ $line }“ nicht. Dafür gibt es keinen Ersatz.
swaps-not-optional = „{ $line }“ ist keine freiwillige Zeile. Sie kann nicht wegbleiben.
