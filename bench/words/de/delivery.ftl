# What a supplier's list leaves open (bench/delivery.py). name and written: as they stand in the list.

delivery-too-long = { $most } Zeilen werden auf einmal gelesen. Nimm den Rest als zweite Liste auf.
delivery-nothing = Keine Zeile ist eine Lieferung. Füge je Zeile einen Namen und eine Menge ein.
delivery-no-name = Ein Name fehlt. Schreib, was es ist.
delivery-no-number = Die Losnummer des Lieferanten fehlt. Ein Rückruf geht nach ihr.
delivery-which-cell = „{ $written }“ kann mehreres sein. Was ist es?
delivery-which-card = Ist „{ $name }“ dasselbe wie { $names }?
delivery-had = Los { $number } steht seit { $day } im Regal. Lass es weg, oder es kam noch einmal.
delivery-same-row = Diese Zeile steht zweimal da. Lass sie weg, oder es kam zweimal.
delivery-no-amount = Eine Menge fehlt. Schreib eine wie 1 kg oder 50 Stück.
delivery-pieces = Schreib ganze Stücke, höchstens { $most }.
delivery-too-much = Das ist mehr als eine Tonne. Schreib die Menge noch einmal.
delivery-no-mass = „{ $written }“ ist weder Masse noch Volumen noch Stückzahl. Schreib etwas wie 1 kg.
delivery-whose-measure = „{ $written }“ ist nicht überall gleich viel. Wähl oben, wessen Maß es ist: amerikanisch oder britisch.
delivery-no-density = „{ $written }“ ist ein Volumen, und die Karte hat keine Dichte. Schreib die Masse, etwa 920 g.
delivery-packs = „{ $written }“ ist keine Anzahl von Packungen. Schreib eine ganze Zahl.
delivery-no-day = „{ $written }“ ist kein Datum. Schreib eines wie 2027-03-31.
delivery-two-days = „{ $written }“ kann zwei Tage meinen. Welchen?
delivery-which-currency = „{ $written }“ kann mehrere Währungen meinen. Welche?
delivery-no-currency = „{ $written }“ nennt keine Währung. Schreib etwas wie 12,50 EUR.
delivery-no-money = „{ $written }“ lässt sich nicht als Preis lesen. Schreib etwas wie 12,50 EUR.
delivery-no-coin = „{ $written }“ ist feiner als die kleinste Münze. Schreib, was bezahlt wurde.
delivery-currencies = Nicht alles ist in { $currency } bezahlt. Schreib jeder Lieferung ihren Anteil von Hand zu.
delivery-unshared = { $by ->
    [mass] Eine Lieferung hat keine Masse, nach der geteilt werden kann. Teil nach dem Wert.
   *[value] Eine Lieferung hat keinen Preis, nach dem geteilt werden kann. Teil nach der Masse.
}
