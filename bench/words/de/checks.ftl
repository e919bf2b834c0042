# Was die Rezeptprüfung findet (bench/checks).

## Die Luft heute

checks-dew-point = Taupunkt { $dew }, bei { $temperature } und { $humidity } %.
checks-dew-point-why = Auf Kälterem schlägt sich Wasser nieder: gekühlte Teile, kaltes Blech, kalte Folie.
checks-dew-point-by = { $mass } Wasser in einem Kubikmeter Luft
checks-dew-point-do = Jedes Teil abgedeckt auf Raumwärme kommen lassen. Dann trocknen, zusammensetzen oder einpacken.
checks-damp-fizz-stop = Die Luft ist zu feucht, um Sprudelmasse gut zu trocknen.
checks-damp-fizz = Feuchte Luft für Sprudelmasse. Sie trocknet langsam und kann zu reagieren beginnen.
checks-damp-fizz-why = Zitronensäure allein nahm bei 69,9 % Wasser auf, Natron allein zwischen 76 und 88 %. Ein Gemisch tut es früher. Für Gemische fand sich keine Zahl. Diese Prüfung warnt ab { $share } %, unter den veröffentlichten Zahlen.
checks-damp-over = { $points } Punkte über { $share } %
checks-damp-fizz-do = Luft trocknen oder auf einen trockeneren Tag warten. Einpacken, sobald das Stück trocken ist. Nie im warmen Ofen trocknen.
checks-dry-for-fizz = Trockener als { $share } %: ab da warnt diese Prüfung vor langsamem Trocknen.
checks-dry-for-fizz-why = Die Zahl liegt unter den veröffentlichten für Einzelstoffe. Ab { $share } % warnt sie deutlicher.
checks-dry-for-fizz-by = { $points } Punkte darunter
checks-dry-for-fizz-do = Offen trocknen, trocken einpacken.
checks-damp-soap = Seifenteile schwitzen in dieser Luft wahrscheinlich.
checks-damp-soap-why = Glycerin nimmt bei jeder üblichen Feuchte Wasser auf. Ein Grenzwert ist nicht veröffentlicht. Dieser stammt von der Prüfung selbst.
checks-damp-soap-do = Jedes Stück einpacken, sobald es kalt ist.

## Ein Stück wie Essbares

checks-like-food = Das Stück könnte für Essbares gehalten werden.
checks-like-food-why = Dieses Risiko vor dem Verkauf abwägen, vor allem wo Kinder sind.
checks-like-food-do = Aussehen oder Verpackung ändern. Auf dem Etikett sagen, dass es nicht essbar ist. Die Entscheidung aufschreiben.
checks-like-food-unknown = Könnte das Stück für Essbares gehalten werden? Im Rezept steht es nicht.
checks-like-food-unknown-why = Ein Stück, das wie Kuchen oder Bonbon aussieht, ist ein Risiko.
checks-like-food-unknown-do = Im Rezept ja oder nein angeben.

## Farben

checks-colour = { $kind ->
    [lake] { $name } ist ein Farblack.
    [dye] { $name } ist ein löslicher Farbstoff.
    [mica] { $name } ist ein Mica.
   *[pigment] { $name } ist ein Pigment.
}
checks-colour-why-lake = Im Stück färbt er mit seinen Teilchen und blutet nicht aus. Im Wasser bleiben feine Punkte, die Wanne und Stoff verfärben können. Wo US-Recht gilt, ist jede Lieferung zertifiziert.
checks-colour-do-lake = Gut benetzen und das Zertifikat der Lieferung aufheben. Die Losnummer zur Charge schreiben.
checks-colour-why-dye = Im Stück blutet er ins Nachbarteil aus. Er färbt das ganze Wasser und kann Wanne und Haut verfärben. Wo US-Recht gilt, ist jede Lieferung zertifiziert.
checks-colour-do-dye = In einer weißen Wanne probieren und das Zertifikat der Lieferung aufheben. Die Losnummer zur Charge schreiben.
checks-colour-why-mica = Im Stück schimmert es und blutet nicht aus. Im Wasser löst es sich nicht: ohne Lösungsvermittler bleibt ein Rand. Wo US-Recht gilt, braucht Mica kein Zertifikat je Lieferung.
checks-colour-do-mica = Prüfen, ob auch Überzug oder Farbe keines brauchen. Die Losnummer zur Charge schreiben.
checks-colour-why-pigment = Im Stück gibt es eine gleichmäßige, matte Farbe und blutet nicht aus. Im Wasser löst es sich nicht und kann einen Rand in der Wanne lassen.
checks-colour-do-pigment = Den Lieferanten fragen: ist diese Qualität für Kosmetik gedacht, und wo ist sie erlaubt?

## Sprudel

checks-citric-form = Ist die Zitronensäure wasserfrei oder Monohydrat? Im Rezept steht es nicht.
checks-citric-form-why = Das Monohydrat enthält 8,6 % Wasser, gleiches Gewicht sprudelt also weniger.
checks-citric-form-do = Auf der Packung nachsehen und die Form der Zutat angeben.
checks-fizz-balance-do = Nichts, wenn das so gewollt ist.
checks-citric-form-by = { $anhydrous } bei wasserfreier; { $monohydrate } bei Monohydrat
checks-fizz-left-nothing = nichts übrig
checks-fizz-left = { $of ->
    [acid] { $mass } Säure übrig, { $share } davon
   *[carbonate] { $mass } Natron übrig, { $share } davon
}
checks-fizz-balance = Natron zu Säure steht { $ratio } : 1 nach Gewicht. Nach der Reaktion: { $left }.
checks-fizz-balance-as-anhydrous = Die Säure ist als wasserfrei gerechnet.
checks-fizz-balance-why = Üblich ist etwa 2 : 1 (übliche Praxis). Die Reaktion geht bei { $ratio } : 1 auf. Übriges Natron macht das Wasser schwach alkalisch. Übrige Säure macht es sauer.
checks-fizz-balance-by = { $base } nehmen { $takes } mol Säure auf; { $acid } geben { $gives } mol. Höchstens { $gas } L Gas bei { -at-25 } aus der Charge wie geschrieben

## Duft und Allergene

checks-fragrance-no-weight = { $name } hat eine Zeile ohne Gewicht. Der Anteil am Stück ist unbekannt.
checks-fragrance-no-weight-why = Sein Zertifikat begrenzt ihn nach Gewicht.
checks-fragrance-no-weight-do = Die Zeile als Gewicht schreiben oder die Dichte angeben.
checks-fragrance-no-limit = { $share } von „{ $part }“ ist { $name }. Wo liegt die Grenze?
checks-fragrance-no-limit-why = Kein angegebener Grenzwert heißt nicht unbegrenzt.
checks-fragrance-no-limit-do = Den Grenzwert für diese Produktart aus dem IFRA-Zertifikat des Duftstoffs übernehmen.
checks-fragrance-no-limit-of = Den Grenzwert der Kategorie { $categories } aus dem IFRA-Zertifikat des Duftstoffs abschreiben.
checks-fragrance-share = { $name }: { $share } von „{ $part }“. Das Zertifikat erlaubt { $limit }.
checks-fragrance-share-why = Jeder Teil wird für sich betrachtet, der vollste zählt. Eine Bewertung des Produkts ist das nicht.
checks-fragrance-share-over = { $share } des Teils zu viel
checks-fragrance-share-used = { $share } % des Erlaubten
checks-fragrance-share-do = Weniger davon nehmen, in einem Teil oder in allen.
checks-fragrance-together = { $names }: jeder unter seinem Grenzwert, zusammen aber nicht.
checks-fragrance-together-why = Begrenzt derselbe Stoff beide, zählen seine Anteile zusammen.
checks-fragrance-together-by = { $share } % eines Grenzwerts zusammen
checks-fragrance-together-do = Lieferanten fragen, ob derselbe Stoff beide begrenzt, oder weniger nehmen.
checks-stays-on = Bleibt das Produkt auf der Haut oder wird es abgespült? Im Rezept steht es nicht.
checks-stays-on-why = Ab welchem Anteil ein Etikett Allergene nennt, ändert sich um das Zehnfache.
checks-stays-on-do = Im Rezept angeben, ob es auf der Haut bleibt. Bis dahin gilt der strengere Anteil.
checks-allergen = { $name }: { $share } des Teils, der am meisten enthält. Ein EU- oder UK-Etikett nennt es.
checks-allergen-by = { $share } darüber
checks-allergen-do = Unter den Bestandteilen nennen.
checks-fragrance-heated = { $name } wird mit der Schmelze erhitzt.
checks-fragrance-heated-why = Duftstoff verfliegt in der Hitze. Der Duft geht verloren, und der Dampf kann sich entzünden.
checks-fragrance-heated-do = Erst nach dem Schmelzen zugeben, abgekühlt auf den Wert im Datenblatt.
checks-fragrance-warm-why = Duftstoff verfliegt in zu warmer Schmelze. Der Duft geht verloren, und der Dampf kann sich entzünden.
checks-fragrance-warm-unknown-do = Die höchste Zugabetemperatur aus dem Datenblatt übernehmen. Die Schmelze so weit abkühlen lassen.
checks-fragrance-warm = { $name } kommt in eine Schmelze von { $reached }. Das Datenblatt erlaubt { $most }.
checks-fragrance-warm-do = Eine Wartezeit zum Abkühlen einfügen oder früher aufhören zu erhitzen.
checks-fragrance-share-source = der Grenzwert, den du aus dem IFRA-Zertifikat übernommen hast, Kategorie { $category }
checks-fragrance-share-source-unnamed = der Grenzwert, den du aus dem IFRA-Zertifikat übernommen hast, Kategorie nicht genannt
checks-allergen-why = { $product ->
    [rinsed] Über { $share } nennt es ein Etikett, wenn das Produkt abgespült wird.
    [stays] Über { $share } nennt es ein Etikett, wenn das Produkt auf der Haut bleibt.
   *[open] Über { $share } nennt es ein Etikett, wenn das Produkt auf der Haut bleibt. Das kann hier sein.
}
checks-fragrance-own-limit-unknown = { $name } kommt in eine frische Schmelze. Die eigene Grenze ist nicht angegeben.
checks-fragrance-melt-unknown = { $name } kommt in eine frische Schmelze. Wie warm die ist, steht nicht im Rezept.

## Wärme

checks-melt-ends-at = die Schmelze endet bei { $temperature }
checks-too-warm = { $by } zu warm
checks-base-limit-unknown = { $name }: wie warm darf es höchstens werden? Im Rezept steht es nicht.
checks-base-end-unknown = { $name }: im Rezept steht nicht, wie warm es wird.
checks-base-limit-unknown-why = Über ihrer Grenze trocknet eine Basis aus, vergilbt und wird zäh. Die Grenze ist je Basis anders.
checks-base-limit-unknown-do = Die Grenze aus dem Datenblatt der Basis übernehmen.
checks-base-end-unknown-do = Beim Schmelzen die Endtemperatur angeben.
checks-base-too-warm = { $name } wird auf { $reached } erhitzt. Das Datenblatt erlaubt { $most }.
checks-base-too-warm-why = { $kind ->
    [soap_base] Über ihrer Grenze trocknet eine Basis aus, vergilbt und wird zäh.
    [whipping_base] Über ihrer Grenze trocknet eine Basis aus, vergilbt und wird zäh.
    [preservative] Über seiner Grenze zerfällt es und konserviert nicht mehr.
   *[other] Über seiner Grenze verdirbt es: es wird dunkel, riecht oder zerfällt.
}
checks-base-too-warm-do = Die Endtemperatur beim Schmelzen senken.
checks-warm-fizz = Geschmolzenes aus „{ $title }“ trifft mit bis zu { $reached } auf das Natron.
checks-warm-fizz-unknown = Wie warm trifft die Schmelze aus „{ $title }“ auf das Natron? Im Rezept steht es nicht.
checks-warm-fizz-why = Natron gibt ab etwa { -at-50 } Gas ab. Dieses Sprudeln fehlt dann im Bad.
checks-warm-fizz-by = { $by } über { -at-50 }
checks-warm-fizz-do = Nur so weit schmelzen wie nötig. Abkühlen lassen, bevor es an die trockene Mischung kommt.
checks-warm-fizz-unknown-do = Beim Schmelzen die Endtemperatur angeben, unter { -at-50 }.
checks-water-in-fizz = { $name } kommt als feste Menge in eine trockene Sprudelmasse.
checks-water-in-fizz-why = Eingegossenes Wasser startet das Sprudeln sofort. Feiner Sprühnebel, nach und nach, kaum.
checks-water-in-fizz-do = Als „nach Bedarf“ schreiben und sprühen, oder weglassen.
checks-water-bath = Zwischen „{ $title }“ und der trockenen Mischung wird nichts abgewischt.
checks-water-bath-why = Ein Gefäß aus dem Wasserbad tropft, und ein Tropfen startet das Sprudeln.
checks-water-bath-do = Einen Schritt einfügen, der Außenseite und Boden abwischt. Oder von einem sagen, dass er abwischt.
checks-alcohol = Alkohol ist offen bei { $sprays }. Nichts trennt das von { $melts }.
checks-alcohol-why = Alkoholdampf entzündet sich leicht: der Flammpunkt von 2-Propanol liegt bei etwa { -at-12 }.
checks-alcohol-do = Vor dem Sprühen Wärmequellen aus, Fenster auf. Oder eins nach dem anderen.
checks-melted-early = „{ $title }“ kann vor „{ $weighing }“ kommen, wo das Geschmolzene erst gewogen wird.
checks-melted-early-why = Am Arbeitstisch gilt die Reihenfolge der Schritte.
checks-melted-early-do = Das Schmelzen dahinter setzen oder angeben, dass es danach kommt.
checks-more-steps = { $count ->
    [one] { $count } weiterem Schritt
   *[other] { $count } weiteren Schritten
}
checks-quoted = „{ $title }“

## Zahlen

checks-two-ways = „{ $written }“: { $read } oder { $other }?
checks-two-ways-why = Gelesen wird { $read }.
checks-two-ways-do = Eins davon schreiben.
checks-sums = { $name }: die Zeilen ergeben { $written }. { $count } Stück brauchen mit dem, was hängen bleibt, { $needs }.
checks-sums-why = Eine Charge richtet sich nach den Stücken, jede Zeile wird angepasst.
checks-sums-by = { $share } Unterschied
checks-sums-do = Mengen, Stückgewicht, Reserve und Rest im Gefäß prüfen.
checks-too-small = { $mass } sind zu wenig für jede Waage der Ausrüstung: { $name }.
checks-too-small-why = Mindestens { $least } nötig, um auf { $share } genau zu wiegen: { $scale }.
checks-too-small-do = Größere Charge machen, feinere Waage nehmen oder in etwas anderem verdünnt abwiegen.
checks-no-density = { $name } hat keine Dichte und bleibt darum in Löffeln.
checks-no-density-why = Ein Löffel schwankt mehr als ein Gewicht.
checks-no-density-do = Die Dichte mit Quelle angeben, dann wird gewogen.
checks-drops = { $name } wird in Tropfen gezählt.
checks-drops-why = Ein Tropfen ist nur nach Übereinkunft 0,05 ml. Echte Tropfer weichen ab.
checks-drops-by = 15 % nach beiden Seiten selbst mit geeichtem Tropfer
checks-drops-do = Wiegen, wo die Menge zählt.
checks-spoons = { $written } { $name }: { $low } locker, { $high } festgeklopft.
checks-spoons-why = Ein Löffel Pulver fasst je nach Füllung. Gerechnet wird mit locker.
checks-spoons-by = { $share } mehr, wenn festgeklopft
checks-spoons-do = Die Zeile als Gewicht schreiben.
checks-by-volume = { $name } wird nach Volumen bemessen.
checks-by-volume-why = Ein Löffel Pulver fasst mehr, wenn er festgeklopft ist.
checks-by-volume-by = 58 % mehr bei Natron, als ein veröffentlichter Fall
checks-by-volume-do = Die Zeile als Gewicht schreiben. Oder die Stampfdichte angeben, dann zeigt sich die Spanne.
checks-unknown = { $count ->
    [one] Was ist { $names }? Im Rezept fehlt die Art der Zutat.
   *[other] Was sind { $names }? Im Rezept fehlt die Art dieser Zutaten.
}
checks-unknown-why = Regeln gehen nach der Art: Sprudel, Duftstoff, Farbe, Schmelzbasis, Alkohol. Ohne Art wird sie übergangen.
checks-unknown-do = Ihre Art im Rezept wählen, „andere“, wo keine passt.
checks-too-small-by = bis { $share } daneben: { $scale }
checks-under-1-mg = weniger als 1 mg

## Was den Schritten fehlt

checks-window-wait = „{ $title }“ muss innerhalb von { $latest } auf „{ $opened }“ folgen. Dazwischen liegt eine längere Wartezeit.
checks-window-wait-by = mindestens { $span } zu lang
checks-window-wait-do = Mehr Zeit geben, später anfangen oder die Wartezeit verschieben.
checks-window-hands = „{ $title }“ muss innerhalb von { $latest } auf „{ $opened }“ folgen. Die Handarbeit dazwischen dauert { $working }.
checks-window-hands-by = { $span } zu lang, für die Charge wie geschrieben
checks-window-hands-do = Weniger Stück auf einmal machen, mehr vorbereiten oder mehr Zeit geben.
checks-unkept = Nirgends steht, wie bald „{ $title }“ auf „{ $opened }“ folgen muss.
checks-unkept-by = üblich innerhalb von { $span }
checks-unkept-do = Eine eigene Frist angeben. Bis dahin gilt die übliche, { $span }.
checks-no-wait-pour-why = Ein gegossenes Teil muss fest werden, bevor es aus der Form kommt.
checks-no-wait-press-why = Ein gepresstes Teil muss trocknen, bevor es angefasst oder eingepackt wird.
checks-no-wait-do = Eine Wartezeit einfügen: frühestens, üblich, und woran man das Ende erkennt.
checks-unwrapped-soap = Es gibt ein Seifenteil, und kein Schritt packt es ein.
checks-unwrapped-soap-why = Das Glycerin einer Seifenbasis nimmt bei jeder üblichen Feuchte Wasser auf. Das Stück schwitzt.
checks-unwrapped-fizz = Es gibt ein Sprudelteil, und kein Schritt packt es ein.
checks-unwrapped-fizz-why = Es zieht Wasser aus der Luft und reagiert. Es quillt, reißt und sprudelt nicht mehr.
checks-whipped-alone = { $name } ist aufgeschlagene Basis allein. Sie wird nie hart.
checks-whipped-alone-why = Sie drückt sich in der Hand ein und trocknet an der Luft aus. Sie muss eingepackt werden.
checks-whipped-alone-do = In der Verpackung Platz lassen oder geschmolzene Basis unterheben, das gibt Halt.
checks-heavy-embed = { $part } wiegt mehr als das, was es tragen soll: { $top }. Hält es?
checks-heavy-embed-why = Eine weiche Haube sinkt oder kippt unter schweren Teilen, bis sie fest ist.
checks-heavy-embed-by = { $heavy } auf { $light }
checks-heavy-embed-do = Erst ein Stück probieren.
checks-unasked = { $part }: kein Schritt fragt nach { $name }.
checks-unasked-why = Was nach Bedarf dazukommt, gibst du beim Prüfen zu. Hier wird nichts geprüft.
checks-unasked-do = Einen Schritt einfügen, der die Masse prüft. Dort sagen, was zuzugeben ist, solange sie nicht stimmt.
checks-no-wait = Auf „{ $title }“ folgt keine Wartezeit.
checks-no-wait-between = „{ $next }“ folgt auf „{ $title }“ ohne Wartezeit dazwischen.
checks-unwrapped-do = Einen Schritt zum Einpacken mit spätester Zeit einfügen. Oder von einem sagen, dass er einpackt.
checks-place-piece = das ganze Stück

## Woher eine Regel kommt

checks-fizz-balance-sour-do = Weniger Säure oder mehr Natron. Ein saures Bad brennt.
checks-fizz-unknown = { $name } steht nicht in der Tabelle. Die Wirkung im Sprudel ist nicht gerechnet.
checks-fizz-unknown-why = Jede Säure und jedes Carbonat geht bei einem anderen Gewicht auf.
checks-fizz-unknown-do = Den INCI-Namen angeben, oder von Hand rechnen.
checks-sealed = „{ $title }“ schließt ein Sprudelstück dicht ein.
checks-sealed-open = Sprudelstücke nie dicht einschließen: Folie oder Papier, kein geschlossenes Glas.
checks-sealed-why = Feuchte setzt Gas frei, und die Reaktion macht ihr eigenes Wasser. Ein dichtes Glas kann platzen.
checks-sealed-by = Höchstens { $gas } L Gas aus der Charge. Ein Prozent davon sind { $part } L
checks-sealed-by-itself = { $name } gibt von selbst Gas, sobald es feucht wird
checks-sealed-do = In Folie oder Papier einpacken, das Gas herauslässt. Jeden Deckel locker lassen.
checks-in-fizz-baking-powder = { $name } enthält Säure und Stärke: kein reines Natron.
checks-why-in-fizz-baking-powder = Es sprudelt von selbst, und weniger. In der Bilanz ist es nicht gezählt.
checks-do-in-fizz-baking-powder = Natron nehmen, oder weglassen.
checks-in-fizz-alkali = { $name } macht das Wasser stark alkalisch.
checks-why-in-fizz-alkali = Das ist die Lauge der Putzmittel: hart zu Haut und Augen.
checks-do-in-fizz-alkali = Natron nehmen. Das eine nicht für das andere halten.
checks-in-fizz-sulfide = { $name } und Säure gehen nicht zusammen.
checks-why-in-fizz-sulfide = Säure zersetzt Ultramarin. Es verblasst und riecht nach faulen Eiern.
checks-do-in-fizz-sulfide = Diesen Teil mit etwas färben, das Säure verträgt.
checks-in-fizz-draws-water = { $name } zieht Wasser in den Sprudel.
checks-why-in-fizz-draws-water = Es nimmt Wasser aus der Luft. Das Stück wird weich, quillt oder startet zu früh.
checks-do-in-fizz-draws-water = Weglassen, oder nur eine Spur, und sofort einpacken.
checks-unpreserved = Nichts konserviert diesen Teil. Er enthält { $names }.
checks-unpreserved-why = Keime wachsen, wo Wasser und Nahrung sind. Man sieht es nicht immer.
checks-unpreserved-by = { $share } % des Teils
checks-unpreserved-do = Beim Lieferanten nach einem Konservierer fragen, der zum pH passt, und prüfen lassen. Oder das Wasser weglassen.
checks-largest-share = { $share } des Teils, der am meisten enthält
checks-trait-borate = { $name } ist ein Borat.
checks-ban-borate-eu = Die EU und das Vereinigte Königreich verbieten es in Kosmetik.
checks-why-borate = Es kann die Fruchtbarkeit und das Ungeborene schädigen.
checks-do-trait-borate = Weglassen.
checks-trait-microplastic = { $name } kann Mikroplastik sein.
checks-ban-microplastic-eu = Die EU beendet den Verkauf von Glitzer aus Kunststoff, der nicht abbaut.
checks-ban-microplastic-uk = England und Wales verbieten Kunststoffteilchen in dem, was abgespült wird.
checks-ban-microplastic-us = Die USA verbieten Peeling-Perlen aus Kunststoff in dem, was abgespült wird.
checks-why-microplastic = Kunststoffteilchen bleiben für immer im Wasser.
checks-do-trait-microplastic = Mica nehmen, oder Glitzer, dessen Papiere den Abbau zeigen.
checks-trait-food-colour = { $name } ist für Lebensmittel gemacht.
checks-why-trait-food-colour = Sie ist meist Wasser und färbt Wanne und Haut. Für Kosmetik ist sie vielleicht nicht gelistet.
checks-do-trait-food-colour = Eine Farbe nehmen, deren Papiere Kosmetik und diesen Zweck nennen.
checks-trait-airways = { $name } kann kleinen Kindern den Atem nehmen.
checks-why-trait-airways = Menthol, Kampfer und Cineol wirken auf die Atemwege. Sie können auch Asthma auslösen.
checks-do-trait-airways = Auf das Etikett: nicht für Kinder unter 3. So wenig, wie die Papiere erlauben.
checks-allergens-unlisted = Die Allergene von { $name } sind nicht eingetragen.
checks-allergens-unlisted-why = Ein Etikett muss sie schon bei kleinem Anteil nennen. Ohne sie fehlen sie dort.
checks-allergens-unlisted-do = Aus der Allergenerklärung abschreiben.
checks-one-twice = { $names } sind ein und derselbe Stoff.
checks-one-twice-why = Anteile, Lieferungen und der Platz auf dem Etikett laufen getrennt.
checks-one-twice-do = Eine Zutat daraus machen.
checks-odd-density = Die Dichte von { $name } sieht falsch aus.
checks-odd-density-table = Die Tabelle hat { $low } bis { $high } g/ml.
checks-odd-density-strength = Bei dieser Stärke sind es { $low } bis { $high } g/ml.
checks-odd-density-kind = Dinge dieser Art haben etwa { $low } bis { $high } g/ml.
checks-odd-density-do = Noch einmal nachsehen: g/ml, nicht kg/m³.
checks-colour-use = { $use ->
    [eye] { $name } enthält { $colour }, in den USA nicht für die Augenpartie gelistet.
    [none] { $name } enthält { $colour }, in den USA nicht für Kosmetik gelistet.
   *[external] { $name } enthält { $colour }, in den USA nur für außen gelistet.
}
checks-colour-use-why = { $use ->
    [eye] Für die Augenpartie muss eine Farbe eigens gelistet sein (21 CFR 70.5).
    [none] Eine Farbe muss für ihren Zweck gelistet sein.
   *[external] Außen heißt: ohne Lippen und Schleimhaut. Badewasser erreicht mehr als das Äußere.
}
checks-colour-use-do = Nach einer Farbe für alle Zwecke fragen, wenn dort verkauft wird.
checks-listed-in = 21 CFR { $section }, { $read ->
    [memory] aus dem Gedächtnis: heutige prüfen
    [second-hand] wie andere es zitieren (aus zweiter Hand): heutige prüfen
   *[text] Jahresausgabe 2015: heutige prüfen
}
checks-colour-annex = { $use ->
    [no_eyes] { $name } enthält { $colour }, in der EU nicht für die Augen erlaubt.
    [no_mucosa] { $name } enthält { $colour }, in der EU nicht für Lippen und Schleimhaut erlaubt.
   *[rinse_off] { $name } enthält { $colour }, in der EU nur für Abzuspülendes erlaubt.
}
checks-colour-annex-why = Badewasser erreicht mehr als das Äußere. Großbritannien begann mit derselben Liste.
checks-colour-annex-do = Die Zeile in Anhang IV nachschlagen und eine andere Farbe nehmen.
checks-annex-iv = Verordnung (EG) 1223/2009 Anhang IV, { $read ->
    [memory] aus dem Gedächtnis: heutige prüfen
   *[second-hand] wie andere es zitieren (aus zweiter Hand): heutige prüfen
}
checks-alcohol-water-why = { $strength } Vol.-% enthalten { $water } Wasser nach Gewicht. Wasser startet das Sprudeln.
checks-alcohol-strength-why = Der Rest der Stärke eines Alkohols ist Wasser. Wasser startet das Sprudeln.
checks-crystal-water = { $name } enthält { $share } Wasser in den Kristallen.
checks-crystal-water-why = Wärme setzt dieses Wasser frei, und es startet das Sprudeln.
checks-crystal-water-do = Die Mischung kühl und trocken halten. Oder ein Salz ohne Wasser nehmen.

## Schmelzen

checks-long-burst = „{ $title }“ erhitzt { $span } am Stück in der Mikrowelle.
checks-long-burst-why = Mikrowellen erhitzen ungleich. Die Mitte kann unbemerkt kochen oder anbrennen.
checks-long-burst-by = üblich: 10 bis 30 s
checks-long-burst-do = Das Intervall kürzen. Nach jedem rühren und prüfen.
checks-too-cool-to-melt = { $name } schmilzt bei { $reached } nicht.
checks-melting-range = Die Tabelle nennt { $low } bis { $high } als Schmelzbereich.
checks-too-cool-by = { $by } darunter
checks-too-cool-to-melt-do = Die Endtemperatur anheben oder die Zahl berichtigen.
checks-odd-warmth = { $name } wird auf { $reached } erhitzt. Das ist unüblich.
checks-odd-warmth-by = { $by } über dem Ende seines Bereichs
checks-grainy = { $name } kann körnig werden oder grau anlaufen.
checks-grainy-why = Es erstarrt in mehreren Kristallformen, die verschieden schmelzen. Langsam gekühlt kommen die falschen.
checks-grainy-do = Ganz schmelzen, beim Dickwerden rühren und rasch in der Kälte erstarren lassen.
checks-odd-warmth-do = Nicht weiter schmelzen als nötig.
checks-least-heat = „{ $title }“ braucht { $needs }. Die geplanten Intervalle geben { $gives }.
checks-least-heat-why = Nach den Zahlen endet es bei { $ends }, höchstens { $most } sind gut.
checks-least-heat-by = { $heater }, { $watts } kommen an
checks-least-heat-do = Das letzte Intervall kürzen, die Leistung senken oder ein Wasserbad nehmen.
checks-alcohol-heated = { $name } ist in dem Gefäß, das erhitzt wird.
checks-alcohol-heated-do = Erst nach dem Schmelzen zugeben, ohne Wärmequelle. Oder ein anderes Gefäß nehmen.
checks-metal = Schmelzen in der Mikrowelle, und dafür ist nur Metall da: { $names }.
checks-metal-why = Metall schlägt in der Mikrowelle Funken, und die Schmelze bleibt kalt.
checks-metal-do = Glas oder Polypropylen in die Ausrüstung aufnehmen. Oder ein Wasserbad wählen.

## Trocknen

checks-short-drying = { $span } Trocknen zwischen „{ $title }“ und dem Einpacken. Sind Stunden gemeint?
checks-short-drying-why = Feucht eingepackt quillt ein gepresstes Stück und reagiert in der Verpackung.
checks-short-drying-by = üblich: { $span } oder mehr
checks-long-wait = „{ $title }“ dauert { $span }. Das ist länger als üblich.
checks-long-wait-why = Sprudelmasse zieht Feuchte aus dem Raum, und Schmelzbasis schwitzt, je länger sie liegt.
checks-long-wait-by = üblich: höchstens { $span }
checks-odd-wait-do = Zahl und Einheit prüfen.

## Was nicht zusammenpasst

checks-own-substitute = { $name } ist als Ersatz für sich selbst genannt.
checks-own-substitute-why = Ein Ersatz ist für den Fall, dass dies fehlt.
checks-own-substitute-do = Etwas anderes wählen oder streichen.
checks-unused-portion = Nach dem Teilen nutzt kein Schritt { $names }.
checks-unused-portion-why = Es wird abgewogen und bleibt in seinem Gefäß.
checks-unused-portion-do = In einem späteren Schritt nennen oder in weniger teilen.
checks-wide-tolerance = { $name } hat eine Toleranz von { $share }.
checks-wide-tolerance-why = Am Arbeitstisch gälte fast jedes Gewicht als richtig.
checks-wide-tolerance-by = üblich: 1 bis 5 %. Diese Prüfung fragt über { $share }
checks-wide-tolerance-do = Eine kleinere angeben oder weglassen: dann gelten 2 %.
checks-unmixed-fat = Viel Fett in einem Badestück und kein Lösungsvermittler: { $names }.
checks-unmixed-fat-why = Das Fett schwimmt. Es macht die Wanne rutschig und lässt einen Rand.
checks-unmixed-fat-by = { $share } des Teils
checks-unmixed-fat-do = Weniger nehmen oder einen Lösungsvermittler zugeben. Auf dem Etikett sagen, dass die Wanne rutschig wird.
checks-scent-floats = Nichts mischt den Duft mit dem Badewasser: { $names }.
checks-scent-floats-why = Er schwimmt und kommt unverdünnt an die Haut. Das kann reizen oder verätzen.
checks-scent-floats-do = Lösungsvermittler zugeben. Salz, Milch und Alkohol sind keiner.
checks-sealed-glass = Glas zerspringt in Splitter.
checks-trait-candle-colour = { $name } ist für Kerzen oder Stifte gemacht, nicht für Haut.
checks-why-trait-candle-colour = Für Haut hat es niemand geprüft, und keine Liste erlaubt es in Kosmetik.
checks-do-trait-candle-colour = Eine Farbe nehmen, deren Papiere Kosmetik und diesen Zweck nennen.

## Was die Schritte vergessen

checks-late-weighing = „{ $title }“ kommt nach „{ $made }“. Nichts bringt es auf die Stücke.
checks-late-weighing-why = Die Stücke sind dann fertig. Einmischen geht nicht mehr.
checks-late-weighing-do = Vor den Stücken abwiegen. Oder in einem Schritt sagen, wie es aufgebracht wird.
checks-damp-after-press = „{ $title }“ kommt nach „{ $pressed }“.
checks-damp-after-press-why = Trockene Masse hält in der Presse nicht. Danach benetzt ein Sprühstoß nur die Oberfläche.
checks-order-do = Die Reihenfolge tauschen.
checks-nothing-follows = Das Zusammensetzen wartet nicht auf „{ $title }“.
checks-nothing-follows-why = Die Teile können zusammenkommen, bevor das fertig ist.
checks-nothing-follows-do = In dem Schritt, der es braucht, sagen, dass er danach kommt.
checks-uncounted = Kein Schritt macht die Stücke.
checks-uncounted-why = Am Arbeitstisch wird dann nie gefragt, wie viele gut wurden. Die Ausbeute bleibt offen.
checks-uncounted-do = Einen Schritt einfügen, der sie presst, gießt oder abfüllt, einen für alle Stücke.
checks-unmixed = Nichts mischt, was in „{ $name }“ gewogen wird.
checks-unmixed-why = Das erste Stück bekommt, was oben liegt, das letzte, was unten liegt.
checks-unmixed-do = Einen Schritt einfügen, der mischt.
checks-left-standing = Kein Schritt leert aus, was „{ $title }“ abwiegt.
checks-left-standing-why = Es steht in seinem eigenen Gefäß und wird leicht vergessen.
checks-left-standing-do = In dem Schritt, der es zugibt, sagen, welches Gefäß geleert wird.
checks-tips-nothing = „{ $title }“ leert ein Gefäß, in das nichts kam.
checks-tips-nothing-why = Am Arbeitstisch würde nach einem leeren Gefäß gefragt.
checks-tips-nothing-do = Das gefüllte Gefäß nennen oder dies herausnehmen.
checks-twice-in-one = { $name } steht in „{ $title }“ zweimal.
checks-twice-in-one-why = Beides wird gewogen, eines nach dem anderen. Das ist selten gemeint.
checks-twice-in-one-do = Eine Zeile herausnehmen oder beide zusammenfassen.
checks-unused = Nichts verwendet { $name }.
checks-unused-why = Es steht in der Liste, und keine Zeile nimmt es.
checks-unused-do = Eine Zeile mit Menge einfügen oder es aus der Liste nehmen.
checks-other-side = { $stand_in } kann { $name } nicht ersetzen.
checks-other-side-why = Ein Sprudel braucht Säure und Carbonat. Das eine tut nicht, was das andere tut.
checks-other-side-do = Einen anderen Ersatz wählen.
checks-long-hands = „{ $title }“ bindet die Hände { $span }. Sind das Minuten?
checks-long-hands-why = Der Plan rechnet so lange mit deinen Händen.
checks-long-window = „{ $title }“ darf bis zu { $span } später folgen.
checks-long-window-by = üblich: { $span }
checks-soon-layer = „{ $title }“ gibt der ersten Schicht { $span }.
checks-soon-layer-why = Ohne Haut bricht die zweite Schicht durch, und die Farben laufen.
checks-soon-layer-by = üblich: { $span } oder mehr
checks-dry-layer = Vor „{ $title }“ wird nichts gesprüht.
checks-dry-layer-why = Mit Alkohol haften zwei Schichten besser. Ohne ihn trennen sie sich leichter.
checks-dry-layer-do = Einen Schritt einfügen, der die erste Schicht besprüht, die Wärmequelle aus.
checks-much-colour = { $share } von „{ $part }“ sind { $name }. Stimmt die Menge?
checks-much-colour-why = So viel Farbe färbt auf Haut und Wanne ab und schwächt das Stück.
checks-much-colour-by = üblich: höchstens 2 %. Diese Prüfung fragt über { $share }
checks-much-colour-do = Zahl und Einheit prüfen.
checks-like-food-named = Es trägt den Namen von Essbarem. Laut Rezept sieht es nicht danach aus.
checks-like-food-named-why = Was nach Essbarem aussieht oder riecht, wird gegessen, vor allem von Kindern.
checks-like-food-named-do = Ein fertiges Stück ansehen und noch einmal antworten.
checks-allergens-over = Die Allergene von { $name } ergeben zusammen { $share }.
checks-allergens-over-why = Es sind Anteile des Duftstoffs, zusammen also unter 100 %.
checks-allergens-over-do = Noch einmal abschreiben. Manche Papiere nennen mg/kg: 10.000 sind 1 %.

## What it is for, and where it is sold

checks-use-unsaid = { $missing ->
    [use] Wofür ist es? Das Rezept sagt es nicht.
    [sold_in] Wo wird es verkauft? Das Rezept sagt es nicht.
   *[both] Wofür ist es, und wo wird es verkauft? Das Rezept sagt es nicht.
}
checks-use-unsaid-why = Daraus folgen Recht, Kategorie des Duftstoffs, Etikett und Pflichten.
checks-use-unsaid-do = Im Rezept als Erstes angeben. Auch „nicht verkauft“ ist eine Antwort.
checks-use-stays-on = { $stays ->
    [yes] Laut Rezept bleibt es auf der Haut. Laut Verwendung nicht.
   *[no] Laut Rezept wird es abgespült. Laut Verwendung bleibt es auf der Haut.
}
checks-use-stays-on-do = Eins von beiden ändern.
checks-use-by-title = { $stays ->
    [yes] „{ $title }“ bleibt laut Rezept auf der Haut. Wird es nicht abgespült?
   *[no] „{ $title }“ wird laut Rezept abgespült. Bleibt es nicht auf der Haut?
}
checks-use-by-title-do = Angeben, wofür es ist.
checks-category-unsaid = Aus welcher Kategorie ist der Grenzwert von { $name }?
checks-category-other = Der Grenzwert ist aus Kategorie { $category }, für etwas anderes: { $name }.
checks-category-other-why = Für diese Verwendung gilt Kategorie { $categories }.
checks-category-hands-why = Für Handcreme gilt Kategorie { $category }.
checks-category-other-do = Den Grenzwert der richtigen Kategorie aus dem Zertifikat abschreiben.
checks-annex-forbidden = { $rinsed ->
    [no] { $name } darf nicht hinein (EU, UK).
   *[yes] { $name } darf nicht in das, was auf der Haut bleibt (EU, UK).
}
checks-annex-forbidden-why = { $annex ->
    [II] Anhang II verbietet es in Kosmetik: { $substance }.
    [V] Anhang V nennt es nur für das, was abgespült wird: { $substance }.
   *[other] Anhang { $annex } nennt es für nichts dieser Art: { $substance }.
}
checks-annex-forbidden-do = { $annex ->
    [V] Ein anderes Konservierungsmittel nehmen. Oder etwas zum Abspülen machen.
   *[other] Eines ohne es nehmen. Beim Lieferanten nachfragen.
}
checks-annex-limit = { $name }: mehr als die { $limit }, die Anhang { $annex } erlaubt (EU, UK).
checks-annex-why = Jeder Teil wird für sich betrachtet, der vollste zählt.
checks-annex-by = { $share } des Teils, gezählt wie im Anhang
checks-annex-limit-do = Weniger davon nehmen, oder anderswo verkaufen.

## Was nicht zusammengeht

checks-oily-base = { $share } eines Teils mit Seifenbasis sind { $names }.
checks-oily-base-why = Eine Basis hält wenig Öl. Mehr bleibt weich, tritt aus und nimmt den Schaum.
checks-oily-base-by = üblich: 3 bis 5 %. Diese Prüfung fragt über 10 %
checks-oily-base-do = Weniger nehmen, wie es das Blatt der Basis sagt.
checks-two-phases = { $wet } mit { $fats }, und nichts bindet sie.
checks-two-phases-why = Wasser und Fett trennen sich wieder. In heißem Fett kann Wasser spritzen.
checks-two-phases-do = Einen Emulgator zugeben, wie sein Lieferant es sagt. Oder das Wasser weglassen.
checks-much-preservative = { $share } von „{ $part }“ sind { $name }.
checks-much-preservative-why = Mehr, als sein Blatt erlaubt, reizt die Haut. Die meisten haben eine gesetzliche Grenze.
checks-much-preservative-by = üblich: 0,5 bis 1,5 %. Diese Prüfung fragt über 2 %
checks-much-preservative-do = Im Blatt die Höchstmenge für diese Art von Produkt nachlesen.
checks-sour = { $share } Säure und kein Carbonat: { $names }.
checks-sour-why = Nichts verbraucht die Säure. Sie reizt Haut und Augen, und es sprudelt nicht.
checks-sour-do = Das Natron zugeben oder die Säure herausnehmen.
checks-never-melted = Vor „{ $title }“ wird nicht geschmolzen: { $names }.
checks-never-melted-why = So, wie es kommt, ist es fest.
checks-never-melted-do = Vor dem Gießen schmelzen.
checks-short-setting = „{ $title }“ kommt { $span } nach dem Gießen.
checks-short-setting-why = Seife, die vor dem Festwerden aus der Form kommt, reißt und bekommt Dellen.
checks-short-setting-by = üblich: { $span } oder mehr
checks-dried-hot = „{ $title }“ trocknet Sprudelmasse mit Wärme.
checks-dried-hot-do = In kühler, trockener Luft trocknen.
checks-alcohol-into-hot = { $name } kommt in „{ $title }“, solange das heiß ist.
checks-alcohol-into-hot-why = Heiß wird es sofort zu Dampf. Eine Flamme oder ein Funke zündet ihn.
checks-alcohol-into-hot-do = Erst abkühlen lassen, Wärmequelle aus, Fenster auf. Oder weglassen.
checks-shut-melt = „{ $title }“ erhitzt mit geschlossenem Deckel.
checks-shut-melt-why = Dampf staut sich, bis Deckel oder Glas nachgeben.
checks-shut-melt-do = Den Deckel nur lose auflegen oder einen Teller.
checks-strong-airways = { $share } eines Teils sind { $name }. Ist das gemeint?
checks-strong-airways-by = üblich: 1 bis 3 %. Diese Prüfung fragt über 5 %
checks-strong-airways-do = Zahl und Einheit prüfen. So wenig nehmen, wie reicht.
checks-sour-spray = { $name } ist Säure und Wasser zugleich.
checks-sour-spray-why = Jeder Tropfen davon startet den Sprudel.
checks-sour-spray-do = Alkohol oder Hamameliswasser sprühen oder die Säure als trockenes Pulver zugeben.
checks-metal-said = „{ $title }“ läuft in der Mikrowelle, und die Worte nennen Metall.
checks-metal-said-do = Glas oder Polypropylen nehmen. Oder ein Wasserbad wählen.
checks-cold-glass = „{ $title }“ gibt Heißes in kaltes Glas.
checks-cold-glass-why = Glas kann springen, wo Heißes auf Kaltes trifft.
checks-cold-glass-do = Das Glas erst anwärmen und die Schmelze etwas abkühlen lassen.

## Wonach ein zweiter Satz eingepflanzter Fehler fragte

checks-trait-gives-gas = { $name } wird von selbst zu Gas.
checks-why-trait-gives-gas = Was dicht ist, sprengt es. Es verbrennt die Haut durch Kälte und nimmt einem kleinen Raum die Luft.
checks-do-trait-gives-gas = Aus dem Stück weglassen.
checks-trait-strong-acid = { $name } ist eine starke Säure.
checks-why-trait-strong-acid = Ihr Staub verätzt Augen und Haut. Was übrig bleibt, macht das Wasser sauer.
checks-do-trait-strong-acid = Zitronensäure nehmen.
checks-claims = „{ $words }“ verspricht, was nur ein Arzneimittel darf.
checks-claims-why = In den USA ist ein Arzneimittel, was Krankheiten behandelt oder Keime tötet. Andere Märkte haben eigene Regeln.
checks-claims-do = Sagen, wie es riecht und sich anfühlt. Oder erst die Behörde fragen.
checks-too-alkaline = { $name } konserviert keine Seife.
checks-too-alkaline-why = Es wirkt unter etwa pH 6. Seife hat 9 bis 10.
checks-too-alkaline-do = Beim Lieferanten eines erfragen, das beim pH der Seife wirkt.
checks-long-heat = „{ $title }“ heizt { $span }, bevor jemand hinsieht.
checks-long-heat-why = Fett auf Platte oder Flamme wird immer heißer. Allein gelassen kann es brennen.
checks-long-heat-by = diese Prüfung fragt ab über { $span }
checks-long-heat-do = Ein Wasserbad nehmen. Dabei bleiben und alle paar Minuten hinsehen.
checks-cold-phase = { $wet } kommt kalt hinein, und { $wax } ist geschmolzen.
checks-cold-phase-why = Das Wachs wird sofort zu Klumpen, und beides trennt sich.
checks-cold-phase-do = Beides gleich warm machen, bevor es zusammenkommt.
checks-dried-cold = „{ $title }“ trocknet Sprudelndes in der Kälte.
checks-dried-cold-why = Im Kühlschrank ist es feucht, und ein kaltes Stück zieht Feuchtigkeit aus dem Raum.
checks-dried-cold-do = In kühler, trockener Raumluft trocknen.
checks-colour-unnamed = Welche Farben sind in { $name }?
checks-colour-unnamed-why = Lippen und Augen bekommen nur Farben, die dafür gelistet sind. Bastel- und Neonpigmente sind es oft nicht.
checks-colour-unnamed-do = Ihre INCI-Namen aus den Papieren schreiben, mit jeder CI-Nummer.
