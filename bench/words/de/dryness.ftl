# Whether a piece is dry, by two weighings (bench/dryness.py, frontend/bench/dryness.js).

# constant: what the two weighings say; least: the least mass that this scale can tell it of.
dryness-says = { $constant ->
    [too_soon] Eine volle Stunde nach dem ersten Mal noch einmal wiegen.
    [cannot_tell] Unter { $least } zeigt diese Waage kein gleichbleibendes Gewicht: mehr auf einmal wiegen.
    [dry] Gleichbleibendes Gewicht in dieser Raumluft: höchstens 0,50 mg Änderung je Gramm. Langsames Sprudeln nimmt auch Gewicht.
    [gains] Es wird schwerer: die Luft ist zu feucht.
    [slower] Es verliert unter 0,50 mg je Gramm in der Stunde. In einer Stunde noch einmal wiegen.
    [unclear] Zu knapp für diese Waage. Mehr auf einmal wiegen, oder in einer Stunde wieder.
   *[not_yet] Noch nicht: es verliert noch über 0,50 mg je Gramm in einer Stunde.
}
dryness-own = Nach deiner eigenen Grenze ist es trocken.
dryness-air = { $known ->
    [yes] Im Raum waren { $humidity } % Luftfeuchte.
   *[no] Niemand hat die Luftfeuchte gelesen.
}
