# Wie jede Seite heißt, nach dem Wort ihrer Adresse (frontend/app.js, frontend/parts/page-head.js).

page-title-recipes = Rezepte
page-title-size = Größe
page-title-recipe = Neues Rezept
page-title-bench = Arbeitstisch
page-title-day = Der Tag
page-title-gather = Bereitlegen
page-title-record = Chargenprotokoll
page-title-label = Etikett
page-title-shelf = Vorrat
page-title-card = Auf Papier
page-title-practice = Übung
page-title-audit = Wer was getan hat
page-title-versions = Fassungen
page-title-bring = Rezept einlesen
page-title-kit = Ausrüstung
page-title-studio = Einstellungen
page-title-delivery = Lieferung aufnehmen
page-title-pieces = Stücke
page-title-recall = Rückruf
page-title-week = Woche
page-title-buying = Einkauf
page-title-figures = Alle Chargen
page-title-trials = Versuche
