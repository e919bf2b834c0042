# Pläne: verlangt, angesehen, im Kalender (api/plans.py, api/planner.py, api/plan_calendar.py).


## Nicht planbar

api-plans-title-refused = Das ist nicht planbar
api-plans-fault-refused = Das war nicht planbar. Noch einmal verlangen.
api-plans-nothing = Nichts zu planen.
api-plans-name-one = Eine Charge unter runs nennen oder ein Rezept unter recipes.
api-plans-not-here = Einige Chargen gibt es hier nicht.
api-plans-no-such-batch = Diese Charge gibt es nicht. Weglassen.
api-plans-not-in-plan = Diese Charge ist nicht in diesem Plan. Unter runs nennen.
api-plans-say-when = Angeben, wann es fertig sein muss.
api-plans-past = Diese Zeit ist vorbei. Eine spätere angeben.
api-plans-too-far = Ein Plan reicht höchstens { $count } Tage voraus. Näher am Tag verlangen.
api-plans-too-many = { $count } Pläne sind schon in Arbeit. In { $length } noch einmal verlangen. Am Arbeitstisch geht es ohne weiter.
api-plans-fault-stopped-server = Der Server hielt an, während geplant wurde. Noch einmal verlangen.
api-plans-fault-server = Beim Planen ging auf dem Server etwas schief. Sein Log sagt, was.
api-plans-no-calendar = Noch kein Plan zum Eintragen. Einen verlangen: { $request }.

## Wie gut ein Plan ist

api-plans-none-yet = Noch kein Plan.
api-plans-not-by-then = Bis dahin wird es nicht mehr fertig.
api-plans-begun = Es hat begonnen und endet später.
api-plans-missed = { $count ->
    [one] Eine späteste Zeit wird verpasst.
   *[other] { $count } späteste Zeiten werden verpasst.
}
api-plans-missed-proven = Keine Reihenfolge verpasst weniger.
api-plans-missed-found = Eine andere Reihenfolge verpasst vielleicht weniger.
api-plans-order-latest-start = Keine Reihenfolge beginnt später und wird rechtzeitig fertig.
api-plans-order-soonest = Keine Reihenfolge endet früher.
api-plans-order-by-rule = Nach der einfachen Regel: vielleicht gibt es eine bessere Reihenfolge.
api-plans-order-best-found = Beste gefundene. Vielleicht gibt es eine bessere Reihenfolge.
api-plans-order-impossible = So nicht möglich.
api-plans-order-unknown = Keine Reihenfolge gefunden, die alle Regeln einhält.
api-plans-cut-short = Die Suche wurde vorzeitig beendet.

## Was eins mehr sparen würde

api-plans-saving-mould = Ein Satz mehr: { $name }.
api-plans-saving-extra-time = Eine Stunde mehr am { $at }, über { $closes } hinaus.
api-plans-saving-second-maker = Eine zweite Person am Arbeitstisch.
api-plans-saves-length = Endet { $length } früher.
api-plans-saves-sessions = { $count ->
    [one] Spart einen Einsatz am Arbeitstisch.
   *[other] Spart { $count } Einsätze am Arbeitstisch.
}
api-plans-saves-nothing = Ändert nichts.
api-plans-saves-unknown = Kein Plan zum Vergleichen gefunden.
api-plans-saves-as-found = Soweit gefunden.

## Im Kalender

api-plans-session = Am Arbeitstisch: { $names }
api-plans-ready = { $title }: fertig
api-plans-ready-of = { $title }: fertig ({ $name })

## Eine Woche von dem aus, was gebraucht wird

api-plans-week-busy = Es wird schon eine Woche geplant. In { $length } noch einmal fragen.
api-plans-week-too-many-recipes = Höchstens { $most } Rezepte auf einmal angeben.
api-plans-week-too-far = Höchstens { $count } Tage voraus angeben.
api-plans-week-no-recipe = Dieses Rezept gibt es hier nicht. Eines aus der Liste wählen.
api-plans-week-not-offered = Dieser Plan wird nicht mehr angeboten. Die Woche neu lesen.
