# Etiketten als PDF (api/labels.py, api/label_pdf.py).

api-labels-stickers = Aufkleber für Lieferungen
api-labels-trial = Probe eines Etikettenbogens
api-labels-no-sheet = Kein Etikettenbogen heißt { $name }. Übliche: { $common }.
api-labels-no-fit = Die Wörter passen nicht auf ein Etikett dieser Größe. Ein größeres nehmen oder, in Europa, einen Beipackzettel.
api-labels-no-leaflet = Zu diesem Etikett gibt es keinen Beipackzettel. Mit leaflet=true anfragen, in der EU oder im Vereinigten Königreich.
api-labels-no-signs = Der Schrift für Etiketten fehlt { $signs }. Eine andere in BOWLSIDE_LABEL_FONT nennen oder von der Seite drucken.
api-labels-font = Die Schrift für Etiketten, { $name }, ist nicht lesbar: { $why }. Eine TrueType-Schrift in BOWLSIDE_LABEL_FONT nennen.
