# Was an einem Etikett geprüft wurde, und was darauf steht (bench/label.py, frontend/bench/label.js).
# market: us oder eu. Was auf ein US-Etikett kommt, bleibt Englisch (21 CFR 701.2, aus dem Gedächtnis).

label-law = Das wurde geprüft und nicht mehr: es gilt das Recht am Ort des Verkaufs.

## Auf dem Etikett selbst

label-slippery = { $market ->
    [us] Makes the bath or tray slippery.
   *[eu] Macht Wanne oder Duschtasse rutschig.
}
label-eyes = { $market ->
    [us] Keep out of the eyes; rinse with water.
   *[eu] Nicht in die Augen bringen; mit Wasser ausspülen.
}

## Was anzusehen ist

label-blends = Anteile unbekannt, ihr Platz ist geschätzt: { $names }. Den Lieferanten fragen. Die Anteile in den INCI-Namen schreiben, etwa „Aqua 40 %, Glycerin 30 %“.
label-no-inci = { $name } hat keinen INCI-Namen. Darum steht der eigene Name da.
label-unweighed = { $name } wurde nicht gewogen: den Platz in der Liste bestimmst du.
label-skin = Bleibt es auf der Haut? Im Rezept steht es nicht. Darum gilt die strengere Grenze für das Nennen von Allergenen: 0,001 %.
label-foam = Schäumt es im Bad, gehört der Warnhinweis aus 740.17 darauf. Wort für Wort aus der geltenden Regel abschreiben. Entfällt, wenn „nur für Erwachsene“ darauf steht.
label-colour-index = Eine Colour-Index-Nummer allein ist kein US-Name: den gelisteten Namen schreiben.
label-soap = Seife oder Kosmetik? Die Regeln sind verschieden. Seife ist vor allem Alkalisalz von Fettsäuren und wird nur als Seife verkauft.
label-unproven = Ist belegt, dass jede Zutat und das Ganze verträglich sind? Wenn nicht, verlangt die Regel einen eigenen Warnhinweis.
label-more-allergens = Mehr Duftstoff-Allergene sind zu nennen, insgesamt 80. Neue Produkte: ab 31. Juli 2026. Alle Produkte: ab 31. Juli 2028. Angesehen wurden nur die im Rezept genannten.
label-like-food = Es sieht wie Essen aus: abwägen, ob ein Kind es dafür halten kann.
label-too-small = { $of ->
    [list] Die Schrift der Zutatenliste ist zu klein: { $has } µm, mindestens { $least } µm.
   *[net] Die Schrift der Füllmenge ist zu klein: { $has } µm, mindestens { $least } µm.
}

## Was darauf stehen muss

label-need-what = was es ist
label-need-net-us = Füllmenge in Unzen und Gramm
label-need-place = Name und Sitz des Betriebs
label-need-list = Zutatenliste
label-need-contact = Kontakt für Meldungen unerwünschter Wirkungen
label-need-responsible = verantwortliche Person, Name und Anschrift
label-need-net-eu = Nenninhalt (nicht unter 5 g)
label-need-date = mindestens haltbar bis, über 30 Monate: Verwendungsdauer nach dem Öffnen
label-need-precautions = Vorsichtsmaßnahmen
label-need-batch = Chargennummer
label-need-function = Verwendungszweck, wenn er nicht offensichtlich ist
label-need-ingredients = Bestandteile

## Was geprüft wurde

label-checked-order-us = absteigend nach dem, was gewogen wurde
label-checked-order-eu = absteigend nach dem Gewicht bei der Zugabe
label-checked-free-us = beliebig geordnet bis 1 %
label-checked-free-eu = beliebig geordnet unter 1 %
label-checked-colours = Farben am Ende
label-checked-letters = Schrifthöhe von Liste und Füllmenge
label-checked-allergens = Duftstoff-Allergene über 0,001 % (bleibt auf der Haut) oder 0,01 % (wird abgespült)
label-checked-net = Füllmenge abgerundet

## Woher eine Regel stammt

label-source-shares = absteigend ordnen geht nur mit allen Anteilen
label-source-weight = absteigend ordnen geht nur mit Gewicht
label-source-maker = von dir
label-source-practice = allgemein üblich
label-source-us = 21 CFR { $section }
label-source-us-second-hand = 21 CFR { $section }, aus zweiter Hand
label-source-us-memory = 21 CFR { $section }, aus dem Gedächtnis
label-source-colours = 21 CFR 701.3 und Teile 73, 74, 82; aus dem Gedächtnis
label-source-contact = 21 USC 364, aus zweiter Hand
label-source-inci = 21 CFR 701.3; Verordnung (EG) Nr. 1223/2009, Art. 19 Abs. 1 Buchst. g
label-source-eu = Verordnung (EG) Nr. 1223/2009, Art. 19 Abs. 1 Buchst. { $point }
label-source-eu-second-hand = Verordnung (EG) Nr. 1223/2009, Art. 19 Abs. 1 Buchst. { $point }, aus zweiter Hand
label-source-allergens = Verordnung (EG) Nr. 1223/2009, Anhang III, aus zweiter Hand
label-source-more-allergens = Verordnung (EU) 2023/1545, aus zweiter Hand
label-source-food = Verordnung (EU) 2023/988, Art. 6 Abs. 1 Buchst. f, aus zweiter Hand
