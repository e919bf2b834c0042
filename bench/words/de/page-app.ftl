# Die Seite selbst, welche Ansicht auch auf ihr steht (frontend/app.js).

## Wo nichts zu zeigen ist

page-app-reading = Chargen auf diesem Handy werden gelesen…
page-app-absent = Nicht auf diesem Handy
page-app-absent-says = Mit Verbindung kommt es vielleicht. Alles andere ist hier.
page-app-makers = Nur für Hersteller
page-app-makers-says = Dieses Gerät hat die Rolle Hilfe. Auf einem mit der Rolle Hersteller öffnen.
page-app-newer = Es gibt eine neuere Seite
page-app-newer-there = Eine neuere Seite ist bereit. Unter Rezepte holst du sie.
page-app-newer-says = Alles Eingegebene ist gespeichert.
page-app-load = Neu laden
page-app-closed = Der Arbeitstisch öffnet nicht

## Ob es klingelt

page-app-mute = kein Ton: hier tippen
page-app-dark = Bildschirm kann ausgehen

## Gespeichert oder nicht

page-app-not-saved-why = Nicht gespeichert: { $why }
page-app-still-here = Was du geschrieben hast, ist noch da.
page-app-save-again = Noch einmal speichern
page-app-do-not-save = Nicht speichern
page-app-go-on = Weiter
page-app-photo-saved = Foto gespeichert.
page-app-planned = Geplant.
page-app-hours-saved = Arbeitszeiten gespeichert.

## Keine Verbindung

page-app-desk-away = Das braucht eine Verbindung. Alles für eine Charge geht ohne.
page-app-list-away = Keine Verbindung. Diese Liste liegt auf dem Server.
page-app-check-away = Keine Verbindung, also noch keine Prüfung. Geschriebenes ist hier gespeichert.
page-app-picked-away = Keine Verbindung, also noch keine Prüfung. Das Ausgewählte bleibt hier.
page-app-draft-waits = Keine Verbindung. Das Rezept ist hier ein Entwurf und wird später gesendet.
page-app-versions-away = Keine Verbindung. Die neueste Fassung ist hier, ältere auf dem Server.

## Was klingelt. phase: wie eilig es ist

page-app-ring-says = { $phase ->
    [look] { $what }: vielleicht fertig, prüfen.
    [ready] { $what }: fertig.
    [late] { $what }: fast zu spät.
   *[over] { $what }: über die späteste Zeit.
}
page-app-ring-stir = { $what }: umrühren, dann ruhen lassen.
page-app-ring-more = Und noch { $count }.
page-app-rang = { $phase ->
    [look] { $time }: { $what }, vielleicht fertig, prüfen
    [ready] { $time }: { $what }, fertig
    [late] { $time }: { $what }, fast zu spät
   *[over] { $time }: { $what }, über die späteste Zeit
}
page-app-undone = Noch offen: { $title }
page-app-away = Während du weg warst, { $length }
page-app-nothing-rang = Nichts hat geklingelt. Alles ist, wie du es verlassen hast.
