# Was an einem Etikett geprüft wurde, und was darauf steht (bench/label.py, frontend/bench/label.js).
# market: us, eu oder uk. Was auf ein US- oder UK-Etikett kommt, bleibt Englisch (21 CFR 701.2, aus dem Gedächtnis).

label-kept-back = { $verdict ->
    [rejected] Diese Charge ist verworfen: Kein Stück davon geht hinaus.
   *[held] Diese Charge ist gesperrt: Ihre Stücke warten.
}
label-kept-back-source = das Chargenprotokoll
label-law = Das wurde geprüft und nicht mehr: es gilt das Recht am Ort des Verkaufs.

## Auf dem Etikett selbst

label-slippery = { $market ->
    [us] Makes the bath or tray slippery.
    [uk] Makes the bath or tray slippery.
   *[eu] Macht Wanne oder Duschtasse rutschig.
}
label-eyes = { $market ->
    [us] Keep out of the eyes; rinse with water.
    [uk] Keep out of the eyes; rinse with water.
   *[eu] Nicht in die Augen bringen; mit Wasser ausspülen.
}

# Wörter, die ein Gesetz vorgibt, in der Sprache des Marktes. US: 21 CFR 740.17, Ausgabe 2015. Das Deutsche ist aus dem Gedächtnis.
label-law-foam = Caution—Use only as directed. Excessive use or prolonged exposure may cause irritation to skin and urinary tract. Discontinue use if rash, redness, or itching occurs. Consult your physician if irritation persists. { $meant ->
    [children] Keep out of reach of children except under adult supervision.
   *[all] Keep out of reach of children.
}
label-law-formaldehyde = releases formaldehyde
label-law-peroxide = { $market ->
    [uk] Contains hydrogen peroxide. Avoid contact with eyes. Rinse immediately if product comes into contact with them.
   *[eu] Enthält Wasserstoffperoxid. Kontakt mit den Augen vermeiden. Bei Kontakt sofort Augen ausspülen.
}

## Was anzusehen ist

label-blends = Anteile unbekannt, ihr Platz ist geschätzt: { $names }. Den Lieferanten fragen. Die Anteile in den INCI-Namen schreiben, etwa „Aqua 40 %, Glycerin 30 %“.
label-no-inci = { $name } hat keinen INCI-Namen. Darum steht der eigene Name da.
label-unweighed = { $name } wurde nicht gewogen: den Platz in der Liste bestimmst du.
label-skin = Bleibt es auf der Haut? Im Rezept steht es nicht. Darum gilt die strengere Grenze für das Nennen von Allergenen: 0,001 %.
label-soap = Seife oder Kosmetik? Die Regeln sind verschieden. Seife ist vor allem Alkalisalz von Fettsäuren und wird nur als Seife verkauft.
label-foam = Schäumt es im Bad, gehört der Warnhinweis aus 21 CFR 740.17 darauf. Angeben, wofür es ist. Entfällt, wenn „nur für Erwachsene“ darauf steht.
label-foam-directions = Schaumbad braucht auch eine Gebrauchsanweisung. Die schreibst du.
label-colour-index = Eine Colour-Index-Nummer allein ist kein US-Name: { $names }. Den gelisteten Namen schreiben.
label-colour-unlisted = In den USA nicht für Kosmetik gelistet: { $names }.
label-english = Hier nicht als englische Namen bekannt: { $names }. Jeden für ein US-Etikett nachschlagen.
label-which-number = Welche Colour-Index-Nummern? EU und Vereinigtes Königreich verlangen sie: { $names }.
label-allergens-untold = Keine Allergene angegeben: { $names }. Den Lieferanten fragen.
label-not-asked-allergens = Nicht auf der älteren britischen Liste, darum nicht genannt: { $names }.
label-goods = Was nur die Luft beduftet oder schmückt, ist keine Kosmetik. Es gelten die allgemeinen Regeln für Waren.
label-air = Was nur die Luft beduftet, ist keine Kosmetik. Es gilt das Recht für Gemische (CLP) mit seinem Etikett.
label-eye-mixture = { $share } davon zählen als augenreizend. Ab 10 % ist das Gemisch Eye Irrit. 2.
label-formaldehyde = Über 0,05 % freiem Formaldehyd steht auf einem britischen Etikett „contains formaldehyde“. Das Konservierungsmittel setzt welches frei: beim Lieferanten fragen.
label-past = Die Mindesthaltbarkeit ist vorbei. Ein späteres Datum nehmen oder nicht verkaufen.
label-beyond-lots = Die Mindesthaltbarkeit liegt nach der ersten seiner Lieferungen: { $day }.
label-opened-idle = Der offene Tiegel entfällt: was sofort verbraucht wird, ist nie offen.
label-unproven = Ist belegt, dass jede Zutat und das Ganze verträglich sind? Wenn nicht, muss darauf: „Warning—The safety of this product has not been determined.“
label-more-allergens = Mehr Duftstoff-Allergene sind zu nennen, insgesamt 80. Neue Produkte: ab 31. Juli 2026. Alle Produkte: ab 31. Juli 2028. Angesehen wurden nur die im Rezept genannten.
label-like-food = Es sieht wie Essen aus: abwägen, ob ein Kind es dafür halten kann.
label-too-small = { $of ->
    [list] Die Schrift der Zutatenliste ist zu klein: { $has } µm, mindestens { $least } µm.
   *[net] Die Schrift der Füllmenge ist zu klein: { $has } µm, mindestens { $least } µm.
}

## Was darauf stehen muss

label-need-what = was es ist
label-need-net-us = Füllmenge in Unzen und Gramm
label-need-place = Name, Ort, Staat und Postleitzahl (ZIP)
label-need-contact = US-Anschrift, US-Telefon oder Internetkontakt für unerwünschte Wirkungen
label-need-responsible = { $market ->
    [uk] verantwortliche Person im Vereinigten Königreich, Name und Anschrift
   *[eu] verantwortliche Person, Name und Anschrift
}
label-need-maker = { $market ->
    [uk] Name und Anschrift des Herstellers
   *[eu] Name, Post- und elektronische Anschrift des Herstellers
}
label-need-list = Zutatenliste
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
label-checked-digits = Höhe der Ziffern der Füllmenge
label-checked-net-letters = Schrifthöhe der Füllmenge
label-checked-net = Füllmenge abgerundet
label-checked-low = Füllmenge in den unteren 30 %, parallel zum Rand
label-checked-leaflet = das Etikett verweist für Liste und Vorsichtsmaßnahmen auf den Beipackzettel

## Was nicht angesehen wurde

label-open-duties = { $count ->
    [one] { $count } Pflicht beim Verkauf ist offen.
   *[other] { $count } Pflichten beim Verkauf sind offen.
}
label-open-ahead = Noch nicht gewogen: { $names }. Bis dahin stehen sie, wo das Rezept sie hat.
label-open-goods = Gefahren bei der Verwendung und die Worte dafür wurden nicht angesehen.
label-open-net = Füllmenge: kein fertiges Stück wurde gewogen. Hier steht die Masse aus dem Rezept.
label-open-use = Wofür es ist: im Rezept steht es nicht. Manche Warnhinweise hängen davon ab.
label-open-place = Die Füllmenge steht in den unteren 30 % der Vorderseite, parallel zum Rand. Nicht auf Vorderseiten bis 5 Quadratzoll.
label-open-language = Englisch: Titel, Verwendungszweck und eigene Wörter wurden nicht angesehen.
label-open-made-for = Hat es jemand anders hergestellt? Dann „Manufactured for“ oder „Distributed by“ vor den Namen.
label-open-single = Wird es sofort verbraucht? Dann gehört der offene Tiegel nicht darauf.
label-open-life = Länger als 30 Monate haltbar? Bis 30 braucht es ein Datum.
label-open-origin = Eingeführt? Dann steht das Ursprungsland darauf.
label-open-leaflet = Ein Beipackzettel ist für das, was nicht aufs Etikett passt. Er liegt jedem Stück bei oder hängt daran. Eine Webseite oder ein Katalog ist keiner. Statt der Wörter geht auch die Hand auf dem offenen Buch. Seife, Badekugeln, Kleines: ein Schild daneben darf die Liste tragen.
label-open-language-eu = Sprache: jedes Land bestimmt seine für diese Wörter. INCI-Namen bleiben.
label-open-northern-ireland = In Nordirland gelten die Regeln der EU. Dort das EU-Etikett nehmen, auf Englisch. Die verantwortliche Person sitzt in Nordirland oder im EWR.
label-open-lots = Die Mindesthaltbarkeit seiner Lieferungen wurde nicht verglichen.

## Was vor dem Verkauf fällig ist


## Woher eine Regel stammt

label-source-duties = wie die Werkstatt es von jeder gesagt hat
label-source-shares = absteigend ordnen geht nur mit allen Anteilen
label-source-weight = absteigend ordnen geht nur mit Gewicht
label-source-maker = von dir
label-source-practice = allgemein üblich
label-source-us = 21 CFR { $section }, Ausgabe 2015
label-source-goods = { $of ->
    [identity] 16 CFR 500.4, in einer Abschrift gelesen
    [place] 16 CFR 500.5, in einer Abschrift gelesen
    [letters] 16 CFR 500.21, Ausgabe 2015
   *[net] 16 CFR 500.6, Überschrift gelesen
}
label-source-safety = { $of ->
    [uk] General Product Safety Regulations 2005, regulation 7, aus dem Gedächtnis
    [batch] Verordnung (EU) 2023/988, Art. 9 Abs. 5, in einer Abschrift gelesen
    [language] Verordnung (EU) 2023/988, Art. 9 Abs. 7, aus dem Gedächtnis
   *[maker] Verordnung (EU) 2023/988, Art. 9 Abs. 6, aus dem Gedächtnis
}
label-source-hazards = { $market ->
    [us] 16 CFR 1500, aus dem Gedächtnis
   *[other] Verordnung (EG) 1272/2008, aus dem Gedächtnis
}
label-source-origin = 19 CFR 134.44 und 134.45, Abschriften von 2024 und 2022; 134.11 aus zweiter Hand
label-source-leaflet = Verordnung (EG) Nr. 1223/2009, Art. 19 Abs. 2 und 3, aus dem Gedächtnis. Dass er beiliegt oder dranhängt: Gerichtshof, C-667/19, Überschrift
label-source-contact = 21 USC 364a und 364e, aus zweiter Hand
label-source-colours = 21 CFR 701.3, 73 und 74, Ausgabe 2015
label-source-english = 21 CFR 701.2(b) und 701.3(c), Ausgabe 2015
label-source-uk = Verordnung (EG) Nr. 1223/2009, britische Fassung, Art. 19 Abs. 1 Buchst. { $point }, aus zweiter Hand
label-source-northern-ireland = GOV.UK, Leitfaden vom Mai 2023
label-source-formaldehyde = Verordnung (EU) 2022/1194, über 0,001 % im Ganzen; aus zweiter Hand
label-source-formaldehyde-uk = Anhang V der Verordnung (EG) Nr. 1223/2009, britische Fassung, aus dem Gedächtnis
label-source-peroxide = Verordnung (EU) 2019/831, Anhang III 12; dass Percarbonat zählt, ist geschlossen
label-source-former-allergens = Anhang III vor Verordnung (EU) 2023/1545, aus dem Gedächtnis
label-source-air = was Kosmetik ist, aus dem Gedächtnis
label-source-mixture = CLP-Grenzen für Gemische, aus zweiter Hand
label-source-opened = Hinweis der Kommission 04/ENTR/COS/28, aus zweiter Hand
label-source-digits = FPackV, § 38 Abs. 2
label-source-language-eu = Verordnung (EG) Nr. 1223/2009, Art. 19 Abs. 5, aus dem Gedächtnis
label-source-inci = 21 CFR 701.3; Verordnung (EG) Nr. 1223/2009, Art. 19 Abs. 1 Buchst. g
label-source-eu = Verordnung (EG) Nr. 1223/2009, Art. 19 Abs. 1 Buchst. { $point }
label-source-eu-second-hand = Verordnung (EG) Nr. 1223/2009, Art. 19 Abs. 1 Buchst. { $point }, aus zweiter Hand
label-source-allergens = Verordnung (EG) Nr. 1223/2009, Anhang III, aus zweiter Hand
label-source-more-allergens = Verordnung (EU) 2023/1545, aus zweiter Hand
label-source-food = Verordnung (EU) 2023/988, Art. 6 Abs. 1 Buchst. f, aus zweiter Hand

## Was ein Gemisch nach CLP trägt. Die Sätze sind wörtlich die des Gesetzes, aus zweiter Hand (Anhänge III und IV).

label-statement-danger = { $market ->
    [uk] Danger
   *[eu] Gefahr
}
label-statement-warning = { $market ->
    [uk] Warning
   *[eu] Achtung
}
label-statement-h314 = { $market ->
    [uk] Causes severe skin burns and eye damage.
   *[eu] Verursacht schwere Verätzungen der Haut und schwere Augenschäden.
}
label-statement-h315 = { $market ->
    [uk] Causes skin irritation.
   *[eu] Verursacht Hautreizungen.
}
label-statement-h318 = { $market ->
    [uk] Causes serious eye damage.
   *[eu] Verursacht schwere Augenschäden.
}
label-statement-h319 = { $market ->
    [uk] Causes serious eye irritation.
   *[eu] Verursacht schwere Augenreizung.
}
label-statement-p102 = { $market ->
    [uk] Keep out of reach of children.
   *[eu] Darf nicht in die Hände von Kindern gelangen.
}
label-statement-p264 = { $market ->
    [uk] Wash hands thoroughly after handling.
   *[eu] Nach Gebrauch Hände gründlich waschen.
}
label-statement-p305-p351-p338 = { $market ->
    [uk] IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and easy to do. Continue rinsing.
   *[eu] BEI KONTAKT MIT DEN AUGEN: Einige Minuten lang behutsam mit Wasser spülen. Eventuell vorhandene Kontaktlinsen nach Möglichkeit entfernen. Weiter spülen.
}
label-statement-p337-p313 = { $market ->
    [uk] If eye irritation persists: Get medical advice/attention.
   *[eu] Bei anhaltender Augenreizung: Ärztlichen Rat einholen/ärztliche Hilfe hinzuziehen.
}
label-statement-p302-p352 = { $market ->
    [uk] IF ON SKIN: Wash with plenty of water.
   *[eu] BEI BERÜHRUNG MIT DER HAUT: Mit viel Wasser waschen.
}
label-statement-p332-p313 = { $market ->
    [uk] If skin irritation occurs: Get medical advice/attention.
   *[eu] Bei Hautreizung: Ärztlichen Rat einholen/ärztliche Hilfe hinzuziehen.
}
label-clp-need-supplier = Lieferant: Name, Anschrift und Telefon
label-clp-need-net = Nennmenge
label-clp-need-identifier = Produktidentifikator
label-clp-need-pictogram = Piktogramm { $code }: wird hier nicht gezeichnet, selbst anbringen
label-clp-need-statements = Sicherheitshinweise für das, was schwer schädigt: selbst wählen
label-clp-need-ufi = UFI-Code, wenn es für die Gesundheit eingestuft ist. Als „UFI: …“ zu den eigenen Vorsichtsmaßnahmen schreiben.
label-clp-open-reckoned = Klassen für Augen und Haut wurden zusammengezählt: eine Rechnung, zu bestätigen.
label-clp-open-unclassed = Keine Einstufung bekannt, nicht mitgezählt: { $names }. In den Sicherheitsdatenblättern nachsehen.
label-clp-open-rest = Nicht angesehen: Allergien durch den Duft (H317, EUH208), Atemwege (H335), Feuer, Gewässer.
label-clp-open-choice = Welche Sicherheitshinweise passen, höchstens sechs, wählst du. P101 und P280 blieben weg.
label-skin-mixture = { $share } davon zählen als hautreizend. Ab 10 % ist das Gemisch Skin Irrit. 2.
label-clp-less = Säuren, Laugen, Salze und Tenside zählen womöglich ab 3 %, schädigende ab 1 %. Ansehen lassen.
label-clp-worst = Zusammen ergibt es schwere Schäden an Augen oder Haut. Vor allem Weiteren ansehen lassen.
label-clp-small = Wenn möglich, misst dieses Etikett mindestens 52 × 74 mm.
label-checked-classes = Klassen der hier bekannten Stoffe, für Augen und Haut, zusammengezählt
label-source-clp = Verordnung (EG) 1272/2008, Art. 17 Abs. 1 Buchst. { $point }, gelesen in einer Abschrift von September 2025
label-source-clp-language = Verordnung (EG) 1272/2008, Art. 17 Abs. 2, gelesen in einer Abschrift von September 2025
label-source-clp-size = Verordnung (EG) 1272/2008, Anhang I, Tabelle 1.3, gelesen in einer Abschrift
label-source-clp-memory = Verordnung (EG) 1272/2008, aus dem Gedächtnis

## In welcher Reihenfolge es darauf steht

label-plate-list = Ingredients: { $names }.
label-plate-leaflet = { $market ->
    [uk] Ingredients and precautions: see the leaflet.
   *[eu] Bestandteile und Vorsichtsmaßnahmen: siehe Beipackzettel.
}
label-plate-origin = { $market ->
    [us] Made in { $country }
    [uk] Made in { $country }
   *[eu] Ursprungsland: { $country }
}
label-plate-batch = { $market ->
    [us] Batch { $number }
    [uk] Batch { $number }
   *[eu] Charge { $number }
}
label-plate-best = { $market ->
    [us] Best before { $year }-{ $month }-{ $day }
    [uk] Best used before the end of { $day }/{ $month }/{ $year }
   *[eu] Mindestens haltbar bis { $day }.{ $month }.{ $year }
}

## Etikettenbögen

label-sheet-title = { $paper ->
    [letter] { $columns } × { $rows } zu { $width } × { $height } in, Letter
   *[a4] { $columns } × { $rows } zu { $width } × { $height } mm, A4
}
label-sheet-fault = { $fault ->
    [over_across] Die Etiketten liegen übereinander. Schritt nach rechts: mindestens die Breite des Etiketts.
    [over_down] Die Etiketten liegen übereinander. Schritt nach unten: mindestens die Höhe des Etiketts.
    [too_wide] Die Spalten reichen über den rechten Rand des Papiers. Noch einmal messen.
   *[too_high] Die Zeilen reichen über den unteren Rand des Papiers. Noch einmal messen.
}
label-bar = Diese Strecke ist in wahrer Größe 50 mm lang.

## Aufkleber für Lieferungen

label-lot-number = Los { $number }
label-lot-received = Eingegangen { $day }
label-lot-best = Mindestens haltbar bis { $day }
label-lot-opened = Geöffnet ____________
