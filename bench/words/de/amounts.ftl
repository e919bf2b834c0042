# Mengen, Anteile, Zeiten und Temperaturen, wie sie geschrieben werden (bench/quantities.py, frontend/bench/amounts.js).

## Nicht lesbar

amounts-unread-amount = „{ $written }“ ist nicht lesbar. Zahl und Einheit schreiben: 240 g, 8 1/2 oz, 1½ tsp.
amounts-unread-share = „{ $written }“ ist kein Anteil bis 100 %. So schreiben: 2 %.
amounts-loses-all = Ein Verlust bleibt unter 100 %, sonst bleibt nichts.
amounts-unread-density = „{ $written }“ ist keine Dichte in g/mL von 0,05 bis 25, etwa 1,26.
amounts-unread-celsius = „{ $written }“ ist keine Temperatur in °C von 0 bis 250, etwa 34.
amounts-by-zero = „{ $written }“ teilt durch null. Den Bruch neu schreiben.
amounts-two-ways = „{ $written }“: { $one } oder { $other }? Eins davon schreiben.
amounts-no-ounce-division = „{ $written }“ ist keine Teilung in Unzen. So schreiben, wie die Waage zeigt, etwa 0.05 oz.
amounts-not-a-mass = „{ $written }“ sollte eine Masse sein, etwa 150 g.

## Einheiten

amounts-no-unit = „{ $written }“ hat keine Einheit. Eine anfügen, etwa g, ml, tsp, parts oder %.
amounts-unknown-unit = Die Einheit „{ $unit }“ ist hier unbekannt. Möglich sind g, kg, mg, oz oder lb. Für Löffel und Tassen: ml, l, fl oz, tsp, tbsp, cup oder pint. Oder drops, pieces, parts, % oder „nach Bedarf“.
amounts-whose-measure = { $measure } ist nicht überall gleich groß. Für Löffel und Tassen US, imperial oder metric wählen („measures“ in einer Datei).
amounts-no-such-measure = { $measures ->
    [us] US-Maße kennen kein { $measure }. In ml schreiben.
    [imperial] Britische Maße kennen kein { $measure }. In ml schreiben.
   *[metric] Metrische Maße kennen kein { $measure }. In ml schreiben.
}

## Zu viel, zu wenig

amounts-zero = „{ $written }“ ist null. Mehr eingeben oder die Zeile entfernen.
amounts-too-much = „{ $written }“ ist mehr als zehn Tonnen. Einheit prüfen.
amounts-too-little = „{ $written }“ ist weniger als ein Millionstel Gramm. Einheit prüfen.

## Zeiten

amounts-not-a-time = „{ $written }“ ist keine Zeitdauer. Schreiben: 15 s, 4 min, 6 h 30 min oder 2 days.
amounts-unknown-time = Die Zeiteinheit „{ $unit }“ ist hier unbekannt. Möglich sind s, min, h oder days.
amounts-no-time = „{ $written }“ ist gar keine Zeit. Mindestens 1 s schreiben.
amounts-over-a-year = „{ $written }“ ist länger als ein Jahr. Einheit prüfen.
