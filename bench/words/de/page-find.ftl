# The search over all (frontend/parts/find-all.js).

page-find-of-batch = Chargen
page-find-of-recipe = Rezepte
page-find-of-ingredient = Zutaten
page-find-of-lot = Lose
page-find-of-note = Notizen
page-find-more = Mehr zeigen
page-find-nothing = Nichts gefunden, weder auf diesem Handy noch auf dem Server. Ein Wortteil genügt.
page-find-here = Keine Verbindung. Nur auf diesem Handy gesucht.
page-find-version = Fassung { $version }
page-find-archived = im Archiv
page-find-on-shelf = im Regal
