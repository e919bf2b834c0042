# What a product is for, where it is sold, and what follows (bench/product).

product-use = { $use ->
    [bath] Bad
    [wash] Dusche, Waschen
    [left_on] Bleibt auf der Haut
    [lips] Lippen
    [eyes] Um die Augen
    [air] Raumduft
   *[decoration] Dekoration
}
product-market = { $market ->
    [us] USA
    [eu] Europäische Union
    [ni] Nordirland
   *[uk] Großbritannien
}
product-law-rules = Maßgebend ist das Recht dort. Hier steht, was hier bekannt ist, nicht mehr.

## Which law

product-law-us-cosmetic = USA: ein Kosmetikum.
product-law-us-soap = USA: Seife, wenn es vor allem Seife ist und nur so verkauft wird. Dann kein Kosmetikum.
product-law-us-general = USA: ein Haushaltsprodukt, kein Kosmetikum.
product-law-eu-cosmetic = EU-Recht: ein Kosmetikum.
product-law-ni-cosmetic = Nordirland: EU-Kosmetikrecht, nach dem Windsor-Rahmen. Was als eigene Ware gilt, darf nach Großbritannien.
product-law-eu-mixture = EU-Recht: ein Gemisch, kein Kosmetikum. Für das Etikett gilt CLP.
product-law-eu-general = EU-Recht: allgemeine Produktsicherheit.
product-law-uk-cosmetic = Großbritannien: ein Kosmetikum, mit eigener Allergenliste.
product-law-uk-mixture = Großbritannien: ein Gemisch, kein Kosmetikum. Für das Etikett gilt CLP.
product-law-uk-general = Großbritannien: allgemeine Produktsicherheit.

## What is due

product-duty-us-safety = Unterlagen aufheben, wie die Sicherheit beurteilt wurde. Auch kleine Betriebe.
product-duty-us-register = Den Ort der Herstellung registrieren (FDA), alle 2 Jahre.
product-duty-us-list = Das Produkt melden (FDA), binnen 120 Tagen, dann jährlich.
product-duty-us-events = Ernste Vorfälle binnen 15 Werktagen melden, mit Etikett. Unterlagen dazu 6 Jahre aufheben, kleine Betriebe 3.
product-duty-us-scent = Auf Anfrage der FDA binnen 30 Tagen sagen, was im Duftstoff ist.
product-duty-us-soap = Nur als Seife auszeichnen und verkaufen. Andere Aussagen machen ein Kosmetikum daraus.
product-duty-us-general = Gefahren beurteilen. Manche brauchen eine Warnung auf dem Etikett.
product-duty-eu-person = Eine verantwortliche Person in der EU benennen.
product-duty-ni-person = Eine verantwortliche Person in Nordirland oder im EWR benennen.
product-duty-eu-report = Einen Sicherheitsbericht erstellen lassen.
product-duty-eu-file = Die Produktakte an der Adresse auf dem Etikett aufheben. Bis 10 Jahre nach der letzten Charge.
product-duty-eu-notice = Vor dem ersten Verkauf in der EU notifizieren (CPNP).
product-duty-eu-events = Ernste unerwünschte Wirkungen sofort der Behörde melden.
product-duty-eu-mixture = Als Gemisch einstufen (CLP). So auszeichnen und verpacken.
product-duty-eu-poison = Falls eingestuft: den Giftzentralen melden und den Code (UFI) aufdrucken.
product-duty-eu-risk = Risiken aufschreiben, und was dagegen getan ist.
product-duty-eu-general-person = Jemanden in der EU benennen, der dafür einsteht.
product-duty-uk-person = Eine verantwortliche Person im Vereinigten Königreich benennen. Bis 31. Dezember 2027 genügen die Angaben der EU.
product-duty-uk-report = Einen Sicherheitsbericht erstellen lassen.
product-duty-uk-file = Die Produktakte auf Englisch an einer britischen Adresse aufheben.
product-duty-uk-notice = Vor dem ersten Verkauf im Vereinigten Königreich notifizieren (SCPN).
product-duty-uk-events = Ernste unerwünschte Wirkungen sofort der Behörde melden.
product-duty-uk-mixture = Als Gemisch einstufen (GB CLP). So auszeichnen und verpacken.
product-duty-uk-risk = Risiken aufschreiben, und was dagegen getan ist.
product-duty-samples = Von jeder Charge Muster zurücklegen und aufheben.
product-small-free = Ein kleiner Betrieb kann davon frei sein: unter 1 Million Dollar Kosmetik im Jahr, im Mittel von 3. Nicht bei Kontakt mit dem Inneren des Auges.
