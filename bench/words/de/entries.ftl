# Einträge eines Journals oder des Vorrats, die nicht stimmen (bench/entries.py, bench/journal/reading.py).

entries-missing = „{ $field }“ fehlt. Ergänzen.
entries-lacks-mg = „mg“ fehlt: die Anzeige sagt ohne ihre Masse nichts. Ergänzen.
entries-lacks-entries = „entries“ fehlt: wovon die Prüfsumme ist. Ihre ids ergänzen.
entries-lacks-digest = „digest“ fehlt: die Prüfsumme der unterschriebenen Einträge. Ergänzen.
entries-lacks-why = „why“ fehlt: zu diesem Urteil gehört ein Grund. Ergänzen.
entries-lacks-verdict = Eine Charge ist released, held oder rejected. Eine Abweichung ist accepted oder not_accepted.
entries-lacks-signing = „signing“ gehört allein zu „released“: die id der Unterschrift. Dort ergänzen.

## Der Umschlag

entries-envelope = Ein Eintrag sollte ein Objekt mit id, device, at, kind und body sein.
entries-id = Die id sollte eine UUID der Version 7 sein.
entries-device = „device“ sollte 1 bis 64 Buchstaben, Ziffern, - oder _ haben.
entries-at = Die Zeit sollte in ganzen Millisekunden seit 1970 stehen.
entries-kind = „kind“ sollte ein Wort aus Kleinbuchstaben sein, etwa „weighed“.
entries-body = „body“ sollte ein Objekt sein.
# count: wie viele Felder es gibt.
entries-unknown-entry = Ein Eintrag hat kein Feld „{ $field }“. Möglich: { $known }.
entries-unknown-body = { $count ->
    [0] „{ $field }“ gibt es in „{ $name }“ nicht. Dort gibt es kein Feld.
   *[other] „{ $field }“ gibt es in „{ $name }“ nicht. Möglich: { $known }.
}
entries-unknown-within = „{ $field }“ gibt es in „{ $name }“ nicht. Möglich: { $known }.

## Ein Feld, nach seiner Art

entries-fits-id = „{ $field }“ sollte die id von etwas auf dem Rezeptblatt sein.
entries-fits-mass = „{ $field }“ sollte ganze Milligramm von 0 bis 1 000 000 000 nennen.
entries-fits-whole = „{ $field }“ sollte eine ganze Zahl sein.
entries-fits-count = „{ $field }“ sollte eine ganze Zahl von 0 bis 10 000 sein.
entries-fits-factor = „{ $field }“ sollte eine ganze Zahl von 1 bis 1 000 000 000 000 sein.
entries-fits-weigh = „{ $field }“ sollte „running“ oder „tare“ sein.
entries-fits-answer = „{ $field }“ sollte „yes“, „not_yet“ oder „too_far“ sein.
entries-fits-span = „{ $field }“ sollte ganze Millisekunden von 1 bis zu einem Jahr nennen.
entries-fits-humidity = „{ $field }“ muss ganze Prozent von 1 bis 100 sein.
entries-fits-warmth = „{ $field }“ muss Tausendstel Grad Celsius von -40 000 bis 60 000 sein.
entries-fits-measured = „{ $field }“ sollte „piece“, „left“ oder „spoiled“ sein.
entries-fits-judgement = „{ $field }“ sollte „released“, „held“, „rejected“, „accepted“ oder „not_accepted“ sein.
entries-fits-lot_verdict = „{ $field }“ sollte „held“, „accepted“ oder „rejected“ sein.
entries-fits-met = „{ $field }“ sollte „yes“ oder „no“ sein.
entries-fits-market = „{ $field }“ sollte „us“, „eu“ oder „uk“ sein.
entries-fits-paper = „{ $field }“ sollte „safety_sheet“, „ifra_certificate“, „analysis“ oder „other“ sein.
entries-fits-media = „{ $field }“ sollte „pdf“, „jpeg“ oder „png“ sein.
entries-fits-complaint = „{ $field }“ sollte „complaint“ oder „reaction“ sein.
entries-fits-text = „{ $field }“ sollte Text von 1 bis 2000 Zeichen sein.
entries-fits-uuid = „{ $field }“ sollte eine UUID in Kleinbuchstaben sein, wie ihre Adresse.
entries-fits-sha256 = „{ $field }“ sollte die SHA-256 der Datei sein, 64 kleine Hexadezimalziffern.
entries-fits-ids = „{ $field }“ sollte höchstens { $most } ids von Einträgen haben, jede einmal, sortiert.
entries-fits-key = „{ $field }“ sollte 1 bis 140 Buchstaben, Ziffern, Punkte, - oder _ haben.
entries-fits-day = „{ $field }“ sollte ein Kalendertag sein, etwa 2027-03-31.
entries-fits-price = „{ $field }“ sollte ein Betrag als Text („12.50“) und eine Währung („EUR“) sein. Eine Steuer kann dazu: ihr Prozentsatz als Text, und ob sie enthalten ist.
entries-fits-card = „{ $field }“ sollte ein Objekt mit einem Namen von 1 bis 200 Zeichen sein.
