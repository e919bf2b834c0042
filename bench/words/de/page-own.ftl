# Ein Formular, das jemand anders inzwischen gespeichert hat (frontend/parts/own-draft.js).

page-own-elsewhere = Anderswo gespeichert: { $value }.
page-own-use-that = Das nehmen
page-own-ticked = angekreuzt
page-own-not-ticked = nicht angekreuzt
page-own-empty = leer
