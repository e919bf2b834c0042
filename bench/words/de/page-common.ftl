# Was mehrere Seiten sagen.

## Knöpfe

page-common-back = Zurück
page-common-home = Rezepte und Chargen

## Was nicht ging

page-common-no-connection = Keine Verbindung.
page-common-not-saved = Nicht gespeichert
