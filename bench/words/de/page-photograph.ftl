# Taking a photograph (frontend/parts/photograph.js).

page-photograph-needs-https = Fotos brauchen die https-Adresse der Werkstatt. Diese Seite dort öffnen.
page-photograph-unread = Dieser Browser kann die Datei nicht lesen. Ein Bild wählen.
page-photograph-too-large = Das Bild ließ sich nicht verkleinern. Noch einmal aufnehmen.
