# Plans: why a step is now, why a day cannot be done, and what of it cannot be read (bench/planning, frontend/bench/tasks.js).

# A step by its title; name: its batch, where several are planned.
planning-step = „{ $title }“
planning-step-of = „{ $title }“ aus { $name }

## Why a step is now

planning-why-window = Beginnen innerhalb von { $length } nach { $step }.
planning-why-starts-wait = Startet { $step } ({ $length }).
planning-why-starts-last-wait = Startet { $step } ({ $length }) und bestimmt damit das Ende.
planning-why-frees = Macht „{ $vessel }“ frei für { $step }.
planning-why-frees-moulds = Macht Formen frei ({ $shape }) für { $step }.
planning-why-opens = Danach hat { $step } { $length }. Dafür ist jetzt Platz.
planning-why-late-last = Später hier heißt später fertig.
planning-why-meanwhile = Hände frei während { $step }.
planning-why-next = Es ist als Nächstes dran in seinem Teil.

## Why a day cannot be done

planning-circle = Diese Schritte warten im Kreis aufeinander: { $steps }.
planning-circle-after = { $steps } nach { $step }
planning-too-long = { $step } dauert { $length }. Keine Arbeitszeit ist länger als { $longest }.
planning-only-later = Bis dahin nicht fertig: frühestens { $length } später.
planning-only-later-at = Bis dahin nicht fertig. Frühestens: { $day } { $at }, { $length } später.
planning-no-hours = Keine Arbeitszeit mehr für { $step }. Mehr eintragen oder weiter vorausplanen.
planning-no-hours-last = Keine Arbeitszeit mehr für den letzten Schritt. Mehr eintragen oder weiter vorausplanen.
planning-rule = { $step } muss innerhalb von { $length } nach { $before } beginnen.
planning-not-fitting = Was übrig ist, passt nicht.
planning-hours-end = { $day }: Arbeitszeit endet um { $at }.
planning-not-possible = Nicht möglich mit diesen Händen, Zeiten und Formen.
planning-change = { $count ->
    [one] Das reicht:
   *[other] Eines davon reicht:
}
planning-change-late = { $steps }.
planning-change-late-by = { $step } { $length } später beginnen
planning-change-start-by = Spätestens um { $at } beginnen.
planning-change-start-earlier = { $length } früher beginnen.
planning-change-hours = { $length } mehr Arbeitszeit eintragen.
planning-due-past = Diese Zeit ist vorbei.
planning-due-unfound = Keine Reihenfolge gefunden, die rechtzeitig fertig ist.

## Bench hours as they are written

planning-hours-reach = Ein Plan reicht höchstens { $count } Tage voraus.
planning-hours-day = Ein Tag ist einer von { $days }.
planning-hours-zone = Arbeitszeiten brauchen eine Zeitzone mit Namen, etwa „Europe/Berlin“.
planning-hours-list = Arbeitszeiten sind eine Liste von Paaren, etwa [[„9:00“, „12:30“]].
planning-hours-pair = { $opens } bis { $closes }
planning-hours-overlap = { $hours } überschneidet { $other }. Zu einem machen.
planning-hours-two = Arbeitszeiten haben Anfang und Ende.
planning-hours-backwards = { $hours } endet vor dem Anfang. Über Mitternacht zwei schreiben: bis 24:00, und ab 0:00 am nächsten Tag.
planning-hours-clock = „{ $written }“ ist keine Uhrzeit von 0:00 bis 24:00. Zum Beispiel 19:30 schreiben.
planning-hours-date = Ein Datum steht als 2026-11-28.

## What cannot be planned

planning-over-a-year = „{ $title }“ dauert über ein Jahr. Planen, was davor kommt.
planning-not-within = „{ $title }“ dauert { $length }, muss aber innerhalb von { $most } fertig sein. Weniger Stücke auf einmal machen oder mehr Zeit geben.
planning-too-many-steps = Ein Plan fasst höchstens { $most } Schritte. Das sind { $count }. Weniger Chargen auf einmal planen.
planning-same-id = Zwei Schritte haben dieselbe id. Jeder Charge einen eigenen Namen geben.
planning-no-maker = Ein Plan braucht eine Person. Eintragen, wessen Hände es sind, und ihre Arbeitszeiten.
planning-past = Diese Zeit ist vorbei. Eine spätere angeben.
planning-not-in-kit = Die Ausrüstung hat kein „{ $key }“.
planning-hold = Belegt wird etwas aus der Ausrüstung, von einem Schritt bis zu einem anderen.
planning-stretch-backwards = Diese Arbeitszeit endet vor dem Anfang.
planning-stretch-overlap = Diese Arbeitszeit überschneidet die davor.
planning-no-stretch = Keine Arbeitszeit in der Zeit, die geplant wird. Mehr eintragen oder weiter vorausplanen.
planning-no-step = Es gibt keinen Schritt „{ $key }“.
planning-gap-from = Ein Abstand zählt ab dem Ende eines Schritts. Einen nennen.
planning-gap-over-a-year = Diese Wartezeit ist länger als ein Jahr. Planen, was davor kommt.
planning-gap-backwards = Das Späteste liegt vor dem Frühesten. Tauschen.
planning-aim = Ein Plan zielt auf { $aims }.
planning-say-when = Angeben, wann es fertig sein muss.
planning-makers = Am Arbeitstisch sind 1 bis { $most } Personen.
planning-until-backwards = Die Zeit, die geplant wird, endet vor dem Anfang.
