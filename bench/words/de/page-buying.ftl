# Was zu kaufen ist (frontend/screens/buying.js). name: wie ihre Karte es hat.

page-buying-for = Wofür
page-buying-open-too = Offene Chargen zählen mit: was ihnen noch fehlt.
page-buying-recipe = Rezept
page-buying-pieces = Stücke
page-buying-on = Beginn am
page-buying-add = Rezept hinzufügen
page-buying-remove = Entfernen
page-buying-no-recipe = Es gibt noch kein Rezept. Schreib erst eines.
page-buying-need = Schreib 1 bis 10 000 Stücke und den Tag des Beginns.
page-buying-to-buy = Zu kaufen
page-buying-nothing = Nichts zu kaufen: das Regal reicht.
page-buying-on-order = Bestellt
page-buying-unjoined = Nicht im Regal
page-buying-by-hand = Nach Bedarf oder nach Löffeln: nachsehen, ob es reicht
page-buying-to-cards = Zu den Karten
page-buying-enough = Was reicht
page-buying-ordered = Bestellt
page-buying-ordered-of = Bestellt: { $name }
page-buying-arrived = Da
page-buying-arrived-of = Da: { $name }
page-buying-saved-order = Als bestellt notiert.
page-buying-due = kommt { $day }
page-buying-was-due = sollte { $day } kommen
page-buying-bring = { $count ->
    [one] { $count } Lieferung aufnehmen
   *[other] { $count } Lieferungen aufnehmen
}
page-buying-copy = Als Text kopieren
page-buying-copied = Kopiert. Füg es irgendwo ein.
page-buying-low = Knapp: nachbestellen
page-buying-too-late = Zu spät: zu bestellen bis { $day }
page-buying-needed = Gebraucht am { $day }; die Lieferzeit ist nicht bekannt
page-buying-order-by = Bestellen bis { $day }
page-buying-wanted = { $wanted } gebraucht, { $free } dafür da
page-buying-coming = { $amount } kommt rechtzeitig
page-buying-unusable = Lieferung { $number } hält nicht so lange, nur bis { $day }
page-buying-left = { $amount } übrig
page-buying-no-point = { $count ->
    [one] { $count } Charge hat es gebraucht: zu wenig für eine Grenze
   *[other] { $count } Chargen haben es gebraucht: zu wenig für eine Grenze
}
page-buying-point-own = nachbestellen bei { $amount }, deine Grenze
page-buying-point-use = nachbestellen bei { $amount }, nach { $week } Verbrauch je Woche
page-buying-about = etwa { $price }
page-buying-no-card = { $name }: keine Karte ({ $titles }).
page-buying-maybe = Ist es { $names }? Sag es auf dieser Karte.
page-buying-comes-late = { $amount } kommt zu spät: { $name }
