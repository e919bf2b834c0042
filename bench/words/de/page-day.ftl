# The day (frontend/screens/day.js, frontend/parts/day-ahead.js, day-picture.js, hours-form.js). when: a clock time, with its day where that is another.

## What is next

page-day-title = Der Tag
page-day-next = Als Nächstes
page-day-nothing-left = Nichts mehr zu tun
page-day-bench-opens = Der Arbeitstisch öffnet { $when }
page-day-hands-free = Hände frei bis { $when }
page-day-rest = Nichts anderes anfangen: { $step } beginnt { $when }.
page-day-follow = Den Timern folgen
page-day-to-bench = Zum Arbeitstisch
page-day-done = Alles fertig: { $when }.
page-day-stretch = { $from } bis { $until }

page-day-this-batch = diese Charge
page-day-first = Zuerst { $step }.

## What is late, and what would be

# length: how late at the least.
page-day-late = { $length } zu spät: { $step }.
page-day-least-bad = { $length } zu spät für { $step } in jeder Reihenfolge. Diese ist die beste.
page-day-slow-hands = Mit langsamen Händen beginnt { $step } { $length } zu spät. Weniger Stücke machen oder zu zweit arbeiten.
page-day-stay = { $length } über { $at } hinaus bleiben: das hält sich nicht.
page-day-order-changed = Der geplante Schritt käme jetzt zu früh oder kostet am Ende Zeit.
page-day-no-hours = Keine Arbeitszeiten mehr. Unter „Arbeitszeiten“ eintragen.
page-day-begin-later = Beginnen: { $when }.
page-day-begin-later-of = { $name } beginnen: { $when }.
page-day-leave = { $step } noch lassen: so wirst du früher fertig.
page-day-past-hours = { $step } ginge über { $when } hinaus.
page-day-no-room = { $step } jetzt lässt keinen Platz für den Rest.
page-day-too-late = { $step } jetzt, und { $next } beginnt vielleicht { $length } zu spät.
page-day-next-start = Nächster Beginn { $when }.

## To be ready by some time. name: of the batch where there are several.

page-day-due-not = Nicht fertig bis { $when }.
page-day-due-not-of = { $name }: nicht fertig bis { $when }.
page-day-due-still = Kann noch fertig werden bis { $when }.
page-day-due-still-of = { $name } kann noch fertig werden bis { $when }.
page-day-due-begin = Fertig bis { $when }: { $begins } beginnen.
page-day-due-begin-of = { $name } fertig bis { $when }: { $begins } beginnen.
page-day-ready-by = Fertig bis
page-day-which-batch = Welche Charge
page-day-day-and-time = Tag und Uhrzeit
page-day-as-late = So spät wie möglich beginnen
page-day-as-soon = So früh wie möglich fertig

## If you stop

page-day-stop = Wenn du aufhörst
page-day-stop-no-hours = Pause bis { $when }: in deinen Arbeitszeiten wirst du nicht fertig.
page-day-stop-later = Pause bis { $when }: { $length } später, fertig { $finish }.
page-day-stop-same = Pause bis { $when }: trotzdem fertig { $finish }.

## The plan

page-day-age-none = Schnelle Reihenfolge von diesem Handy. Noch kein ganzer Plan.
page-day-age-now = Gerade geplant.
page-day-age = Vor { $length } geplant.
page-day-age-offline = Keine Verbindung. Der Plan ist { $length } alt.
page-day-age-behind = Dieses Handy fügt hinzu, was seither war.

# aim: what a better plan would have.
page-day-looking = { $aim ->
    [finish] Sucht ein früheres Ende…
    [start] Sucht einen späteren Beginn…
    [sessions] Sucht weniger Arbeitsgänge…
    [span] Sucht kürzere Arbeitsgänge…
    [changes] Sucht weniger Wechsel zwischen Teilen…
   *[other] Sucht eine bessere Reihenfolge…
}
page-day-looking-ends = Bis dahin gilt der beste. Ende in höchstens { $seconds } s.
page-day-looking-stop = Suche beenden
page-day-calendar = In den Kalender des Handys
page-day-in-plan = Chargen in diesem Plan
page-day-touched = { $name }: zuletzt angefasst { $when }. Gehört sie in diesen Plan?
page-day-take-in = Mitplanen
page-day-leave-out = Weglassen
page-day-sessions = Zeiten am Arbeitstisch
page-day-session-step = { $at }  { $letter }  { $title }
page-day-session-step-of = { $at }  { $letter }  { $title }, { $name }
page-day-session-steps = { $count ->
    [one] { $count } Schritt
   *[other] { $count } Schritte
}
page-day-save-time = Was Zeit spart
page-day-work-out = Ausrechnen

## A batch that is not begun

page-day-time-no-hours = { $length } Arbeit. In deinen Arbeitszeiten wirst du nicht fertig.
page-day-time-done = { $length } bis fertig, { $when }.
page-day-time-hands = { $length } Arbeit.

# count: of other batches on the bench.
page-day-time-by-server = { $count ->
    [0] Vom Server geplant.
    [one] Vom Server geplant, neben der Charge auf dem Tisch.
   *[other] Vom Server geplant, neben den { $count } Chargen auf dem Tisch.
}
page-day-time-by-phone = { $count ->
    [0] Schnell von diesem Handy geplant.
    [one] Schnell von diesem Handy geplant, neben der Charge auf dem Tisch.
   *[other] Schnell von diesem Handy geplant, neben den { $count } Chargen auf dem Tisch.
}

## The picture

page-day-picture = Der Tag als Bild. Plus und Minus zoomen, die Pfeile gehen weiter.
page-day-show-more = Mehr vom Tag zeigen
page-day-show-larger = Größer zeigen
page-day-to-now = Jetzt
page-day-now = jetzt
page-day-left = { $hands ->
    [one] Noch { $hands } Handgriff.
   *[other] Noch { $hands } Handgriffe.
}
page-day-waits-left = { $count ->
    [one] Noch { $count } Wartezeit.
   *[other] Noch { $count } Wartezeiten.
}
page-day-next-is = Als Nächstes: { $letter }, { $title }.
page-day-ends-in = Ende in { $length }.

## Bench hours

page-day-hours = Arbeitszeiten
page-day-hours-pair = { $opens } bis { $closes }
page-day-closed = geschlossen
page-day-maker = Hersteller
page-day-second-maker = Zweite Person
page-day-whose-hands = Wessen Hände
page-day-each-day = Jeden Tag
page-day-other-days = Andere Zeiten an manchen Tagen
page-day-other-day = geschlossen
page-day-hours-save = Zeiten speichern
page-day-hours-makers = Nur Hersteller können sie ändern.
page-day-hours-offline = Keine Verbindung. Ändern, sobald sie wieder da ist.
page-day-hours-away = Keine Verbindung. Speichern, sobald sie wieder da ist.
page-day-hours-zone = Nach der Uhr von { $zone }. Dieses Handy hat eine andere.
page-day-one-pair = Wieder allein
page-day-second-pair = Zu zweit arbeiten
