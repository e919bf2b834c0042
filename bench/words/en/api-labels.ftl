# Labels as PDF (api/labels.py, api/label_pdf.py).

api-labels-stickers = Stickers for lots
api-labels-trial = Trial of a sheet of labels
api-labels-no-sheet = No sheet of labels is called { $name }. Common ones: { $common }.
api-labels-no-fit = The words do not fit on a label of this size. Take a larger one, or in Europe a leaflet.
api-labels-no-leaflet = This label has no leaflet. Ask for one with leaflet=true, in the EU or the UK.
api-labels-no-signs = The font for labels lacks { $signs }. Name another in BOWLSIDE_LABEL_FONT, or print from the page.
api-labels-font = The font for labels, { $name }, cannot be read: { $why }. Name a TrueType font in BOWLSIDE_LABEL_FONT.
