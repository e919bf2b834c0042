# Was einem Eintrag des Vorrats fehlt (bench/shelf.py, frontend/parts/shelf-forms.js).

shelf-note-about = Sagen, wozu die Notiz gehört: „lot“ oder „ingredient“.
shelf-how-much = Menge angeben: „mg“ für Gewogenes, „count“ für Gezähltes.
shelf-no-currency = Diese Währung fehlt in ISO 4217. Möglich ist etwa EUR, GBP oder USD.
shelf-cas-wrong = CAS-Nummer ist falsch. Noch einmal abschreiben.
shelf-mends-nothing = Nichts wird berichtigt. Nenne ein Feld der Lieferung, das falsch war.
shelf-must-have = „{ $field }“ muss bei einer Lieferung stehen. Fehlen dürfen nur: { $known }.
shelf-said-and-not = „{ $field }“ ist angegeben und zugleich weggelassen. Sende eins von beiden.
