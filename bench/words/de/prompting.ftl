# Was am Arbeitstisch jetzt zu tun ist (bench/prompting, frontend/bench/prompting).

## Antworten, die es bei jedem Schritt gibt

prompting-done = Erledigt
prompting-done-and-judged = Erledigt. { $right }
prompting-skip-step = Schritt überspringen
prompting-skip-weighing = Ganzen Schritt überspringen
prompting-skip-says = Im Protokoll steht „{ $title }“ als übersprungen.
prompting-ends-batch = Damit ist die Charge fertig.
prompting-finish-title = Charge abschließen
prompting-finish-label = Abschließen
prompting-finish-says = Alle Schritte sind erledigt.
prompting-finish-skipped = Übersprungen: { $titles }. Absicht?

## Warum jetzt, und was danach kommt

prompting-finish-first = Erst „{ $title }“ fertig machen. Danach duldet der nächste Teil keine Pause.
prompting-finish-two-first = Erst „{ $title }“ und „{ $other }“ fertig machen. Danach duldet der nächste Teil keine Pause.
prompting-past-its-time = Zeit überschritten. { $rescue }
prompting-stay-with-this = Bleib dabei. { $stake }
prompting-second-next = Lass es auf der Waage: Gleich sieht jemand anderes nach.
prompting-second-unweighed = Gleich sieht jemand anderes nach.
prompting-second-no = Eins stimmt nicht
prompting-second-went-in = ist drin
prompting-second-shows = ist drin: Die Waage zeigt { $reads }
prompting-second-who = Sag, wer nachgesehen hat
prompting-judge-next = Gleich danach prüfst du. Richtig: { $right }
prompting-then = Danach:

## Wiegen: Überschrift, Zahl, was auf der Waage steht

prompting-add = { $name }: { $amount } zugeben
prompting-top-up = { $name }: { $amount } nachgeben
prompting-then-into = Dann in: { $vessel }.
prompting-zero-with = { $scale }. { $vessel } drauf, dann tarieren.
prompting-zero-empty = { $scale }. Leere Schüssel drauf, dann tarieren.
prompting-caption-running = hier aufhören
prompting-caption-tare = tarieren, dann zugeben
prompting-caption-cup = Becherchen tarieren, dann wiegen
prompting-caption-spoons = gestrichen
prompting-caption-by-spoon = mit dem Löffel
prompting-caption-by-eye = nach Augenmaß
prompting-to-texture = nach Bedarf
prompting-counted = { $unit ->
    [drops] { $count } Tropfen
   *[pieces] { $count } Stück
}

## Wiegen: Antworten

prompting-reads = Anzeige { $reading }
prompting-reads-else = Die Waage zeigt etwas anderes
prompting-leave-out = Weglassen
prompting-scale-reset = Waage auf 0 gesprungen
prompting-scale-reset-says = Zählt ab 0 weiter. { $held } sind schon drin.
prompting-added = Zugegeben
prompting-is-in = Ist drin
prompting-other-scale = Rest wiegen auf: { $scale }
prompting-other-vessel = Anderes Gefäß genommen: { $vessel }

## Zu wenig für jede Waage

prompting-too-little-for-scale = { $mass } sind zu wenig für: { $scale }.
prompting-shows-from = Ab { $pieces } { $many } zeigt die Waage es an.
prompting-dilute = Oder { $some } in { $into } { $name } einrühren: { $take } davon enthalten { $mass }.

## Zu viel, zu wenig

prompting-in-and-target = { $held } drin. Soll { $target }.
prompting-too-much = { $name }: { $mass } zu viel
prompting-too-much-caption = zu viel
prompting-too-little = { $name }: { $mass } zu wenig
prompting-take-out = { $mass } herausnehmen
prompting-leave = So lassen
prompting-share-becomes = { $name }: { $share } von { $part }; Rezept { $was }.
prompting-share-stays = { $name }: weiter { $share } von { $part }.
prompting-past-limit = { $ofPart } von { $part }, { $ofPiece } im Stück: Laut Unterlagen höchstens { $limit }.
prompting-entered-twice = Auf zwei Geräten eingetragen
prompting-entered-twice-says = Zählt nur einmal. Der zweite Eintrag fällt weg.

## Den Rest anpassen

prompting-match-up = Rest hochrechnen, × { $factor }
prompting-match-down = Nichts mehr da: herunterrechnen, × { $factor }
prompting-match-rest = Vom Rest weniger nehmen, × { $factor }
prompting-part-becomes = { $part } wird { $mass }
prompting-part-becomes-enough = { $part } wird { $mass }, genug für { $pieces }
prompting-top-up-lines = nachgeben: { $lines }
prompting-top-up-line = { $name } { $mass }
prompting-share-moves = { $name } { $share } davon statt { $was }
prompting-need-more = vom Rest brauchst du { $more } mehr

## Schmelzen

prompting-heat-next = { $word ->
    [burst] Intervall { $number }, { $heater }
   *[heat] Erhitzen { $number }, { $heater }
}
prompting-heat-runs = { $word ->
    [burst] Intervall { $number }, dann umrühren und prüfen
   *[heat] Erhitzen { $number }, dann umrühren und prüfen
}
prompting-rest-then = ruhen, dann noch { $length }
prompting-stir-resting = Beim Ruhen umrühren.
prompting-right = Richtig: { $right }
prompting-stir-look = Gut umrühren und prüfen: { $right }
prompting-stir-rest-look = Gut umrühren, { $rest } ruhen, dann prüfen: { $right }
prompting-no-further = Höchstens { $warmth }.
prompting-bursts = { $count ->
    [one] { $count } Intervall
   *[other] { $count } Intervalle
}
prompting-heat-usual = Üblich: { $usual }.
prompting-heat-past-usual = Schon über die üblichen { $usual }: sanft erhitzen.
prompting-heat-begin = { $length } starten
prompting-melted = Geschmolzen
prompting-not-yet-rest = Noch nicht: { $length } ruhen
prompting-not-yet-more = Noch nicht: weitere { $length }

## Eine Masse teilen

prompting-rest-stays = Der Rest, { $mass }, bleibt als { $name }.
prompting-weigh-out-for = abwiegen für { $name }

## Tun und prüfen

prompting-at-least = mindestens
prompting-about = etwa
prompting-time-it = Timer: { $length }
prompting-not-yet = Noch nicht
prompting-not-yet-way = Noch nicht: { $way }
prompting-too-far = Zu weit
prompting-judge-again = dann wieder prüfen
prompting-tried = { $times ->
    [1] Einmal probiert.
   *[other] { $times }-mal probiert.
}

## Stücke zählen. verb: wie das Rezept es nennt, „gepresst“.

prompting-of-wanted = von { $wanted } { $verb }
prompting-made-one = Eins { $verb }
prompting-way-made-one = Eins { $verb }: { $way }
prompting-made-all = { $count ->
    [1] Eins { $verb }
   *[other] Alle { $count } { $verb }
}
prompting-way-made-all = { $count ->
    [1] Eins { $verb }: { $way }
   *[other] Alle { $count } { $verb }: { $way }
}
prompting-several-made = Mehrere { $verb }
prompting-other-number = Eine andere Zahl
prompting-dried = Angetrocknet: besprühen und einarbeiten
prompting-sprayed-again = { $times ->
    [1] Einmal nachgesprüht.
   *[other] { $times }-mal nachgesprüht.
}
prompting-small-piece = Ein kleines
prompting-spoiled = Eins misslungen
prompting-none-left = Nichts übrig: hier aufhören
prompting-left-makes = { $mass } übrig: noch { $pieces } Stück.
prompting-from-portion = Aus { $name }: noch { $pieces } Stück.
prompting-join-left = Reste zusammennehmen: { $parts }. Ergibt noch { $pieces }.
prompting-join-part = { $name } { $mass }
prompting-left-too-little = { $mass } übrig: zu wenig für ein Stück von { $piece }.

## Warten. word: wie das Rezept das Ende nennt, „trocken“.

prompting-is-it-over = Schon { $word }?
prompting-over = Ja, { $word }
prompting-over-already = Schon { $word }
prompting-look-again = Noch nicht: in { $length } wieder prüfen
prompting-before-earliest = { $length } zu früh. Wirklich { $word }?
prompting-really-over = Wirklich { $word }?
prompting-over-first = „{ $title }“ war vorher zu Ende.
prompting-may-be-over = vielleicht { $word }: prüfen
prompting-should-be-over = sollte { $word } sein
prompting-soon-late = nicht mehr lange stehen lassen
prompting-late = über die späteste Zeit
prompting-metal = { $vessel } ist aus Metall. Vor der Mikrowelle in Glas umfüllen.
prompting-metal-ask = { $vessel } ist aus Metall und schlägt Funken. Trotzdem starten?
prompting-burn-short = Verbrannt? Kühles Wasser, 20 min.
prompting-burn-cool = Sofort, unter den Hahn. Bis 3 Stunden danach hilft es noch. Ringe und lose Kleidung ab. Kein Eis, keine Creme.
prompting-burn-cover = Dann Frischhaltefolie auflegen, nicht wickeln. Den übrigen Körper warm halten.
prompting-burn-call = Groß, tief, im Gesicht oder ein Kind: Notruf. Was der örtliche Notruf sagt, geht vor.
prompting-burn-source = Nach: British Burn Association, 2018. „Kein Eis, keine Creme“ ist aus zweiter Hand.
prompting-air-first = Erst die Raumluft ablesen.
prompting-air = Luft notieren
prompting-damp = { $humidity } % Feuchte, ab { $most } % verdirbt Sprudelmasse. Trotzdem abwiegen?
prompting-damp-now = { $humidity } % Feuchte: ab { $most } % verdirbt Sprudelmasse. Auf trockenere Luft warten.
prompting-prove = Prüfgewicht { $weight } auf { $scale }
prompting-scale-off = { $scale } zeigte { $reads } statt { $weight }. Erst richtigstellen.

## Der pH-Wert

prompting-ph-wanted = { $bounds ->
    [least] pH { $least } oder mehr
    [most] pH { $most } oder weniger
   *[both] pH { $least } bis { $most }
}
prompting-ph = { $answer ->
    [yes] { $wanted }: stimmt
   *[no] { $wanted }: stimmt nicht
}
prompting-ph-says = Den gelesenen Wert eintragen.
prompting-ph-first = Jetzt den pH messen: { $wanted } soll es sein.
