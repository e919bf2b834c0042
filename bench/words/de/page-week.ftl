# Die Woche: was bis wann gebraucht wird, und der Plan dafür (frontend/screens/week.js, frontend/parts/week-*.js).

page-week-away = Keine Verbindung. Die Woche plant der Server.
page-week-none = Noch nichts gebraucht. Einen Markt, eine Bestellung oder ein Regal eintragen.
page-week-add = Bedarf eintragen
page-week-wanted = Gebraucht
page-week-line = { $count } × { $title }
page-week-gone-recipe = ein Rezept, das nicht hier ist
page-week-there = { $count } da
page-week-coming = { $count } in Arbeit
page-week-made = { $count } geplant
page-week-short = { $count } fehlen
page-week-past = Diese Zeit ist vorbei. Erledigt, verschoben oder entfernt?
page-week-later = Später geplant: zu weit weg oder zu viel auf einmal.
page-week-change = Ändern
page-week-met = Erledigt
page-week-drop = Entfernen
page-week-of = { $does }: { $line }
page-week-is-met = Erledigt. Verkauftes unter „Stücke“ eintragen.
page-week-is-dropped = Entfernt.
page-week-put-back = Zurückholen
page-week-send-again = Noch einmal senden
page-week-saved = Gespeichert.

## Was gebraucht wird

page-week-when = Bis
page-week-whom = Für wen (freiwillig)
page-week-nobody = Niemand Bestimmtes
page-week-note = Notiz (freiwillig)
page-week-note-hint = Markt am Samstag
page-week-pieces = Stück
page-week-pieces-of = Stück: { $title }
page-week-find = Rezept suchen
page-week-change-of = Ändern: { $title }
page-week-need-when = Angeben, bis wann.
page-week-need-later = Diese Zeit ist vorbei. Eine spätere wählen.
page-week-need-pieces = Angeben, wie viele, 1 bis 10000, von mindestens einem Rezept.

## Der Plan

page-week-plan = Der Plan
page-week-planning = Wird geplant. Das dauert bis zu 20 s.
page-week-again = Neu planen
page-week-new = Etwas hat sich geändert. Hier ist ein neuer Plan:
page-week-take = Neuen Plan nehmen
page-week-changed = Seit diesem Plan hat sich etwas geändert.
page-week-begin-at = Beginn { $at }
page-week-begin-by = spätestens { $at }
page-week-too-late = Der späteste Beginn ist vorbei
page-week-ready = fertig { $at }
page-week-likely = { $count } wohl gut
page-week-part-of = Vorab für { $lines }
page-week-parts = Schritte am Arbeitstisch
page-week-sitting = { $at }, { $length }: { $name }
page-week-by = { $says }, { $maker }
page-week-ahead = { $says } (geht im Voraus)
page-week-begin = Beginnen
page-week-begin-this = Beginnen: { $line }
page-week-go-on = Weiter
page-week-done = { $count } gute Stücke gemacht
page-week-uncounted = Fertig, Stücke nicht gezählt
page-week-cannot = Mit dieser Ausrüstung und diesen Zeiten nicht machbar: { $title }

## Wo es nicht geht

page-week-instead = Stattdessen könnte all das fertig sein:
page-week-helps = Was helfen würde:
page-week-help = { $what ->
    [hours] { $short } fehlen mit einer Stunde mehr für { $name }, nach { $at }
    [later] { $short } fehlen, wenn { $name } einen Tag später reicht
    [equipment] { $short } fehlen mit mehr davon: { $name }
   *[lot] { $short } fehlen mit mehr davon: { $name }
}
page-week-no-help = Keine einzelne Änderung gefunden, die hilft.

## Was zu kaufen ist

page-week-buy = Einkaufen
page-week-buy-line = { $much }: { $name }
page-week-buy-packs = { $count ->
    [one] { $count } Packung
   *[other] { $count } Packungen
}
page-week-buy-by = bestellen bis { $day }
page-week-buy-late = bestellen bis { $day }: das ist vorbei
page-week-buy-pieces = { $count ->
    [one] { $count } Stück
   *[other] { $count } Stück
}
page-week-buy-unknown = Auf keiner Karte, daher nicht gezählt: { $names }

## Startseite

page-week-next = { $line }: Beginn { $at }
page-week-next-by = { $line }: Beginn { $at }, spätestens { $by }
