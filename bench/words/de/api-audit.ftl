# Das Prüfprotokoll: was mit der Werkstatt geschah, hinter dem Namen, wer es tat (api/audit.py).


## Wer, wo es kein Gerät ist

api-audit-who-terminal = das Terminal
api-audit-who-server = der Server
api-audit-who-computer = dieser Rechner
api-audit-who-stranger = ein Fremder

## Was

api-audit-code-made = { $role ->
    [maker] machte einen Code für einen Hersteller
   *[helper] machte einen Code für eine Hilfe
}
api-audit-code-spent = probierte falsche Codes von { $address }, bis keiner mehr offen war
api-audit-paired = { $role ->
    [maker] wurde als Hersteller gekoppelt
   *[helper] wurde als Hilfe gekoppelt
}
api-audit-role-changed = { $role ->
    [maker] machte zum Hersteller: { $name }
   *[helper] machte zur Hilfe: { $name }
}
api-audit-renamed = gab einen neuen Namen: { $was }, jetzt { $name }
api-audit-shut-out = sperrte aus: { $name }
api-audit-settings-changed = änderte Einstellungen: { $fields }
api-audit-hours-changed = änderte die Arbeitszeiten
api-audit-kit-changed = änderte die Ausrüstung
api-audit-imported = las eine Datei ein: { $kept } neu, { $had } schon da, { $refused } abgelehnt
api-audit-exported = gab alles als Datei aus: { api-audit-batches }, { api-audit-entries }
api-audit-copied = machte eine Sicherung, { $file }: { api-audit-batches }, { api-audit-entries }
api-audit-restored = holte die Sicherung { $file } zurück: { api-audit-batches }, { api-audit-entries }
api-audit-moved = zog mit der Werkstatt um: von { $out_of } nach { $into }
api-audit-moved-back = zog mit der Werkstatt zurück von { $out_of }
api-audit-migrated = brachte die Tabellen von { $was } auf { $tables }
api-audit-unsigned = machte eine Unterschrift rückgängig: { $name }
api-audit-bench-followed = macht weiter als { $was }
api-audit-outlet-erased = hat den Namen eines Abnehmers gelöscht
api-audit-batches = { $runs ->
    [one] { $runs } Charge
   *[other] { $runs } Chargen
}
api-audit-entries = { $entries ->
    [one] { $entries } Eintrag
   *[other] { $entries } Einträge
}

## Einstellungen

api-audit-field-batch-number = Chargennummern
api-audit-field-currency = Währung
api-audit-field-hourly-rate = Stundensatz
api-audit-field-wrap-cost = Kosten der Verpackung
api-audit-field-packaging-cost = Verpackung
api-audit-field-sprays-cost = Ungewogenes
api-audit-field-overhead-cost = Gemeinkosten
api-audit-field-cleaning-minutes = Zeit zum Reinigen
api-audit-field-labelling-seconds = Zeit zum Etikettieren
api-audit-field-fee-percent = Gebühr vom Preis
api-audit-field-fee-each = Gebühr je Stück
api-audit-field-margin-percent = Marge
api-audit-field-tax-percent = Steuer auf den Preis
api-audit-field-before = Fragen vor dem ersten Wiegen
api-audit-field-without-tax = Steuer
api-audit-field-maker = Name und Adresse
api-audit-field-label = Etikett
