# Wie viele, und was daraus für jeden Teil wird (frontend/screens/size.js).

## Wonach

page-size-how = Wie viele
page-size-by = Größe nach
page-size-by-pieces = Stück
page-size-by-mass = Masse
page-size-by-moulds = Formen
page-size-by-stock = Aufbrauchen
page-size-mass = { $unit ->
    [oz] Unzen zusammen
   *[g] Gramm zusammen
}
page-size-mass-unit = { $unit ->
    [oz] oz zusammen
   *[g] g zusammen
}
page-size-moulds = Formen
page-size-moulds-unit = Formen gefüllt
page-size-stock = { $unit ->
    [oz] Unzen vorhanden
   *[g] Gramm vorhanden
}
page-size-stock-unit = { $unit ->
    [oz] oz vorhanden
   *[g] g vorhanden
}
page-size-moulds-of = Formen für
page-size-all-of = Alles wovon
page-size-one-ingredient = Alles von einer Zutat
page-size-mix-left = Eine übrige Masse
page-size-mixed = Schon gemischt: { $name }
page-size-makes = Das ergibt { $pieces }.

## Das Rezept

page-size-absent = Dieses Rezept ist nicht auf diesem Handy. Es kommt mit der nächsten Verbindung.
page-size-no-kit = Dafür braucht es die Ausrüstung: welche Waagen, welche Schüsseln.
page-size-describe-kit = Ausrüstung angeben
page-size-about = Zu diesem Rezept
page-size-edit = Dieses Rezept ändern
page-size-former = Fassung { $version }, nicht die neueste
page-size-changed = Das Rezept wurde anderswo geändert: Fassung { $version }.

## Diesmal

page-size-choices = Auswahl
page-size-this-time = Diesmal
page-size-with = Mit: { $name }
page-size-instead = Stattdessen: { $name }
page-size-swap-away = Keine Verbindung. Was sich in Prüfung und Etikett ändert, kommt später.
page-size-check-new = Neu in der Prüfung: { $what }
page-size-check-gone = Nicht mehr in der Prüfung: { $what }
page-size-label-new = Neu auf dem Etikett: { $names }.
page-size-label-gone = Nicht mehr auf dem Etikett: { $names }.
page-size-label-same = Das Etikett bleibt, wie es ist.
page-size-weighing = Wiegen
page-size-running = Mitlaufende Summe
page-size-tare = Vor jeder Zutat tarieren

## Was das ergibt

page-size-what = Was das ergibt
page-size-spare = { $count } in Reserve
page-size-rounds = { $count } Durchgänge: { $counts }
page-size-goes-in = { $name }: was hineinkommt
page-size-short = { $count ->
    [one] Von { $count } Zutat ist zu wenig im Vorrat.
   *[other] Von { $count } Zutaten ist zu wenig im Vorrat.
}
page-size-short-of = { $name }: { $amount } fehlen
page-size-make-most = { $pieces } machen: so viel reicht
page-size-none-of-it = Nicht genug für ein Stück.
page-size-begin = Beginnen
page-size-begin-pieces = { $pieces } beginnen
