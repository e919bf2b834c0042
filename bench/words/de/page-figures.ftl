# Alle fertigen Chargen in Zahlen (frontend/screens/figures.js, frontend/parts/batch-panels.js).

page-figures-recipe = Rezept
page-figures-every = Alle Rezepte
page-figures-version = Fassung
page-figures-all-versions = Alle Fassungen
page-figures-from = Fertig ab
page-figures-to = Fertig bis
page-figures-show = Zeigen
page-figures-measure = { $measure ->
    [hands] Minu­ten je Stück
    [yield] Aus­beute, %
    [cost] Kosten je Stück
    [spoiled] Ver­dor­ben, %
   *[deviations] Abwei­chun­gen
}
page-figures-dots = 1 Punkt je Charge, die letzten 30 je Rezept. Jedes Feld: 0 bis { $most }.
page-figures-dots-of-one = 1 Punkt je Charge, die letzten 30.
page-figures-scale = 0 bis { $most }
page-figures-lines = Ein Strich zeigt eine neue Fassung mit ihrer Nummer.
page-figures-hollow = Hohl oder ≥: Ein Preis fehlt, es kostete mindestens so viel.
page-figures-panel = { $count ->
    [one] { $name }: 1 Charge, { $last }.
   *[other] { $name }: { $count } Chargen, { $low } bis { $high }, zuletzt { $last }.
}
page-figures-panel-none = { $name }: Dazu sagt keine Charge etwas.
page-figures-changes = Fassung { $version } ab Charge { $place }.
page-figures-more-recipes = Weitere Rezepte zeigen
page-figures-table = { $count ->
    [one] 1 fertige Charge
   *[other] { $count } fertige Chargen, die neueste zuerst
}
page-figures-good = { $good } von { $planned } gut
page-figures-uncounted = nicht gezählt
page-figures-no-number = Ohne Nummer
page-figures-older = Ältere Chargen zeigen
page-figures-none = Noch keine Charge ist fertig.
page-figures-none-here = Keine Charge passt. Anderes Rezept, andere Fassung oder anderen Tag wählen.
page-figures-units = Ganze Zahlen; jede Spalte nennt ihre Einheit.
page-figures-no-parquet = Für Parquet auf dem Server bowlside[parquet] installieren.
