# Versuche mit einem Rezept (frontend/screens/trials.js).

page-trials-new = Neue Varianten
page-trials-as-it-is = A ist das Rezept, wie es ist. Jede weitere Variante ändert 1 Sache.
page-trials-of = Ändern
page-trials-to = In
page-trials-choice = { $name }: { $value }
page-trials-more = Noch eine Variante
page-trials-judges = Am Ende beurteilt, mit Kommas getrennt
page-trials-usual = Härte, Sprudelzeit, Gefühl, Duft
page-trials-try = Varianten versuchen
page-trials-made = Gespeichert. Von jeder eine kleine Charge beginnen.
page-trials-variant = Variante { $letter }
page-trials-unchanged = Wie das Rezept.
page-trials-former = Aus Fassung { $of }; das Rezept steht jetzt bei { $version }.
page-trials-begin = Etwa 100 g machen
page-trials-win = Zum Rezept machen
page-trials-win-of = Zum Rezept machen: { $letter }
page-trials-won = Variante { $letter } ist jetzt das Rezept. Der Versuch liegt im Archiv.
page-trials-open = { $count ->
    [one] 1 Charge auf der Werkbank.
   *[other] { $count } Chargen auf der Werkbank.
}
page-trials-no-batch = Noch keine fertige Charge. Beurteilt wird im Protokoll jeder Charge.
page-trials-beside = { $now }, die erste { $before }
page-trials-why = 3 Chargen zeigen, was sein kann, nicht was sein wird. Auch Luft, Hände und Lieferungen ändern sich.
