# What is due before something is sold (frontend/parts/duties.js).

page-duties-open = { $open ->
    [0] Pflichten beim Verkauf: keine von { $count } ist offen
    [one] Pflichten beim Verkauf: { $open } von { $count } ist offen
   *[other] Pflichten beim Verkauf: { $open } von { $count } sind offen
}
page-duties-not-sold = Pflichten beim Verkauf: keine, es wird nicht verkauft
page-duties-unsaid = Pflichten beim Verkauf: erst angeben, wofür und wo verkauft
page-duties-title = Pflichten beim Verkauf
page-duties-not-seen = Auf diesem Handy noch nicht gesehen. Sie kommen mit einer Verbindung.
page-duties-state = { $state ->
    [open] Offen
    [seen_to] Erledigt
   *[not_mine] Trifft nicht zu
}
page-duties-how = Wie es steht
page-duties-day = Datum
page-duties-note = Notiz
page-duties-no-date = Datum des Textes unbekannt
page-duties-not-saved = Nicht gespeichert: { $why }
page-duties-keep = Im Rezept speichern
page-duties-kept = Im Rezept gespeichert.
page-duties-kept-waits = Keine Verbindung. Auf diesem Handy gespeichert, wird später gesendet.
