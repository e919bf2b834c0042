# Was auf dem Rezeptblatt steht (bench/sheet_words.py, frontend/bench/sheet-words.js).

## Warum ein Teil in mehreren Durchgängen gemacht wird

sheet-moulds-hold = die Formen ({ $shape }) fassen { $held } auf einmal
sheet-vessel-takes = { $vessel } fasst { $mass } auf einmal
sheet-scale-takes = Waage { $scale } trägt { $mass } auf einmal
sheet-used-at-once = { $part } entsteht in { $rounds } Durchgängen und duldet keine Pause

## Worauf zu achten ist

sheet-no-mould = Keine Form ({ $shape }) in der Ausstattung; gerechnet ist, als gäbe es genug.
sheet-no-scale = Keine Waage trägt { $mass }: in Teilen wiegen.
sheet-too-full = { $vessel } fasst { $room }; hinein kommen { $mass }.
sheet-for-two-parts = { $vessel } wird für { $part } und für { $other } gebraucht: dazwischen leeren.
sheet-metal = { $vessel } ist aus Metall, und eine Schmelze muss in die Mikrowelle. Glas oder Polypropylen nehmen.
sheet-needed-twice = { $vessel } wird für { $part } zweimal gebraucht: noch einmal bereitstellen ({ $kind }).
sheet-less-than-one = { $name }: weniger als ein Stück je Durchgang; eines wird genommen.
sheet-less-than-a-spoon = { $name }: weniger als der kleinste Löffel.
sheet-drops-differ = Tropfen sind je nach Tropfer verschieden. Wiege sie, wenn es darauf ankommt.
sheet-too-little = { $mass } { $name } sind für jede Waage hier zu wenig: { $scale } kann um { $share } danebenliegen. Mach mehr oder nimm eine feinere Waage.

## Löffel. spoon: cup, tbsp oder tsp.

sheet-spoons = { $spoon ->
    [cup] { $count ->
        [one] { $count } Tasse
       *[other] { $count } Tassen
    }
    [tbsp] { $count } EL
   *[tsp] { $count } TL
}
sheet-spoon = { $spoon ->
    [cup] Tasse
    [tbsp] EL
   *[tsp] TL
}
sheet-shares-of-spoon = { $count } × { $spoon }
sheet-off-more = { $spoons } ({ $percent } % mehr)
sheet-off-less = { $spoons } ({ $percent } % weniger)
sheet-part-of-spoon = { $percent } % von { $spoon }

## Was ein Rezept offen lässt

sheet-instead-of = Anstelle von: { $name }.
sheet-second-look = Jemand anderes prüft Menge und Etikett. Stimmt beides?
sheet-second-look-yes = Beides stimmt
sheet-second-look-not = Nimm die Wägung zurück, oder nimm zu viel heraus.
sheet-second-look-who = wer nachsah
sheet-yes = Ja, so ist es
sheet-done = fertig
sheet-piece = Stück

## Vor dem ersten Wiegen, und was ein gutes Stück ist

sheet-starts = Vor dem ersten Wiegen
sheet-good-piece = Ein gutes Stück
sheet-criterion = { $criterion ->
    [mass] Masse
    [ph] pH
    [look] Aussehen
   *[set] Fest
}
sheet-between = { $least } bis { $most }
sheet-at-least = mindestens { $bound }
sheet-at-most = höchstens { $bound }

## Ein Rezeptblatt als einfacher Text (bench/sheet/text.py).

sheet-text-round = Durchgang { $round }: { $count } Stück, { $mass }
sheet-text-part = { $count } zu { $piece }, zusammen { $mass }
sheet-text-rounds = in { $count } Durchgängen, denn { $reasons }
sheet-text-within = innerhalb von { $span }: { $stake }
sheet-text-bursts = { $word ->
    [burst] Intervalle: { $spans }
   *[heat] Erhitzen: { $spans }
}
sheet-text-at-a-time = jeweils { $span }
sheet-text-look = darauf achten: { $look }
sheet-text-no-further = höchstens { $warmth }
sheet-text-not-yet = Noch nicht: { $way }
sheet-text-wait = { $word }: frühestens { $earliest }, üblich { $usual }
sheet-text-wait-latest = { $word }: frühestens { $earliest }, üblich { $usual }, spätestens { $latest }
sheet-text-to-make = { $count } zu machen:
sheet-text-small-cup = { $scale }, Becherchen
sheet-text-too-far = Zu weit: { $way }
sheet-text-by-spoon = oder { $spoons }
sheet-text-about = { $counted }, etwa { $mass }
sheet-text-tools = mit { $tools }
sheet-text-loose = In keinem Schritt gewogen:
sheet-text-fetch = Bereitstellen, für die ganze Charge
sheet-text-takes = etwa { $span }
sheet-text-optional = Kann wegbleiben.
sheet-text-reads = Anzeige { $reading }
sheet-text-within-of = innerhalb von { $span } nach { $steps }: { $stake }
sheet-text-latest = Spätestens: { $stake }
sheet-text-after-each = Nach jedem: { $again }
sheet-text-warnings = Darauf achten
sheet-assembly = Zusammensetzen
