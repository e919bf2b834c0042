# Was an einem geschriebenen Rezept nicht stimmt (bench/recipe, bench/steps, frontend/bench/draft.js).

recipe-lye = Ein Rezept mit Lauge gehört nicht hierher. Seife aus Lauge braucht eigene Schulung, Schutz und Berechnung. Hier eine fertige Basis nehmen.
recipe-chlorine = Chlorhaltiges und Säure bilden Chlorgas. Dieses Rezept wird abgelehnt: eins von beiden weglassen.

## Zutaten und Zeilen

recipe-not-a-share = „{ $written }“ ist kein Massenanteil über 0 % und bis 100 %. So schreiben: 68 %.
recipe-no-ingredient = Die Zutat „{ $name }“ gibt es nicht. Möglich: { $could }.
recipe-per-cents-no-room = Die Prozente ergeben { $share }. Zusammen müssen sie Platz für den Rest lassen.
recipe-per-cents-short = Die Prozente ergeben { $share }, nicht 100 %.
recipe-parts-beside-weights = Anteile stehen neben Gewichten. Angeben, was ein Anteil wiegt: „part“, etwa 100 g.
recipe-no-bound = Ein Bereich braucht mindestens oder höchstens, oder beides. Eins ergänzen.
recipe-bounds-crossed = { $least } ist mehr als { $most }. Tauschen.
recipe-no-ph = „{ $written }“ ist kein pH von 0 bis 14. So schreiben: 5.5.
recipe-no-mass = Anteile und Prozente allein haben keine Masse. Angeben, was ein Stück oder ein Anteil wiegt.
recipe-too-heavy = Zusammen sind das mehr als zehn Tonnen. Einheiten prüfen.
recipe-tolerance-too-fine = Eine Toleranz unter 0,01 % lässt sich nicht wiegen. 0,01 % oder mehr schreiben.
recipe-substitute-amount = Die Menge eines Ersatzes als Masse, Volumen oder Anzahl schreiben.

## Teile, und was sie zusammenfügt

recipe-assembly-name = „assembly“ ist das Zusammenfügen am Ende. Einen anderen Namen wählen.
recipe-no-assembly = Ein Rezept aus mehreren Teilen braucht einen Abschnitt, der sie zusammenfügt.
recipe-no-part = Den Teil „{ $part }“ gibt es nicht. Möglich: { $could }.
recipe-taken-twice = „{ $part }“ wird zweimal genommen. Einmal nehmen und die Anzahl angeben.
recipe-not-taken = Den Teil „{ $part }“ nimmt nichts auf. Aufnehmen oder löschen.
recipe-piece-too-light = Ein Stück unter 1 mg lässt sich nicht wiegen. 0,001 g oder mehr schreiben.
recipe-all-stays-behind = Es bleibt mehr zurück, als die Zeilen ergeben. „stays_behind“ senken oder angeben, was ein Stück wiegt.

## Schritte

recipe-no-step = Den Schritt „{ $step }“ gibt es nicht. Die id eines Schritts schreiben, oder teil.schritt.
recipe-after-itself = „{ $step }“ kann nicht nach sich selbst kommen.
recipe-circle = Diese Schritte warten im Kreis aufeinander: { $steps }. Ein „after“ entfernen.
recipe-not-weighed = Kein Schritt wiegt „{ $line }“. In den Zeilen eines Wiegeschritts nennen.
recipe-weighed-twice = „{ $line }“ wird zweimal gewogen, hier und in „{ $step }“.
recipe-no-line = Die Zeile „{ $line }“ gibt es nicht. Möglich: { $could }.
recipe-no-lines = Die Zeile „{ $line }“ gibt es nicht. Dieser Teil hat keine Zeilen.
recipe-no-wait = Die Wartezeit „{ $step }“ gibt es in diesem Teil nicht. Möglich: { $could }.
recipe-no-waits = Die Wartezeit „{ $step }“ gibt es in diesem Teil nicht. Als eigenen Schritt schreiben.
recipe-tipped-into-itself = „{ $vessel }“ kann nicht in sich selbst gekippt werden. Angeben, in welches Gefäß.
recipe-no-portion = Die Portion „{ $portion }“ gibt es nicht. Ein Teilschritt muss sie machen.
recipe-portion-is-whole = „{ $portion }“ ist, was geteilt wird. Jeder Portion eine eigene id geben.
recipe-divided-two-ways = Nach Anteilen oder nach Massen teilen, nicht beides.
recipe-no-turn = So wird nie gewendet: die Wartezeit dauert üblich { $usual }. Weniger schreiben.
recipe-too-many-turns = So wird { $count }-mal gewendet: die Wartezeit dauert üblich { $usual }. Höchstens { $most } sind möglich.
recipe-wait-backwards = Die Zeiten einer Wartezeit laufen vorwärts: frühestens, dann üblich, dann spätestens.
