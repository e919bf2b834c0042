# The batch record (frontend/screens/record.js, frontend/parts/record-parts.js, record-bars.js).

## Facts

page-record-title = Chargenprotokoll
page-record-batch = Charge
page-record-no-number = ohne Nummer
page-record-also-numbered = auch mit der Nummer { $number }
page-record-caution = Vorsicht
page-record-alike = { $count ->
    [one] Eine andere Charge hat dieselbe Nummer: { $batches }
   *[other] { $count } andere Chargen haben dieselbe Nummer: { $batches }
}
page-record-planned = Geplant
page-record-made = Gemacht
page-record-small = { $count } klein
page-record-spoiled = { $count } verdorben
page-record-good = { $count } gut
page-record-weighed-in = Eingewogen
page-record-weighed-in-of = { $mass }, geplant { $planned }
page-record-began = Begonnen
page-record-not-yet = noch nicht
page-record-finished = Abgeschlossen
page-record-open = noch offen
page-record-took = Dauer
page-record-recipe = Rezept
page-record-version = Fassung { $number }
page-record-signed = Unterschrieben
page-record-signed-missing = { $count ->
    [one] { $count } der unterschriebenen Einträge fehlt hier noch
   *[other] { $count } der unterschriebenen Einträge fehlen hier noch
}
page-record-unsigned = Unterschrift zurückgenommen
page-record-unsigned-by = { $name } hatte unterschrieben, { $signed }; zurückgenommen { $at }

## Weights, and when each step was done

page-record-weights = Gewichte von { $part }
page-record-target = Soll
page-record-weighed = gewogen
page-record-off = Abweichung
page-record-by-sheet = Blatt { $mass }
page-record-round = Durchgang { $number }
page-record-in-round = Durchgang { $number }: { $title }
page-record-instead-of = statt { $name }

# status: how a line that is not weighed went in.
page-record-status = { $status ->
    [in] drin
    [by_hand] von Hand
    [left_out] weggelassen
   *[open] –
}
page-record-waited = { $off ->
    [early] nach { $length }, früher als geplant
    [late] nach { $length }, später als geplant
   *[none] nach { $length }
}
page-record-not-within = nach { $length }, gedacht innerhalb von { $most }

# word: burst in a microwave, else heat.
page-record-bursts = { $word ->
    [burst] { $count ->
        [one] { $count } Intervall, { $length } insgesamt
       *[other] { $count } Intervalle, { $length } insgesamt
    }
   *[heat] { $count } × erhitzt, { $length } insgesamt
}
page-record-tries = { $count ->
    [one] nach { $count } Versuch
   *[other] nach { $count } Versuchen
}
page-record-too-much = { $mass } zu viel
page-record-too-little = { $mass } zu wenig
page-record-on-target = genau Soll
page-record-allowed = { $off }, { $mass } erlaubt

## What was checked, corrected, skipped

page-record-checks = Prüfungen

# answer: yes, not_yet or too_far.
page-record-look = { $answer ->
    [yes] { $at } ja
    [not_yet] { $at } noch nicht
   *[too_far] { $at } zu weit
}
page-record-corrections = Berichtigungen
page-record-taken-out = { $mass } wieder herausgenommen
page-record-left = so gelassen
page-record-left-off = so gelassen, { $off }
page-record-left-out = weggelassen
page-record-placed = ab dann gewogen auf: { $scale }
page-record-took-instead = stattdessen genommen: { $vessel }
page-record-scaled = { $way ->
    [up] den Rest hochgerechnet, × { $factor }
   *[down] den Rest heruntergerechnet, × { $factor }
}
page-record-scaled-for = { $name }: { $mass } statt { $planned }
page-record-skipped = Übersprungen
page-record-no-reason = ohne Grund
page-record-longer = Länger gewartet
page-record-longer-by = { $length } länger, ab { $at }
page-record-notes = Notizen
page-record-unread = Nicht verstanden
page-record-unread-entries = { $count ->
    [one] { $count } Eintrag unbekannter Art. Bei der Charge gespeichert.
   *[other] { $count } Einträge unbekannter Art. Bei der Charge gespeichert.
}

## Hand work

page-record-hands = Arbeitszeit
page-record-hands-told = { $length }, wie eingetragen.
page-record-hands-counted = { $length }, aus den Einträgen gezählt, ohne Pausen.
page-record-hands-correct = Berichtigen
page-record-hands-minutes = Arbeitszeit insgesamt in Minuten

## Photographs

page-record-pictures = Fotos
page-record-take-picture = Foto aufnehmen
page-record-picture-of = Foto, { $at }
page-record-picture-elsewhere = Auf einem anderen Gerät aufgenommen. Mit Verbindung sichtbar.
page-record-picture-shows = Was ist zu sehen?
page-record-picture-save = Foto speichern
page-record-picture-caption = Bildtext (freiwillig)

## Digest

page-record-digest = Prüfsumme
page-record-digest-signed = { $count ->
    [one] Aus { $count } unterschriebenen Eintrag und der Unterschrift.
   *[other] Aus { $count } unterschriebenen Einträgen und der Unterschrift.
}
page-record-digest-all = { $count ->
    [one] Aus { $count } Eintrag.
   *[other] Aus allen { $count } Einträgen.
}
page-record-digest-changes = Einen ändern, zufügen oder entfernen: schon ist sie eine andere.
page-record-digest-how = Nachprüfen kann das jeder aus der JSON-Datei. Die Einträge nehmen, die „sealed“ nennt, sonst alle. Jeden als JSON schreiben, Schlüssel sortiert, ohne Leerzeichen. Nach id sortieren, jeden mit Zeilenvorschub beenden, SHA-256 nehmen. Im Terminal:

## Signing, and what can be done here

page-record-sign-name = Unterschrieben von
page-record-sign-name-needed = Namen eintragen: er unterschreibt das Protokoll.
page-record-sign = Protokoll unterschreiben
page-record-sign-locks = Danach ist das Protokoll fest. Anmerkungen mit Datum gehen noch.
page-record-refused-signing = Deine Unterschrift wurde abgelehnt. { $why }
page-record-refused-undo = Ein Rückgängig wurde abgelehnt. { $why }
page-record-refused-do = Unter „Einstellungen“ noch einmal senden oder beiseitelegen.
page-record-to-bench = Zurück zum Arbeitstisch
page-record-remark-add = Anmerkung schreiben
page-record-note-add = Notiz schreiben
page-record-weigh-piece = Fertiges Stück wiegen
page-record-weigh-left = Rest wiegen
page-record-weigh-spoiled = Verdorbenes wiegen
page-record-unsign = Unterschrift zurücknehmen
page-record-unsign-says = Das Protokoll ist wieder offen. Es hält die alte Unterschrift fest.
page-record-signed-by = Unterschrieben von { $name }
page-record-label = Etikett
page-record-gathered = Bereitgestellt
page-record-remark = Anmerkung
page-record-note = Notiz
page-record-remark-says = Das Protokoll ist unterschrieben. Dies kommt mit eigener Zeit darunter.

## Lots

page-record-lots = Lieferungen
page-record-lots-used = Verbrauchte Lieferungen
page-record-used = verbraucht
page-record-booked = gebucht
page-record-wrap = Verpackung
page-record-lot = Los { $number }
page-record-over-booked = { $mass } mehr als gebucht

## Waits

page-record-waits = Wartezeiten, geplant und wirklich
page-record-waits-picture = Oben: geplant, mit dem üblichen Ende. Unten: was wirklich verging.

# off: earlier or later than the recipe has it, or neither.
page-record-wait = { $off ->
    [early] { $title }: { $length }, früher als geplant
    [late] { $title }: { $length }, später als geplant
   *[none] { $title }: { $length }
}
page-record-wait-open = { $title }: nicht beendet
page-record-wait-planned = { $earliest } bis { $latest } geplant, üblich { $usual }
page-record-wait-bar = { $word }: geplant { $earliest } bis { $latest }, üblich { $usual }; wirklich { $length }
page-record-wait-bar-open = { $word }: geplant { $earliest } bis { $latest }, üblich { $usual }; nicht beendet

## Mass balance

page-record-balance = Massenbilanz
page-record-mass = Masse
page-record-went-in = Eingewogen
page-record-in-good = { $weighed ->
    [0] In { $count } guten Stücken, nach geplantem Gewicht
   *[other] In { $count } guten Stücken, { $weighed } davon gewogen
}
page-record-in-spoiled = Verdorben
page-record-in-spares = In Reserveteilen
page-record-in-bowl = Rest in der Schüssel
page-record-lost = Verloren oder ungeklärt
page-record-lost-expected = Verloren oder ungeklärt ({ $mass } erwartet)
page-record-closes = Geht auf die { $mass } der Waage auf.

## Cost

page-record-cost = Kosten
page-record-cost-none = Keine Lieferung hat einen Preis, keine Währung ist gesetzt. Währung, Stundensatz und Verpackung stehen in den Einstellungen.
page-record-cost-by-lot = Material je Lieferung
page-record-cost-lot = Los { $number }, { $much }
page-record-cost-in = In { $currency }
page-record-cost-material = Material
page-record-cost-lost = davon unterwegs verloren
page-record-cost-spoiled = davon verdorben
page-record-cost-hands = Arbeitszeit, { $length }
page-record-cost-batch = Die Charge
page-record-cost-part = { $what ->
    [sprays] Ungewogenes
    [cleaning] Reinigen
    [labelling] Etikettieren
    [packaging] Verpackung
   *[overhead] Gemeinkosten
}
page-record-cost-kept = davon Rückstellmuster
page-record-price = Preis eines Stücks in { $currency }
page-record-price-each = Preis mit Steuer
page-record-price-tax = Steuer
page-record-price-fees = Gebühren
page-record-price-cost = Kosten
page-record-price-margin = bleibt übrig
page-record-cost-each = { $count ->
    [one] Das { $count } gute Stück
   *[other] Jedes von { $count } guten Stücken
}
page-record-cost-no-rate = Arbeitszeit kostet hier nichts: Stundensatz in den Einstellungen setzen.
page-record-cost-unpriced = Ohne Preis und nicht in den Summen: { $names }.

## Yield, kit, people

page-record-yield = Ausbeute über Chargen
page-record-yield-picture = Gute Stücke von { $count } Chargen dieses Rezepts, älteste zuerst. Die Linie: geplant. Am dunkelsten: diese Charge.
page-record-yield-bar = { $spoiled ->
    [0] { $name }: { $good } gut von { $planned }
   *[other] { $name }: { $good } gut von { $planned }, { $spoiled } verdorben
}
page-record-kit = Ausrüstung
page-record-kit-scale = bis { $most }, Teilung { $division }
page-record-kit-vessels = Gefäße
page-record-kit-heat = Wärme
page-record-device-this = dieses Gerät, ohne Namen, …{ $end }
page-record-device-other = ein Gerät ohne Namen, …{ $end }
page-record-who = Wer
page-record-who-entries = { $count ->
    [one] { $count } Eintrag, { $first }
   *[other] { $count } Einträge, { $first } bis { $last }
}
page-record-level = Noch { $percent } %

## After signing, and received late

page-record-remarks = Anmerkungen nach der Unterschrift
page-record-remark-at = Anmerkung, { $at }
page-record-a-picture = ein Foto
page-record-late = Spät empfangen

# how: sent or given back by somebody who is not the device's own name.
page-record-late-entry = { $how ->
    [given] Eingetragen { $at }, empfangen { $received }, zurückgegeben von { $sender }, { $device }.
    [sent] Eingetragen { $at }, empfangen { $received }, gesendet von { $sender }, { $device }.
   *[plain] Eingetragen { $at }, empfangen { $received }, { $device }.
}
page-record-late-more = Und { $count } weitere. Alle stehen in der CSV.

# kind: of an entry of the journal.
page-record-kind = { $kind ->
    [numbered] Nummer
    [gathered] Bereitgestellt
    [ticked] Abgehakt
    [weighed] Gewogen
    [taken_out] Herausgenommen
    [left] So gelassen
    [left_out] Weggelassen
    [carried] Rest angepasst
    [zeroed] Tariert
    [placed] Andere Waage
    [took] Anderes Gefäß
    [switched] Art zu wiegen
    [chose] Wahl
    [done] Erledigt
    [skipped] Übersprungen
    [began] Begonnen
    [heated] Erhitzt
    [looked] Geprüft
    [portioned] Abgeteilt
    [counted] Gezählt
    [extended] Länger gewartet
    [measured] Nachgewogen
    [aired] Raumluft
    [proved] Prüfgewicht
    [labelled] Etiketten gezählt
    [pictured] Foto
    [worked] Arbeitszeit
    [noted] Notiz
    [kept] Rückstellmuster
    [met] Gutes Stück
    [judged] Beurteilt
    [finished] Abgeschlossen
    [signed] Unterschrieben
    [undone] Rückgängig gemacht
   *[other] Anderer Eintrag
}

## Beurteilen: die Charge, ihre Abweichungen, was ein gutes Stück ist

page-record-release = Freigabe
page-record-kept = Rückstellmuster
page-record-keep-back = Rückstellmuster
page-record-kept-count = { $count } zurückgestellt
page-record-judge-batch = Charge beurteilen
page-record-judge-it = Beurteilen
page-record-judge-of = Beurteilen: { $name }
page-record-judge-name = Wer beurteilt
page-record-judge-why = Warum
page-record-judge-name-needed = Ein Name fehlt. Schreiben, wer beurteilt.
page-record-judge-why-needed = Ein Grund fehlt. Schreiben, warum.
page-record-judge-sign-first = Freigegeben wird nur ein unterschriebenes Protokoll. Zuerst unterschreiben.
page-record-judge-departs = { $count ->
    [one] 1 Abweichung ist nicht angenommen.
   *[other] { $count } Abweichungen sind nicht angenommen.
}
page-record-judge-unsaid = { $count ->
    [one] 1 Punkt eines guten Stücks ist nicht gesagt.
   *[other] { $count } Punkte eines guten Stücks sind nicht gesagt.
}
page-record-judge = { $verdict ->
    [released] Freigeben
    [held] Sperren
    [rejected] Verwerfen
    [accepted] Annehmen
   *[not_accepted] Nicht annehmen
}
page-record-judged = { $verdict ->
    [released] Freigegeben: { $name }, { $at }
    [held] Gesperrt: { $name }, { $at }
    [rejected] Verworfen: { $name }, { $at }
    [accepted] Angenommen: { $name }, { $at }
   *[not_accepted] Nicht angenommen: { $name }, { $at }
}
page-record-judged-none = noch nicht beurteilt
page-record-judged-anew = Freigegeben { $at }, aber nicht, wie es jetzt unterschrieben ist. Neu beurteilen.
page-record-deviations = Abweichungen
page-record-deviation = { $kind ->
    [weight] neben dem Soll
    [left_out] weggelassen
    [early] zu früh beendet
    [late] zu spät beendet
    [window] nicht rechtzeitig
    [skipped] übersprungen
    [start] niemand hat es gesagt
   *[criterion] nicht wie im Rezept
}
page-record-met = { $answer ->
    [yes] Ja
   *[no] Nein
}
page-record-met-of = { $answer ->
    [yes] Ja: { $name }
   *[no] Nein: { $name }
}
page-record-found = { $answer ->
    [yes] { $at } ja
   *[no] { $at } nein
}
page-record-met-what = Was gemessen oder gesehen wurde
page-record-not-said = niemand hat es gesagt
page-record-room = Raum und Waagen
page-record-air = { $humidity } % Feuchte, { $warmth }
page-record-air-damp = { $humidity } % Feuchte, zu feucht für Sprudelmasse
page-record-air-plain = { $humidity } % Feuchte
page-record-labels = Etiketten
page-record-labels-told = { $market ->
    [us] USA
    [eu] EU
   *[uk] UK
}: { $printed } gedruckt, { $on } auf Stücken, { $binned } weggeworfen, { $left } übrig
page-record-proved = { $scale } zeigte { $reads } für { $weight }
page-record-cost-ahead = Vorher erwartet: { $total }, { $each } je Stück
