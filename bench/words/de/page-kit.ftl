# Die Ausrüstung: was auf dem Arbeitstisch steht (frontend/screens/kit.js).

page-kit-lead = Was auf dem Arbeitstisch steht. Begonnene Chargen behalten ihre Ausrüstung.
page-kit-save = Ausrüstung speichern
page-kit-saved = Gespeichert.
page-kit-remove = Entfernen
page-kit-removed-elsewhere = Anderswo entfernt. Speichern holt es zurück.
page-kit-new = neu

## Was es gibt

page-kit-group-scales = Waagen
page-kit-group-vessels = Schüsseln und Becher
page-kit-group-moulds = Formen
page-kit-group-heaters = Wärmequellen
page-kit-group-mixers = Rührgeräte
page-kit-add-scales = Waage hinzufügen
page-kit-add-vessels = Gefäß hinzufügen
page-kit-add-moulds = Form hinzufügen
page-kit-add-heaters = Wärmequelle hinzufügen
page-kit-add-mixers = Rührgerät hinzufügen

## Was dazu gesagt wird

page-kit-field-name = Name
page-kit-field-capacity = Bis
page-kit-field-division = Teilung
page-kit-field-kind = Art
page-kit-field-empty = Wiegt leer
page-kit-field-holds = Fasst
page-kit-field-shape = Art der Form
page-kit-field-cavities = Mulden
page-kit-field-sets = Wie viele davon
page-kit-field-cavity = Eine Mulde fasst
page-kit-field-absorbed-w = Watt, die im Gut ankommen
page-kit-example-round = rund
page-kit-example-microwave = Mikrowelle
page-kit-field-material = Material
page-kit-material-unsaid = nicht gesagt
page-kit-material-steel = Stahl
page-kit-material-enamel = Emaille
page-kit-material-aluminium = Aluminium
page-kit-material-copper = Kupfer
page-kit-material-glass = Glas
page-kit-material-porcelain = Porzellan
page-kit-material-polypropylene = Polypropylen (PP, 5)
page-kit-material-silicone = Silikon
page-kit-material-wood = Holz
page-kit-material-other = etwas anderes
page-kit-field-test-weight = Prüfgewicht
