# The search over all (frontend/parts/find-all.js).

page-find-batch = Chargen
page-find-recipe = Rezepte
page-find-ingredient = Zutaten
page-find-lot = Lose
page-find-note = Notizen
page-find-more = Mehr zeigen
page-find-nothing = Nichts gefunden, weder auf diesem Handy noch auf dem Server. Ein Wortteil genügt.
page-find-here = Keine Verbindung. Nur auf diesem Handy gesucht.
page-find-version = Fassung { $version }
page-find-archived = im Archiv
page-find-on-shelf = im Regal
