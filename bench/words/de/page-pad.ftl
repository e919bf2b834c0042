# Das Feld mit Tasten für eine Anzeige oder Anzahl (frontend/parts/number-pad.js).

## Was die Zahl heißt. amount: „…“, solange nichts getippt ist

page-pad-it-reads = Anzeige { $amount }
page-pad-it-count = Es sind { $amount }
page-pad-it-weighs = Es wiegt { $amount }
page-pad-it-take = { $amount } nehmen
page-pad-it-left = Noch { $amount }
page-pad-it-took = { $amount } min gebraucht

## Die Tasten

page-pad-point = Komma
page-pad-rub = löschen

## Wie weit daneben. near: yes oder no

page-pad-target = Soll { $goal }
page-pad-shelf-says = Im Vorrat stehen { $goal }
page-pad-on-target = genau getroffen
page-pad-over = { $near ->
    [yes] { $gap } zu viel, das reicht
   *[no] { $gap } zu viel, Soll { $goal }
}
page-pad-under = { $near ->
    [yes] { $gap } zu wenig, das reicht
   *[no] { $gap } zu wenig, Soll { $goal }
}
page-pad-before = { $least } waren schon drin
page-pad-only = nur { $most } da
page-pad-whole-grams = diese Waage zeigt ganze Gramm
page-pad-whole-ounces = diese Waage zeigt ganze Unzen
page-pad-whole-pieces = nur ganze Stücke
